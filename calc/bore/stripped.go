package bore

import (
	"fmt"

	"drillstop/calc"
	"drillstop/calc/quantity"
)

// redrillAway is the least distance, in mm, centre to centre, of a new hole
// from an old one.
// Source: common practice, no formal source.
const redrillAway quantity.Millimetre = 10

// Stripped gives the ways out when a thread has stripped: a plug and a new
// hole, or an insert. It says what is known and decides nothing.
//
// Source: plug with glue, 10 mm between holes: common practice, no formal
// source; inserts: from memory.
func Stripped(plan Plan, ski Ski) []calc.Finding {
	if f, bad := plan.unusable(); bad {
		return []calc.Finding{f}
	}
	return []calc.Finding{
		calc.Cautionf("bore.stripped-plug", practice,
			"A stripped screw holds nothing: glue a plug into the old hole, cut it flush, and drill %s anew at least %s from it, centre to centre%s.", plan.Marking(), redrillAway, tapWords(plan.Tap)),
		calc.Notef("bore.stripped-insert", "from memory",
			"Or set a threaded insert in the same place by its maker's sheet: it needs a wider hole than %s; %s.", plan.Diameter, thicknessWords(ski)),
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
