package steps

import (
	"drillstop/calc"
	"drillstop/workflow"
)

// What toe and heel do after being pushed off their middle.
const (
	returns      = "returns"
	returnsSlow  = "slow"
	returnsStuck = "sticks"
)

const recenteringSource = "the binding returns to its middle by itself: " + commonPractice

// recenteringStep asks whether toe and heel find their middle again.
func recenteringStep() workflow.Step {
	options := []workflow.Option{{Value: returns}, {Value: returnsSlow, Label: "slow: returns late"}, {Value: returnsStuck}}
	return workflow.Step{
		ID: Recentering, Phase: workflow.Testing, Title: "recentering",
		Why: "Knocks on the snow push the boot off its middle many times a day, and the spring has to bring it back each " +
			"time. A binding that stays aside has used up part of its way: the next knock opens it. Push the boot part of the " +
			"way out, let go, and watch the toe piece and the heel piece return, on both skis.",
		Cautions: []string{
			"The boot comes back with force: hands clear of toe piece and heel lever when you let go.",
		},
		Fields: []workflow.Field{
			{ID: "toe", Label: "Toe piece", Hint: "push the boot toe aside, both ways, let go", Kind: workflow.Choice, Options: options, PerSki: true},
			{ID: "heel", Label: "Heel piece", Hint: "lift the heel part of the way, let go", Kind: workflow.Choice, Options: options, PerSki: true},
		},
		Needs: []workflow.StepID{ReleaseValue},
		Rests: []workflow.Rest{
			{On: ReleaseValue, Fields: []workflow.FieldID{"toe_set", "heel_set"}, Because: "a scale was set anew after recentering was seen"},
			{On: Correction, Disturbed: scaleCorrected, Because: "a scale was corrected after recentering was seen"},
			{On: ForwardPressure, Disturbed: pressureMoved, Redone: true, Because: "forward pressure was changed after recentering was seen"},
			{On: ToeHeight, Disturbed: toeHeightMoved, Redone: true, Because: "toe height was changed after recentering was seen"},
			{On: SoleLength, Fields: []workflow.FieldID{"set"}, Redone: true, Because: "the sole length was set anew after recentering was seen"},
			onThisPair("recentering was seen"),
			{On: Boots, Fields: []workflow.FieldID{"name", "shell", "norm", "sole", "condition", "wear"}, Because: "the boot or its sole changed after recentering was seen"},
			{On: Binding, Fields: []workflow.FieldID{"name", "serial", "used", "kind"}, Because: "the binding changed after recentering was seen"},
		},
		Check: func(_ workflow.Shop, job workflow.Job) []workflow.Finding {
			return onEach(func(side workflow.Side) []calc.Finding {
				return append(checkReturn(job, side, "toe"), checkReturn(job, side, "heel")...)
			})
		},
	}
}

func checkReturn(job workflow.Job, side workflow.Side, piece workflow.FieldID) []calc.Finding {
	switch job.Text(Recentering, piece, side) {
	case returnsSlow:
		return []calc.Finding{calc.Cautionf("recentering.slow", recenteringSource,
			"%s: the %s piece returns slowly: clean it, look at the gliding surface and the toe height, and try again.", skiWord(side), piece)}
	case returnsStuck:
		return []calc.Finding{never(calc.Stopf("recentering.stuck", recenteringSource,
			"%s: the %s piece sticks off its middle: it must return by itself; look for dirt, a pinched toe or a worn spring.", skiWord(side), piece))}
	}
	return nil
}
