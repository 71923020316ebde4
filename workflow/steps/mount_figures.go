package steps

import (
	"fmt"
	"strings"

	"drillstop/calc/layout"
	"drillstop/calc/quantity"
	"drillstop/workflow"
)

// figureHoles is the figure whose record holds where the holes of a job lie.
const figureHoles = "holes"

// recordBetween stands between the holes of the left and of the right ski.
const recordBetween = " | "

// mountFigures are the layout in numbers. Before the mount point is answered
// they are those of a boot on the mark.
func mountFigures(shop workflow.Shop, job workflow.Job) []workflow.Figure {
	figures := chordFigures(job)
	spec, ok := mountSpec(shop, job)
	if !ok {
		return figures
	}
	plan, err := spec.Plan()
	if err != nil {
		return figures
	}
	shift := spec.Mount.Shift
	figures = append(figures,
		workflow.Figure{Name: "pattern", Label: "pattern", Value: spec.Pattern.Name},
		workflow.Figure{Name: "shift", Label: "shift", Value: centimetresToo(shift)},
		workflow.Figure{Name: "heel_track", Label: "heel track left", Value: travelText(plan.Heel)},
		workflow.Figure{Name: "other_boots", Label: "takes boots", Value: bootsText(plan.Boots)})
	shifts, err := spec.Shifts(shiftWindow(shift))
	if err != nil {
		return figures
	}
	near := nearestClear(shifts, shift)
	if near == "" {
		near = "none within " + shifts.Window.String()
	}
	return append(figures, workflow.Figure{Name: "nearest_clear_shift", Label: "clear at", Value: near})
}

func travelText(left layout.Travel) string {
	switch {
	case left.Fore < 0 || left.Back < 0:
		return "beyond its end"
	case left.Fore == 0 && left.Back == 0:
		return "it does not slide"
	}
	return fmt.Sprintf("%s forward, %s back", tenths(left.Fore), tenths(left.Back))
}

func bootsText(boots layout.Interval) string {
	switch {
	case boots.From > boots.To+slack:
		return "none"
	case boots.From >= boots.To-slack:
		return tenths(boots.From)
	}
	return strings.TrimSuffix(tenths(boots.From), " mm") + " to " + tenths(boots.To)
}

// tenths prints a length for the eye.
func tenths(v quantity.Millimetre) string {
	return quantity.Print(float64(hundredths(v)), quantity.MM)
}

// holesFigures are the holes of the job in the order of their screws, and for
// the record where each of them lies.
func holesFigures(shop workflow.Shop, job workflow.Job) []workflow.Figure {
	plan, ok := drilledPlan(shop, job)
	if !ok {
		return nil
	}
	left, right := newHoles(plan, layout.Left), newHoles(plan, layout.Right)
	return []workflow.Figure{{
		Name: figureHoles, Label: "to drill", Value: onBoth(left, right), Path: orderText(plan),
		Record: printHoleList(asOld(plan.On(layout.Left))) + recordBetween + printHoleList(asOld(plan.On(layout.Right))),
	}}
}

// screwFigures are the screws in their order.
func screwFigures(shop workflow.Shop, job workflow.Job) []workflow.Figure {
	plan, ok := drilledPlan(shop, job)
	if !ok {
		return nil
	}
	n := len(plan.On(layout.Left))
	return []workflow.Figure{{Name: "screws", Label: "screws", Value: onBoth(n, n), Path: orderText(plan)}}
}

// newHoles is how many holes of a ski are to be drilled: those that are not an
// old one used again.
func newHoles(plan layout.Plan, side layout.Side) int {
	return len(plan.On(side)) - reusedHoles(plan, side)
}

func reusedHoles(plan layout.Plan, side layout.Side) int {
	n := 0
	for _, h := range plan.On(side) {
		if h.Fate == layout.Reused {
			n++
		}
	}
	return n
}

// orderText says which numbers a piece has, which of them lock it, and which
// holes are used again: "toe 1 to 5 (1 locks it), heel 6 to 9; left used again: 3".
func orderText(plan layout.Plan) string {
	var pieces []string
	holes := plan.On(layout.Left)
	for i := 0; i < len(holes); {
		last := i
		var locks []string
		for ; last < len(holes) && holes[last].Piece == holes[i].Piece; last++ {
			if holes[last].Locking {
				locks = append(locks, fmt.Sprint(holes[last].N))
			}
		}
		text := fmt.Sprintf("%s %d", holes[i].Piece, holes[i].N)
		if last > i+1 {
			text += fmt.Sprintf(" to %d", holes[last-1].N)
		}
		if len(locks) > 0 {
			text += " (" + strings.Join(locks, ", ") + " first, to lock it)"
		}
		pieces = append(pieces, text)
		i = last
	}
	text := strings.Join(pieces, ", ")
	for _, side := range layout.Sides() {
		var again []string
		for _, h := range plan.On(side) {
			if h.Fate == layout.Reused {
				again = append(again, fmt.Sprint(h.N))
			}
		}
		if len(again) > 0 {
			text += fmt.Sprintf("; %s used again: %s", side, strings.Join(again, ", "))
		}
	}
	return text
}
