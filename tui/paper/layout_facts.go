package paper

import (
	"math"
	"strconv"
	"strings"

	"drillstop/calc/layout"
	"drillstop/calc/quantity"
	"drillstop/workflow"
)

// Layout is where the holes of a job lie, for a picture of both skis. Lengths
// are in mm: x from the mount mark to the tip, y to the skier's right.
type Layout struct {
	Pattern string      `json:"pattern,omitempty"`
	Skis    []LayoutSki `json:"skis"`
}

// LayoutSki is one ski of a Layout.
type LayoutSki struct {
	Side    workflow.Side `json:"ski"`
	Waist   float64       `json:"waist,omitempty"` // 0: not known
	Midsole *float64      `json:"midsole,omitempty"`
	Holes   []LayoutHole  `json:"holes"`
	Old     []LayoutHole  `json:"old,omitempty"` // there before
}

// LayoutHole is a hole of a LayoutSki.
type LayoutHole struct {
	N        int     `json:"n"` // in the screw order, or as it was written down
	X        float64 `json:"x"`
	Y        float64 `json:"y"`
	Diameter float64 `json:"diameter"`
	Depth    float64 `json:"depth,omitempty"`
}

// LayoutOf is the picture of a layout. The plan must be that of the spec.
func LayoutOf(spec *layout.Spec, plan layout.Plan) *Layout {
	l := &Layout{Pattern: spec.Pattern.Name}
	for _, side := range layout.Sides() {
		from := spec.Ski(side)
		midsole := tenth(spec.Mount.Shift + from.Correction)
		ski := LayoutSki{Side: workflow.Side(side), Waist: tenth(from.Width.Narrowest()), Midsole: &midsole}
		for _, h := range plan.On(side) {
			ski.Holes = append(ski.Holes, LayoutHole{N: h.N, X: tenth(h.X), Y: tenth(h.Y), Diameter: tenth(h.Diameter), Depth: tenth(h.Depth)})
		}
		for i, o := range from.Old {
			ski.Old = append(ski.Old, LayoutHole{N: i + 1, X: tenth(o.X), Y: tenth(o.Y), Diameter: tenth(o.Diameter), Depth: tenth(o.Depth)})
		}
		l.Skis = append(l.Skis, ski)
	}
	return l
}

// tenth is a length as it is printed: what no rule can measure is dropped.
func tenth(v quantity.Millimetre) float64 {
	const perMm = 10
	return math.Round(float64(v)*perMm)/perMm + 0
}

// layout is the layout that came with the ticket or, where none did, the one
// that the record of the drilled holes has; nil if there is none.
func (t Ticket) layout() *Layout {
	if t.Layout != nil {
		return t.Layout
	}
	job := t.View.Job
	var drilled string
	for _, e := range t.Entries {
		if now, ok := job.Answered(e.Step); ok && now.Seq == e.Seq {
			for _, f := range e.Figures {
				if f.Name == figureHoles && f.Record != "" {
					drilled = f.Record
				}
			}
		}
	}
	if drilled == "" {
		return nil
	}
	l := &Layout{}
	if pattern, ok := t.figure(figurePattern, stepMountPoint); ok {
		l.Pattern = pattern.Value
	}
	waist, _ := job.Number(stepSkis, fieldWaist, workflow.Both, quantity.MM)
	left, right, _ := strings.Cut(drilled, "|")
	for i, list := range []string{left, right} {
		side := workflow.Sides[i]
		ski := LayoutSki{Side: side, Waist: waist, Holes: recorded(list), Old: recorded(job.Text(stepOldHoles, fieldHoles, side))}
		if offset, ok := job.Number(stepMountPoint, fieldOffset, workflow.Both, quantity.MM); ok {
			ski.Midsole = &offset
		}
		l.Skis = append(l.Skis, ski)
	}
	if len(l.Skis[0].Holes) == 0 && len(l.Skis[1].Holes) == 0 {
		return nil
	}
	return l
}

// recorded reads holes as a record keeps them, "-124.5 18 4.1 9 open; …": x, y,
// diameter, if it is known the depth, and the state. What does not read is left
// out of the picture; the record still has it.
func recorded(list string) []LayoutHole {
	var holes []LayoutHole
	for i, part := range strings.Split(list, ";") {
		var v []float64
		for _, word := range strings.Fields(part) {
			if n, err := strconv.ParseFloat(word, 64); err == nil && math.Abs(n) <= longest {
				v = append(v, n)
			}
		}
		if len(v) < 3 || !(v[2] > 0) {
			continue
		}
		h := LayoutHole{N: i + 1, X: v[0], Y: v[1], Diameter: v[2]}
		if len(v) > 3 {
			h.Depth = v[3]
		}
		holes = append(holes, h)
	}
	return holes
}
