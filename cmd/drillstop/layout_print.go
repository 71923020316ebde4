package main

import (
	"fmt"
	"strings"

	"drillstop/calc/layout"
	"drillstop/calc/quantity"
	"drillstop/tui/draw"
	"drillstop/tui/paper"
)

// What a printed layout takes: the width of a plain terminal, and as many rows
// as two skis need.
const printedWidth, printedHeight = 80, 40

func (a *app) printLayout(l laid) error {
	r := layoutRecordOf(l)
	if a.json {
		return writeJSON(a.out, r)
	}
	a.print("\n  %s   sole %s   midsole %s\n\n", r.Pattern.Name, l.spec.Mount.Sole, onMark(l.spec.Mount.Shift))
	m := draw.MapOf(&l.spec, l.plan)
	m.Width, m.Height = printedWidth, printedHeight
	a.print("%s\n\n", strings.Join(m.Lines(), "\n"))
	a.printHoles(l.plan)
	a.printTravel(l)
	a.printMountPoints(l)
	a.print("\n  %s\n", shiftSentence(l))
	for i, f := range r.Findings {
		if i == 0 {
			a.print("\n")
		}
		a.print("  %s\n", paper.Finding(f))
	}
	a.print("\n  ! The binding maker's jig and instructions come first. Measure twice, mark every\n" +
		"    hole, and look at the marks before the drill turns.\n")
	return nil
}

func onMark(shift quantity.Millimetre) string {
	if shift == 0 {
		return "on the mark"
	}
	return layout.ShiftText(shift) + " of the mark"
}

// printHoles writes the left and the right ski in two columns.
func (a *app) printHoles(plan layout.Plan) {
	a.print("   n  piece   %-17s %-17s %s\n", "left x, y", "right x, y", "bit x depth, mm")
	left, right := plan.On(layout.Left), plan.On(layout.Right)
	for i, h := range left {
		a.print("  %2d  %-5s   %-17s %-17s %s%s\n", h.N, h.Piece, placeOf(h), placeOf(right[i]),
			plain(float64(h.Diameter))+" x "+plain(float64(h.Depth)), remark(h, right[i]))
	}
}

func placeOf(h layout.Hole) string { return fmt.Sprintf("%7.1f %7.1f", float64(h.X), float64(h.Y)) }

// remark says what is to be known of a hole on both skis.
func remark(left, right layout.Hole) string {
	said := ""
	if left.Locking {
		said += "   locks"
	}
	for _, h := range []layout.Hole{left, right} {
		switch h.Fate {
		case layout.Clashing:
			said += "   # " + string(h.Side)
		case layout.Reused:
			said += "   @ " + string(h.Side)
		case layout.New:
		}
	}
	return said
}

func (a *app) printTravel(l laid) {
	if l.plan.Boots.From <= l.plan.Boots.To {
		a.print("\n  Without a new hole this mount takes soles of %s.\n", l.plan.Boots)
	}
	for _, piece := range []struct {
		name string
		left layout.Travel
	}{{"Toe", l.plan.Toe}, {"Heel", l.plan.Heel}} {
		if piece.left != (layout.Travel{}) {
			a.print("  %s track: %.1f mm forward and %.1f mm back are left.\n", piece.name, float64(piece.left.Fore), float64(piece.left.Back))
		}
	}
	if s := l.shared; s != nil && s.Best != 0 {
		a.print("  For %s and %s drill the heel for %s (%s).\n  The second midsole then lies %s of the mark; with the mount\n  shifted %s both lie equally far off.\n",
			l.spec.Mount.Sole, l.also, s.Best, s.HeelFor, layout.ShiftText(s.SecondOff), layout.ShiftText(s.Share))
	} else if s != nil {
		a.print("  The tracks take %s and %s; nothing is drilled by the sole.\n", l.spec.Mount.Sole, l.also)
	}
}

func (a *app) printMountPoints(l laid) {
	for i, p := range l.points {
		a.print("  Mount point %s: %s.\n", layout.Sides()[i], p)
	}
	if l.points != nil && l.marks == nil {
		a.print("  Without --marks the middle of the chord stands for the mark.\n")
	}
}

// shiftSentence says which shifts clear, and which is the nearest.
func shiftSentence(l laid) string {
	if len(l.shifts.Clear) == 0 {
		return fmt.Sprintf("No shift from %s clears.", l.shifts.Window)
	}
	parts := make([]string, len(l.shifts.Clear))
	for i, free := range l.shifts.Clear {
		parts[i] = free.String()
	}
	said := "Clear shifts: " + strings.Join(parts, ", ") + "."
	if l.plan.Clear() {
		return said
	}
	if nearest, ok := l.shifts.Nearest(l.spec.Mount.Shift); ok {
		said += " Nearest: " + layout.ShiftText(nearest) + "."
	}
	return said
}
