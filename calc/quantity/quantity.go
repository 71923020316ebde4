// Package quantity reads what people type into a field that holds a quantity,
// and prints quantities so that they read back as exactly the same number.
//
// Numbers are converted in exact rational arithmetic and rounded once, to the
// nearest float64: 0.57 m is 57 cm, not 56.99999999999999. Every refusal is a
// *calc.Fault whose code begins with "quantity.".
package quantity

import (
	"math"
	"strconv"
	"strings"
)

// The magnitudes that Parse accepts, in the unit asked for. They exclude
// nothing that a workshop measures; they keep printed numbers short enough to
// be read back. Our own limits, no source.
const (
	largest  = 1e9
	smallest = 1e-9
)

// Millimetre is a length in millimetres.
type Millimetre float64

// Centimetre is a length in centimetres.
type Centimetre float64

// Kilogram is a mass in kilograms.
type Kilogram float64

// NewtonMetre is a moment in newton metres.
type NewtonMetre float64

// String prints the length as "318 mm".
func (q Millimetre) String() string { return Print(float64(q), MM) }

// String prints the length as "175 cm".
func (q Centimetre) String() string { return Print(float64(q), CM) }

// String prints the mass as "72 kg".
func (q Kilogram) String() string { return Print(float64(q), KG) }

// String prints the moment as "50 Nm".
func (q NewtonMetre) String() string { return Print(float64(q), NM) }

// Print writes v and its unit as "72 kg", with the fewest decimals that name
// exactly this float64, a decimal point, and no exponent. One year and one turn
// are printed in the singular. For 0 and for every v with 1e-9 <= |v| <= 1e9
// whose sign the unit allows, Parse(Print(v, unit), unit) == v. NaN and the
// infinities are printed as such, and Parse refuses them.
func Print(v float64, unit Unit) string {
	return withUnit(digits(v), unitWord(v, unit))
}

// PrintList writes the values as "49, 51, 52 Nm": always with a decimal point,
// the unit once at the end, so that ParseList reads the same values back. An
// empty list prints as "".
func PrintList(vs []float64, unit Unit) string {
	if len(vs) == 0 {
		return ""
	}
	text := digits(vs[0])
	for _, v := range vs[1:] {
		text += ", " + digits(v)
	}
	if len(vs) == 1 {
		return withUnit(text, unitWord(vs[0], unit))
	}
	return withUnit(text, string(unit))
}

func digits(v float64) string {
	if v == 0 {
		return "0" // a negative zero is still nothing to a reader
	}
	if math.IsInf(v, 1) {
		return "Inf"
	}
	return strconv.FormatFloat(v, 'f', -1, 64)
}

func unitWord(v float64, unit Unit) string {
	if v == 1 && (unit == Years || unit == Turn) {
		return strings.TrimSuffix(string(unit), "s")
	}
	return string(unit)
}

func withUnit(number, unit string) string {
	if unit == "" {
		return number
	}
	return number + " " + unit
}
