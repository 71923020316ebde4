package moment

import (
	"math"

	"drillstop/calc"
	"drillstop/calc/quantity"
)

// Scale is the chart's column of reference moments for one direction, in Nm,
// lightest row first, and the row that holds for this skier.
//
// At least two rows are needed, every moment from 0.1 to 1000 Nm and above the
// one before it; At counts from 0.
type Scale struct {
	Moments []quantity.NewtonMetre
	At      int
}

// Reference returns the reference moment in Nm, or a *calc.Fault with the code
// "moment.scale" if the column cannot be read against.
func (s Scale) Reference() (quantity.NewtonMetre, error) {
	if len(s.Moments) < 2 {
		return 0, calc.Faultf("moment.scale", "Reference moments in the chart: %d; at least 2 rows are needed to count rows.", len(s.Moments))
	}
	if s.At < 0 || s.At >= len(s.Moments) {
		return 0, calc.Faultf("moment.scale", "Row %d is not in the chart: its rows of reference moments are 1 to %d.", s.At+1, len(s.Moments))
	}
	for i, m := range s.Moments {
		if !(m >= lowestMoment) || m > forwardLeanLimit {
			return 0, calc.Faultf("moment.scale", "Reference moment %s in row %d of the chart makes no sense: it must lie between %s and %s.", m, i+1, lowestMoment, forwardLeanLimit)
		}
		if i > 0 && m <= s.Moments[i-1] {
			return 0, calc.Faultf("moment.scale", "Reference moment %s in row %d of the chart is not above the %s of the row before: the rows must rise.", m, i+1, s.Moments[i-1])
		}
	}
	return s.Moments[s.At], nil
}

// rowsFrom returns how many rows a moment lies above (+) or below (-) the
// reference, on a scale that Reference has accepted.
//
// Between two rows it is linear in the moment:
//
//	position = i + (m - M[i]) / (M[i+1] - M[i])
//
// Beyond either end the column is continued by the ratio q of its last two
// rows there, so that each further row is q times the one before:
//
//	position = n-1 + ln(m / M[n-1]) / ln q,   q = M[n-1] / M[n-2]
//	position =       ln(m / M[0])   / ln q,   q = M[1] / M[0]
//
// Below the lightest row this is stricter than equal steps would be (in
// twist the row below 5 Nm becomes 3.1 Nm instead of 2 Nm). Above the heaviest
// one it is a little milder, but there a row is 15 % and more, and the
// deviation class holds. Our rule: no source knows these rows.
func (s Scale) rowsFrom(m quantity.NewtonMetre) float64 {
	last := len(s.Moments) - 1
	at := float64(s.At)
	if m < s.Moments[0] {
		return math.Log(float64(m/s.Moments[0]))/math.Log(float64(s.Moments[1]/s.Moments[0])) - at
	}
	for i := range last {
		low, high := s.Moments[i], s.Moments[i+1]
		if m < high {
			return float64(i) + float64((m-low)/(high-low)) - at
		}
	}
	return float64(last) + math.Log(float64(m/s.Moments[last]))/math.Log(float64(s.Moments[last]/s.Moments[last-1])) - at
}
