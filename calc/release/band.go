package release

import (
	"math"
	"strings"

	"drillstop/calc"
	"drillstop/calc/quantity"
)

// band is a stretch of masses, heights or sole lengths, both limits included.
// An open end is infinite. The zero band is no band.
type band struct {
	low, high float64
	set       bool
}

// widestGap is how far apart two neighbouring bands may lie, in their unit:
// charts are written in whole kilograms, centimetres and millimetres.
const widestGap = 1

// none is how a chart writes "no band here" and "no value here".
const none = "-"

// readBand reads "10 to 13", "10-13", "<=148", ">=95" or "-".
func readBand(text string) (band, error) {
	text = strings.NewReplacer("\u2264", "<=", "\u2265", ">=", "\u2013", "-").Replace(text)
	if text == none {
		return band{}, nil
	}
	if limit, ok := strings.CutPrefix(text, "<="); ok {
		high, err := readNumber(limit)
		return band{math.Inf(-1), high, true}, err
	}
	if limit, ok := strings.CutPrefix(text, ">="); ok {
		low, err := readNumber(limit)
		return band{low, math.Inf(1), true}, err
	}
	from, to, ok := strings.Cut(text, "to")
	if !ok {
		from, to, ok = strings.Cut(text, "-")
	}
	if !ok {
		return band{}, calc.Faultf("release.chart-band", "%q is not a band: write 10 to 13, <=148, >=95, or - for none.", short(text))
	}
	low, err := readNumber(from)
	if err != nil {
		return band{}, err
	}
	high, err := readNumber(to)
	if err != nil {
		return band{}, err
	}
	if low > high {
		return band{}, calc.Faultf("release.chart-band", "%q runs backwards: the lower limit comes first.", short(text))
	}
	return band{low, high, true}, nil
}

// readNumber reads a number of the chart, which is always above 0.
func readNumber(text string) (float64, error) {
	v, err := quantity.Parse(text, quantity.Plain)
	if err != nil {
		return 0, calc.Faultf("release.chart-number", "%q is not a number.", short(text))
	}
	if v <= 0 {
		return 0, calc.Faultf("release.chart-number", "%q must be above 0.", short(text))
	}
	return v, nil
}

// follows says whether b begins where a ends: above it, with no more than the
// gap of one unit between them.
func (b band) follows(a band) bool {
	return b.low > a.high && b.low-a.high <= widestGap
}

// in prints the band with its unit, such as "311 to 330 mm", "<=250 mm".
func (b band) in(unit quantity.Unit) string {
	switch {
	case !b.set:
		return "no band"
	case math.IsInf(b.low, -1):
		return "<=" + quantity.Print(b.high, unit)
	case math.IsInf(b.high, 1):
		return ">=" + quantity.Print(b.low, unit)
	}
	return quantity.Print(b.low, quantity.Plain) + " to " + quantity.Print(b.high, unit)
}
