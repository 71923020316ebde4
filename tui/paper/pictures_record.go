package paper

import (
	"slices"
	"strings"

	"drillstop/calc/quantity"
	"drillstop/workflow"
)

// allPictures are those of the ticket. The scales are drawn from the same record
// as the table above them, so that both always say the same. A job that has
// ended has all its pictures from its record: no chart and no rule of today has
// a part in them, and of a test only the skier's own reference is known, not the
// rows around it.
func (t Ticket) allPictures() []StepPicture {
	scales := t.recordedScales()
	if t.View.Job.State != workflow.Open {
		return slices.Concat(t.recordedWindow(), scales, t.recordedBands())
	}
	if len(scales) == 0 {
		return t.Pictures
	}
	for _, p := range t.Pictures {
		if p.Picture.Scale == nil {
			scales = append(scales, p)
		}
	}
	return scales
}

func (t Ticket) recordedScales() []StepPicture {
	job := t.View.Job
	mark := func(id workflow.FieldID) float64 {
		v, _ := job.Number(stepBinding, id, workflow.Both, quantity.Plain)
		return v
	}
	p := bareScale{Low: mark(fieldScaleMin), High: mark(fieldScaleMax), Step: mark(fieldScaleStep)}
	if _, set := job.Answered(stepRelease); !set || p.Low >= p.High {
		return nil
	}
	facts := t.scales()
	var all []StepPicture
	for i, s := range scaleFields {
		left, right := facts[i], facts[i+len(scaleFields)]
		if left.Computed == right.Computed {
			all = append(all, p.of(s.piece, left.Computed, left, right))
			continue
		}
		for _, ski := range []ScaleFact{left, right} {
			all = append(all, p.of(s.piece+", "+string(ski.Side)+" ski", ski.Computed, ski))
		}
	}
	return all
}

// bareScale is a binding's scale with nothing on it.
type bareScale workflow.ScalePicture

// of is the scale with what is known of one ski, or of both.
func (p bareScale) of(title, computed string, skis ...ScaleFact) StepPicture {
	number := func(text string) float64 {
		v, err := quantity.Parse(text, quantity.Plain)
		if err != nil {
			return 0
		}
		return v
	}
	p.Title, p.Computed = title, number(computed)
	for _, ski := range skis {
		i := 0
		if ski.Side == workflow.Right {
			i = 1
		}
		p.Set[i], p.Corrected[i] = number(ski.Set), number(ski.Corrected)
	}
	scale := workflow.ScalePicture(p)
	return StepPicture{stepRelease, workflow.Picture{Scale: &scale}}
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
		name, title := figureTwist, string(id)
		if id == fieldForward {
			name = figureForward
		}
		for _, f := range sv.Step.Fields {
			if f.ID == id {
				title = f.Label
			}
		}
		reference, _ := t.figure(name, stepReleaseTest)
		left, right := ofSki(reference.Value, workflow.Left), ofSki(reference.Value, workflow.Right)
		if left == right {
			all = append(all, withRows(t.bands(id, title, left, workflow.Sides[:]), reference.Record)...)
			continue
		}
		all = append(all, t.bands(id, title+", left ski", left, workflow.Sides[:1])...)
		all = append(all, t.bands(id, title+", right ski", right, workflow.Sides[1:])...)
	}
	return all
}

// withRows puts the rows on either side of the reference into pictures, where
// the record has kept them.
func withRows(pictures []StepPicture, record string) []StepPicture {
	rows, err := quantity.ParseList(strings.TrimPrefix(record, "rows "), quantity.NM, 0)
	for _, p := range pictures {
		bands := p.Picture.Bands
		if at := slices.Index(rows, bands.Rows[bands.At]); err == nil && at >= 0 {
			bands.Rows, bands.At = rows, at
		}
	}
	return pictures
}

// bands are the readings of one direction on some skis against their reference;
// none where nothing was read.
func (t Ticket) bands(id workflow.FieldID, title, reference string, sides []workflow.Side) []StepPicture {
	own, err := quantity.Parse(reference, quantity.NM)
	if err != nil {
		return nil
	}
	p, some := workflow.BandsPicture{Title: title, Rows: []float64{own}}, false
	for i, side := range workflow.Sides {
		if !slices.Contains(sides, side) {
			continue
		}
		p.Readings[i] = t.View.Job.List(stepReleaseTest, id, side, quantity.NM)
		some = some || len(p.Readings[i]) > 0
		if middle, ok := t.figure(figureMiddle+workflow.Key(id, side), stepReleaseTest); ok {
			if v, err := quantity.Parse(middle.Value, quantity.NM); err == nil {
				p.Middle[i] = v
			}
		}
	}
	if !some {
		return nil
	}
	return []StepPicture{{stepReleaseTest, workflow.Picture{Bands: &p}}}
}
