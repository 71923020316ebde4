package paper

import (
	"strings"

	"drillstop/calc/quantity"
	"drillstop/workflow"
)

// recordPictures makes the pictures of a job that has ended from its record
// alone: no chart and no rule of today has a part in them. Of a test only the
// skier's own reference is on record, not the rows around it.
func (t Ticket) recordPictures() []StepPicture {
	var all []StepPicture
	all = append(all, t.recordedWindow()...)
	all = append(all, t.recordedScales()...)
	return append(all, t.recordedBands()...)
}

func (t Ticket) recordedScales() []StepPicture {
	job := t.View.Job
	number := func(step workflow.StepID, id workflow.FieldID, side workflow.Side) float64 {
		v, _ := job.Number(step, id, side, quantity.Plain)
		return v
	}
	p := workflow.ScalePicture{
		Low: number(stepBinding, fieldScaleMin, workflow.Both), High: number(stepBinding, fieldScaleMax, workflow.Both),
		Step: number(stepBinding, fieldScaleStep, workflow.Both),
	}
	if _, set := job.Answered(stepRelease); !set || p.Low >= p.High {
		return nil
	}
	value, _ := t.figure(figureValue, stepRelease)
	var all []StepPicture
	for _, s := range scaleFields {
		p := p
		p.Title = s.piece
		left, right := onSki(value.Value, workflow.Left, s.piece), onSki(value.Value, workflow.Right, s.piece)
		if left == right { // else one mark would stand for two values
			p.Computed, _ = quantity.Parse(left, quantity.Plain)
		}
		for i, side := range workflow.Sides {
			p.Set[i] = number(stepRelease, s.set, side)
			p.Corrected[i] = number(stepCorrection, s.corrected, side)
		}
		all = append(all, StepPicture{stepRelease, workflow.Picture{Scale: &p}})
	}
	return all
}

func (t Ticket) recordedWindow() []StepPicture {
	p := workflow.WindowPicture{Title: "forward pressure"}
	some := false
	for i, side := range workflow.Sides {
		p.Found[i] = t.View.Job.Text(stepPressure, fieldFound, side)
		p.Left[i] = t.View.Job.Text(stepPressure, fieldIndicator, side)
		some = some || p.Left[i] != ""
	}
	if !some {
		return nil
	}
	return []StepPicture{{stepPressure, workflow.Picture{Window: &p}}}
}

func (t Ticket) recordedBands() []StepPicture {
	sv, _ := t.View.Step(stepReleaseTest)
	var all []StepPicture
	for _, id := range readingFields {
		name := figureTwist
		if id == readingFields[len(readingFields)-1] {
			name = figureForward
		}
		reference, _ := t.figure(name, stepReleaseTest)
		own, err := quantity.Parse(reference.Value, quantity.NM)
		if err != nil {
			continue // apart for each ski, or not there
		}
		p := workflow.BandsPicture{Title: string(id), Rows: []float64{own}}
		for _, f := range sv.Step.Fields {
			if f.ID == id {
				p.Title = f.Label
			}
		}
		some := false
		for i, side := range workflow.Sides {
			p.Readings[i] = t.View.Job.List(stepReleaseTest, id, side, quantity.NM)
			some = some || len(p.Readings[i]) > 0
			if middle, ok := t.figure(figureMiddle+workflow.Key(id, side), stepReleaseTest); ok {
				p.Middle[i], _ = quantity.Parse(strings.TrimSpace(middle.Value), quantity.NM)
			}
		}
		if some {
			all = append(all, StepPicture{stepReleaseTest, workflow.Picture{Bands: &p}})
		}
	}
	return all
}
