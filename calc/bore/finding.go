package bore

import (
	"drillstop/calc"
	"drillstop/calc/quantity"
)

// How much of a screw must bite, in mm, about four threads.
// Source: common practice, no formal source.
const biteLeast quantity.Millimetre = 6

// biteHolds is the bite, in mm, below which a screw does not hold at all, so
// that nobody may let it pass. Our rule.
const biteHolds quantity.Millimetre = 4

// bottomRoom is how much deeper, in mm, than the screw reaches a hole is
// planned: a screw that meets the bottom lifts the plate. Our rule.
const bottomRoom quantity.Millimetre = 0.5

// What must be left of the ski under a hole, in mm: below the first nobody may
// let it pass, below the floor it is a stop, below the last a caution. Our rule.
const (
	underLeast quantity.Millimetre = 1
	underFloor quantity.Millimetre = 2
	underGood  quantity.Millimetre = 3
)

// markingFindings says where the marking is unlike what the construction or
// common practice would give. The marking wins all the same.
func markingFindings(p Plan, c Construction) []calc.Finding {
	if !p.FromMarking {
		return nil
	}
	var found []calc.Finding
	usual := func(d quantity.Millimetre) bool { return within(p.Diameter, d, d) }
	if !usual(softDiameter) && !usual(softDiameterToo) && !usual(hardDiameter) {
		found = append(found, calc.Cautionf("bore.marking-diameter", practice,
			"The marked diameter %s is unusual, %s, %s and %s are common: read the topsheet again, then the marking wins.", p.Diameter, softDiameter, softDiameterToo, hardDiameter))
	}
	shallowest := usualDepthMin
	if c == Junior {
		shallowest = juniorDepth
	}
	if !within(p.Depth, shallowest, usualDepthMax) {
		found = append(found, calc.Cautionf("bore.marking-depth", practice,
			"The marked depth %s is unusual, %s to %s are common: read the topsheet again, then the marking wins.", p.Depth, shallowest, usualDepthMax))
	}
	if c == "" {
		return append(found, calc.Notef("bore.construction-unknown", ourRule,
			"The construction is not known, so whether to tap follows from the marked diameter %s alone: cut a thread if shavings of metal come up.", p.Diameter))
	}
	if hard := c == Metal || c == Carbon; hard != (p.Diameter >= tapFrom) {
		found = append(found, calc.Notef("bore.marking-differs", practice,
			"The marked diameter %s is unlike the %s that the construction, %s, would give: the marking wins; see that the construction is right.", p.Diameter, byConstruction(c).Diameter, c))
	}
	return found
}

// findings judges one piece of the binding over its planned holes.
func (p Place) findings(piece string, depth quantity.Millimetre) []calc.Finding {
	var found []calc.Finding
	if p.Screw > depth-bottomRoom+slack {
		found = append(found, calc.Stopf("bore.bottoms", ourRule,
			"The %s screws reach %s into a hole of %s: they meet its bottom and lift the plate; take screws of at most %s.", piece, p.Screw, depth, less(depth, bottomRoom)))
	}
	if p.Bite < biteLeast-slack {
		short := calc.Stopf("bore.bite-short", practice,
			"The %s screws bite %s only: they need at least %s, about four threads, to hold.", piece, p.Bite, biteLeast)
		short.Never = p.Bite < biteHolds-slack
		found = append(found, short)
	}
	if !p.Measured {
		return append(found, calc.Cautionf("bore.not-measured", ourRule,
			"The ski is not measured at the %s piece: for a hole of %s it must be at least %s thick; measure before you drill.", piece, depth, less(depth, -underFloor)))
	}
	if reach := max(p.Screw, depth); reach >= p.Thickness-slack {
		return append(found, through(calc.Stopf("bore.through", ourRule,
			"At the %s piece the ski is %s thick, and hole or screw goes %s deep: it would go through the base.", piece, p.Thickness, reach)))
	}
	return append(found, underFindings(" at the "+piece+" piece", p.Thickness, depth)...)
}

// underFindings judges what is left under a hole that is not through.
func underFindings(where string, thickness, depth quantity.Millimetre) []calc.Finding {
	under := less(thickness, depth)
	switch {
	case under < underFloor-slack:
		thin := calc.Stopf("bore.thin", ourRule,
			"Under the hole%s stay %s (ski %s, hole %s): at least %s must stay; measure again, or ask the ski's maker for a shallower hole.", where, under, thickness, depth, underFloor)
		thin.Never = under < underLeast-slack
		return []calc.Finding{thin}
	case under < underGood-slack:
		return []calc.Finding{calc.Cautionf("bore.thin", ourRule,
			"Under the hole%s stay %s (ski %s, hole %s), less than %s: try the stop twice and press lightly.", where, under, thickness, depth, underGood)}
	}
	return nil
}

// through marks a stop that nobody may waive.
func through(f calc.Finding) calc.Finding {
	f.Never = true
	return f
}
