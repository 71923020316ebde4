package moment

import (
	"drillstop/calc"
	"drillstop/calc/quantity"
)

// Limits of the spread of three readings and of the difference between two
// verdicts. Of a pair both must be passed, so that a few Nm in the lightest rows
// and a few per cent in the heaviest are left alone. Beyond the first pair is a
// caution; a spread beyond the second is a stop: its middle value is chance. Our
// rule.
const (
	apartPercent                         = 15.0
	apartNm         quantity.NewtonMetre = 3
	farApartPercent                      = 30.0
	farApartNm      quantity.NewtonMetre = 6
)

// apart says whether a difference passes both limits of a pair.
func apart(difference, of quantity.NewtonMetre, percent float64, nm quantity.NewtonMetre) bool {
	return difference > nm+roundingSlack && float64(difference) > float64(of)*percent/100+roundingSlack
}

// spreadFindings says when the three readings lie too far from each other.
func (v Verdict) spreadFindings() []calc.Finding {
	const lie = "The three readings in %s lie %s apart, %s %% of their middle value %s: more than %.0f %% and %s"
	percent := percentWords(float64(v.Spread) / float64(v.Middle) * 100)
	switch {
	case apart(v.Spread, v.Middle, farApartPercent, farApartNm):
		return []calc.Finding{calc.Stopf("moment.spread", ourRule,
			lie+", so their middle value is chance; clean boot and binding, exercise the binding each way and test again.",
			v.Direction, v.Spread, percent, v.Middle, farApartPercent, farApartNm)}
	case apart(v.Spread, v.Middle, apartPercent, apartNm):
		return []calc.Finding{calc.Cautionf("moment.spread", ourRule,
			lie+"; clean boot and binding, release once each way and read again.",
			v.Direction, v.Spread, percent, v.Middle, apartPercent, apartNm)}
	}
	return nil
}

// farReadings names each single reading in class III, which the middle value
// hides. Where the middle value is in class III itself, that is said already.
// Source: class III, limits from memory; asking after a single reading, our rule.
func (v Verdict) farReadings(sorted []quantity.NewtonMetre) []calc.Finding {
	if v.Class == ClassIII {
		return nil
	}
	var found []calc.Finding
	for _, r := range sorted {
		single := Verdict{Middle: r, Reference: v.Reference, DeviationNm: difference(r, v.Reference)}
		single.DeviationPercent = percentOf(r, v.Reference)
		if classOf(v.Direction, single.DeviationPercent, single.DeviationNm) != ClassIII {
			continue
		}
		found = append(found, calc.Cautionf("moment.reading-far", ourRule+"; class III: limits from memory, in Nm our rule",
			"One reading in %s is class III by itself: %s; find out why before the middle value %s is trusted.", v.Direction, single.position(), v.Middle))
	}
	return found
}

// percentOf is how far a moment lies from the reference, in per cent of it.
func percentOf(m, reference quantity.NewtonMetre) float64 {
	return float64(m-reference) / float64(reference) * 100
}
