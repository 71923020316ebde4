package steps

import (
	"slices"
	"strconv"
	"strings"

	"drillstop/calc"
	"drillstop/calc/bore"
	"drillstop/calc/quantity"
	"drillstop/workflow"
)

func holesStep() workflow.Step {
	return workflow.Step{
		ID: Holes, Phase: workflow.Drilling, Title: "holes drilled and gauged", Kinds: mounts,
		Why: "Every hole is gauged because a stop slips without a sound, and the next hole tells too late. " +
			"Too shallow, and the screw meets the bottom and lifts the plate; too deep, and the base bulges or opens. " +
			"Count them as well: a missing hole is found now with the template still clamped, and never again so cheaply.",
		Cautions: []string{
			"Drill square to the ski and at low speed; let the stop touch, do not press it.",
			"Stop at once if shavings change colour or the bit drops: gauge before the next hole.",
			"Eye protection on before the drill runs, hair and sleeves tied back; clamp the ski, never hold it.",
			"Fibre and carbon dust harms the lungs: mask on, suction running.",
		},
		Fields: []workflow.Field{
			holeCount("drilled", "Holes drilled", "count them, toe and heel piece; 0 if all old", mostHoles),
			{
				ID: "depth", Label: "Depth gauged", Kind: workflow.List, Unit: quantity.MM, Min: 0.5, Max: 40, PerSki: true,
				Hint: "one for all alike, or each, toe holes first",
			},
		},
		Needs:   []workflow.StepID{Bit},
		Rests:   holesRests(),
		Verify:  verifyHoles,
		Figures: holesFigures,
		Check: func(shop workflow.Shop, job workflow.Job) []workflow.Finding {
			found := workflow.On(workflow.Both, checkRedrilled(shop, job))
			return append(found, onEach(func(side workflow.Side) []calc.Finding {
				return checkHoles(job, side, holesWanted(shop, job, side))
			})...)
		},
		Map: drillMap,
	}
}

func holesRests() []workflow.Rest {
	return []workflow.Rest{
		onThisPair("the holes were drilled"),
		{On: Bit, Fields: []workflow.FieldID{"bit", "stop"}, Because: "the bit or its stop changed after the holes were gauged"},
		{
			On: Skis, Fields: []workflow.FieldID{"construction", "marked", "thickness_toe", "thickness_heel"},
			Because: "the ski's marked hole, construction or thickness changed after the holes were gauged",
		},
		{
			On: Binding, Fields: []workflow.FieldID{"name", "kind", "screws_toe", "screws_heel", "bite_toe", "bite_heel", "pattern"},
			Because: "the binding, its screws or its hole pattern changed after the holes were drilled",
		},
		{On: MountPoint, Fields: []workflow.FieldID{"reference", "offset", "tail"}, Because: "the mount point was moved after the holes were drilled"},
		{On: OldHoles, Because: "the old holes were written down anew after the holes were drilled"},
		{On: Template, Fields: []workflow.FieldID{"sole_set"}, Redone: true, Because: "the template was set anew after the holes were drilled"},
	}
}

// verifyHoles asks for one depth, or for as many as there are holes.
func verifyHoles(_ workflow.Shop, _ workflow.Job, a workflow.Answers) []workflow.FieldFault {
	var faults []workflow.FieldFault
	for _, side := range workflow.Sides {
		drilled, _ := a.Number("drilled", side, quantity.Plain)
		if n := len(a.List("depth", side, quantity.MM)); n != 1 && n != int(drilled) {
			faults = append(faults, workflow.FieldFault{Field: "depth", Side: side, Fault: calc.Faultf("holes.depths",
				"%s: %d depths for %.0f holes: give one that holds for all, or one for each.", skiWord(side), n, drilled)})
		}
	}
	return faults
}

func checkHoles(job workflow.Job, side workflow.Side, wanted wantedHoles) []calc.Finding {
	drilled, ok := drilledHoles(job, side)
	if !ok {
		return nil
	}
	var found []calc.Finding
	if int(drilled) != wanted.toe+wanted.heel {
		f := calc.Stopf("holes.count", commonPractice,
			"%s: %.0f holes drilled, %s: drill what is missing, plug what is too many.", skiWord(side), drilled, wanted)
		f.Never = int(drilled) < wanted.toe+wanted.heel // a screw without a hole
		found = append(found, f)
	}
	plan, err := borePlan(job, side)
	if err != nil {
		return found // the fit check holds the job, and says why
	}
	return append(found, gaugeAll(plan, skiWord(side), job.List(Holes, "depth", side, quantity.MM), wanted.toe)...)
}

// checkRedrilled asks after the holes of a first drilling, once the layout was
// done anew and the holes answered again.
func checkRedrilled(shop workflow.Shop, job workflow.Job) []calc.Finding {
	a, _ := job.Answered(Holes)
	if !slices.Contains(a.Redone, MountPoint) && !slices.Contains(a.Redone, Template) {
		return nil
	}
	return []calc.Finding{calc.Cautionf("holes.redrilled", ourRule,
		"The layout was done anew after holes were drilled: on this pair those are old holes now; plug each, and keep every new one at least %s from it, centre to centre.", shop.Distances().Apart)}
}

// gaugeAll judges each hole, the first toe of them under the toe piece, and says
// once what is true of several.
func gaugeAll(plan bore.Plan, ski string, depths []float64, toe int) []calc.Finding {
	var found []calc.Finding
	var where [][]string
	note := func(place string, thickness quantity.Millimetre, depth float64) {
		for _, f := range bore.Gauge(plan, thickness, quantity.Millimetre(depth)) {
			i := slices.Index(found, f)
			if i < 0 {
				found, where, i = append(found, f), append(where, nil), len(found)
			}
			where[i] = append(where[i], place)
		}
	}
	if len(depths) == 1 {
		note("toe piece", plan.Toe.Thickness, depths[0])
		note("heel piece", plan.Heel.Thickness, depths[0])
	} else {
		for i, depth := range depths {
			thickness := plan.Toe.Thickness
			if i >= toe {
				thickness = plan.Heel.Thickness
			}
			note("hole "+strconv.Itoa(i+1), thickness, depth)
		}
	}
	for i := range found {
		found[i].Text = ski + ", " + strings.Join(where[i], ", ") + ": " + found[i].Text
	}
	return found
}
