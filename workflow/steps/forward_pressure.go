package steps

import (
	"math"
	"slices"

	"drillstop/calc"
	"drillstop/calc/fit"
	"drillstop/calc/quantity"
	"drillstop/workflow"
)

// The readings of a forward-pressure indicator.
const (
	inWindow  = workflow.WindowIn
	tooLittle = workflow.WindowLittle
	tooMuch   = workflow.WindowMuch
)

// What the gap between heel piece and boot can be on a pin binding, whose pins
// have to have room.
const (
	gapRight = "as the maker says"
	gapSmall = "too small"
	gapLarge = "too large"
)

// mostTurns is how many turns forward pressure takes at most before the hand
// pauses. Our own limit.
const mostTurns = 6.0

const gapSource = "a pin binding has a gap at the heel in place of forward pressure, as its maker gives it: " + commonPractice

const pressureSource = "forward pressure read on its indicator with the boot clicked in: " + commonPractice

// forwardPressureStep asks where the indicator stands with the boot in, or on a
// pin binding what gap is left.
func forwardPressureStep() workflow.Step {
	return workflow.Step{
		ID: ForwardPressure, Phase: workflow.Adjusting, Title: "forward pressure",
		Why: "The heel piece pushes the boot against the toe piece, and both let go at the value on their scale only at " +
			"the push they were built for. Too little, and the boot comes out on a hard edge; too much, and it sticks when " +
			"it should twist free. The indicator tells the truth only with the boot clicked in, and it moves when the toe " +
			"height moves: then read it again. What counts is what is read after the last turn of the screw.",
		Cautions: []string{
			"Read the mark that this binding's maker gives: where the window is, and whether flush or proud is right, differs between models.",
			"Click the boot in with your palm, not with fingers under the heel lever.",
		},
		Fields: pressureFields(),
		Needs:  []workflow.StepID{SoleLength},
		Rests: []workflow.Rest{
			{On: SoleLength, Fields: []workflow.FieldID{"set"}, Redone: true, Because: "the sole length was set anew after forward pressure was read"},
			{On: ToeHeight, Disturbed: toeHeightMoved, Because: "toe height was changed after forward pressure was read"},
			{On: Brake, Disturbed: refitted, Because: "brake and heel piece were fitted again after forward pressure was read"},
			{On: Boots, Fields: []workflow.FieldID{"name", "shell", "sole", "norm"}, Because: "the boot, its sole length or norm changed after forward pressure was read"},
			onThisPair("forward pressure was read"),
			{
				On: Binding, Fields: []workflow.FieldID{"name", "serial", "used", "kind", "track_min", "track_max", "toe_height"},
				Because: "the binding changed after forward pressure was read",
			},
		},
		Verify:  verifyPressure,
		Picture: windowPicture,
		Check: func(_ workflow.Shop, job workflow.Job) []workflow.Finding {
			return onEach(func(side workflow.Side) []calc.Finding { return checkPressure(job, side) })
		},
	}
}

func pressureFields() []workflow.Field {
	window := []workflow.Option{{Value: inWindow}, {Value: tooLittle}, {Value: tooMuch}}
	return []workflow.Field{
		{
			ID: "found", Label: "Indicator, as found", Hint: "boot in, ski flat, before the screw is turned",
			Kind: workflow.Choice, PerSki: true, Options: window, When: pressesForward,
		},
		{
			ID: "off", Label: "Off the window by", Hint: "as found; - too little, + too much", Kind: workflow.Number,
			Unit: quantity.MM, Min: -20, Max: 20, PerSki: true, Optional: true, When: knowsTravel,
		},
		{
			ID: "turns", Label: "Turned by", Hint: "turns of the length screw, + adds pressure", Kind: workflow.Number,
			Unit: quantity.Turn, Min: -20, Max: 20, PerSki: true, Optional: true,
		},
		{
			ID: "indicator", Label: "Indicator, as left", Hint: "boot in, ski flat, read after the last turn",
			Kind: workflow.Choice, PerSki: true, Options: window, When: pressesForward,
		},
		{
			ID: "gap", Label: "Gap at the heel, boot in", Hint: "with the maker's gauge, heel pins in the boot",
			Kind: workflow.Choice, PerSki: true,
			Options: []workflow.Option{{Value: gapRight}, {Value: gapSmall}, {Value: gapLarge}}, When: leavesGap,
		},
	}
}

func checkPressure(job workflow.Job, side workflow.Side) []calc.Finding {
	return slices.Concat(checkIndicator(job, side), checkGap(job, side), checkTurns(job, side), checkWay(job, side))
}

func checkIndicator(job workflow.Job, side workflow.Side) []calc.Finding {
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
	return []calc.Finding{never(calc.Stopf("forward-pressure.window", pressureSource,
		"%s: forward pressure is %s: %s%s until the indicator stands in its window, and read it again.",
		skiWord(side), reads, way, byTurns(job, side)))}
}

func checkGap(job workflow.Job, side workflow.Side) []calc.Finding {
	gap := job.Text(ForwardPressure, "gap", side)
	way := ""
	switch gap {
	case gapSmall:
		way = "move the heel piece away from the toe"
	case gapLarge:
		way = "move the heel piece towards the toe"
	default:
		return nil
	}
	return []calc.Finding{never(calc.Stopf("forward-pressure.gap", gapSource,
		"%s: the gap at the heel is %s: %s until it is the gap that the binding's maker gives, and look again.", skiWord(side), gap, way))}
}

// checkTurns pauses where forward pressure took more turns than a fine setting
// needs: then the coarse one, the sole length, is likely to be off.
func checkTurns(job workflow.Job, side workflow.Side) []calc.Finding {
	turns, ok := job.Number(ForwardPressure, "turns", side, quantity.Turn)
	if !ok || math.Abs(turns) <= mostTurns {
		return nil
	}
	return []calc.Finding{calc.Cautionf("forward-pressure.turns", ourRule,
		"%s: turned by %s, more than %.0f: see that the sole length is set right, and that the screw still has hold.",
		skiWord(side), quantity.Print(turns, quantity.Turn), mostTurns)}
}

// leavesGap reports whether the binding leaves a gap at the heel where others
// press the boot forward.
func leavesGap(job workflow.Job) bool { return kindOf(job) == fit.KindPin }

func pressesForward(job workflow.Job) bool { return !leavesGap(job) }

// pressureMoved reports whether an answer says that forward pressure is not
// what it was: indicator or gap read otherwise, left otherwise than found, or its
// screw was turned. What was turned or left otherwise counts even if the answer
// before said the same, for it may have been so once more.
func pressureMoved(before, after workflow.Answers) bool {
	for _, side := range workflow.Sides {
		turned, ok := after.Number("turns", side, quantity.Turn)
		found := after.Text("found", side)
		if ok && turned != 0 || found != "" && found != after.Text("indicator", side) {
			return true
		}
	}
	return workflow.Changed(before, after, "indicator", "gap")
}
