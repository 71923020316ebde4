package bore

import (
	"math"

	"drillstop/calc"
	"drillstop/calc/quantity"
)

// How far a gauged hole, or a stop tried on scrap, may be off the planned
// depth, in mm: up to the first it is as planned, up to the second a caution
// on a drilled hole, beyond it a stop. Our rule; a laboratory hole for screw
// tests holds its penetration to 0.2 mm (ISO 6005:1991).
const (
	depthTolerance quantity.Millimetre = 0.3
	depthLimit     quantity.Millimetre = 0.5
)

// gaugedMost is the deepest hole, in mm, that is taken as gauged at all. Our
// rule.
const gaugedMost quantity.Millimetre = 20

// How far a bit may be off the planned diameter, in mm: up to the first it
// fits (3.6 does for 3.5), up to the second it is a caution. Our rule.
const (
	bitTolerance quantity.Millimetre = 0.1
	bitLimit     quantity.Millimetre = 0.2
)

// Gauge judges one drilled hole by its gauged depth and the thickness of the
// ski there, in mm; thickness 0 = not measured.
//
// Through the base is a stop that nobody may waive, and so is a number that
// cannot be. More than 0.3 mm off the plan is a caution, more than 0.5 mm a
// stop; so is a hole in which the longer of the plan's screws would meet the
// bottom, and one that leaves less than 2 mm of ski.
//
// Source: our rule.
func Gauge(plan Plan, thickness, depth quantity.Millimetre) []calc.Finding {
	if f, bad := plan.unusable(); bad {
		return []calc.Finding{f}
	}
	if thickness != 0 && !within(thickness, thicknessMin, thicknessMax) {
		return []calc.Finding{through(calc.Stopf("bore.thickness-unusable", ourRule,
			"Ski thickness %s cannot be: it lies between %s and %s, measure again.", thickness, thicknessMin, thicknessMax))}
	}
	if thickness != 0 && depth >= thickness-slack {
		return []calc.Finding{through(calc.Stopf("bore.through", ourRule,
			"The hole is gauged %s deep in a ski %s thick: it is through the base; this ski goes to the base repair first.", depth, thickness))}
	}
	if !(depth > 0) || depth > gaugedMost {
		return []calc.Finding{through(calc.Stopf("bore.depth-unusable", ourRule,
			"Gauged depth %s cannot be: it lies above 0 and not above %s, gauge again.", depth, gaugedMost))}
	}
	found := plan.depthFindings(depth)
	if longest := max(plan.Toe.Screw, plan.Heel.Screw); longest > depth-(bottomRoom-depthTolerance)+slack {
		found = append(found, calc.Stopf("bore.bottoms", ourRule,
			"A screw that reaches %s meets the bottom of this hole of %s and lifts the plate: drill on to %s.", longest, depth, plan.Depth))
	}
	if thickness == 0 {
		return append(found, calc.Cautionf("bore.not-measured", ourRule,
			"The ski is not measured here: nobody can say what is left under this hole of %s; measure its thickness.", depth))
	}
	return append(found, underFindings("", thickness, depth)...)
}

// depthFindings compares a gauged depth with the plan.
func (p Plan) depthFindings(depth quantity.Millimetre) []calc.Finding {
	off := less(depth, p.Depth)
	size := quantity.Millimetre(math.Abs(float64(off)))
	if size <= depthTolerance+slack {
		return nil
	}
	code, text := "bore.shallow", "The hole is gauged %s deep, %s less than the planned %s: drill on with the same stop, held square."
	if off > 0 {
		code, text = "bore.deep", "The hole is gauged %s deep, %s more than the planned %s: set the stop again before the next hole; whether this one may stay is for a supervisor to say."
	}
	if size > depthLimit+slack {
		return []calc.Finding{calc.Stopf(code, ourRule, text, depth, size, p.Depth)}
	}
	return []calc.Finding{calc.Cautionf(code, ourRule, text, depth, size, p.Depth)}
}

// BitFits judges a bit by its diameter measured with calipers, in mm. Up to 0.1
// mm off the plan fits, up to 0.2 mm is a caution, more a stop; what is no bit
// for a binding screw at all (outside 2 to 8 mm) cannot be waived.
//
// Source: our rule.
func BitFits(plan Plan, measured quantity.Millimetre) []calc.Finding {
	if f, bad := plan.unusable(); bad {
		return []calc.Finding{f}
	}
	if !within(measured, diameterMin, diameterMax) {
		return []calc.Finding{through(calc.Stopf("bore.bit-unusable", ourRule,
			"A bit of %s is none for a binding screw: measure it with calipers, it lies between %s and %s.", measured, diameterMin, diameterMax))}
	}
	off := less(measured, plan.Diameter)
	size := quantity.Millimetre(math.Abs(float64(off)))
	if size <= bitTolerance+slack {
		return nil
	}
	code, text := "bore.bit-narrow", "The bit is %s, %s narrower than the hole of %s: the screw may jam or split the ski; take a bit of %[3]s."
	if off > 0 {
		code, text = "bore.bit-wide", "The bit is %s, %s wider than the hole of %s: the thread finds too little to hold; take a bit of %[3]s."
	}
	if size > bitLimit+slack {
		return []calc.Finding{calc.Stopf(code, ourRule, text, measured, size, plan.Diameter)}
	}
	return []calc.Finding{calc.Cautionf(code, ourRule, text, measured, size, plan.Diameter)}
}

// StopFits judges a drill stop by the depth, in mm, of the hole it made in
// scrap. More than 0.3 mm off the plan is a stop, since setting it again costs
// nothing; a depth that would go through the ski cannot be waived, nor can a
// number that is none.
//
// Source: our rule.
func StopFits(plan Plan, tried quantity.Millimetre) []calc.Finding {
	if f, bad := plan.unusable(); bad {
		return []calc.Finding{f}
	}
	for _, place := range []Place{plan.Toe, plan.Heel} {
		if place.Measured && tried >= place.Thickness-slack {
			return []calc.Finding{through(calc.Stopf("bore.stop-through", ourRule,
				"The stop let the bit %s deep into the scrap, and the ski is %s thick: it would go through the base; set it to %s.", tried, place.Thickness, plan.Depth))}
		}
	}
	if !(tried > 0) || tried > gaugedMost {
		return []calc.Finding{through(calc.Stopf("bore.depth-unusable", ourRule,
			"Depth %s in the scrap cannot be: it lies above 0 and not above %s, gauge again.", tried, gaugedMost))}
	}
	off := less(tried, plan.Depth)
	size := quantity.Millimetre(math.Abs(float64(off)))
	switch {
	case size <= depthTolerance+slack:
		return nil
	case off > 0:
		return []calc.Finding{calc.Stopf("bore.stop-deep", ourRule,
			"The stop let the bit %s deep into the scrap, %s more than the planned %s: set it again and try it once more.", tried, size, plan.Depth)}
	}
	return []calc.Finding{calc.Stopf("bore.stop-shallow", ourRule,
		"The stop held the bit at %s in the scrap, %s less than the planned %s: set it again and try it once more.", tried, size, plan.Depth)}
}

// unusable says that a plan was not made by For, and why nothing can be
// judged by it.
func (p Plan) unusable() (calc.Finding, bool) {
	if within(p.Diameter, diameterMin, diameterMax) && within(p.Depth, depthMin, depthMax) {
		return calc.Finding{}, false
	}
	return through(calc.Stopf("bore.no-plan", ourRule,
		"There is no planned hole to compare with: answer ski and binding first.")), true
}
