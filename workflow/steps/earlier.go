package steps

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"drillstop/calc/layout"
	"drillstop/calc/quantity"
	"drillstop/workflow"
)

// holesOfEarlier makes a card of the holes that an earlier job left in the same
// pair: those it drilled and those it had found. A job that drilled counts
// however it ended, because the holes stayed; one that did not, only with what
// it found.
func holesOfEarlier(shop workflow.Shop, job, earlier workflow.Job, record []workflow.Entry) (workflow.Card, bool) {
	if !samePair(job, earlier) {
		return workflow.Card{}, false
	}
	left, right, err := oldHolesOf(shop, earlier, earlier.Answers(OldHoles))
	if err != nil {
		return workflow.Card{}, false // half of the holes is worse than none
	}
	drilled := drilledBy(shop, earlier, record)
	left, right = together(shop, drilled[0], left), together(shop, drilled[1], right)
	card := workflow.Card{Answers: workflow.Answers{}}
	for _, ski := range []struct {
		side  workflow.Side
		holes []layout.OldHole
	}{{workflow.Left, left}, {workflow.Right, right}} {
		if len(ski.holes) > 0 {
			card.Answers[workflow.Key("holes", ski.side)] = printHoleList(ski.holes)
		}
	}
	if len(card.Answers) == 0 {
		return workflow.Card{}, false
	}
	skier, ski, _ := Describe(earlier)
	card.About = fmt.Sprintf("%s, %s, %s: %s", ski, skier, earlier.OpenedAt.Format(time.DateOnly), onBoth(len(left), len(right)))
	return card, true
}

// samePair reports whether two jobs are about the same skis: by their serial
// number, or by model and skier where one of them has none.
func samePair(a, b workflow.Job) bool {
	serialA, serialB := a.Text(Skis, "serial", workflow.Both), b.Text(Skis, "serial", workflow.Both)
	if serialA != "" && serialB != "" {
		return strings.EqualFold(serialA, serialB)
	}
	same := func(step workflow.StepID) bool {
		name := a.Text(step, "name", workflow.Both)
		return name != "" && strings.EqualFold(name, b.Text(step, "name", workflow.Both))
	}
	return same(Skier) && same(Skis)
}

// drilledBy are the holes that a job drilled into the skis it has now, by ski: as
// its record holds them, or, where that is silent, as its pattern is now. Where
// it drilled more than once, for a mount point that was moved, all of them
// stayed in the ski.
func drilledBy(shop workflow.Shop, job workflow.Job, record []workflow.Entry) (holes [2][]layout.OldHole) {
	if _, ok := job.Answered(Holes); !ok {
		return holes
	}
	var skis workflow.Answers
	for _, e := range record {
		switch e.Step {
		case Skis:
			if skis != nil && workflow.Changed(skis, e.Answers, onThisPair("").Fields...) {
				holes = [2][]layout.OldHole{} // those are in another pair
			}
			skis = e.Answers
		case Holes:
			for i, list := range recordedHoles(e.Figures) {
				holes[i] = together(shop, list, holes[i])
			}
		}
	}
	if len(holes[0]) > 0 || len(holes[1]) > 0 {
		return holes
	}
	plan, ok := drilledPlan(shop, job)
	if !ok {
		return holes
	}
	for i, side := range layout.Sides() {
		holes[i] = asOld(plan.On(side))
	}
	return holes
}

// recordedHoles are the holes that the figures of a step keep, by ski.
func recordedHoles(figures []workflow.Figure) (holes [2][]layout.OldHole) {
	for _, f := range figures {
		if f.Name != figureHoles {
			continue
		}
		for i, text := range strings.SplitN(f.Record, recordBetween, len(holes)) {
			if list, err := parseHoleList(text); err == nil {
				holes[i] = list
			}
		}
	}
	return holes
}

// asOld are holes of a mount as the next one finds them: open once the binding
// is off.
func asOld(holes []layout.Hole) []layout.OldHole {
	old := make([]layout.OldHole, len(holes))
	for i, h := range holes {
		old[i] = layout.OldHole{X: hundredths(h.X), Y: hundredths(h.Y), Diameter: hundredths(h.Diameter), Depth: hundredths(h.Depth)}
	}
	return old
}

// together adds to the drilled holes those that were found before, but for the
// ones that were used again, or are known twice.
func together(shop workflow.Shop, drilled, found []layout.OldHole) []layout.OldHole {
	all := slices.Clone(drilled)
	for _, f := range found {
		again := false
		for _, d := range all {
			again = again || quantity.Millimetre(math.Hypot(float64(f.X-d.X), float64(f.Y-d.Y))) <= shop.Distances().Same+slack
		}
		if !again {
			f.X, f.Y = hundredths(f.X), hundredths(f.Y)
			all = append(all, f)
		}
	}
	return all
}
