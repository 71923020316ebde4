package moment

import (
	"fmt"

	"drillstop/calc"
)

// comparison names what two verdicts are compared for, and the words for it.
type comparison struct {
	code, unknown string // of the finding, and of the stop if nothing can be compared
	releases      string // with the two middle values
	lookAt        string
	readBoth      string
}

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
	return comparison{
		code: "moment.symmetry", unknown: "moment.symmetry-unknown",
		releases: "the left ski releases at %s, the right at %s",
		lookAt:   "compare settings, forward pressure and toe height",
		readBoth: "read both skis in the same direction",
	}.of(left, right, left.Direction == right.Direction)
}

// Asymmetry compares the verdicts on twist to the left and to the right of the
// same ski, as Symmetry compares two skis and with the same limits: one setting
// holds for both, so a difference has its cause in the binding or the boot.
//
// Verdicts that Judge did not make, or not of twist, are a stop that says so.
//
// Source: our rule.
func Asymmetry(left, right Verdict) []calc.Finding {
	return comparison{
		code: "moment.asymmetry", unknown: "moment.asymmetry-unknown",
		releases: "this ski releases to the left at %s, to the right at %s",
		lookAt:   "see that the boot stands straight in the toe piece, and look for dirt and wear on one side",
		readBoth: "read twist to the left and to the right",
	}.of(left, right, left.Direction == Twist && right.Direction == Twist)
}

// of compares two verdicts; alike says that their directions can be compared.
func (c comparison) of(left, right Verdict, alike bool) []calc.Finding {
	if !alike || !(left.Middle > 0) || !(right.Middle > 0) {
		f := calc.Stopf(c.unknown, ourRule, "Left %s in %q and right %s in %q cannot be compared: %s.",
			left.Middle, left.Direction, right.Middle, right.Direction, c.readBoth)
		f.Never = true
		return []calc.Finding{f}
	}
	low, high := min(left.Middle, right.Middle), max(left.Middle, right.Middle)
	if !apart(difference(high, low), low, apartPercent, apartNm) {
		return nil
	}
	return []calc.Finding{calc.Cautionf(c.code, ourRule, "In %s %s: they should lie within 15 %% or 3 Nm of each other; %s.",
		left.Direction, fmt.Sprintf(c.releases, left.Middle, right.Middle), c.lookAt)}
}
