package quantity

import (
	"math/big"
	"strings"
)

// Unit is a unit in which a value can be asked for.
type Unit string

// The units a field can have. Plain is a number without a unit.
const (
	MM     Unit = "mm"
	CM     Unit = "cm"
	KG     Unit = "kg"
	NM     Unit = "Nm"
	Years  Unit = "years"
	Degree Unit = "deg"
	Turn   Unit = "turns"
	Plain  Unit = ""
)

// kind is what a unit measures. Only units of one kind convert into each other.
type kind string

const (
	length kind = "a length"
	mass   kind = "a mass"
	moment kind = "a moment"
	age    kind = "a number of years"
	angle  kind = "an angle"
	plain  kind = "a plain number"
)

// scale is one unit as num/den of its kind's base unit: mm, kg, Nm, year, degree.
type scale struct {
	kind     kind
	num, den int64
}

// per is how many of the unit `want` one unit `s` holds, exactly.
func (s scale) per(want scale) *big.Rat {
	return new(big.Rat).Quo(big.NewRat(s.num, s.den), big.NewRat(want.num, want.den))
}

// The pound is exactly 0.45359237 kg and the inch exactly 25.4 mm
// (international yard and pound agreement, 1959); a foot is 12 inches, a stone
// 14 pounds. The pound-force foot and inch are derived from these and from the
// standard acceleration of 9.80665 m/s2 (3rd CGPM, 1901).
const (
	poundNum, poundDen         = 45359237, 100000000
	footPoundNum, footPoundDen = 3048 * 45359237 * 980665, 100000000000000000
	inchPoundNum, inchPoundDen = 254 * 45359237 * 980665, 100000000000000000
)

// unitOf knows the spellings people use. The word is matched without regard to
// case and with a closing full stop dropped ("ft.").
func unitOf(word string) (scale, bool) {
	word = strings.TrimSuffix(strings.ToLower(word), ".")
	for _, known := range []func(string) (scale, bool){lengthUnit, massUnit, turningUnit} {
		if s, ok := known(word); ok {
			return s, true
		}
	}
	switch word {
	case "":
		return scale{plain, 1, 1}, true
	case "y", "yr", "yrs", "year", "years":
		return scale{age, 1, 1}, true
	}
	return momentUnit(word)
}

func lengthUnit(word string) (scale, bool) {
	switch word {
	case "mm", "millimetre", "millimetres", "millimeter", "millimeters":
		return scale{length, 1, 1}, true
	case "cm", "centimetre", "centimetres", "centimeter", "centimeters":
		return scale{length, 10, 1}, true
	case "m", "metre", "metres", "meter", "meters":
		return scale{length, 1000, 1}, true
	case "in", "inch", "inches", `"`, "''":
		return scale{length, 254, 10}, true
	case "ft", "foot", "feet", "'":
		return scale{length, 3048, 10}, true
	}
	return scale{}, false
}

func massUnit(word string) (scale, bool) {
	switch word {
	case "kg", "kgs", "kilo", "kilos", "kilogram", "kilograms":
		return scale{mass, 1, 1}, true
	case "g", "gram", "grams":
		return scale{mass, 1, 1000}, true
	case "lb", "lbs", "pound", "pounds":
		return scale{mass, poundNum, poundDen}, true
	case "st", "stone", "stones":
		return scale{mass, 14 * poundNum, poundDen}, true
	}
	return scale{}, false
}

func turningUnit(word string) (scale, bool) {
	switch word {
	case "deg", "degree", "degrees", "\u00b0", "\u00ba":
		return scale{angle, 1, 1}, true
	case "turn", "turns":
		return scale{angle, 360, 1}, true
	}
	return scale{}, false
}

// joints are what people put between the halves of a moment's unit.
const joints = " .-*\u00b7\u22c5"

// momentUnit also drops what people put between the two halves of the unit:
// "N m", "N.m", "ft-lb".
func momentUnit(word string) (scale, bool) {
	if strings.Trim(word, joints) != word {
		return scale{}, false // a joint outside the two halves joins nothing
	}
	word = strings.Map(func(r rune) rune {
		if strings.ContainsRune(joints, r) {
			return -1
		}
		return r
	}, word)
	switch word {
	case "nm", "newtonmetre", "newtonmetres", "newtonmeter", "newtonmeters":
		return scale{moment, 1, 1}, true
	case "danm":
		return scale{moment, 10, 1}, true
	case "ftlb", "ftlbs", "ftlbf", "lbft", "lbsft", "lbfft":
		return scale{moment, footPoundNum, footPoundDen}, true
	case "inlb", "inlbs", "inlbf", "lbin", "lbsin", "lbfin":
		return scale{moment, inchPoundNum, inchPoundDen}, true
	}
	return scale{}, false
}
