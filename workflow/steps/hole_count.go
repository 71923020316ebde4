package steps

import (
	"fmt"

	"drillstop/calc/layout"
	"drillstop/calc/quantity"
	"drillstop/workflow"
)

// mostHoles is the largest number of holes or screws that one ski is asked for.
// Our own limit: bindings have 8 to 16.
const mostHoles = 40

// holeCount is a field for a number of holes or screws on each ski, up to
// to most. It refuses as whole does.
func holeCount(id workflow.FieldID, label, hint string, most float64) workflow.Field {
	return whole(workflow.Field{ID: id, Label: label, Hint: hint, Max: most, PerSki: true})
}

// drilledHoles is how many holes were drilled into one ski; false where that
// was not answered.
func drilledHoles(job workflow.Job, side workflow.Side) (float64, bool) {
	return job.Number(Holes, "drilled", side, quantity.Plain)
}

// wantedHoles is how many holes are drilled into one ski under the toe piece,
// and behind it, and how many old ones take a screw again.
type wantedHoles struct {
	toe, heel, again int
	byPattern        bool
}

// String says the numbers within a sentence.
func (w wantedHoles) String() string {
	switch {
	case !w.byPattern:
		return fmt.Sprintf("the binding has %d screws (toe %d, heel %d)", w.toe+w.heel, w.toe, w.heel)
	case w.again > 0:
		return fmt.Sprintf("the pattern wants %d new ones (toe %d, the rest %d) and uses %d old ones again", w.toe+w.heel, w.toe, w.heel, w.again)
	}
	return fmt.Sprintf("the pattern wants %d (toe %d, the rest %d)", w.toe+w.heel, w.toe, w.heel)
}

// holesWanted counts by the hole pattern, or by the screws of the binding where
// no pattern was named.
func holesWanted(shop workflow.Shop, job workflow.Job, side workflow.Side) wantedHoles {
	plan, ok := drilledPlan(shop, job)
	if !ok {
		toe, heel := screwsOfPiece(job)
		return wantedHoles{toe: toe, heel: heel}
	}
	wanted := wantedHoles{byPattern: true}
	for _, h := range plan.On(layout.Side(side)) {
		switch {
		case h.Fate == layout.Reused:
			wanted.again++
		case h.Piece == layout.Toe:
			wanted.toe++
		default:
			wanted.heel++
		}
	}
	return wanted
}

// holesToFill is how many holes of one ski get glue and a screw: the drilled
// ones and those that are used again; false where the drilled were not counted.
func holesToFill(shop workflow.Shop, job workflow.Job, side workflow.Side) (fill, again float64, ok bool) {
	drilled, ok := drilledHoles(job, side)
	if !ok {
		return 0, 0, false
	}
	again = float64(holesWanted(shop, job, side).again)
	return drilled + again, again, true
}

// andAgain says within a sentence how many old holes are used again; "" for
// none.
func andAgain(again float64) string {
	if again == 0 {
		return ""
	}
	return fmt.Sprintf(" and %.0f used again", again)
}
