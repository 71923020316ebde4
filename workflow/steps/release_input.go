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
	case requestRisk:
		return release.OwnRisk
	}
	return release.AsComputed
}

// skierAlone is what the chart says of this skier whatever the boot is. It fails
// where the skier alone is an obstacle: a mass or height outside the chart, a
// type that leaves it, what is never raised for the lightest.
//
// The chart is asked with one sole length after the other until one has a value.
// What it says of a sole is not passed on.
func skierAlone(shop workflow.Shop, job workflow.Job) (release.Result, error) {
	in := releaseInput(job, workflow.Left)
	for in.Sole = quantity.MinSole; in.Sole <= quantity.MaxSole; in.Sole += soleAsked {
		r, err := chartValue(shop, in)
		var fault *calc.Fault
		if errors.As(err, &fault) && (fault.Code == "release.blank-cell" || fault.Code == "release.sole-range") {
			continue
		}
		return r, err
	}
	return release.Result{}, nil
}

// soleAsked is the step in which skierAlone goes through the sole lengths, in
// mm: no column of a chart is narrower.
const soleAsked quantity.Millimetre = 5

// ofSkierAlone are the findings of a value that are about the skier's numbers
// and not about the value: they are asked after while the skier is taken in.
var ofSkierAlone = []string{"release.mass-height", "release.height-edge"}

// ofOwnRisk are the stops of a value that the skier chose beyond what may be
// asked for: they hold the job at the fit check, before a hole is drilled.
var ofOwnRisk = []string{"release.own-risk-toe", "release.own-risk-heel"}

// chartEdition names the chart in force, as the source of what it refuses.
func chartEdition(shop workflow.Shop) string {
	if shop.Chart == nil {
		return ourRule
	}
	return shop.Chart.Identity().Edition
}
