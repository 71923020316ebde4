package steps

import (
	"math"

	"drillstop/calc"
	"drillstop/calc/bore"
	"drillstop/calc/quantity"
	"drillstop/workflow"
)

// thicknessApart is how far left and right may differ in thickness, in mm,
// before one of the four numbers is likely to be misread. Our own.
const thicknessApart = 1.0

func skisStep() workflow.Step {
	return workflow.Step{
		ID: Skis, Phase: workflow.Intake, Title: "skis", CardOf: workflow.SkiCard,
		Why: "The ski decides how deep a hole may be and what holds the screw. " +
			"Thickness is measured at four places, because skis get thin towards the heel piece and a hole that goes through the base cannot be undone. " +
			"What is printed beside the mount mark, diameter x depth, is the maker's word and wins over every rule of thumb.",
		Cautions: []string{
			"Sharp edges: hold the ski by topsheet and base, never across an edge, and wear gloves when you wipe along it.",
		},
		Fields: skiFields(),
		Verify: verifySkis,
		Check:  checkSkis,
	}
}

func skiFields() []workflow.Field {
	return lasting([]workflow.Field{
		{ID: "name", Label: "Ski", Kind: workflow.Text, Hint: "model and length, as printed on it"},
		{ID: "serial", Label: "Serial number", OfPair: true, Kind: workflow.Text, Optional: true, Hint: "scan or type; on the sidewall"},
		{ID: "length", Label: "Length", Kind: workflow.Number, Unit: quantity.CM, Min: 60, Max: 230, Hint: "printed at the tail"},
		{ID: "waist", Label: "Waist", Kind: workflow.Number, Unit: quantity.MM, Min: 50, Max: 150, Hint: "the narrowest width, for the brake"},
		{ID: "condition", Label: "Condition", OfPair: true, Kind: workflow.Choice, Options: conditions, PerSki: true, Hint: "core, edges, base"},
		mountsOnly(workflow.Field{
			ID: "construction", Label: "Under the topsheet", Kind: workflow.Choice, Options: constructions(),
			Optional: true, Hint: "empty: not known; then a marked hole is needed",
		}),
		mountsOnly(workflow.Field{
			ID: "marked", Label: "Hole marked on it", Kind: workflow.Text, Read: readHole, Optional: true,
			Hint: "3.5 x 9; near the mount mark; empty: none",
		}),
		mountsOnly(workflow.Field{
			ID: "thickness_toe", Label: "Thickness, toe piece", OfPair: true, Kind: workflow.Number, Unit: quantity.MM, Min: 4, Max: 40, PerSki: true,
			Hint: "calipers, where the thinnest hole will be",
		}),
		mountsOnly(workflow.Field{
			ID: "thickness_heel", Label: "Thickness, heel piece", OfPair: true, Kind: workflow.Number, Unit: quantity.MM, Min: 4, Max: 40, PerSki: true,
			Hint: "calipers, where the thinnest hole will be",
		}),
		mountsOnly(workflow.Field{
			ID: "marks", Label: "Mount mark seen", OfPair: true, Kind: workflow.Choice, Options: workflow.YesNo, PerSki: true,
			Hint: "on the topsheet or the sidewall",
		}),
		mountsOnly(workflow.Field{
			ID: "old_holes", Label: "Old holes", OfPair: true, Kind: workflow.Choice, Options: workflow.YesNo,
			Hint: "plugged ones count",
		}),
	}, "condition", "thickness_toe", "thickness_heel", "marks", "old_holes")
}

func constructions() []workflow.Option {
	options := make([]workflow.Option, 0, len(bore.Constructions()))
	for _, c := range bore.Constructions() {
		options = append(options, workflow.Option{Value: string(c)})
	}
	return options
}

// verifySkis asks for one of the two that say which bit to take.
func verifySkis(_ workflow.Shop, job workflow.Job, a workflow.Answers) []workflow.FieldFault {
	if !isMount(job) || a.Text("construction", workflow.Both) != "" || a.Text("marked", workflow.Both) != "" {
		return nil
	}
	return []workflow.FieldFault{{Field: "construction", Fault: calc.Faultf("skis.construction",
		"Without a marked hole the construction says which bit to take: give one of the two.")}}
}

func checkSkis(shop workflow.Shop, job workflow.Job) []workflow.Finding {
	found := bySide("ski", checkCondition(job, workflow.Left), checkCondition(job, workflow.Right))
	pair := append(checkOldHoles(shop, job), checkThickness(job, "thickness_toe", "toe")...)
	return append(found, workflow.On(workflow.Both, append(pair, checkThickness(job, "thickness_heel", "heel")...))...)
}

func checkCondition(job workflow.Job, side workflow.Side) []calc.Finding {
	switch job.Text(Skis, "condition", side) {
	case conditionDamaged:
		return []calc.Finding{calc.Stopf("skis.damaged", commonPractice,
			"The ski is damaged: screws hold in a sound core only; repair it first, or take another pair.")}
	case conditionWorn:
		return []calc.Finding{calc.Cautionf("skis.worn", commonPractice,
			"The ski is worn: tap over the mounting zone and listen for a hollow place before you go on.")}
	}
	return nil
}

func checkOldHoles(shop workflow.Shop, job workflow.Job) []calc.Finding {
	switch old := job.Text(Skis, "old_holes", workflow.Both); {
	case old == workflow.Yes && job.Kind == workflow.NewMount:
		return []calc.Finding{calc.Cautionf("skis.old-holes", commonPractice,
			"The ski has old holes: a new one needs %s from each, centre to centre, and the old ones a plug; a re-mount is the kind of job for it.", shop.Distances().Apart)}
	case old == workflow.Yes:
		return []calc.Finding{calc.Cautionf("skis.old-holes", commonPractice,
			"The ski has old holes: each gets a plug, and every new hole keeps at least %s from them, centre to centre.", shop.Distances().Apart)}
	case old == workflow.No && job.Kind == workflow.ReMount:
		return []calc.Finding{calc.Cautionf("skis.no-old-holes", ourRule,
			"A re-mount, and no old holes: look again under plugs, stickers and plates; a ski that was never drilled is a new mount.")}
	}
	return nil
}

// checkThickness compares the two skis at one piece.
func checkThickness(job workflow.Job, id workflow.FieldID, piece string) []calc.Finding {
	left, right := millimetres(job, Skis, id, workflow.Left), millimetres(job, Skis, id, workflow.Right)
	if left == 0 || right == 0 || math.Abs(float64(left-right)) <= thicknessApart+slack {
		return nil
	}
	return []calc.Finding{calc.Cautionf("skis.thickness", ourRule,
		"At the %s piece the left ski is %s thick, the right %s: a pair lies within %.0f mm; measure both again.", piece, left, right, thicknessApart)}
}
