package fit

import (
	"math"

	"drillstop/calc"
	"drillstop/calc/quantity"
)

// How far two soles of a pair may differ, in mm: up to the first not at all,
// since engraved lengths are whole millimetres; beyond the second they are two
// models or sizes, and one setting of the heel cannot hold both. Our rule.
const (
	pairTolerance quantity.Millimetre = 0.5
	pairMost      quantity.Millimetre = 5
)

// Shell sizes that exist, mondopoint in cm. From memory.
const (
	smallestShell = 14.0
	largestShell  = 36.0
)

// What a sole is longer than its shell size, in mm, as a rule, and how near to
// none it may come before the shell size itself has been typed.
// Source: 25 to 55 mm derived, from memory; 10 mm further either way before a
// caution, and 3 mm for the shell size itself, are our rule.
const (
	overhangMin       quantity.Millimetre = 25
	overhangMax       quantity.Millimetre = 55
	overhangTolerance quantity.Millimetre = 10
	shellLikeness     quantity.Millimetre = 3
)

// SoleLength checks that both sole lengths lie in the ranges of the template
// and of the heel track, and that the two boots are alike. Outside a range is a
// stop that nobody may waive, since the binding cannot be set to such a boot.
// Boots that differ by more than 0.5 mm are a caution, by more than 5 mm a stop.
//
// Source: common practice; the tolerances of a pair are our rule.
func SoleLength(b Binding, left, right Boot) []calc.Finding {
	found := bySide(soleInRanges(b, left.Sole), soleInRanges(b, right.Sole))
	const sentence = "The left sole is %s long, the right %s: a pair has one length; read the three-digit number at both heels again"
	switch apart := math.Abs(float64(left.Sole - right.Sole)); {
	case apart > float64(pairMost)+slack:
		found = append(found, calc.Stopf("fit.pair-sole", ourRule, sentence+". More than %s apart they are not one pair.", left.Sole, right.Sole, pairMost))
	case apart > float64(pairTolerance)+slack:
		found = append(found, calc.Cautionf("fit.pair-sole", ourRule, sentence+".", left.Sole, right.Sole))
	}
	return found
}

// soleInRanges checks one sole against the ranges on the card.
func soleInRanges(b Binding, sole quantity.Millimetre) []calc.Finding {
	if !within(sole, quantity.MinSole, quantity.MaxSole) {
		return []calc.Finding{never(calc.Stopf("fit.sole-unusable", ourRule,
			"%s is no boot sole length: it is the three-digit number at the heel, %s to %s.", sole, quantity.MinSole, quantity.MaxSole))}
	}
	var found []calc.Finding
	if b.SoleMin == 0 && b.SoleMax == 0 {
		found = append(found, calc.Notef("fit.template-unknown", ourRule,
			"The binding card states no sole lengths for the template: read on the template that it reaches %s.", sole))
	} else {
		found = append(found, soleInRange("template", b.SoleMin, b.SoleMax, sole)...)
	}
	if b.TrackMin == 0 && b.TrackMax == 0 {
		return found
	}
	return append(found, soleInRange("heel track", b.TrackMin, b.TrackMax, sole)...)
}

// soleInRange checks one sole against one range.
func soleInRange(what string, low, high, sole quantity.Millimetre) []calc.Finding {
	if !(low >= 0) || !(high >= low) || math.IsInf(float64(high), 0) {
		return []calc.Finding{never(calc.Stopf("fit.range-unusable", ourRule,
			"The binding card gives the %s sole lengths from %s to %s: that is no range, correct the card.", what, low, high))}
	}
	if within(sole, low, high) {
		return nil
	}
	side := "shorter"
	if sole > high {
		side = "longer"
	}
	return []calc.Finding{never(calc.Stopf("fit.sole-range", practice,
		"Sole %s is %s than the %s reaches: it takes %s to %s.", sole, side, what, low, high))}
}

// ShellSize checks a sole length, in mm, against the shell size, mondopoint in
// cm, 0 if it is not known. It catches the shell size typed as a sole length,
// in cm or in mm, as a stop, and an unlikely pair of numbers as a caution.
//
// Source: a sole is about 10 x mondopoint + 25 to 55 mm long, derived, from
// memory; thresholds our rule.
func ShellSize(sole quantity.Millimetre, shell float64) []calc.Finding {
	if shell == 0 {
		return nil
	}
	if !within(shell, smallestShell, largestShell) {
		return []calc.Finding{never(calc.Stopf("fit.shell-unusable", "from memory",
			"%.4g is no shell size: mondopoint sizes go from %.4g to %.4g cm; leave it empty if it is not known.", shell, smallestShell, largestShell))}
	}
	base := tidy(quantity.Millimetre(10 * shell))
	low, high := base+overhangMin, base+overhangMax
	if within(sole, base-shellLikeness, base+shellLikeness) || within(10*sole, base-shellLikeness, base+shellLikeness) {
		return []calc.Finding{calc.Stopf("fit.shell-for-sole", "derived, from memory",
			"%s looks like the shell size %.4g: the sole length is the three-digit number at the heel, for this shell about %s to %s.", sole, shell, low, high)}
	}
	if within(sole, low-overhangTolerance, high+overhangTolerance) {
		return nil
	}
	return []calc.Finding{calc.Cautionf("fit.shell-unlikely", "derived, from memory",
		"Sole %s and shell %.4g are an unlikely pair: for this shell the sole is about %s to %s long; read both again.", sole, shell, low, high)}
}
