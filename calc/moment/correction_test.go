package moment_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"drillstop/calc"
	"drillstop/calc/moment"
	"drillstop/calc/quantity"
	"drillstop/calc/simulated"
)

// indicator is an invented scale from 3 to 12 with half values marked, set to
// what the chart says.
func indicator(setting float64) moment.Indicator {
	return moment.Indicator{Setting: setting, Computed: setting, Step: 0.5, Low: 3, High: 12}
}

// Correction in proportion on invented bindings.
func TestCorrection(t *testing.T) {
	for _, record := range records(t, "corrections.csv") {
		verdicts := []moment.Verdict{judge(t, moment.Twist, record[0], record[1])}
		if record[2] != "" {
			verdicts = append(verdicts, judge(t, moment.Twist, record[0], record[2]))
		}
		i := moment.Indicator{Setting: number(t, record[3]), Computed: number(t, record[4]), Step: number(t, record[5]), Low: 3, High: 14}
		i.Low = min(i.Low, i.Setting)
		got, err := moment.Correction(i, verdicts...)
		require.NoError(t, err, record)
		require.Equal(t, number(t, record[6]), got, record)
	}
}

func TestCorrectionSeeksTheCause(t *testing.T) {
	over := judge(t, moment.Twist, "L", "60 60 60")
	with := func(i moment.Indicator, change func(*moment.Indicator)) moment.Indicator {
		change(&i)
		return i
	}
	for _, c := range []struct {
		name     string
		i        moment.Indicator
		verdicts []moment.Verdict
		code     string
		text     string
	}{
		{"cause first", indicator(6), []moment.Verdict{judge(t, moment.Twist, "L", "69 69 69")}, "moment.seek-cause", "69 Nm is 38 % above the reference 50 Nm, too far to be set right at the indicator: seek cause."},
		{"out of service", indicator(6), []moment.Verdict{judge(t, moment.Twist, "L", "20 20 20")}, "moment.seek-cause", "take out of service"},
		{"only one way too far", indicator(6), []moment.Verdict{judge(t, moment.Twist, "L", "50 50 50"), judge(t, moment.Twist, "L", "69 69 69")}, "moment.seek-cause", "69 Nm"},
		{"three rounds", with(indicator(6), func(i *moment.Indicator) { i.Rounds = 3 }), []moment.Verdict{over}, "moment.rounds", "after 3 corrections of this scale"},
		{"one way high, one low", indicator(6), []moment.Verdict{over, judge(t, moment.Twist, "L", "42 42 42")}, "moment.uneven", "no setting brings both directions into range"},
		{"too uneven for one setting", indicator(6), []moment.Verdict{judge(t, moment.Twist, "L", "65 65 65"), judge(t, moment.Twist, "L", "44 44 44")}, "moment.uneven", "65 Nm is 30 % above"},
		{"more than two rows", indicator(6), []moment.Verdict{judge(t, moment.Twist, "L", "38 38 38")}, "moment.change", "from 6 to 8, 33.3 % from where it stands 6: above 30 %"},
		{"just above 30 %", with(indicator(6), func(i *moment.Indicator) { i.Step = 0.1 }), []moment.Verdict{judge(t, moment.Twist, "L", "38.4 38.4 38.4")}, "moment.change", "from 6 to 7.8, 30.2 %"},
		{"its mark more than two rows", moment.Indicator{Setting: 4, Computed: 4, Step: 1.75, Low: 1, High: 12}, []moment.Verdict{judge(t, moment.Twist, "L", "40 40 40")}, "moment.change", "from 4 to 5.25, 31.2 %"},
		{"lightest row", moment.Indicator{Setting: 0.75, Computed: 0.75, Step: 0.25, Low: 0.5, High: 3}, []moment.Verdict{judge(t, moment.Twist, "A", "2 2 2")}, "moment.change", "from 0.75 to 1.75, 150 %"},
		{"far from computed", with(indicator(5), func(i *moment.Indicator) { i.Computed = 6 }), []moment.Verdict{over}, "moment.change", "from 5 to 4, 33.3 % from the computed value 6"},
		{"a light skier", moment.Indicator{Setting: 1.5, Computed: 1.5, Step: 0.25, Low: 0.5, High: 3, NeverAbove: true}, []moment.Verdict{judge(t, moment.ForwardLean, "D", "43 43 43")}, "moment.light", "above the computed value 1.5"},
		{"below the scale", with(indicator(3), func(i *moment.Indicator) { i.Step = 0.25 }), []moment.Verdict{over}, "moment.off-scale", "from 3 to 2.5, off the scale of this binding, 3 to 12"},
		{"above the scale", indicator(12), []moment.Verdict{judge(t, moment.Twist, "L", "42 42 42")}, "moment.off-scale", "from 12 to 14.5"},
		{"no nearer mark", moment.Indicator{Setting: 1, Computed: 1, Step: 1, Low: 0, High: 4}, []moment.Verdict{over}, "moment.step", "from 1 to 0.8333, and no mark of this scale, one every 1, lies near enough"},
		{"a mark that does not do", moment.Indicator{Setting: 3.9, Computed: 3.9, Step: 1.8, Low: 1, High: 12}, []moment.Verdict{judge(t, moment.Twist, "L", "62.5 62.5 62.5")}, "moment.step", "from 3.9 to 3.12"},
		{"marks do not do for both", moment.Indicator{Setting: 2, Computed: 2, Step: 1, Low: 1, High: 4}, []moment.Verdict{judge(t, moment.Twist, "L", "59 59 59"), judge(t, moment.Twist, "L", "50 50 50")}, "moment.step", "59 Nm is 18 % above"},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := moment.Correction(c.i, c.verdicts...)
			requireFault(t, err, c.code)
			require.ErrorIs(t, err, moment.ErrSeekCause)
			require.ErrorContains(t, err, c.text)
			require.Zero(t, got)
		})
	}
}

// What makes no sense is refused as that, and sends nobody searching.
func TestCorrectionRefuses(t *testing.T) {
	over := []moment.Verdict{judge(t, moment.Twist, "L", "60 60 60")}
	for name, c := range map[string]struct {
		i        moment.Indicator
		verdicts []moment.Verdict
		text     string
	}{
		"setting off the scale":  {indicator(13), over, "Setting 13 is not on the scale of this binding, 3 to 12."},
		"no setting":             {moment.Indicator{Computed: 6, Step: 0.5, Low: 0, High: 12}, over, "Setting 0"},
		"a setting of NaN":       {indicator(nan), over, "Setting NaN"},
		"no step":                {moment.Indicator{Setting: 6, Computed: 6, Low: 3, High: 12}, over, "marked step of 0"},
		"step beyond the scale":  {moment.Indicator{Setting: 6, Computed: 6, Step: inf, Low: 3, High: 12}, over, "marked step"},
		"scale upside down":      {moment.Indicator{Setting: 6, Computed: 6, Step: 0.5, Low: 12, High: 3}, over, "from 12 to 3"},
		"scale without end":      {moment.Indicator{Setting: 6, Computed: 6, Step: 0.5, Low: 3, High: inf}, over, "must rise"},
		"nothing computed":       {moment.Indicator{Setting: 6, Step: 0.5, Low: 3, High: 12}, over, "computed value of 0"},
		"computed NaN":           {moment.Indicator{Setting: 6, Computed: nan, Step: 0.5, Low: 3, High: 12}, over, "computed value of NaN"},
		"fewer than no rounds":   {moment.Indicator{Setting: 6, Computed: 6, Step: 0.5, Low: 3, High: 12, Rounds: -1}, over, "-1 corrections"},
		"no test":                {indicator(6), nil, "Without readings"},
		"an empty verdict":       {indicator(6), []moment.Verdict{{}}, "test the binding first"},
		"a verdict made by hand": {indicator(6), []moment.Verdict{{Middle: 60, Reference: 50, Action: moment.Correct}}, "test the binding first"},
		"two pieces": {indicator(6), []moment.Verdict{over[0], judge(t, moment.ForwardLean, "L", "220 220 220")},
			"twist with the reference 50 Nm and forward lean with the reference 194 Nm"},
		"two skiers": {indicator(6), []moment.Verdict{over[0], judge(t, moment.Twist, "K", "50 50 50")}, "the reference 43 Nm"},
	} {
		got, err := moment.Correction(c.i, c.verdicts...)
		requireFault(t, err, "moment.setting")
		require.NotErrorIs(t, err, moment.ErrSeekCause, name)
		require.ErrorContains(t, err, c.text, name)
		require.Zero(t, got, name)
	}
}

// A binding or a bench with a fixed gain error is brought to where it may be kept
// by the first correction, or else its cause is to be sought at once: turning
// further and further never happens, and three rounds are always enough.
func TestFixedGainConverges(t *testing.T) {
	columns := map[moment.Direction]moment.Scale{
		moment.Twist:       scaleOf(t, moment.Twist, "A"),
		moment.ForwardLean: scaleOf(t, moment.ForwardLean, "A"),
	}
	ended := map[string]int{}
	rapid.Check(t, func(t *rapid.T) {
		release := rapid.SampledFrom([]simulated.Release{simulated.TwistLeft, simulated.ForwardLean}).Draw(t, "release")
		s := columns[release.Direction()]
		s.At = rapid.IntRange(0, len(s.Moments)-1).Draw(t, "row")
		i := moment.Indicator{
			Computed: rapid.Float64Range(0.75, 12).Draw(t, "computed"), Low: 0.5, High: 14,
			Step: rapid.SampledFrom([]float64{0.1, 0.25, 0.5, 1}).Draw(t, "step"),
		}
		i.Setting = max(i.Low, math.Floor(i.Computed/i.Step)*i.Step)
		spring := simulated.Spring{PerUnit: s.Moments[s.At] / quantity.NewtonMetre(i.Computed), Gain: rapid.Float64Range(0.4, 2).Draw(t, "gain")}
		b := simulated.Binding{Toe: spring, Heel: spring}
		for {
			m, err := b.Moment(release, simulated.State{Toe: i.Setting, Heel: i.Setting})
			require.NoError(t, err)
			v, err := moment.Judge(release.Direction(), s, []quantity.NewtonMetre{m, m, m})
			require.NoError(t, err)
			if v.Action == moment.Keep {
				ended["kept"]++
				return
			}
			require.Zero(t, i.Rounds, "the first correction did not bring it where it is kept")
			to, err := moment.Correction(i, v)
			if err != nil {
				require.ErrorIs(t, err, moment.ErrSeekCause)
				ended["cause"]++
				return
			}
			ended["corrected"]++
			i.Setting, i.Rounds = to, i.Rounds+1
		}
	})
	require.Len(t, ended, 3, "every end was seen: %v", ended)
}

// Whatever the binding does, with rubbing, two unlike ways and scatter: three
// rounds at most, never more than 30 % off the computed value, and then it is
// kept or the cause is to be sought.
func TestEveryBindingEndsInThreeRounds(t *testing.T) {
	s := scaleOf(t, moment.Twist, "L")
	rapid.Check(t, func(t *rapid.T) {
		computed := rapid.Float64Range(3, 10).Draw(t, "computed")
		i := moment.Indicator{Setting: computed, Computed: computed, Step: rapid.SampledFrom([]float64{0.1, 0.25, 0.5}).Draw(t, "step"), Low: 1, High: 14}
		spring := simulated.Spring{
			PerUnit: quantity.NewtonMetre(50 / computed), Gain: rapid.Float64Range(0.6, 1.4).Draw(t, "gain"),
			Friction: quantity.NewtonMetre(rapid.Float64Range(0, 30).Draw(t, "friction")),
		}
		b := simulated.Binding{
			Toe: spring, Heel: spring, PressureShare: 0.1, PinchShare: 0.3,
			Asymmetry: rapid.Float64Range(-0.2, 0.2).Draw(t, "asymmetry"),
			Noise:     rapid.Float64Range(0, 0.2).Draw(t, "noise"), Seed: rapid.Uint64().Draw(t, "seed"),
		}
		off := quantity.Millimetre(rapid.Float64Range(-2, 2).Draw(t, "off"))
		for round := 0; ; round++ {
			var verdicts []moment.Verdict
			kept := true
			for _, r := range []simulated.Release{simulated.TwistLeft, simulated.TwistRight} {
				read, err := b.Readings(r, simulated.State{Toe: i.Setting, Heel: i.Setting, PressureOff: off, ToeOff: off / 2}, round)
				require.NoError(t, err)
				v, err := moment.Judge(moment.Twist, s, read)
				require.NoError(t, err)
				verdicts, kept = append(verdicts, v), kept && v.Action == moment.Keep
			}
			if kept {
				return
			}
			to, err := moment.Correction(i, verdicts...)
			if err != nil {
				require.ErrorIs(t, err, moment.ErrSeekCause)
				return
			}
			require.LessOrEqual(t, i.Rounds, 2, "a fourth correction")
			require.InDelta(t, computed, to, computed*0.3+1e-9)
			i.Setting, i.Rounds = to, i.Rounds+1
		}
	})
}

// Whatever comes in, what goes out is a Fault or a value on the scale.
func TestCorrectionNeverLeavesTheScale(t *testing.T) {
	s := scaleOf(t, moment.Twist, "L")
	rapid.Check(t, func(t *rapid.T) {
		draw := func(name string) float64 {
			return rapid.OneOf(rapid.Float64(), rapid.Float64Range(0, 20), rapid.SampledFrom([]float64{nan, inf, -inf, 0})).Draw(t, name)
		}
		i := moment.Indicator{
			Setting: draw("setting"), Computed: draw("computed"), Step: draw("step"), Low: draw("low"), High: draw("high"),
			Rounds: rapid.IntRange(-1, 4).Draw(t, "rounds"), NeverAbove: rapid.Bool().Draw(t, "never above"),
		}
		var verdicts []moment.Verdict
		for range rapid.IntRange(0, 3).Draw(t, "verdicts") {
			m := quantity.NewtonMetre(rapid.Float64Range(1, 200).Draw(t, "middle"))
			v, err := moment.Judge(moment.Twist, s, []quantity.NewtonMetre{m, m, m})
			require.NoError(t, err)
			verdicts = append(verdicts, v)
		}
		got, err := moment.Correction(i, verdicts...)
		if err != nil {
			var fault *calc.Fault
			require.ErrorAs(t, err, &fault)
			require.Zero(t, got)
			return
		}
		require.True(t, got >= i.Low-1e-9 && got <= i.High+1e-9, "%g is off %g to %g", got, i.Low, i.High)
		require.True(t, got == i.Setting || math.Abs(got/i.Computed-1) <= 0.3+1e-9, "%g is far from %g", got, i.Computed)
	})
}
