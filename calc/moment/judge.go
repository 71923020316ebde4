// Package moment says what the readings of a release test mean: their middle
// value, how far it lies from the reference moment, in which range and class
// that falls, and what is to be done. Moments are in newton metres.
package moment

import (
	"math"
	"slices"

	"drillstop/calc"
	"drillstop/calc/quantity"
)

// readingsPerDirection is how many releases are read in each direction.
// Source: common practice, no formal source.
const readingsPerDirection = 3

// Verdict is what three readings in one direction say.
type Verdict struct {
	Direction        Direction
	Middle           quantity.NewtonMetre // the middle value of the three readings
	Reference        quantity.NewtonMetre // of the skier's row
	DeviationPercent float64              // of the reference, signed: + is too high
	DeviationNm      quantity.NewtonMetre // middle less reference, signed
	DeviationRows    float64              // rows of the chart, signed, see Scale
	Range            Range
	Class            Class
	Action           Action
	Spread           quantity.NewtonMetre // highest less lowest reading
	Findings         []calc.Finding

	scale Scale // what it was judged against, so that a correction can be
}

// Judge compares the middle value of exactly three readings, in Nm and in any
// order, with the reference moment of the scale.
//
// The range is counted in rows of the chart, the class in per cent of the
// reference, in twist in Nm as well, where the milder of the two is the class.
// The stricter of range and class decides what is done. Findings speak of the
// middle value, of the spread, and of a single reading in class III.
//
// A direction that is not known, a scale that cannot be read against, another
// count than three and a reading beyond all sense (below 0.1 Nm, above 300 Nm in
// twist or 1000 Nm in forward lean) are each a *calc.Fault.
//
// Source: middle value of three, ranges by rows: common practice, no formal
// source; 15 % or 3 Nm: ISO 8061 / ISO 11088 as summarised; the stricter
// decides: our rule.
func Judge(dir Direction, s Scale, readings []quantity.NewtonMetre) (Verdict, error) {
	limit, err := dir.limit()
	if err != nil {
		return Verdict{}, err
	}
	reference, err := s.Reference()
	if err != nil {
		return Verdict{}, err
	}
	if err := checkReadings(dir, limit, readings); err != nil {
		return Verdict{}, err
	}
	sorted := slices.Sorted(slices.Values(readings))
	v := Verdict{
		Direction: dir,
		Middle:    sorted[1],
		Reference: reference,
		Spread:    difference(sorted[2], sorted[0]),
		scale:     Scale{Moments: slices.Clone(s.Moments), At: s.At},
	}
	v.DeviationNm = difference(v.Middle, reference)
	v.DeviationPercent = percentOf(v.Middle, reference)
	v.DeviationRows = s.rowsFrom(v.Middle)
	v.Range = rangeOf(v.DeviationRows)
	v.Class = classOf(dir, v.DeviationPercent, v.DeviationNm)
	v.Action = actionFor(v.Range, v.Class)
	v.Findings = v.findings(sorted)
	return v, nil
}

// checkReadings refuses what cannot be three readings of a release.
func checkReadings(dir Direction, limit quantity.NewtonMetre, readings []quantity.NewtonMetre) error {
	if len(readings) != readingsPerDirection {
		fault := calc.Faultf("moment.count", "Readings in %s: %d; exactly %d are needed, their middle value counts.", dir, len(readings), readingsPerDirection)
		fault.Field = "readings"
		return fault
	}
	for i, r := range readings {
		if !(r >= lowestMoment) || r > limit {
			fault := calc.Faultf("moment.reading", "Reading %d, %s, cannot be a release in %s: it must lie between %s and %s.", i+1, r, dir, lowestMoment, limit)
			fault.Field = "readings"
			return fault
		}
	}
	return nil
}

// difference returns a - b to the millionth of a newton metre, far below what
// any bench resolves, so that 52.3 less 49.1 prints as 3.2 and not as
// 3.1999999999999957.
func difference(a, b quantity.NewtonMetre) quantity.NewtonMetre {
	const perNm = 1e6
	return quantity.NewtonMetre(math.Round(float64(a-b)*perNm) / perNm)
}
