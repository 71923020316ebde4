package steps

import (
	"slices"

	"drillstop/calc"
	"drillstop/calc/fit"
	"drillstop/calc/quantity"
	"drillstop/workflow"
)

// bootOf is the boot on that side as calc/fit wants it. What was not answered
// is 0, which fit takes as not known.
func bootOf(job workflow.Job, side workflow.Side) fit.Boot {
	shell, _ := job.Number(Boots, "shell", workflow.Both, quantity.Plain)
	return fit.Boot{
		Norm:    fit.Norm(job.Text(Boots, "norm", side)),
		Sole:    millimetres(job, Boots, "sole", side),
		Shell:   shell,
		Inserts: job.Is(Boots, "inserts", workflow.Both, workflow.Yes),
		WornToe: millimetres(job, Boots, "wear", side),
		Damaged: job.Is(Boots, "condition", side, conditionDamaged),
	}
}

// millimetres is one answer as a length, 0 where it was not given.
func millimetres(job workflow.Job, step workflow.StepID, id workflow.FieldID, side workflow.Side) quantity.Millimetre {
	v, _ := job.Number(step, id, side, quantity.MM)
	return quantity.Millimetre(v)
}

// count is one answer as a whole number, 0 where it was not given.
func count(job workflow.Job, step workflow.StepID, id workflow.FieldID, side workflow.Side) int {
	v, _ := job.Number(step, id, side, quantity.Plain)
	return int(v)
}

// bySide says once what is true of both sides, and apart, with the side in
// front, what is not.
func bySide(what string, left, right []calc.Finding) []workflow.Finding {
	if slices.Equal(left, right) {
		return workflow.On(workflow.Both, left)
	}
	return append(
		workflow.On(workflow.Left, named("Left "+what, left)),
		workflow.On(workflow.Right, named("Right "+what, right))...)
}

// named puts the name of what was looked at in front of each sentence.
func named(name string, found []calc.Finding) []calc.Finding {
	out := make([]calc.Finding, len(found))
	for i, f := range found {
		f.Text = name + ": " + f.Text
		out[i] = f
	}
	return out
}
