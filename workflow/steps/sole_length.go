package steps

import (
	"math"

	"drillstop/calc"
	"drillstop/calc/quantity"
	"drillstop/workflow"
)

// soleSetTolerance is how far, in mm, the sole length that a binding is set to
// may lie from the boot's. Our own limit: what can be read off a printed scale;
// forward pressure is what decides in the end.
const soleSetTolerance = 1.0

// soleLengthStep asks for the sole length that each binding is set to.
func soleLengthStep() workflow.Step {
	return workflow.Step{
		ID: SoleLength, Phase: workflow.Adjusting, Title: "sole length",
		Why: "The heel piece is moved along its track until the binding is as long as the boot sole. This is the coarse " +
			"setting; forward pressure is the fine one and is read next. Set each ski to its own boot: two boots of a pair " +
			"can differ by a millimetre, and two skis set by eye nearly always do.",
		Cautions: []string{
			"Set the length as the binding maker's present instructions say: some bindings want the heel piece a notch from the scale.",
		},
		Fields: []workflow.Field{{
			ID: "set", Label: "Sole length set", Hint: "read off the binding's scale, each ski", Kind: workflow.Number,
			Unit: quantity.MM, Min: 150, Max: 400, PerSki: true, Read: readSole,
			Suggest: func(_ workflow.Shop, job workflow.Job, side workflow.Side) string {
				return job.Text(Boots, "sole", side)
			},
		}},
		Needs: []workflow.StepID{Fit, Brake},
		Rests: []workflow.Rest{
			{On: Boots, Fields: []workflow.FieldID{"sole"}, Because: "the boot sole length changed after the binding was set to it"},
			{
				On: Binding, Fields: []workflow.FieldID{"name", "serial", "used", "kind", "sole_min", "sole_max", "track_min", "track_max"},
				Because: "the binding changed after its sole length was set",
			},
			{On: Brake, Disturbed: refitted, Because: "brake and heel piece were fitted again after the sole length was set"},
			onThisPair("the sole length was set"),
		},
		Check: checkSoleLength,
	}
}

func checkSoleLength(_ workflow.Shop, job workflow.Job) []workflow.Finding {
	found := onEach(func(side workflow.Side) []calc.Finding { return checkSoleSet(job, side) })
	return append(found, checkSolesAlike(job)...)
}

func checkSoleSet(job workflow.Job, side workflow.Side) []calc.Finding {
	set, ok := job.Number(SoleLength, "set", side, quantity.MM)
	sole, known := job.Number(Boots, "sole", side, quantity.MM)
	if !ok || !known || math.Abs(set-sole) <= soleSetTolerance {
		return nil
	}
	return []calc.Finding{never(calc.Stopf("sole-length.set", ourRule,
		"%s is set to %s, its boot sole is %s: set it within %s of the boot.", skiWord(side),
		quantity.Print(set, quantity.MM), quantity.Print(sole, quantity.MM), quantity.Print(soleSetTolerance, quantity.MM)))}
}

// checkSolesAlike speaks up when boots of one length stand in bindings of two.
func checkSolesAlike(job workflow.Job) []workflow.Finding {
	left, okLeft := job.Number(SoleLength, "set", workflow.Left, quantity.MM)
	right, okRight := job.Number(SoleLength, "set", workflow.Right, quantity.MM)
	alike := job.Text(Boots, "sole", workflow.Left) == job.Text(Boots, "sole", workflow.Right)
	if !okLeft || !okRight || !alike || math.Abs(left-right) <= soleSetTolerance {
		return nil
	}
	return workflow.On(workflow.Both, []calc.Finding{calc.Cautionf("sole-length.unlike", "both skis alike: "+commonPractice,
		"Left ski is set to %s, right ski to %s, for soles of one length: set both alike.",
		quantity.Print(left, quantity.MM), quantity.Print(right, quantity.MM))})
}
