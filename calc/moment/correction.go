package moment

import (
	"errors"
	"math"

	"drillstop/calc"
	"drillstop/calc/quantity"
)

// largestChange is the most that an indicator is turned on the word of a
// test, as a share of where it stands, and the most that it may then stand off
// the computed value, as a share of that: many small corrections are no way
// around it. What needs more has a cause other than the setting. Two rows of 15 %
// each.
// Source: 15 % is about one row, derived; two rows in use, common practice, no
// formal source; that they bound the setting too: our rule.
const largestChange = 0.30

// mostRounds is how often one scale is corrected before its cause is sought: a
// binding that answers in proportion needs one round, and one more for its
// marks and its friction. Our rule.
const mostRounds = 3

// ErrSeekCause is the cause of every *calc.Fault with which Correction says that
// turning the indicator is not the remedy. Causes lists where to look.
var ErrSeekCause = errors.New("the cause must be sought before the indicator is turned")

// Indicator is a release scale of a binding and how it stands. All values are
// indicator values.
type Indicator struct {
	Setting    float64 // where it stands, on the scale and above 0
	Computed   float64 // the chart's value for this skier, above 0
	Step       float64 // from mark to mark, above 0
	Low, High  float64 // the ends of the scale, from 0
	Rounds     int     // corrections of this scale since a cause was last seen to
	NeverAbove bool    // nothing may raise it above Computed: the lightest skiers
}

// Correction returns the setting that should bring what was measured to the
// reference, on the mark nearest to it, the lower one if two are equally near:
//
//	corrected = setting x reference / mean of the middle values
//
// One scale serves every verdict that depends on it: the toe's serves twist to
// the left and to the right, and stands in the middle between them; the heel's
// serves forward lean alone. Marks are the multiples of the step, and the lowest
// value of the scale. Verdicts that all keep the binding return the setting as it
// stands.
//
// What makes no sense is a *calc.Fault "moment.setting". Each of these is one
// that errors.Is finds to be ErrSeekCause: a verdict too far off
// ("moment.seek-cause"), a scale corrected three times already ("moment.rounds"),
// two directions too far apart for one setting ("moment.uneven"), a setting 30 %,
// which is two rows, off the present one or the computed one ("moment.change"),
// one above the computed value where nothing may raise it ("moment.light"), one
// off the scale ("moment.off-scale"), and marks too far apart to bring the binding
// where it is kept ("moment.step").
//
// Source: correcting in proportion and its bounds are our rule; the readings
// after it decide. Nothing raises the lightest skiers' value: common practice, no
// source.
func Correction(i Indicator, verdicts ...Verdict) (float64, error) {
	if err := i.check(); err != nil {
		return 0, err
	}
	middle, err := meanMiddle(verdicts)
	if err != nil {
		return 0, err
	}
	worst := furthest(verdicts)
	switch {
	case worst.Action == Keep:
		return i.Setting, nil
	case worst.Action != Correct:
		return 0, seekCause("moment.seek-cause", "%s, too far to be set right at the indicator: %s.", worst.position(), worst.Action)
	case i.Rounds >= mostRounds:
		return 0, seekCause("moment.rounds", "%s after %d corrections of this scale: turning it is not the remedy, look for the cause.", worst.position(), i.Rounds)
	}
	needed := i.Setting * float64(worst.Reference/middle)
	if !keptAt(needed/i.Setting, verdicts) {
		return 0, seekCause("moment.uneven", "%s, and no setting brings both directions into range: look for the cause, first whether the boot stands straight in the toe piece.", worst.position())
	}
	mark := i.nearestMark(needed)
	if err := i.checkMark(needed, mark); err != nil {
		return 0, err
	}
	if math.Abs(mark-i.Setting) < roundingSlack || !keptAt(mark/i.Setting, verdicts) {
		return 0, seekCause("moment.step", "%s: the indicator should go from %.4g to %.4g, and no mark of this scale, one every %.4g, lies near enough: look for a cause other than the setting.",
			worst.position(), i.Setting, needed, i.Step)
	}
	return mark, nil
}

// check refuses a scale that cannot exist and a setting off it.
func (i Indicator) check() error {
	if !(i.Low >= 0) || !(i.High > i.Low) || math.IsInf(i.High, 0) {
		return calc.Faultf("moment.setting", "An indicator scale from %.4g to %.4g makes no sense: it must rise from 0 or more.", i.Low, i.High)
	}
	if !(i.Step > 0) || i.Step > i.High-i.Low {
		return calc.Faultf("moment.setting", "A marked step of %.4g makes no sense on a scale from %.4g to %.4g: it must be above 0 and fit the scale.", i.Step, i.Low, i.High)
	}
	if !(i.Setting > 0) || i.Setting < i.Low || i.Setting > i.High {
		return calc.Faultf("moment.setting", "Setting %.4g is not on the scale of this binding, %.4g to %.4g.", i.Setting, i.Low, i.High)
	}
	if !(i.Computed > 0) || math.IsInf(i.Computed, 0) {
		return calc.Faultf("moment.setting", "A computed value of %.4g cannot bound a correction: it must be above 0.", i.Computed)
	}
	if i.Rounds < 0 {
		return calc.Faultf("moment.setting", "%d corrections cannot have been made: it must be 0 or more.", i.Rounds)
	}
	return nil
}

// checkMark holds a new setting to what a test alone may bring about. The
// setting that is needed counts as much as its mark: rounding excuses nothing.
func (i Indicator) checkMark(needed, mark float64) error {
	for _, from := range []struct {
		value float64
		words string
	}{{i.Setting, "from where it stands"}, {i.Computed, "from the computed value"}} {
		change := math.Max(math.Abs(needed/from.value-1), math.Abs(mark/from.value-1))
		if change > largestChange+roundingSlack {
			return seekCause("moment.change", "The indicator would go from %.4g to %.4g, %s %% %s %.4g: above 30 %%, two rows, look for the cause first.",
				i.Setting, mark, changeWords(change*100), from.words, from.value)
		}
	}
	if i.NeverAbove && mark > i.Computed+roundingSlack {
		return seekCause("moment.light", "The indicator would go from %.4g to %.4g, above the computed value %.4g, which nothing may raise for a skier this light: look for the cause.",
			i.Setting, mark, i.Computed)
	}
	if mark < i.Low-roundingSlack || mark > i.High+roundingSlack {
		return seekCause("moment.off-scale", "The indicator would go from %.4g to %.4g, off the scale of this binding, %.4g to %.4g: look for a cause other than the setting.",
			i.Setting, mark, i.Low, i.High)
	}
	return nil
}

// nearestMark rounds to a mark, halves down: the lower value is the milder
// mistake. It may lie off the scale.
func (i Indicator) nearestMark(value float64) float64 {
	const perUnit = 1e6 // takes the last bits of a multiplication away
	mark := math.Round(math.Ceil(value/i.Step-0.5-roundingSlack)*i.Step*perUnit) / perUnit
	if math.Abs(value-i.Low) < math.Abs(value-mark)-roundingSlack {
		return i.Low
	}
	return mark
}

// meanMiddle is the mean of the middle values in Nm. It refuses verdicts that
// Judge did not make, and such as no single scale could serve.
func meanMiddle(verdicts []Verdict) (quantity.NewtonMetre, error) {
	var sum quantity.NewtonMetre
	for _, v := range verdicts {
		if len(v.scale.Moments) == 0 {
			return 0, calc.Faultf("moment.setting", "Without a middle value and a reference there is nothing to correct by: test the binding first.")
		}
		if first := verdicts[0]; v.Direction != first.Direction || v.Reference != first.Reference {
			return 0, calc.Faultf("moment.setting", "One scale cannot be set by %s with the reference %s and %s with the reference %s: give the readings of one piece of one ski.",
				first.Direction, first.Reference, v.Direction, v.Reference)
		}
		sum += v.Middle
	}
	if len(verdicts) == 0 {
		return 0, calc.Faultf("moment.setting", "Without readings there is nothing to correct by: test the binding first.")
	}
	return sum / quantity.NewtonMetre(len(verdicts)), nil
}

// furthest is the verdict that asks for most.
func furthest(verdicts []Verdict) Verdict {
	worst := verdicts[0]
	for _, v := range verdicts[1:] {
		if v.Action.weight() > worst.Action.weight() {
			worst = v
		}
	}
	return worst
}

// keptAt reports whether every verdict would keep the binding if its middle value
// grew by this factor.
func keptAt(factor float64, verdicts []Verdict) bool {
	for _, v := range verdicts {
		m := quantity.NewtonMetre(float64(v.Middle) * factor)
		class := classOf(v.Direction, percentOf(m, v.Reference), m-v.Reference)
		if actionFor(rangeOf(v.scale.rowsFrom(m)), class) != Keep {
			return false
		}
	}
	return true
}

// changeWords prints a change in per cent so that one beyond the bound does not
// read as one on it.
func changeWords(percent float64) string {
	return shortest(percent, func(shown float64) bool { return shown > largestChange*100 })
}

func seekCause(code, format string, args ...any) error {
	f := calc.Faultf(code, format, args...)
	f.Source, f.Cause = ourRule, ErrSeekCause
	return f
}
