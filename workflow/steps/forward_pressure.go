package steps

import (
	"drillstop/calc"
	"drillstop/calc/quantity"
	"drillstop/workflow"
)

// The readings of a forward-pressure indicator.
const (
	inWindow  = "in window"
	tooLittle = "too little"
	tooMuch   = "too much"
)

const pressureSource = "forward pressure read on its indicator with the boot clicked in: " + commonPractice

// forwardPressureStep asks where the indicator stands with the boot in.
func forwardPressureStep() workflow.Step {
	return workflow.Step{
		ID: ForwardPressure, Phase: workflow.Adjusting, Title: "forward pressure",
		Why: "The heel piece pushes the boot against the toe piece, and both let go at the value on their scale only at " +
			"the push they were built for. Too little, and the boot comes out on a hard edge; too much, and it sticks when " +
			"it should twist free. The indicator tells the truth only with the boot clicked in, and it moves when the toe " +
			"height moves: then read it again.",
		Cautions: []string{
			"Read the mark that this binding's maker gives: where the window is, and whether flush or proud is right, differs between models.",
			"Click the boot in with your palm, not with fingers under the heel lever.",
		},
		Fields: []workflow.Field{
			{
				ID: "indicator", Label: "Indicator, boot in", Hint: "boot clicked in, ski flat on the bench",
				Kind: workflow.Choice, PerSki: true,
				Options: []workflow.Option{{Value: inWindow}, {Value: tooLittle}, {Value: tooMuch}},
			},
			{
				ID: "turns", Label: "Turned by", Hint: "turns of the length screw, + adds pressure", Kind: workflow.Number,
				Unit: quantity.Turn, Min: -20, Max: 20, PerSki: true, Optional: true,
			},
		},
		Needs: []workflow.StepID{SoleLength},
		Rests: []workflow.Rest{
			{On: SoleLength, Fields: []workflow.FieldID{"set"}, Because: "the sole length was set anew after forward pressure was read"},
			{On: ToeHeight, Disturbed: toeHeightMoved, Because: "toe height was changed after forward pressure was read"},
			{On: Brake, Disturbed: refitted, Because: "brake and heel piece were fitted again after forward pressure was read"},
			{On: Boots, Fields: []workflow.FieldID{"sole", "norm"}, Because: "the boot's sole length or norm changed after forward pressure was read"},
			{
				On: Binding, Fields: []workflow.FieldID{"name", "serial", "kind", "track_min", "track_max", "toe_height"},
				Because: "the binding changed after forward pressure was read",
			},
		},
		Check: func(_ workflow.Shop, job workflow.Job) []workflow.Finding {
			return onEach(func(side workflow.Side) []calc.Finding { return checkPressure(job, side) })
		},
	}
}

func checkPressure(job workflow.Job, side workflow.Side) []calc.Finding {
	reads := job.Text(ForwardPressure, "indicator", side)
	way := ""
	switch reads {
	case tooLittle:
		way = "move the heel piece towards the toe"
	case tooMuch:
		way = "move the heel piece away from the toe"
	default:
		return nil
	}
	return []calc.Finding{calc.Stopf("forward-pressure.window", pressureSource,
		"%s: forward pressure is %s: %s until the indicator stands in its window, and read it again.", skiWord(side), reads, way)}
}

// pressureMoved reports whether an answer says that forward pressure is not
// what it was: the indicator reads otherwise, or its screw was turned. Turns
// count even if they are those of the answer before, for they may have been
// turned once more.
func pressureMoved(before, after workflow.Answers) bool {
	for _, side := range workflow.Sides {
		turned, ok := after.Number("turns", side, quantity.Turn)
		if ok && turned != 0 {
			return true
		}
	}
	return workflow.Changed(before, after, "indicator")
}
