package moment

import "drillstop/calc"

// Symmetry compares the verdicts on the left and the right ski, same
// direction, by their middle values. A difference of more than 15 % of the
// lower one and more than 3 Nm is a caution: each may be in its range, and yet
// the two skis would not let go alike.
//
// Verdicts that Judge did not make, or of two directions, are a stop that says
// so: nothing can be compared.
//
// Source: our rule.
func Symmetry(left, right Verdict) []calc.Finding {
	if left.Direction != right.Direction || !(left.Middle > 0) || !(right.Middle > 0) {
		f := calc.Stopf("moment.symmetry-unknown", spreadSource,
			"Left %s in %q and right %s in %q cannot be compared: read both skis in the same direction.",
			left.Middle, left.Direction, right.Middle, right.Direction)
		f.Never = true
		return []calc.Finding{f}
	}
	low, high := min(left.Middle, right.Middle), max(left.Middle, right.Middle)
	if !apart(difference(high, low), low) {
		return nil
	}
	return []calc.Finding{calc.Cautionf("moment.symmetry", spreadSource,
		"In %s the left ski releases at %s, the right at %s: they should lie within 15 %% or 3 Nm of each other; compare settings, forward pressure and toe height.",
		left.Direction, left.Middle, right.Middle)}
}
