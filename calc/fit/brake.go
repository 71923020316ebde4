package fit

import (
	"drillstop/calc"
	"drillstop/calc/quantity"
)

// Widths, in mm, of skis and brakes that exist. Our rule.
const (
	narrowest quantity.Millimetre = 40
	widest    quantity.Millimetre = 200
)

// How much wider than the waist a brake may be, in mm: up to the first it is
// as it should be, up to the second it is worth a look, beyond it may catch.
// Source: common practice, no formal source (about 15 to 20 mm).
const (
	brakeRoom    quantity.Millimetre = 15
	brakeRoomMax quantity.Millimetre = 20
)

// Brake checks the brake of a binding against the waist of the ski, in mm.
// Narrower than the waist is a stop: its arms do not come down past the edges.
// More than 15 mm wider is a note, more than 20 mm a caution.
//
// No brake is a stop that a supervisor may waive for a leash, and on a pin binding
// a caution: there a leash is common.
//
// Source: common practice, no formal source; without a brake: a caution from
// memory, the stop our rule.
func Brake(b Binding, waist quantity.Millimetre) []calc.Finding {
	if !within(waist, narrowest, widest) {
		return []calc.Finding{never(calc.Stopf("fit.waist-unusable", ourRule,
			"%s is no waist of a ski: measure the narrowest place, %s to %s.", waist, narrowest, widest))}
	}
	if b.Brake == 0 {
		return []calc.Finding{noBrake(b.Kind, waist)}
	}
	return brakeWidth(waist, b.Brake)
}

func noBrake(kind Kind, waist quantity.Millimetre) calc.Finding {
	upTo := tidy(waist + brakeRoomMax)
	if kind == KindPin {
		return calc.Cautionf("fit.brake-none", "from memory",
			"There is no brake: a ski that comes off runs away; fit a brake of %.4g to %s, or a leash where the binding's maker gives one.", float64(waist), upTo)
	}
	return calc.Stopf("fit.brake-none", ourRule,
		"There is no brake: a ski that comes off runs away; it needs a brake of %.4g to %s, or a leash and a supervisor's word.", float64(waist), upTo)
}

// brakeWidth judges a brake that is there.
func brakeWidth(waist, brake quantity.Millimetre) []calc.Finding {
	upTo := tidy(waist + brakeRoomMax)
	switch {
	case !within(brake, narrowest, widest+brakeRoomMax):
		return []calc.Finding{never(calc.Stopf("fit.brake-unusable", ourRule,
			"%s is no width of a brake: measure between its arms, %s to %s, or say that there is none.", brake, narrowest, widest+brakeRoomMax))}
	case brake < waist-slack:
		return []calc.Finding{calc.Stopf("fit.brake-narrow", practice,
			"Brake %s is narrower than the waist %s: needs a brake of %.4g to %s.", brake, waist, float64(waist), upTo)}
	case brake > upTo+slack:
		return []calc.Finding{calc.Cautionf("fit.brake-wide", practice,
			"Brake %s is %s wider than the waist %s and may catch on snow and on the other ski: better is %.4g to %s.", brake, tidy(brake-waist), waist, float64(waist), upTo)}
	case brake > waist+brakeRoom+slack:
		return []calc.Finding{calc.Notef("fit.brake-roomy", practice,
			"Brake %s is %s wider than the waist %s, more than it needs: up to %s is accepted.", brake, tidy(brake-waist), waist, upTo)}
	}
	return nil
}
