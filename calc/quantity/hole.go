package quantity

import (
	"strings"

	"drillstop/calc"
)

// Holes that a ski can be marked with: 3.5 to 4.1 mm wide and 7 to 9.5 mm deep
// are usual (common practice), the limits around them are our own. No diameter
// is a depth as well by accident: a swapped 9 x 3.5 is refused.
const (
	narrowestHole, widestHole   = 2, 6.5 // mm
	shallowestHole, deepestHole = 5, 20  // mm
)

// ParseHole reads the hole marked on a topsheet, diameter then depth:
// "3.5 x 9", "3,5x9,0 mm", "4.1/9". A bare number is millimetres; a unit may
// stand behind both numbers or once at the end.
//
// Faults: those of Parse; quantity.hole if it is not two numbers with an x
// between them; quantity.hole-range for a diameter outside 2 to 6.5 mm, a depth
// outside 5 to 20 mm, or a depth that is not more than the diameter.
func ParseHole(typed string) (diameter, depth Millimetre, err error) {
	text := strings.TrimLeft(clean(typed), "\u00d8\u00f8\u2300\u2205 ")
	if text == "" {
		return 0, 0, calc.Faultf("quantity.empty", "Nothing was typed: the hole is written as diameter x depth, such as 3.5 x 9.")
	}
	sides := strings.Split(strings.NewReplacer("X", "x", "\u00d7", "x", "*", "x", "/", "x").Replace(text), "x")
	if len(sides) != 2 {
		return 0, 0, calc.Faultf("quantity.hole", "%s is not a hole: type diameter x depth in mm, such as 3.5 x 9.", show(typed))
	}
	parts, err := eachPart(sides, text)
	if err != nil {
		return 0, 0, err
	}
	if err := spreadUnit(parts, typed); err != nil {
		return 0, 0, err
	}
	across, err := convert(parts[0], MM, typed)
	if err != nil {
		return 0, 0, err
	}
	down, err := convert(parts[1], MM, typed)
	if err != nil {
		return 0, 0, err
	}
	if err := holeRange(typed, across, down); err != nil {
		return 0, 0, err
	}
	return Millimetre(across), Millimetre(down), nil
}

// PrintHole writes a hole as "3.5 x 9 mm"; ParseHole reads it back.
func PrintHole(diameter, depth Millimetre) string {
	return Print(float64(diameter), Plain) + " x " + depth.String()
}

func holeRange(typed string, across, down float64) error {
	switch {
	case across < narrowestHole || across > widestHole:
		return calc.Faultf("quantity.hole-range", "%s: the first number is the diameter, %d to %g mm, not %s.", show(typed), narrowestHole, widestHole, Print(across, MM))
	case down < shallowestHole || down > deepestHole:
		return calc.Faultf("quantity.hole-range", "%s: the second number is the depth, %d to %d mm, not %s.", show(typed), shallowestHole, deepestHole, Print(down, MM))
	case down <= across:
		return calc.Faultf("quantity.hole-range", "%s: a hole is deeper than wide: diameter first, then depth.", show(typed))
	}
	return nil
}
