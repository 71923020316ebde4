package steps

import (
	"drillstop/calc"
	"drillstop/calc/bore"
	"drillstop/calc/quantity"
	"drillstop/workflow"
)

// How screws are driven, and what is done about a stripped one.
const (
	driveByHand   = "hand"
	driveByDriver = "driver"

	wayNone     = "none"
	wayPlug     = "plug and re-drill"
	wayInsert   = "insert"
	wayOtherSki = "other ski"
)

// The torque in Nm that a driver is set to.
// Source: about 4 to 5 Nm, common practice, no source.
const (
	lowTorque  = 4.0
	highTorque = 5.0
)

// screwsStep asks how the screws went in.
func screwsStep() workflow.Step {
	return workflow.Step{
		ID: Screws, Phase: workflow.Mounting, Title: "screws",
		Why: "Screws hold by the thread they cut in a few millimetres of core, and that thread can be cut only once. Driving " +
			"all of them half-way first lets the plate find its place; driving one home pulls the others askew. A centre " +
			"screw under the toe piece goes in before the toe piece covers it. When a screw suddenly turns lightly it has " +
			"stripped: it holds nothing, however flat its head lies.",
		Cautions: []string{
			"A fast driver strips a thread before the hand feels it: slow speed, low torque, the last turn by hand.",
			"Hold the ski in the vice, not in the hand: a bit that slips goes through a palm.",
			"Torque and order that the binding maker gives now come before these.",
		},
		Kinds: mounts,
		Fields: []workflow.Field{
			{ID: "locking_first", Label: "Centre screw in first", Hint: "before the toe piece slides over it", Kind: workflow.Seen, When: lockingScrew},
			{ID: "half_first", Label: "All half-way first", Hint: "then home, crosswise", Kind: workflow.Seen},
			{
				ID: "drive", Label: "Driven by", Hint: "hand, or a driver with a clutch", Kind: workflow.Choice,
				Options: []workflow.Option{{Value: driveByHand, Label: "hand"}, {Value: driveByDriver, Label: "driver with a clutch"}},
			},
			{
				ID: "torque", Label: "Torque of the driver", Hint: "4 to 5 Nm; empty if by hand", Kind: workflow.Number,
				Unit: quantity.NM, Min: 1, Max: 10, Optional: true,
			},
			holeCount("driven", "Screws driven", "counted once they sit", mostHoles),
			holeCount("stripped", "Of these stripped", "turn on without getting tighter", 20),
			{
				ID: "way_out", Label: "Stripped: what was done", Hint: "none if nothing stripped", Kind: workflow.Choice,
				Options: []workflow.Option{
					{Value: wayNone}, {Value: wayPlug, Label: "plugged, binding moved, drilled anew"},
					{Value: wayInsert, Label: "insert, threaded"}, {Value: wayOtherSki, Label: "other ski: this one is given up"},
				},
			},
		},
		Needs: []workflow.StepID{Glue},
		Rests: []workflow.Rest{
			{On: Holes, Fields: []workflow.FieldID{"drilled", "depth"}, Redone: true, Because: "holes were drilled again after the screws were driven"},
			{On: Glue, Fields: []workflow.FieldID{"kind", "holes"}, Redone: true, Because: "holes were glued again after the screws were driven"},
			onThisPair("the screws were driven"),
			{
				On: Binding, Fields: []workflow.FieldID{"name", "serial", "used", "screws_toe", "screws_heel", "bite_toe", "bite_heel", "locking_screw", "pattern"},
				Because: "the binding or its screws changed after they were driven",
			},
		},
		Figures: screwFigures,
		Verify:  verifyScrews,
		Check:   checkScrews,
	}
}

// verifyScrews compares the answers with each other: a driver has a torque, a
// stripped screw a way out.
func verifyScrews(_ workflow.Shop, _ workflow.Job, answers workflow.Answers) []workflow.FieldFault {
	var faults []workflow.FieldFault
	if answers.Is("drive", workflow.Both, driveByDriver) && answers.Text("torque", workflow.Both) == "" {
		faults = append(faults, workflow.FieldFault{Field: "torque", Fault: calc.Faultf("screws.torque",
			"Torque of the driver: not answered yet; a driver is set to %.0f to %.0f Nm.", lowTorque, highTorque)})
	}
	all := 0.0
	for _, side := range workflow.Sides {
		stripped, _ := answers.Number("stripped", side, quantity.Plain)
		driven, _ := answers.Number("driven", side, quantity.Plain)
		all += stripped
		if stripped > driven {
			faults = append(faults, workflow.FieldFault{Field: "stripped", Side: side, Fault: calc.Faultf("screws.stripped",
				"%s: %.0f screws stripped of %.0f driven: it cannot be more.", skiWord(side), stripped, driven)})
		}
	}
	if none := answers.Is("way_out", workflow.Both, wayNone); none == (all > 0) {
		faults = append(faults, workflow.FieldFault{Field: "way_out", Fault: wayOutFault(all)})
	}
	return faults
}

func wayOutFault(stripped float64) *calc.Fault {
	if stripped == 0 {
		return calc.Faultf("screws.way-out", "Nothing stripped, so there is nothing to be done about it: choose %s.", wayNone)
	}
	return calc.Faultf("screws.way-out", "Stripped screws: %.0f, and none may stay so: choose %s, %s or %s.",
		stripped, wayPlug, wayInsert, wayOtherSki)
}

func checkScrews(shop workflow.Shop, job workflow.Job) []workflow.Finding {
	found := workflow.On(workflow.Both, append(checkTorque(job), checkLocking(shop, job)...))
	return append(found, onEach(func(side workflow.Side) []calc.Finding {
		return append(checkDriven(shop, job, side), checkStripped(job, side)...)
	})...)
}

func checkTorque(job workflow.Job) []calc.Finding {
	torque, ok := job.Number(Screws, "torque", workflow.Both, quantity.NM)
	if !ok || torque >= lowTorque && torque <= highTorque {
		return nil
	}
	danger := "a thread may strip"
	if torque < lowTorque {
		danger = "a screw may not sit"
	}
	return []calc.Finding{calc.Cautionf("screws.torque", commonPractice,
		"The driver was set to %s, outside %.0f to %.0f Nm: %s; try each screw by hand.",
		quantity.Print(torque, quantity.NM), lowTorque, highTorque, danger)}
}

// checkLocking reminds of a locking screw that only the pattern knows: where the
// binding was said to have none, nobody was asked for it.
func checkLocking(shop workflow.Shop, job workflow.Job) []calc.Finding {
	p, ok := patternOf(shop, job)
	if !ok || !locksToe(p) || lockingScrew(job) {
		return nil
	}
	return []calc.Finding{calc.Cautionf("screws.locking", ourRule,
		"The hole pattern has a locking screw under the toe piece: see that it went in before the toe piece covered it.")}
}

func checkDriven(shop workflow.Shop, job workflow.Job, side workflow.Side) []calc.Finding {
	driven, ok := job.Number(Screws, "driven", side, quantity.Plain)
	fill, again, known := holesToFill(shop, job, side)
	if !ok || !known || driven == fill {
		return nil
	}
	f := calc.Stopf("screws.count", commonPractice,
		"%s: %.0f screws driven, %.0f holes drilled%s: every hole holds a screw.", skiWord(side), driven, fill-again, andAgain(again))
	f.Never = driven < fill
	return []calc.Finding{f}
}

// checkStripped gives the ways out of a stripped thread. Giving the ski up is
// one of them, and ends what can be done on it.
func checkStripped(job workflow.Job, side workflow.Side) []calc.Finding {
	stripped, ok := job.Number(Screws, "stripped", side, quantity.Plain)
	if !ok || stripped == 0 {
		return nil
	}
	if job.Is(Screws, "way_out", workflow.Both, wayOtherSki) {
		return []calc.Finding{never(calc.Stopf("screws.other-ski", ourRule,
			"%s: %.0f screws stripped and the ski is given up: answer skis and holes again for another one, or void the job.",
			skiWord(side), stripped))}
	}
	plan, err := borePlan(job, side)
	if err != nil {
		return nil // the fit check holds the job, and says why
	}
	found := bore.Stripped(plan, boreSki(job, side))
	for i := range found {
		found[i].Text = skiWord(side) + ": " + found[i].Text
	}
	return found
}
