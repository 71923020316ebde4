package moment

import (
	"math"

	"drillstop/calc"
)

// largestChange is the most that an indicator is turned on the word of a
// test, as a share of its setting: two rows of the chart at 15 % each. What
// needs more has a cause other than the setting.
// Source: 15 % is about one row, derived; two rows in use, common practice.
const largestChange = 0.30

// Correction returns the indicator setting that should bring the middle value
// to the reference, rounded to the nearest marked step, the lower one if two
// are equally near:
//
//	corrected = setting x reference / middle
//
// Setting, step, low and high are in indicator values; the setting must lie on
// the scale from low to high, the step above 0. A verdict that keeps the
// binding returns the setting as it stands.
//
// Each of these is a *calc.Fault: a scale, step or setting that makes no sense
// ("moment.setting"), a verdict whose cause must be sought first
// ("moment.seek-cause"), a change of more than 30 %, which is two rows
// ("moment.change"), a result off the scale ("moment.off-scale") and a step
// too coarse to change anything ("moment.step").
//
// Source: proportional correction is our rule; the readings after it decide.
func Correction(setting float64, v Verdict, step, low, high float64) (float64, error) {
	if err := checkIndicator(setting, step, low, high); err != nil {
		return 0, err
	}
	if !(v.Middle > 0) || !(v.Reference > 0) {
		return 0, calc.Faultf("moment.setting", "Without a middle value and a reference there is nothing to correct by: test the binding first.")
	}
	if v.Action == Keep {
		return setting, nil
	}
	if v.Action != Correct {
		return 0, calc.Faultf("moment.seek-cause", "%s, too far to be set right at the indicator: %s.", v.position(), v.Action)
	}
	needed := setting * float64(v.Reference) / float64(v.Middle)
	rounded := toStep(needed, step)
	if change := math.Max(math.Abs(needed/setting-1), math.Abs(rounded/setting-1)); change > largestChange+roundingSlack {
		return 0, calc.Faultf("moment.change", "From %.4g the indicator would go to %.4g to bring %s to %s, a change of %.1f %%: above 30 %%, two rows, look for the cause first.",
			setting, rounded, v.Middle, v.Reference, change*100)
	}
	if rounded < low-roundingSlack || rounded > high+roundingSlack {
		return 0, calc.Faultf("moment.off-scale", "To bring %s to %s the indicator would stand at %.4g, off the scale of this binding, %.4g to %.4g.",
			v.Middle, v.Reference, rounded, low, high)
	}
	if math.Abs(rounded-setting) < roundingSlack {
		return 0, calc.Faultf("moment.step", "The indicator should go from %.4g to %.4g, but no step of %.4g lies nearer: this scale is too coarse for the correction.",
			setting, needed, step)
	}
	return rounded, nil
}

// checkIndicator refuses a scale that cannot exist and a setting off it.
func checkIndicator(setting, step, low, high float64) error {
	if !(low >= 0) || !(high > low) || math.IsInf(high, 0) {
		return calc.Faultf("moment.setting", "An indicator scale from %.4g to %.4g makes no sense: it must rise from 0 or more.", low, high)
	}
	if !(step > 0) || step > high-low {
		return calc.Faultf("moment.setting", "A marked step of %.4g makes no sense on a scale from %.4g to %.4g: it must be above 0 and fit the scale.", step, low, high)
	}
	if !(setting > 0) || setting < low || setting > high {
		return calc.Faultf("moment.setting", "Setting %.4g is not on the scale of this binding, %.4g to %.4g.", setting, low, high)
	}
	return nil
}

// toStep rounds to a multiple of the step, halves down: the lower value is
// the milder mistake.
func toStep(value, step float64) float64 {
	return math.Ceil(value/step-0.5-roundingSlack) * step
}
