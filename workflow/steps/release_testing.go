package steps

import (
	"slices"
	"strings"

	"drillstop/calc"
	"drillstop/calc/moment"
	"drillstop/calc/quantity"
	"drillstop/workflow"
)

// measurement is one of the three directions that are measured on each ski.
type measurement struct {
	field     workflow.FieldID
	label     string // of the field
	words     string // within a sentence
	piece     string // whose scale it belongs to
	direction moment.Direction
	most      float64 // the highest reading taken, in Nm; as in calc/moment
}

// measurements are the directions in the order in which a bench takes them.
func measurements() []measurement {
	return []measurement{
		{"twist_left", "Twist to the left", "twist to the left", "toe", moment.Twist, 300},
		{"twist_right", "Twist to the right", "twist to the right", "toe", moment.Twist, 300},
		{"forward_lean", "Forward lean", "forward lean", "heel", moment.ForwardLean, 1000},
	}
}

// releaseTestStep asks for three readings in each direction on each ski, and
// judges their middle value.
func releaseTestStep() workflow.Step {
	return workflow.Step{
		ID: ReleaseTest, Phase: workflow.Testing, Title: "release test",
		Why: "A scale says what the spring is set to, not what the binding does with this boot: wear, dirt, a soft sole and " +
			"a wrong toe height all stand between the two. The test measures the moment at which boot and binding part. The " +
			"middle one of three readings counts, so that a single slip of the hand decides nothing; write down what was " +
			"read, also when it does not please.",
		Cautions: []string{
			"Let nobody stand in the boot: the test is made on the bench, with boot and binding clean and dry.",
			"The device lets go all at once: feet and fingers out of its way.",
			"A binding outside its range is not handed over: look for the cause instead of turning the scale until it fits.",
		},
		Fields: releaseTestFields(),
		Needs:  []workflow.StepID{ReleaseValue, ForwardPressure, ToeHeight},
		Rests: []workflow.Rest{
			{On: ReleaseValue, Disturbed: answeredAgain, Because: "the scales were set anew after the release test"},
			{On: Correction, Disturbed: somethingDone, Because: "a scale was corrected, or a cause sought, after the release test"},
			{On: Touring, Disturbed: valuesMoved, Because: "a scale had moved in touring mode after the release test"},
			{On: Skier, Fields: skierFacts, Because: "the skier's mass, height, age, type or requests changed after the release test"},
			onThisPair("the release test"),
			{On: Boots, Fields: []workflow.FieldID{"name", "shell", "norm", "sole", "inserts", "condition", "wear"}, Because: "the boot or its sole changed after the release test"},
			{On: Binding, Fields: []workflow.FieldID{"name", "serial", "used", "kind"}, Because: "the binding changed after the release test"},
			{On: SoleLength, Fields: []workflow.FieldID{"set"}, Redone: true, Because: "the sole length was set anew after the release test"},
			{On: ForwardPressure, Disturbed: pressureMoved, Redone: true, Because: "forward pressure was changed after the release test"},
			{On: ToeHeight, Disturbed: toeHeightMoved, Redone: true, Because: "toe height was changed after the release test"},
			{On: Screws, Fields: []workflow.FieldID{"driven", "stripped", "way_out"}, Redone: true, Because: "screws were driven after the release test"},
			{On: Brake, Disturbed: refitted, Because: "brake and heel piece were fitted again after the release test"},
		},
		Figures: releaseTestFigures,
		Verify:  verifyReleaseTest,
		Check:   checkReleaseTest,
		Stales:  asksForAnotherRound,
		Picture: bandsPictures,
	}
}

func releaseTestFields() []workflow.Field {
	fields := []workflow.Field{
		{
			ID: "tested", Label: "Release-tested", Hint: "no device: it is not tested, and that is said", Kind: workflow.Choice,
			Options: []workflow.Option{{Value: testedYes, Label: "yes, with a test device"}, {Value: noDevice, Label: "no device: not release-tested"}},
		},
		{ID: "device", Label: "Test device", Hint: "by its name in the shop's list", Kind: workflow.Text, Optional: true, Read: readDevice},
		{ID: "exercised", Label: "Released once each way", Hint: "boot and binding clean, not counted", Kind: workflow.Seen, PerSki: true, Unless: isNotTested},
	}
	for _, m := range measurements() {
		fields = append(fields, readingsField(workflow.Field{
			ID: m.field, Label: m.label, Hint: "three readings: 49; 51; 52", Min: lowestReading(m), Max: m.most, Unless: isNotTested,
		}))
	}
	wet := lubricatedTwist()
	return append(fields, readingsField(workflow.Field{
		ID: lubricated, Label: "Lubricated, to the left", Hint: "twist with a lubricated sole, to compare", Min: lowestReading(wet), Max: wet.most, Optional: true,
	}))
}

func readingsField(f workflow.Field) workflow.Field {
	f.Kind, f.Unit, f.Count, f.PerSki = workflow.List, quantity.NM, 3, true
	return f
}

// lowestReading is the lowest reading taken, in Nm: less than the lightest row
// of any chart has. Our own limit.
func lowestReading(m measurement) float64 {
	if m.direction == moment.ForwardLean {
		return 1
	}
	return 0.5
}

// verdict judges one direction on one ski by what the answers say. It fails as
// releaseFor and moment.Judge do.
func (m measurement) verdict(shop workflow.Shop, job workflow.Job, side workflow.Side, a workflow.Answers) (moment.Verdict, error) {
	return m.verdictOn(m.field, shop, job, side, a)
}

func (m measurement) verdictOn(field workflow.FieldID, shop workflow.Shop, job workflow.Job, side workflow.Side, a workflow.Answers) (moment.Verdict, error) {
	scale, err := m.scale(shop, job, side)
	if err != nil {
		return moment.Verdict{}, err
	}
	var readings []quantity.NewtonMetre
	for _, r := range a.List(field, side, quantity.NM) {
		readings = append(readings, quantity.NewtonMetre(r))
	}
	return moment.Judge(m.direction, scale, readings)
}

// scale is the chart's column of reference moments with the row of this job:
// the toe's row for twist, the heel's for forward lean.
func (m measurement) scale(shop workflow.Shop, job workflow.Job, side workflow.Side) (moment.Scale, error) {
	r, err := releaseFor(shop, job, side)
	if err != nil {
		return moment.Scale{}, err
	}
	code, column := r.ToeCode, shop.Chart.TwistColumn()
	if m.direction == moment.ForwardLean {
		code, column = r.HeelCode, shop.Chart.ForwardLeanColumn()
	}
	reference, err := shop.Chart.Reference(code)
	if err != nil {
		return moment.Scale{}, err
	}
	return moment.Scale{Moments: column, At: reference.Row}, nil
}

func (m measurement) answered(job workflow.Job, side workflow.Side) bool {
	return job.Text(ReleaseTest, m.field, side) != ""
}

func checkReleaseTest(shop workflow.Shop, job workflow.Job) []workflow.Finding {
	rounds := checkRounds(shop, job)
	if isNotTested(job.Answers(ReleaseTest)) {
		return append(rounds, workflow.On(workflow.Both, []calc.Finding{notTested()})...)
	}
	all := append(rounds, workflow.On(workflow.Both, checkDevice(shop, job))...)
	twists := map[workflow.Side][]moment.Verdict{}
	for _, m := range measurements() {
		verdicts := map[workflow.Side]moment.Verdict{}
		for _, side := range workflow.Sides {
			if !m.answered(job, side) {
				continue
			}
			v, err := m.verdict(shop, job, side, job.Answers(ReleaseTest))
			if err != nil {
				all = append(all, workflow.FromFault(side, chartEdition(shop), err))
				continue
			}
			verdicts[side] = v
			if m.direction == moment.Twist {
				twists[side] = append(twists[side], v)
			}
			all = append(all, workflow.On(side, m.judged(side, v))...)
		}
		if len(verdicts) == len(workflow.Sides) {
			all = append(all, workflow.On(workflow.Both, m.compared(verdicts[workflow.Left], verdicts[workflow.Right]))...)
		}
	}
	return append(all, onEach(func(side workflow.Side) []calc.Finding {
		return slices.Concat(bothTwists(side, twists[side]), checkLubricated(shop, job, side), checkReach(shop, job, side))
	})...)
}

// bothTwists are the findings about the two directions of twist of one ski
// against each other, once both are read.
func bothTwists(side workflow.Side, twists []moment.Verdict) []calc.Finding {
	if len(twists) != 2 {
		return nil
	}
	found := moment.Asymmetry(twists[0], twists[1])
	for i := range found {
		found[i].Text = skiWord(side) + ": " + bare(moment.Twist, found[i].Text)
	}
	return found
}

// judged are the findings of a verdict. A binding whose cause must be sought is
// not handed over, and nobody waives that, nor readings so far apart that their
// middle is chance; one to be corrected may be waived with a reason.
func (m measurement) judged(side workflow.Side, v moment.Verdict) []calc.Finding {
	where := skiWord(side) + ", " + m.words
	var found []calc.Finding
	if v.Action == moment.Keep {
		found = append(found, calc.Notef("release-test.keep", "middle value of three readings: "+commonPractice, "%s: %s", where, v.Sentence()))
	}
	for _, f := range v.Findings {
		f.Text = where + ": " + bare(m.direction, f.Text)
		f.Never = f.Never || f.Level == calc.Stop && (v.Action != moment.Correct || f.Code == "moment.spread")
		found = append(found, f)
	}
	return found
}

// compared are the findings about the two skis against each other.
func (m measurement) compared(left, right moment.Verdict) []calc.Finding {
	found := moment.Symmetry(left, right)
	for i := range found {
		found[i].Text = strings.ToUpper(m.words[:1]) + m.words[1:] + ": " + bare(m.direction, found[i].Text)
	}
	return found
}

// bare takes the direction off the beginning of a sentence that is about to be
// given a more exact one.
func bare(direction moment.Direction, text string) string {
	text, _ = strings.CutPrefix(text, "In "+string(direction)+" ")
	return text
}
