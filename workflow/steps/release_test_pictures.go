package steps

import (
	"slices"

	"drillstop/calc/moment"
	"drillstop/calc/quantity"
	"drillstop/workflow"
)

// releaseTestFigures are the references, and what the readings came to once
// there are any.
func releaseTestFigures(shop workflow.Shop, job workflow.Job) []workflow.Figure {
	left, errLeft := releaseFor(shop, job, workflow.Left)
	right, errRight := releaseFor(shop, job, workflow.Right)
	if errLeft != nil || errRight != nil {
		return nil
	}
	figures := referenceFigures(left, right)
	for i, m := range []measurement{measurements()[0], measurements()[2]} {
		figures[i].Record = rowsBeside(shop, job, m)
	}
	figures = append(figures, chartFigure(left.Chart))
	for _, m := range measurements() {
		for _, side := range workflow.Sides {
			v, err := m.verdict(shop, job, side, job.Answers(ReleaseTest))
			if err != nil {
				continue // not read yet
			}
			figures = append(figures, workflow.Figure{
				Name:  "middle_" + workflow.Key(m.field, side),
				Label: m.words + ", " + string(side), Value: v.Middle.String(), Path: v.Sentence(),
			})
		}
	}
	return figures
}

// rowsShown is how many rows of the chart a picture shows to either side of the
// skier's: the in-use range ends there.
const rowsShown = 2

// bandsPictures are the three directions, each with the readings of both skis,
// or of one where the skis are judged by different rows.
func bandsPictures(shop workflow.Shop, job workflow.Job, typed workflow.Answers) []workflow.Picture {
	if isNotTested(typed) {
		return nil
	}
	var pictures []workflow.Picture
	for _, m := range measurements() {
		left, errLeft := m.scale(shop, job, workflow.Left)
		right, errRight := m.scale(shop, job, workflow.Right)
		if errLeft != nil || errRight != nil {
			return nil
		}
		if left.At == right.At {
			pictures = append(pictures, m.bands(shop, job, typed, left, m.words, workflow.Sides[:]))
			continue
		}
		pictures = append(pictures,
			m.bands(shop, job, typed, left, m.words+", left ski", workflow.Sides[:1]),
			m.bands(shop, job, typed, right, m.words+", right ski", workflow.Sides[1:]))
	}
	return pictures
}

// rowsBeside is the reference with the rows on either side, as the record keeps
// them for a picture: "rows 37, 43, 50, 58, 67 Nm"; "" where the skis have
// different rows, or none.
func rowsBeside(shop workflow.Shop, job workflow.Job, m measurement) string {
	left, errLeft := m.scale(shop, job, workflow.Left)
	right, errRight := m.scale(shop, job, workflow.Right)
	if errLeft != nil || errRight != nil || left.At != right.At {
		return ""
	}
	rows, _ := shownRows(left)
	return "rows " + quantity.PrintList(rows, quantity.NM)
}

// shownRows are the rows of a chart that a picture shows, and which of them is
// the skier's own.
func shownRows(scale moment.Scale) (rows []float64, at int) {
	from, to := max(scale.At-rowsShown, 0), min(scale.At+rowsShown+1, len(scale.Moments))
	for _, row := range scale.Moments[from:to] {
		rows = append(rows, float64(row))
	}
	return rows, scale.At - from
}

func (m measurement) bands(
	shop workflow.Shop, job workflow.Job, typed workflow.Answers, scale moment.Scale, title string, sides []workflow.Side,
) workflow.Picture {
	p := &workflow.BandsPicture{Title: title}
	p.Rows, p.At = shownRows(scale)
	for i, side := range workflow.Sides {
		if !slices.Contains(sides, side) {
			continue
		}
		p.Readings[i] = typed.List(m.field, side, quantity.NM)
		if v, err := m.verdict(shop, job, side, typed); err == nil {
			p.Middle[i], p.Mark[i] = float64(v.Middle), markOf(v)
		}
	}
	return workflow.Picture{Bands: p}
}

// markOf is a verdict as one character.
func markOf(v moment.Verdict) workflow.Mark {
	switch v.Action {
	case moment.Keep:
		return workflow.MarkKept
	case moment.Correct:
		return workflow.MarkCaution
	case moment.SeekCause, moment.TakeOut:
	}
	return workflow.MarkStop
}
