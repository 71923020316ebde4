package steps

import (
	"errors"

	"drillstop/calc"
	"drillstop/calc/quantity"
	"drillstop/calc/release"
	"drillstop/workflow"
)

// releaseFor asks the chart in force for the value of the job's skier and the
// boot on that side. Its faults are those of release.Chart.Value, which also
// names what was not answered yet, and "release.no-chart".
func releaseFor(shop workflow.Shop, job workflow.Job, side workflow.Side) (release.Result, error) {
	return chartValue(shop, releaseInput(job, side))
}

func chartValue(shop workflow.Shop, in release.Input) (release.Result, error) {
	if shop.Chart == nil {
		return release.Result{}, calc.Faultf("release.no-chart", "No release chart is loaded: without one there is no value.")
	}
	return shop.Chart.Value(in)
}

// releaseInput takes from the job what the chart is asked with; what was not
// answered stays empty, and the chart refuses it.
func releaseInput(job workflow.Job, side workflow.Side) release.Input {
	mass, _ := job.Number(Skier, "mass", workflow.Both, quantity.KG)
	height, _ := job.Number(Skier, "height", workflow.Both, quantity.CM)
	age, _ := job.Number(Skier, "age", workflow.Both, quantity.Years)
	in := release.Input{
		Mass: quantity.Kilogram(mass), Height: quantity.Centimetre(height), Age: int(age),
		Sole: millimetres(job, Boots, "sole", side),
		Toe:  wishOf(job, "request_toe"), Heel: wishOf(job, "request_heel"),
	}
	if t, err := release.ParseType(job.Text(Skier, "type", workflow.Both)); err == nil {
		in.Type = t
	}
	return in
}

func wishOf(job workflow.Job, id workflow.FieldID) release.Wish {
	switch job.Text(Skier, id, workflow.Both) {
	case requestLower:
		return release.Lower
	case requestHigher:
		return release.Higher
	}
	return release.AsComputed
}

// skierFault is what the chart refuses of this skier whatever the boot is: a
// mass or height outside it, a type that leaves it, what is never raised for
// the lightest. nil where the skier alone is no obstacle.
//
// The chart is asked with the shortest sole there is, and what it then says of
// the sole is not passed on.
func skierFault(shop workflow.Shop, job workflow.Job) error {
	in := releaseInput(job, workflow.Left)
	in.Sole = quantity.MinSole
	_, err := chartValue(shop, in)
	var fault *calc.Fault
	if errors.As(err, &fault) && (fault.Code == "release.blank-cell" || fault.Code == "release.sole-range") {
		return nil
	}
	return err
}

// chartEdition names the chart in force, as the source of what it refuses.
func chartEdition(shop workflow.Shop) string {
	if shop.Chart == nil {
		return ourRule
	}
	return shop.Chart.Identity().Edition
}
