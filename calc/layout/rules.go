package layout

import (
	"strconv"

	"drillstop/calc"
)

// Rules are the distances that a shop holds. DefaultRules has the usual ones.
type Rules struct {
	// Apart is the least distance from the centre of a new hole to the centre
	// of an old one, and of a hole of another piece.
	Apart mm
	// Same is how far the centres of a new and an old hole may lie apart to
	// count as one hole that is used again.
	Same mm
	// Wider is how much wider than the new hole an old one may be to be used
	// again: in a wider one the screw does not hold.
	Wider mm
	// Edge is the least distance from the centre of a hole to the edge.
	Edge mm
}

// DefaultRules are 10 mm from hole to hole (common practice, no formal source),
// and our own rules without a source: the same hole within 0.5 mm, no wider
// than by 0.2 mm, and 8 mm from the centre of a hole to the edge.
func DefaultRules() Rules { return Rules{Apart: 10, Same: 0.5, Wider: 0.2, Edge: 8} }

// Check says whether the rules can be applied; a *calc.Fault of code
// "layout.rules" names the first that cannot: Apart 1 to 50 mm, Same 0 to below
// Apart, Wider 0 to 2 mm, Edge 0 to 30 mm.
func (r Rules) Check() error {
	for _, v := range []struct {
		field     string
		value     mm
		low, high mm
	}{
		{"apart", r.Apart, 1, 50},
		{"same", r.Same, 0, 5},
		{"wider", r.Wider, 0, 2},
		{"edge", r.Edge, 0, 30},
	} {
		if !inRange(v.value, v.low, v.high) {
			return refuse("layout.rules", v.field, "The rule %q is %s: %s to %s is possible.", v.field, v.value, v.low, v.high)
		}
	}
	if r.Same >= r.Apart {
		return refuse("layout.rules", "same", "Holes %s apart cannot be the same if they must lie %s apart.", r.Same, r.Apart)
	}
	return nil
}

func refuse(code, field, format string, args ...any) error {
	fault := calc.Faultf(code, format, args...)
	fault.Field = field
	return fault
}

// short prints a length to a tenth of a millimetre, for sentences only.
func short(v mm) string {
	text := strconv.FormatFloat(float64(v), 'f', 1, 64)
	if text == "-0.0" {
		text = "0.0"
	}
	return text + " mm"
}

// apartFrom prints a length with as many decimals as tell it from a limit, one
// at least: 9.96 mm is not shown as the 10.0 mm that it misses.
func apartFrom(v, limit mm) string {
	for decimals := 1; decimals < 9; decimals++ {
		text := strconv.FormatFloat(float64(v), 'f', decimals, 64)
		if text != strconv.FormatFloat(float64(limit), 'f', decimals, 64) {
			return text + " mm"
		}
	}
	return v.String()
}
