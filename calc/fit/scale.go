package fit

import (
	"math"

	"drillstop/calc"
)

// Where on its scale a value should stand. Each share counts from either end.
// Source: the middle third, common practice; the outer tenth, our rule.
const (
	outerThird = 1.0 / 3
	outerTenth = 1.0 / 10
)

// Scale checks a release indicator value against the marked scale of the
// binding; what names the place, such as "toe" or "heel left".
//
// Off the scale is a stop that nobody may waive: the binding cannot be set so.
// In the outer tenth it is a caution, outside the middle third a note.
//
// Source: the middle third, common practice, no formal source; the outer tenth,
// our rule.
func Scale(value float64, b Binding, what string) []calc.Finding {
	if !(b.ScaleMin >= 0) || !(b.ScaleMax > b.ScaleMin) || math.IsInf(b.ScaleMax, 0) {
		return []calc.Finding{never(calc.Stopf("fit.scale-unusable", ourRule,
			"The binding card gives a scale from %.4g to %.4g: that is no scale, read its lowest and highest mark.", b.ScaleMin, b.ScaleMax))}
	}
	if what == "" {
		what = "release"
	}
	span := b.ScaleMax - b.ScaleMin
	switch {
	case !within(value, b.ScaleMin, b.ScaleMax):
		return []calc.Finding{never(calc.Stopf("fit.scale-off", practice,
			"Value %.4g (%s) is not on the scale of this binding, %.4g to %.4g: it needs another binding.", value, what, b.ScaleMin, b.ScaleMax))}
	case !within(value, b.ScaleMin+span*outerTenth, b.ScaleMax-span*outerTenth):
		return []calc.Finding{calc.Cautionf("fit.scale-end", practice+"; the outer tenth: "+ourRule,
			"Value %.4g (%s) stands at the very end of the scale %.4g to %.4g, where it is least exact: its middle third is %.4g to %.4g.",
			value, what, b.ScaleMin, b.ScaleMax, b.ScaleMin+span*outerThird, b.ScaleMax-span*outerThird)}
	case !within(value, b.ScaleMin+span*outerThird, b.ScaleMax-span*outerThird):
		return []calc.Finding{calc.Notef("fit.scale-third", practice,
			"Value %.4g (%s) lies outside the middle third of the scale %.4g to %.4g, which is %.4g to %.4g.",
			value, what, b.ScaleMin, b.ScaleMax, b.ScaleMin+span*outerThird, b.ScaleMax-span*outerThird)}
	}
	return nil
}
