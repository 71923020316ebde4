package simulated_test

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

// promised is an invented binding that does at 6 what the chart asks of row L:
// 50 Nm and 194 Nm (both from memory).
func promised() simulated.Binding {
	return simulated.Binding{
		Toe:  simulated.Spring{PerUnit: 50.0 / 6, Gain: 1},
		Heel: simulated.Spring{PerUnit: 194.0 / 6, Gain: 1},
	}
}

var atSix = simulated.State{Toe: 6, Heel: 6}

// The model by hand.
func TestMoment(t *testing.T) {
	for name, c := range map[string]struct {
		change  func(*simulated.Binding, *simulated.State)
		release simulated.Release
		want    float64
	}{
		"as promised":               {func(*simulated.Binding, *simulated.State) {}, simulated.TwistLeft, 50},
		"as promised, forward lean": {func(*simulated.Binding, *simulated.State) {}, simulated.ForwardLean, 194},
		"half the setting":          {func(_ *simulated.Binding, s *simulated.State) { s.Toe = 3 }, simulated.TwistRight, 25},
		"the heel's setting":        {func(_ *simulated.Binding, s *simulated.State) { s.Heel = 3 }, simulated.ForwardLean, 97},
		"the toe is not the heel":   {func(_ *simulated.Binding, s *simulated.State) { s.Heel = 3 }, simulated.TwistLeft, 50},
		"gain":                      {func(b *simulated.Binding, _ *simulated.State) { b.Toe.Gain = 1.2 }, simulated.TwistLeft, 60},
		"friction":                  {func(b *simulated.Binding, _ *simulated.State) { b.Toe.Friction = 4 }, simulated.TwistLeft, 54},
		"asymmetry, left":           {func(b *simulated.Binding, _ *simulated.State) { b.Asymmetry = 0.1 }, simulated.TwistLeft, 55},
		"asymmetry, right":          {func(b *simulated.Binding, _ *simulated.State) { b.Asymmetry = 0.1 }, simulated.TwistRight, 45},
		"asymmetry, forward lean":   {func(b *simulated.Binding, _ *simulated.State) { b.Asymmetry = 0.1 }, simulated.ForwardLean, 194},
		"too much pressure":         {func(b *simulated.Binding, s *simulated.State) { b.PressureShare, s.PressureOff = 0.2, 2 }, simulated.ForwardLean, 271.6},
		"too little pressure":       {func(b *simulated.Binding, s *simulated.State) { b.PressureShare, s.PressureOff = 0.2, -1 }, simulated.TwistLeft, 40},
		"pinched":                   {func(b *simulated.Binding, s *simulated.State) { b.PinchShare, s.ToeOff = 0.5, -0.6 }, simulated.TwistLeft, 65},
		"too high":                  {func(b *simulated.Binding, s *simulated.State) { b.PinchShare, s.ToeOff = 0.5, 0.6 }, simulated.TwistRight, 35},
		"pinched, forward lean":     {func(b *simulated.Binding, s *simulated.State) { b.PinchShare, s.ToeOff = 0.5, -0.6 }, simulated.ForwardLean, 194},
		"all at once": {func(b *simulated.Binding, s *simulated.State) {
			b.Toe.Gain, b.Toe.Friction, b.Asymmetry, b.PressureShare, b.PinchShare = 1.1, 5, 0.1, 0.1, 0.2
			s.PressureOff, s.ToeOff = 1, -1
		}, simulated.TwistRight, 71.28}, // (55 + 5) x 1.1 x 1.2 x 0.9
	} {
		b, s := promised(), atSix
		c.change(&b, &s)
		got, err := b.Moment(c.release, s)
		require.NoError(t, err, name)
		require.InDelta(t, c.want, float64(got), 1e-9, name)
	}
}

func TestFaults(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	for name, c := range map[string]struct {
		change func(*simulated.Binding, *simulated.State)
		code   string
	}{
		"no spring":       {func(b *simulated.Binding, _ *simulated.State) { b.Toe = simulated.Spring{} }, "simulated.binding"},
		"no heel":         {func(b *simulated.Binding, _ *simulated.State) { b.Heel.Gain = 0 }, "simulated.binding"},
		"gain of NaN":     {func(b *simulated.Binding, _ *simulated.State) { b.Toe.Gain = nan }, "simulated.binding"},
		"much friction":   {func(b *simulated.Binding, _ *simulated.State) { b.Toe.Friction = 201 }, "simulated.binding"},
		"helpful rubbing": {func(b *simulated.Binding, _ *simulated.State) { b.Toe.Friction = -1 }, "simulated.binding"},
		"one-sided":       {func(b *simulated.Binding, _ *simulated.State) { b.Asymmetry = -0.6 }, "simulated.binding"},
		"noise alone":     {func(b *simulated.Binding, _ *simulated.State) { b.Noise = 0.6 }, "simulated.binding"},
		"coupled":         {func(b *simulated.Binding, _ *simulated.State) { b.PressureShare = inf }, "simulated.binding"},
		"pinched":         {func(b *simulated.Binding, _ *simulated.State) { b.PinchShare = nan }, "simulated.binding"},
		"scale at 0":      {func(_ *simulated.Binding, s *simulated.State) { s.Toe = 0 }, "simulated.state"},
		"scale at 21":     {func(_ *simulated.Binding, s *simulated.State) { s.Heel = 21 }, "simulated.state"},
		"far off":         {func(_ *simulated.Binding, s *simulated.State) { s.PressureOff = -11 }, "simulated.state"},
		"nowhere":         {func(_ *simulated.Binding, s *simulated.State) { s.ToeOff = quantity.Millimetre(nan) }, "simulated.state"},
		"loose":           {func(b *simulated.Binding, s *simulated.State) { b.PressureShare, s.PressureOff = 0.5, -2 }, "simulated.loose"},
		"loose twice": {func(b *simulated.Binding, s *simulated.State) {
			b.PressureShare, s.PressureOff, b.PinchShare, s.ToeOff = 1, -2, 1, 2
		}, "simulated.loose"},
	} {
		b, s := promised(), atSix
		c.change(&b, &s)
		got, err := b.Moment(simulated.TwistLeft, s)
		requireFault(t, err, c.code, name)
		require.Zero(t, got, name)
		_, err = b.Readings(simulated.TwistLeft, s, 0)
		requireFault(t, err, c.code, name)
	}
	_, err := promised().Moment("sideways", atSix)
	requireFault(t, err, "simulated.release", "sideways")
	_, err = promised().Readings(simulated.TwistLeft, atSix, -1)
	requireFault(t, err, "simulated.round", "before the first")
}

func TestReadingsScatter(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := promised()
		b.Noise, b.Seed = rapid.Float64Range(0, 0.5).Draw(t, "noise"), rapid.Uint64().Draw(t, "seed")
		release := rapid.SampledFrom(simulated.Releases()).Draw(t, "release")
		round := rapid.IntRange(0, 100).Draw(t, "round")
		m, err := b.Moment(release, atSix)
		require.NoError(t, err)
		read, err := b.Readings(release, atSix, round)
		require.NoError(t, err)
		require.Len(t, read, 3)
		for _, r := range read {
			require.InDelta(t, float64(m), float64(r), float64(m)*b.Noise+0.05+1e-9)
		}
		again, err := b.Readings(release, atSix, round)
		require.NoError(t, err)
		require.Equal(t, read, again, "one seed, one series")
	})
}

// Seeds, rounds and releases scatter each in its own way.
func TestScatterDiffers(t *testing.T) {
	b := promised()
	b.Noise, b.Toe = 0.3, b.Heel // the same moment every way
	seen := map[string]bool{}
	for b.Seed = range uint64(3) {
		for round := range 4 {
			for _, release := range simulated.Releases() {
				read, err := b.Readings(release, atSix, round)
				require.NoError(t, err)
				seen[quantity.PrintList([]float64{float64(read[0]), float64(read[1]), float64(read[2])}, quantity.NM)] = true
			}
		}
	}
	require.Len(t, seen, 3*4*3)
}

func TestDirection(t *testing.T) {
	require.Equal(t, moment.Twist, simulated.TwistLeft.Direction())
	require.Equal(t, moment.Twist, simulated.TwistRight.Direction())
	require.Equal(t, moment.ForwardLean, simulated.ForwardLean.Direction())
}

func requireFault(t *testing.T, err error, code, name string) {
	t.Helper()
	var fault *calc.Fault
	require.ErrorAs(t, err, &fault, name)
	require.Equal(t, code, fault.Code, name)
	require.NotContains(t, fault.Sentence, "%!", name)
}
