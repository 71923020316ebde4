package quantity

import (
	"math"
	"strings"

	"drillstop/calc"
)

// Boot sole lengths that exist, generously, both ends included; our own limits,
// no source.
const (
	MinSole Millimetre = 150
	MaxSole Millimetre = 400
)

// Shell sizes are mondopoint: the foot's length in cm.
const smallestShell, largestShell = 15, 35

// What a sole is longer than ten times its shell size, in mm (derived, from
// memory).
const soleBeyondShellMin, soleBeyondShellMax = 25, 55

// ParseSole reads a boot sole length. A bare number is millimetres: "318",
// "318 mm", "31.8 cm", "31,8cm". It is the three-digit engraving, usually at the
// heel.
//
// Faults: those of Parse; quantity.shell-size for a bare number of 15 to 35 and
// for anything marked mp (mondopoint), with the sole lengths that shell usually
// has; quantity.sole-range outside 150 to 400 mm. A 275 is accepted: whether it
// fits its shell is seen where the shell is known.
func ParseSole(typed string) (Millimetre, error) {
	if size, marked := withoutMondo(typed); marked {
		v, err := Parse(size, Plain)
		if err != nil {
			return 0, err
		}
		if v > largestShell {
			v /= 10 // mondopoint is also written in mm
		}
		return 0, shellSize(typed, v)
	}
	parts, err := scan(typed, longest)
	if err != nil {
		return 0, err
	}
	v, err := join(parts, MM, typed)
	if err != nil {
		return 0, err
	}
	bare := len(parts) == 1 && parts[0].word == ""
	if bare && v >= smallestShell && v <= largestShell {
		return 0, shellSize(typed, v)
	}
	sole := Millimetre(v)
	if sole < MinSole || sole > MaxSole {
		return 0, calc.Faultf("quantity.sole-range", "%s is not a boot sole length: expected %g to %s, the three-digit number at the heel.", shown(typed, v, MM), float64(MinSole), MaxSole)
	}
	return sole, nil
}

// withoutMondo takes the mondopoint mark off either end.
func withoutMondo(typed string) (rest string, marked bool) {
	text := strings.ToLower(clean(typed))
	for _, mark := range []string{"mondopoint", "mondo", "mp"} {
		if rest, found := strings.CutSuffix(text, mark); found {
			return rest, true
		}
		if rest, found := strings.CutPrefix(text, mark); found {
			return rest, true
		}
	}
	return typed, false
}

func shellSize(typed string, size float64) error {
	if size < smallestShell || size > largestShell {
		return calc.Faultf("quantity.shell-size", "%s is marked as a shell size; the sole length is the three-digit number in mm at the heel.", show(typed))
	}
	if half := 2 * size; half != math.Trunc(half) {
		return calc.Faultf("quantity.shell-size", "%s is neither a shell size nor a sole length in mm: type the three-digit number at the heel, or write cm behind it.", Print(size, Plain))
	}
	return calc.Faultf("quantity.shell-size",
		"%s is a shell size; the sole length is the three-digit number in mm at the heel, roughly %.0f to %.0f for this shell.",
		Print(size, Plain), 10*size+soleBeyondShellMin, 10*size+soleBeyondShellMax)
}
