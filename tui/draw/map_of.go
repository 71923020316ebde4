package draw

import (
	"drillstop/calc/layout"
	"drillstop/calc/quantity"
)

// around is how much ski is shown beyond the boot and its holes, in mm: a mount
// point can be moved that far before the picture moves.
const around = 22

// MapOf makes the map of a layout, without the room it has: both skis with
// their holes, and the stretch of ski that they take with the boot on the mark.
// The plan must be that of the spec.
func MapOf(spec *layout.Spec, plan layout.Plan) Map {
	m := Map{
		From: -float64(spec.Mount.Sole) / 2, To: float64(spec.Mount.Sole) / 2,
	}
	for _, side := range layout.Sides() {
		ski := mapSki(spec, plan, side)
		for _, h := range ski.Holes {
			if h.N > 0 {
				m.From, m.To = min(m.From, h.X-ski.Shift), max(m.To, h.X-ski.Shift)
			}
		}
		m.Skis = append(m.Skis, ski)
	}
	m.From, m.To = m.From-around, m.To+around
	for _, ski := range m.Skis {
		for _, h := range ski.Holes {
			if h.N > 0 {
				m.From, m.To = min(m.From, h.X-1), max(m.To, h.X+1)
			}
		}
		m.From, m.To = min(m.From, ski.Heel-1), max(m.To, ski.Toe+1)
	}
	return m
}

func mapSki(spec *layout.Spec, plan layout.Plan, side layout.Side) MapSki {
	from := spec.Ski(side)
	ski := MapSki{
		Name:  string(side),
		Heel:  float64(spec.Mount.BootHeel() + from.Correction),
		Toe:   float64(spec.Mount.BootToe() + from.Correction),
		Shift: float64(spec.Mount.Shift + from.Correction),
	}
	ski.Says = "midsole on the mark"
	if at := spec.Mount.Shift + from.Correction; at != 0 {
		ski.Says = "midsole " + layout.ShiftText(at) + " of the mark"
	}
	if from.Width.Known() {
		ski.Breadth = breadth(from.Width)
	}
	inWay, again := touched(plan, side)
	for _, h := range plan.On(side) {
		ski.Holes = append(ski.Holes, MapHole{X: float64(h.X), Y: float64(h.Y), Mark: mapMark(h.Fate), N: h.N})
	}
	for i, o := range from.Old {
		if again[i+1] && !inWay[i+1] {
			continue // the new hole stands for both
		}
		ski.Holes = append(ski.Holes, MapHole{X: float64(o.X), Y: float64(o.Y), Mark: oldMark(o, inWay[i+1])})
	}
	return ski
}

// touched are the old holes, by number, that stand in the way and those that
// are used again.
func touched(plan layout.Plan, side layout.Side) (inWay, again map[int]bool) {
	inWay, again = map[int]bool{}, map[int]bool{}
	for _, c := range plan.Clashes {
		if c.Side == side && (c.Kind == layout.NearOldHole || c.Kind == layout.WideOldHole) {
			inWay[c.Other] = true
		}
	}
	for _, h := range plan.On(side) {
		again[h.Reuses] = true
	}
	return inWay, again
}

func mapMark(fate layout.Fate) MapMark {
	switch fate {
	case layout.Clashing:
		return MapClash
	case layout.Reused:
		return MapAgain
	case layout.New:
	}
	return MapNew
}

func oldMark(o layout.OldHole, inWay bool) MapMark {
	switch {
	case inWay:
		return MapInWay
	case o.Plugged:
		return MapPlugged
	}
	return MapOld
}

// breadth is the width of the ski, its narrowest where it was not measured.
func breadth(w layout.Width) func(float64) float64 {
	return func(x float64) float64 {
		if at, ok := w.At(quantity.Millimetre(x)); ok {
			return float64(at)
		}
		return float64(w.Narrowest())
	}
}
