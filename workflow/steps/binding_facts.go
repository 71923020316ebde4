package steps

import (
	"drillstop/calc/fit"
	"drillstop/calc/quantity"
	"drillstop/workflow"
)

// What the toe height of a binding can be.
const (
	toeFixed      = "fixed"
	toeAutomatic  = "automatic"
	toeAdjustable = "adjustable"
)

// bindingOf is the binding as calc/fit wants it. What was not answered is 0,
// which fit takes as not stated.
func bindingOf(job workflow.Job) fit.Binding {
	low, _ := job.Number(Binding, "scale_min", workflow.Both, quantity.Plain)
	high, _ := job.Number(Binding, "scale_max", workflow.Both, quantity.Plain)
	return fit.Binding{
		Kind:     kindOf(job),
		Norms:    parseNorms(job.Text(Binding, "norms", workflow.Both)),
		ScaleMin: low, ScaleMax: high,
		SoleMin: millimetres(job, Binding, "sole_min", workflow.Both), SoleMax: millimetres(job, Binding, "sole_max", workflow.Both),
		TrackMin: millimetres(job, Binding, "track_min", workflow.Both), TrackMax: millimetres(job, Binding, "track_max", workflow.Both),
		Brake: millimetres(job, Binding, "brake", workflow.Both),
	}
}

func kindOf(job workflow.Job) fit.Kind { return fit.Kind(job.Text(Binding, "kind", workflow.Both)) }

// hasTouringMode reports whether the binding lets the heel go for walking.
func hasTouringMode(job workflow.Job) bool { return kindOf(job).Tours() }

// tours reports whether this boot can walk in this binding: the plate of a frame
// lifts with any boot, the pins of the others need inserts.
func tours(job workflow.Job) bool {
	inserts := job.Is(Boots, "inserts", workflow.Both, workflow.Yes)
	return kindOf(job) == fit.KindFrame || hasTouringMode(job) && inserts
}

// hasBrake reports whether a brake width was given for the binding.
func hasBrake(job workflow.Job) bool { return bindingOf(job).Brake > 0 }

// toeAdjusts reports whether the toe height of the binding is set by hand.
func toeAdjusts(job workflow.Job) bool {
	return job.Is(Binding, "toe_height", workflow.Both, toeAdjustable)
}

// lockingScrew reports whether a centre screw holds the toe piece's base before
// the toe piece slides on.
func lockingScrew(job workflow.Job) bool {
	return job.Is(Binding, "locking_screw", workflow.Both, workflow.Yes)
}

// indicatorStep is the distance between two marks of the scale, 0 where it was
// not answered.
func indicatorStep(job workflow.Job) float64 {
	v, _ := job.Number(Binding, "indicator_step", workflow.Both, quantity.Plain)
	return v
}

// screwsOfPiece is how many screws hold the toe piece and the heel piece of one
// ski.
func screwsOfPiece(job workflow.Job) (toe, heel int) {
	return count(job, Binding, "screws_toe", workflow.Both), count(job, Binding, "screws_heel", workflow.Both)
}
