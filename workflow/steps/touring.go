package steps

import (
	"drillstop/calc"
	"drillstop/calc/quantity"
	"drillstop/workflow"
)

// Whether the scales read what they read before the binding was walked through
// its touring positions.
const (
	valuesUnchanged = "unchanged"
	valuesChanged   = "changed"
)

const touringSource = "ISO 13992:2014; " + commonPractice

// touringStep walks a binding that tours through its positions and back.
func touringStep() workflow.Step {
	return workflow.Step{
		ID: Touring, Phase: workflow.Testing, Title: "touring mode",
		Why: "A touring binding is two machines in one, and skiers change from one to the other with cold hands. Go through " +
			"every position as the skier will, on both skis, and come back to ski mode: heel locked, brake free. Switching " +
			"can shift a setting, so the four scales are read once more at the end.",
		Cautions: []string{
			"A locked toe does not release. It is for climbing only; never hand a ski over with the toe locked.",
			"Pins and levers snap shut with force: fingers off the jaws, and step in with the boot in your hand, not your foot.",
			"Order and positions are those of the binding maker's present instructions.",
		},
		Fields: []workflow.Field{
			{ID: "brake_held", Label: "Brake held up", Hint: "stays up in touring mode", Kind: workflow.Seen, PerSki: true, When: hasBrake},
			{ID: "heel_free", Label: "Heel free", Hint: "boot pivots, nothing catches the heel", Kind: workflow.Seen, PerSki: true},
			{ID: "each_riser", Label: "Each riser holds", Hint: "flip up, press down by hand, flip back", Kind: workflow.Seen, PerSki: true, When: hasRisers},
			{ID: "toe_locked", Label: "Toe locks", Hint: "lock it: the boot does not come out", Kind: workflow.Seen, PerSki: true},
			{ID: "toe_released", Label: "Toe unlocks", Hint: "unlock it: the lever goes all the way back", Kind: workflow.Seen, PerSki: true},
			{ID: "ski_mode", Label: "Back in ski mode", Hint: "heel locked, brake free again", Kind: workflow.Seen, PerSki: true},
			{
				ID: "values_again", Label: "Scales read again", Hint: "toe and heel against the values set", Kind: workflow.Choice,
				Options: []workflow.Option{{Value: valuesUnchanged}, {Value: valuesChanged}}, PerSki: true,
			},
		},
		Applies: tours,
		Needs:   []workflow.StepID{ReleaseValue},
		Rests: []workflow.Rest{
			{On: ReleaseValue, Fields: []workflow.FieldID{"toe_set", "heel_set"}, Because: "a scale was set anew after touring mode was tried"},
			{On: Correction, Disturbed: scaleCorrected, Because: "a scale was corrected after touring mode was tried"},
			{On: ForwardPressure, Disturbed: pressureMoved, Redone: true, Because: "forward pressure was changed after touring mode was tried"},
			{On: ToeHeight, Disturbed: toeHeightMoved, Redone: true, Because: "toe height was changed after touring mode was tried"},
			{On: SoleLength, Fields: []workflow.FieldID{"set"}, Redone: true, Because: "the sole length was set anew after touring mode was tried"},
			onThisPair("touring mode was tried"),
			{On: Boots, Fields: []workflow.FieldID{"name", "shell", "norm", "sole", "inserts", "condition"}, Because: "the boot changed after touring mode was tried"},
			{
				On: Binding, Fields: []workflow.FieldID{"name", "serial", "used", "kind", "brake", "risers"},
				Because: "the binding changed after touring mode was tried",
			},
		},
		Figures: setFigures,
		Check: func(_ workflow.Shop, job workflow.Job) []workflow.Finding {
			return onEach(func(side workflow.Side) []calc.Finding { return checkValuesAgain(job, side) })
		},
	}
}

// valuesMoved reports that a scale no longer read what it was set to.
func valuesMoved(_, after workflow.Answers) bool {
	return after.Is("values_again", workflow.Left, valuesChanged) || after.Is("values_again", workflow.Right, valuesChanged)
}

func hasRisers(job workflow.Job) bool {
	n, ok := job.Number(Binding, "risers", workflow.Both, quantity.Plain)
	return ok && n > 0
}

func checkValuesAgain(job workflow.Job, side workflow.Side) []calc.Finding {
	if !job.Is(Touring, "values_again", side, valuesChanged) {
		return nil
	}
	return []calc.Finding{never(calc.Stopf("touring.values", touringSource,
		"%s: after touring mode a scale no longer reads %s: find out why it moved, set it again, and repeat the release test.",
		skiWord(side), standingText(job, side)))}
}
