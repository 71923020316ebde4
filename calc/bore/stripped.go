package bore

import (
	"fmt"

	"drillstop/calc"
	"drillstop/calc/quantity"
)

// redrillAway is the least distance, in mm, centre to centre, of new holes from
// old ones: the whole binding moves by it, since no screw of a plate can move
// alone.
// Source: common practice, no formal source.
const redrillAway quantity.Millimetre = 10

// Stripped gives the ways out when a thread has stripped: an insert, or plugs and
// the whole binding at another place. It says what is known and decides nothing.
//
// Source: plug with glue, 10 mm between holes: common practice, no formal
// source; inserts: from memory.
func Stripped(plan Plan, ski Ski) []calc.Finding {
	if f, bad := plan.unusable(); bad {
		return []calc.Finding{f}
	}
	return []calc.Finding{
		calc.Cautionf("bore.stripped-plug", practice,
			"A stripped screw holds nothing: an insert as the maker says, or move the whole binding at least %s and begin again at the mount point; glue plugs into the old holes and cut them flush.", redrillAway),
		calc.Notef("bore.stripped-insert", "from memory",
			"A threaded insert goes in the same place by its maker's sheet: it needs a wider hole than %s; %s.", plan.Diameter, thicknessWords(ski)),
	}
}

// thicknessWords says how much ski there is for an insert.
func thicknessWords(ski Ski) string {
	known := func(what string, t quantity.Millimetre) string {
		if !within(t, thicknessMin, thicknessMax) {
			return "not measured at the " + what + " piece"
		}
		return fmt.Sprintf("%s thick at the %s piece", t, what)
	}
	return "the ski is " + known("toe", ski.ThicknessToe) + ", " + known("heel", ski.ThicknessHeel)
}
