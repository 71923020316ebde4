package steps

import (
	"fmt"

	"drillstop/calc"
	"drillstop/calc/layout"
	"drillstop/calc/quantity"
	"drillstop/workflow"
)

// oldHolesStep asks where the ski has holes already.
func oldHolesStep() workflow.Step {
	return workflow.Step{
		ID: OldHoles, Phase: workflow.Layout, Title: "old holes", Kinds: mounts, CardOf: workflow.HolesCard,
		Applies: hasOldHoles,
		Why: "A new hole beside an old one breaks into it, and the screw holds nothing; that is seen once the drill is through. " +
			"Every old hole counts, plugged or not, because a plug is weaker than the core around it. " +
			"Measure each from the mount mark and from the centre line, on both skis: they were not always drilled alike. " +
			"Where this shop drilled them, take them over from that job.",
		Cautions: []string{
			"Holes hide under stickers and filler: feel for them with a fingernail, and look along the topsheet against the light.",
		},
		Fields: []workflow.Field{
			{
				ID: "holes", Label: "Holes: x y wide deep state", Kind: workflow.Text, PerSki: true, Optional: true, Read: readHoleList,
				Hint: "-124.5 18 4.1 9 plugged; ... + to tip, + right",
			},
			patternField("former_pattern", "Or the former pattern", "whose holes these are; empty: not known"),
			{
				ID: "former_sole", Label: "Sole it was drilled for", Kind: workflow.Number, Unit: quantity.MM, Min: 150, Max: 400,
				Read: readSole, Optional: true, Hint: "of the former mount",
			},
			{
				ID: "former_shift", Label: "Its shift, + to the tip", Kind: workflow.Number, Unit: quantity.MM, Min: -60, Max: 60,
				Optional: true, Hint: "0 was on the mark",
			},
			{
				ID: "former_state", Label: "Its holes now", Kind: workflow.Choice, Optional: true,
				Options: []workflow.Option{{Value: holeOpen}, {Value: holePlugged}}, Hint: "empty: open",
			},
		},
		Needs: []workflow.StepID{Fit},
		Rests: []workflow.Rest{
			onThisPair("their old holes were written down"),
			{On: Skis, Fields: []workflow.FieldID{"old_holes"}, Because: "what was seen of old holes changed after they were written down"},
		},
		Verify:  verifyOldHoles,
		Check:   checkOldHoleList,
		Earlier: holesOfEarlier,
		Map: func(shop workflow.Shop, job workflow.Job, a workflow.Answers) (layout.Spec, bool) {
			return specOf(shop, job, mountOf(job, job.Answers(MountPoint)), a)
		},
	}
}

// hasOldHoles reports whether old holes were seen in the skis.
func hasOldHoles(job workflow.Job) bool {
	return job.Is(Skis, "old_holes", workflow.Both, workflow.Yes)
}

// formerFields are what a former mount is known by.
var formerFields = [...]workflow.FieldID{"former_pattern", "former_sole", "former_shift"}

// verifyOldHoles asks for holes, a former mount, or both; of a former mount for
// all that it is known by.
func verifyOldHoles(_ workflow.Shop, _ workflow.Job, a workflow.Answers) []workflow.FieldFault {
	var faults []workflow.FieldFault
	given := 0
	for _, id := range formerFields {
		if a.Text(id, workflow.Both) != "" {
			given++
		}
	}
	listed := a.Text("holes", workflow.Left) != "" || a.Text("holes", workflow.Right) != ""
	switch {
	case given == 0 && !listed:
		faults = append(faults, workflow.FieldFault{Field: "holes", Side: workflow.Left, Fault: calc.Faultf("old-holes.none",
			"Write the old holes down, or name the former mount by pattern, sole length and shift.")})
	case given == 0 && a.Text("former_state", workflow.Both) != "":
		faults = append(faults, workflow.FieldFault{Field: "former_pattern", Fault: formerFault()})
	}
	for _, id := range formerFields {
		if given > 0 && a.Text(id, workflow.Both) == "" {
			faults = append(faults, workflow.FieldFault{Field: id, Fault: formerFault()})
		}
	}
	return faults
}

func formerFault() *calc.Fault {
	return calc.Faultf("old-holes.former", "A former mount is known by its pattern, sole length and shift: give all three, or none.")
}

// oldHolesOf is what a job knows of the old holes of both skis, those that were
// listed before those of a former mount. The answers are those of the step. A
// former mount that cannot be laid out leaves the listed ones and a fault.
func oldHolesOf(shop workflow.Shop, job workflow.Job, a workflow.Answers) (left, right []layout.OldHole, err error) {
	if !hasOldHoles(job) {
		return nil, nil, nil
	}
	left, right = listedHoles(a, workflow.Left), listedHoles(a, workflow.Right)
	name := a.Text("former_pattern", workflow.Both)
	if name == "" {
		return left, right, nil
	}
	p, ok := shop.Pattern(name)
	if !ok {
		return left, right, calc.Faultf("old-holes.pattern-gone", "The shop has no hole pattern %q any more: write its holes down, or name another.", name)
	}
	formerLeft, err := formerHoles(job, p, a, layout.Left)
	if err != nil {
		return left, right, err
	}
	formerRight, err := formerHoles(job, p, a, layout.Right)
	if err != nil {
		return left, right, err
	}
	return append(left, formerLeft...), append(right, formerRight...), nil
}

// listedHoles are the holes of one ski as they were kept; a record that does
// not read holds none.
func listedHoles(a workflow.Answers, side workflow.Side) []layout.OldHole {
	holes, err := parseHoleList(a.Text("holes", side))
	if err != nil {
		return nil
	}
	return holes
}

func formerHoles(job workflow.Job, p *layout.Pattern, a workflow.Answers, side layout.Side) ([]layout.OldHole, error) {
	sole, _ := a.Number("former_sole", workflow.Both, quantity.MM)
	shift, _ := a.Number("former_shift", workflow.Both, quantity.MM)
	mount := layout.Mount{Sole: quantity.Millimetre(sole), Shift: quantity.Millimetre(shift)}
	return layout.OldHoles(p, mount, markedBit(job), side, a.Is("former_state", workflow.Both, holePlugged))
}

func checkOldHoleList(shop workflow.Shop, job workflow.Job) []workflow.Finding {
	left, right, err := oldHolesOf(shop, job, job.Answers(OldHoles))
	if err != nil {
		return []workflow.Finding{workflow.FromFault(workflow.Both, ourRule, err)}
	}
	found := []calc.Finding{calc.Notef("old-holes.count", "as written down", "Old holes: %s.", onBoth(len(left), len(right)))}
	if (len(left) == 0) != (len(right) == 0) {
		found = append(found, calc.Cautionf("old-holes.one-ski", ourRule,
			"Old holes: %s; look at both skis once more, a pair is drilled alike.", onBoth(len(left), len(right))))
	}
	return workflow.On(workflow.Both, found)
}

// onBoth says a number for each ski, or one for both.
func onBoth(left, right int) string {
	if left == right {
		return fmt.Sprintf("%d on each ski", left)
	}
	return fmt.Sprintf("%d on the left ski, %d on the right", left, right)
}
