package steps

import (
	"fmt"
	"slices"

	"drillstop/calc"
	"drillstop/calc/moment"
	"drillstop/calc/quantity"
	"drillstop/workflow"
)

// What can be done with a ski after its release test.
const (
	keepIt       = "keep"
	setTheScale  = "set the scale"
	seekTheCause = "seek the cause"
)

// momentStops are the findings of a release test that ask for something to be
// done: middle values too far off, and readings too far apart.
var momentStops = []string{"moment.high", "moment.low", "moment.spread"}

// correctionStep asks what was done about readings that are off: a scale set by
// what they say, or the cause that was found to be sought.
func correctionStep() workflow.Step {
	return workflow.Step{
		ID: Correction, Phase: workflow.Testing, Title: "correction", Mends: ReleaseTest,
		Why: "The chart's value is where adjusting begins; the readings say what this boot in this binding does. A little off, " +
			"and the scale is set by what was read, in proportion and on a mark. Far off, a scale that would have to go far, " +
			"or two directions that pull apart have a cause, and turning the scale hides it. Causes stand in the order of " +
			"likelihood; each leads back to the step that looks at it, and then the test is made again. Every round stays on the record.",
		Cautions: []string{
			"Never turn a scale further than the test asks for: what needs more than 30 % has a cause, and it is not the spring.",
			"Both scales of a ski are set by their own readings: twist belongs to the toe, forward lean to the heel.",
		},
		Fields:  correctionFields(),
		Applies: wantsCorrection,
		Rests: []workflow.Rest{
			{On: Skier, Fields: skierFacts, Because: "the skier's mass, height, age, type or requests changed after the correction"},
			onThisPair("the correction"),
			{On: Boots, Fields: []workflow.FieldID{"name", "shell", "norm", "sole"}, Because: "the boot or its sole changed after the correction"},
			{
				On: Binding, Fields: []workflow.FieldID{"name", "serial", "used", "kind", "scale_min", "scale_max", "indicator_step"},
				Because: "the binding or its scale changed after the correction",
			},
		},
		Figures: correctionFigures,
		Verify:  verifyCorrection,
		Stales:  staleByCause,
		Picture: correctionPictures,
	}
}

func correctionFields() []workflow.Field {
	fields := []workflow.Field{{
		ID: "what", Label: "What is done", Hint: "as the readings of this ski say", Kind: workflow.Choice, PerSki: true,
		Options: []workflow.Option{
			{Value: keepIt, Label: "keep: in range, nothing is done"},
			{Value: setTheScale, Label: "set the scale by the readings"},
			{Value: seekTheCause, Label: "seek the cause"},
		},
		Suggest: suggestWhat,
	}}
	for _, p := range scales() {
		fields = append(fields, workflow.Field{
			ID: p.to, Label: p.title + " scale reads now", Hint: "set it, then read it back", Kind: workflow.Number,
			Unit: quantity.Plain, Min: 0.5, Max: 20, PerSki: true, ReadBack: true, Optional: true,
			Suggest: func(shop workflow.Shop, job workflow.Job, side workflow.Side) string {
				if to, asked, err := target(shop, job, side, p); err == nil && asked {
					return plainNumber(to)
				}
				return ""
			},
		})
	}
	return append(fields, workflow.Field{
		ID: "cause", Label: "Cause to look at", Hint: "the likeliest comes first", Kind: workflow.Choice, PerSki: true,
		Optional: true, Options: causes(),
	})
}

func causes() []workflow.Option {
	var options []workflow.Option
	for _, c := range moment.Causes() {
		options = append(options, workflow.Option{Value: c.Code, Label: c.Name})
	}
	return options
}

// wantsCorrection reports whether the release test asks for something to be
// done, or something was done that still holds.
func wantsCorrection(job workflow.Job) bool {
	test, ok := job.Answered(ReleaseTest)
	if !ok {
		return false
	}
	return job.Fresh(Correction) || slices.ContainsFunc(test.Findings, func(f workflow.Finding) bool { return asksForMore(job, f) })
}

// asksForMore reports whether a finding of the release test asks for something to
// be done, and nobody waived it.
func asksForMore(job workflow.Job, f workflow.Finding) bool {
	return f.Level == calc.Stop && slices.Contains(momentStops, f.Code) && !job.IsWaived(f)
}

// asked are the findings of the present release test that ask for something to
// be done on a ski.
func asked(job workflow.Job, side workflow.Side) []workflow.Finding {
	test, _ := job.Answered(ReleaseTest)
	var found []workflow.Finding
	for _, f := range test.Findings {
		if f.Side == side && asksForMore(job, f) {
			found = append(found, f)
		}
	}
	return found
}

// target is where the readings send a scale, and whether they send it anywhere.
// It fails as moment.Correction does, and with "moment.spread" where the
// readings are too far apart for their middle to say anything.
//
// It speaks of the scale as it stood when the readings were taken, so that a
// correction that was made since does not count twice.
func target(shop workflow.Shop, job workflow.Job, side workflow.Side, p piece) (to float64, asked bool, err error) {
	r, err := releaseFor(shop, job, side)
	if err != nil {
		return 0, false, err
	}
	var verdicts []moment.Verdict
	for _, m := range measurements() {
		if m.piece != p.name {
			continue
		}
		v, err := m.verdict(shop, job, side, job.Answers(ReleaseTest))
		if err != nil {
			return 0, false, err
		}
		asked = asked || v.Action != moment.Keep
		verdicts = append(verdicts, v)
	}
	if !asked {
		return 0, false, nil
	}
	at := testedAt(job)
	setting, _ := p.standingBefore(job, side, at)
	binding := bindingOf(job)
	to, err = moment.Correction(moment.Indicator{
		Setting: setting, Computed: p.value(r), Step: indicatorStep(job), Low: binding.ScaleMin, High: binding.ScaleMax,
		Rounds: p.rounds(job, side, at), NeverAbove: isLight(job),
	}, verdicts...)
	return to, true, err
}

// advice is what the readings of a ski say is to be done.
func advice(shop workflow.Shop, job workflow.Job, side workflow.Side) string {
	found := asked(job, side)
	if len(found) == 0 {
		return keepIt
	}
	if slices.ContainsFunc(found, func(f workflow.Finding) bool { return f.Code == "moment.spread" }) {
		return seekTheCause
	}
	for _, p := range scales() {
		if _, _, err := target(shop, job, side, p); err != nil {
			return seekTheCause
		}
	}
	return setTheScale
}

func suggestWhat(shop workflow.Shop, job workflow.Job, side workflow.Side) string {
	if _, ok := job.Answered(ReleaseTest); !ok {
		return ""
	}
	return advice(shop, job, side)
}

// correctionFigures are where each scale is sent, or why a cause is sought.
func correctionFigures(shop workflow.Shop, job workflow.Job) []workflow.Figure {
	var figures []workflow.Figure
	for _, side := range workflow.Sides {
		for _, p := range scales() {
			to, asked, err := target(shop, job, side, p)
			if !asked {
				continue
			}
			from, _ := p.standingBefore(job, side, testedAt(job))
			f := workflow.Figure{
				Name: "correction_" + workflow.Key(workflow.FieldID(p.name), side), Label: p.name + ", " + string(side),
				Value: plainNumber(from) + " -> " + plainNumber(to),
				Path:  fmt.Sprintf("in proportion to the readings, %s; computed %s", offBy(to, from), plainNumber(computedFor(shop, job, side, p))),
			}
			if err != nil {
				f.Value, f.Path = seekTheCause, err.Error()
			}
			figures = append(figures, f)
		}
	}
	return figures
}

// computedFor is the chart's value of one scale, 0 where it has none.
func computedFor(shop workflow.Shop, job workflow.Job, side workflow.Side, p piece) float64 {
	r, err := releaseFor(shop, job, side)
	if err != nil {
		return 0
	}
	return p.value(r)
}

// staleByCause sends the hand back to the step that looks at each cause.
func staleByCause(_ workflow.Shop, _ workflow.Job, answers workflow.Answers) []workflow.StaleMark {
	var marks []workflow.StaleMark
	for _, c := range moment.Causes() {
		for _, side := range workflow.Sides {
			if !answers.Is("cause", side, c.Code) {
				continue
			}
			because := fmt.Sprintf("the release test of the %s ski leads back to the %s", side, c.Name)
			at := slices.IndexFunc(marks, func(m workflow.StaleMark) bool { return m.Step == workflow.StepID(c.Step) })
			if at < 0 {
				marks = append(marks, workflow.StaleMark{Step: workflow.StepID(c.Step), Because: because + ": " + c.Look})
				continue
			}
			marks[at].Because += " And " + because + ": " + c.Look
		}
	}
	return marks
}

// scaleCorrected reports whether a correction turned a scale.
func scaleCorrected(_, after workflow.Answers) bool {
	return after.Is("what", workflow.Left, setTheScale) || after.Is("what", workflow.Right, setTheScale)
}

// somethingDone reports whether a correction did more than keep both skis.
func somethingDone(_, after workflow.Answers) bool {
	return !after.Is("what", workflow.Left, keepIt) || !after.Is("what", workflow.Right, keepIt)
}

// sought reports whether a release test led back to that cause, on either ski.
func sought(cause string) func(workflow.Job) bool {
	return func(job workflow.Job) bool {
		return soughtOn(job, workflow.Left, cause) || soughtOn(job, workflow.Right, cause)
	}
}

func soughtOn(job workflow.Job, side workflow.Side, cause string) bool {
	return slices.ContainsFunc(corrections(job), func(c workflow.Answered) bool { return c.Answers.Is("cause", side, cause) })
}
