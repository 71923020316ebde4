package moment_test

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"drillstop/calc/moment"
	"drillstop/calc/quantity"
)

// Proportional correction on invented bindings: arithmetic.
func TestCorrection(t *testing.T) {
	for _, c := range []struct {
		typed         string
		setting, step float64
		want          float64
	}{
		{"60 60 60", 6, 0.5, 5},         // 6 x 50/60
		{"42 42 42", 6, 0.25, 7.25},     // 7.14 is nearer to 7.25 than to 7
		{"42 42 42", 6, 0.5, 7},         // 7.14
		{"60 60 60", 6.3, 0.5, 5},       // 5.25 is half-way: the lower
		{"49 51 52", 6.2, 0.5, 6.2},     // kept: nothing is turned
		{"40 40 40", 6, 0.25, 7.5},      // 25 % up
		{"38.5 38.5 38.5", 6, 0.1, 7.8}, // 29.9 %
	} {
		got, err := moment.Correction(c.setting, judge(t, moment.Twist, "L", c.typed), c.step, 3, 12)
		require.NoError(t, err, c.typed)
		require.InDelta(t, c.want, got, 1e-9, c.typed)
	}
}

func TestCorrectionRefuses(t *testing.T) {
	over := judge(t, moment.Twist, "L", "60 60 60")
	for _, c := range []struct {
		name                     string
		v                        moment.Verdict
		setting, step, low, high float64
		code                     string
	}{
		{"cause first", judge(t, moment.Twist, "L", "69 69 69"), 6, 0.5, 3, 12, "moment.seek-cause"},
		{"out of service", judge(t, moment.Twist, "L", "20 20 20"), 6, 0.5, 3, 12, "moment.seek-cause"},
		{"more than two rows", judge(t, moment.Twist, "L", "38 38 38"), 6, 0.5, 3, 12, "moment.change"},
		{"lightest row", judge(t, moment.Twist, "A", "2 2 2"), 0.75, 0.25, 0.5, 3, "moment.change"},
		{"below the scale", over, 3, 0.25, 3, 12, "moment.off-scale"},
		{"above the scale", judge(t, moment.Twist, "L", "42 42 42"), 12, 0.5, 3, 12, "moment.off-scale"},
		{"coarse step", over, 1, 1, 0, 4, "moment.step"},
		{"setting off the scale", over, 13, 0.5, 3, 12, "moment.setting"},
		{"no setting", over, nan, 0.5, 3, 12, "moment.setting"},
		{"no step", over, 6, 0, 3, 12, "moment.setting"},
		{"step beyond the scale", over, 6, inf, 3, 12, "moment.setting"},
		{"scale upside down", over, 6, 0.5, 12, 3, "moment.setting"},
		{"scale without end", over, 6, 0.5, 3, inf, "moment.setting"},
		{"no test", moment.Verdict{}, 6, 0.5, 3, 12, "moment.setting"},
		{"test without verdict", moment.Verdict{Middle: 60, Reference: 50}, 6, 0.5, 3, 12, "moment.seek-cause"},
	} {
		got, err := moment.Correction(c.setting, c.v, c.step, c.low, c.high)
		requireFault(t, err, c.code)
		require.Zero(t, got, c.name)
	}
}

// A binding whose spring is off by a fixed factor is brought to where it may
// be kept, and then left alone.
func TestCorrectionConverges(t *testing.T) {
	s := scaleOf(t, moment.Twist, "L")
	rapid.Check(t, func(t *rapid.T) {
		gain := rapid.Float64Range(0.79, 1.29).Draw(t, "gain")
		setting := rapid.Float64Range(6, 8).Draw(t, "setting")
		perStep := 50.0 / setting * gain // Nm per indicator step of this binding
		for range 4 {
			m := quantity.NewtonMetre(setting * perStep)
			v, err := moment.Judge(moment.Twist, s, []quantity.NewtonMetre{m, m, m})
			require.NoError(t, err)
			if v.Action == moment.Keep {
				return
			}
			setting, err = moment.Correction(setting, v, 0.25, 3, 14)
			require.NoError(t, err)
		}
		t.Fatalf("still at %g after four corrections", setting)
	})
}

// Whatever comes in, what goes out is a Fault or a value on the scale.
func TestCorrectionNeverLeavesTheScale(t *testing.T) {
	s := scaleOf(t, moment.Twist, "L")
	rapid.Check(t, func(t *rapid.T) {
		number := func(name string) float64 {
			return rapid.OneOf(rapid.Float64(), rapid.Float64Range(0, 20), rapid.SampledFrom([]float64{nan, inf, -inf, 0})).Draw(t, name)
		}
		m := quantity.NewtonMetre(rapid.Float64Range(1, 200).Draw(t, "middle"))
		v, err := moment.Judge(moment.Twist, s, []quantity.NewtonMetre{m, m, m})
		require.NoError(t, err)
		low, high := number("low"), number("high")
		got, err := moment.Correction(number("setting"), v, number("step"), low, high)
		if err != nil {
			require.Zero(t, got)
			return
		}
		require.True(t, got >= low-1e-9 && got <= high+1e-9, "%g is off %g to %g", got, low, high)
	})
}
