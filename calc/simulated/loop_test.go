package simulated_test

import (
	"errors"
	"testing"

	"github.com/stretchr/testify/require"

	"drillstop/calc"
	"drillstop/calc/moment"
	"drillstop/calc/quantity"
	"drillstop/calc/simulated"
)

// Rows J to P of the chart (from memory); row L, the third, is the skier's.
var (
	twistRows = moment.Scale{Moments: []quantity.NewtonMetre{37, 43, 50, 58, 67, 78, 91}, At: 2}
	leanRows  = moment.Scale{Moments: []quantity.NewtonMetre{141, 165, 194, 229, 271, 320, 380}, At: 2}
)

// technician works one ski as the rules say, and writes down what was done.
type technician struct {
	t        *testing.T
	b        simulated.Binding
	s        simulated.State
	round    int
	rounds   [2]int // corrections of toe and heel
	verdicts map[simulated.Release]moment.Verdict
	done     []string
}

// test measures all three releases.
func (w *technician) test() (kept bool) {
	w.t.Helper()
	w.verdicts, kept = map[simulated.Release]moment.Verdict{}, true
	for _, r := range simulated.Releases() {
		read, err := w.b.Readings(r, w.s, w.round)
		require.NoError(w.t, err)
		rows := twistRows
		if r == simulated.ForwardLean {
			rows = leanRows
		}
		v, err := moment.Judge(r.Direction(), rows, read)
		require.NoError(w.t, err)
		w.verdicts[r], kept = v, kept && v.Action == moment.Keep
	}
	w.round++
	return kept
}

// correct turns both scales as far as the rules let it.
func (w *technician) correct() error {
	toe, errToe := moment.Correction(w.indicator(w.s.Toe, w.rounds[0]), w.verdicts[simulated.TwistLeft], w.verdicts[simulated.TwistRight])
	heel, errHeel := moment.Correction(w.indicator(w.s.Heel, w.rounds[1]), w.verdicts[simulated.ForwardLean])
	if err := errors.Join(errToe, errHeel); err != nil {
		return err
	}
	if toe != w.s.Toe {
		w.s.Toe, w.rounds[0] = toe, w.rounds[0]+1
		w.done = append(w.done, "toe to "+quantity.Print(toe, quantity.Plain))
	}
	if heel != w.s.Heel {
		w.s.Heel, w.rounds[1] = heel, w.rounds[1]+1
		w.done = append(w.done, "heel to "+quantity.Print(heel, quantity.Plain))
	}
	return nil
}

func (w *technician) indicator(setting float64, rounds int) moment.Indicator {
	return moment.Indicator{Setting: setting, Computed: 6, Step: 0.5, Low: 3, High: 12, Rounds: rounds}
}

// work tests and corrects, and follows the causes in their order where the rules
// send it there, until the binding is kept or no cause is left.
func (w *technician) work() (kept bool) {
	causes := moment.Causes()
	for !w.test() {
		err := w.correct()
		if err == nil {
			continue
		}
		require.ErrorIs(w.t, err, moment.ErrSeekCause)
		if len(causes) == 0 {
			return false
		}
		w.remedy(causes[0])
		causes, w.rounds = causes[1:], [2]int{}
	}
	return true
}

// remedy sets right what a cause names, where this binding has it.
func (w *technician) remedy(c moment.Cause) {
	switch c.Code {
	case "forward-pressure":
		w.s.PressureOff = 0
	case "toe-height":
		w.s.ToeOff = 0
	case "gliding-surface":
		w.b.Toe.Friction = 0
	}
	w.done = append(w.done, c.Code)
}

func TestWholeLoops(t *testing.T) {
	for name, c := range map[string]struct {
		change func(*simulated.Binding, *simulated.State)
		kept   bool
		done   []string
	}{
		"nothing wrong":              {func(*simulated.Binding, *simulated.State) {}, true, nil},
		"a strong spring":            {func(b *simulated.Binding, _ *simulated.State) { b.Toe.Gain = 1.2 }, true, []string{"toe to 5"}},
		"a bench that reads low":     {func(b *simulated.Binding, _ *simulated.State) { b.Toe.Gain, b.Heel.Gain = 0.8, 0.8 }, true, []string{"toe to 7.5", "heel to 7.5"}},
		"two springs, two ways":      {func(b *simulated.Binding, _ *simulated.State) { b.Toe.Gain, b.Heel.Gain = 1.2, 0.8 }, true, []string{"toe to 5", "heel to 7.5"}},
		"unlike ways, in the middle": {func(b *simulated.Binding, _ *simulated.State) { b.Toe.Gain, b.Asymmetry = 1.1, 0.08 }, true, []string{"toe to 5.5"}},
		"too much pressure":          {func(b *simulated.Binding, s *simulated.State) { b.PressureShare, s.PressureOff = 0.2, 2 }, true, []string{"forward-pressure"}},
		"no pressure and a weak spring": {func(b *simulated.Binding, s *simulated.State) {
			b.PressureShare, s.PressureOff, b.Heel.Gain = 0.2, -2, 0.84
		}, true,
			[]string{"forward-pressure", "heel to 7"}},
		"pinched": {func(b *simulated.Binding, s *simulated.State) { b.PinchShare, s.ToeOff = 0.5, -0.8 }, true, []string{"forward-pressure", "toe-height"}},
		"dirt":    {func(b *simulated.Binding, _ *simulated.State) { b.Toe.Friction = 20 }, true, []string{"forward-pressure", "toe-height", "gliding-surface"}},
		"worn out": {func(b *simulated.Binding, _ *simulated.State) { b.Heel.Gain = 0.5 }, false,
			[]string{"forward-pressure", "toe-height", "gliding-surface", "sole", "contaminated-boot", "wrong-boot", "worn-binding"}},
		"bent": {func(b *simulated.Binding, _ *simulated.State) { b.Asymmetry = 0.25 }, false,
			[]string{"forward-pressure", "toe-height", "gliding-surface", "sole", "contaminated-boot", "wrong-boot", "worn-binding"}},
	} {
		t.Run(name, func(t *testing.T) {
			w := &technician{t: t, b: promised(), s: atSix}
			w.b.Noise, w.b.Seed = 0.02, 7
			c.change(&w.b, &w.s)
			require.Equal(t, c.kept, w.work())
			require.Equal(t, c.done, w.done)
		})
	}
}

// What a wrong height does to a binding that was kept: pinched after the test, it
// holds more, and the comparison of the two ways does not see it.
func TestPinchIsNoAsymmetry(t *testing.T) {
	w := &technician{t: t, b: promised(), s: atSix}
	w.b.PinchShare, w.s.ToeOff = 0.5, -0.8
	require.False(t, w.test())
	require.Empty(t, moment.Asymmetry(w.verdicts[simulated.TwistLeft], w.verdicts[simulated.TwistRight]))

	w.b.Asymmetry = 0.1
	require.False(t, w.test())
	found := moment.Asymmetry(w.verdicts[simulated.TwistLeft], w.verdicts[simulated.TwistRight])
	require.Len(t, found, 1)
	require.Equal(t, calc.Caution, found[0].Level)
}

// A sole that rubs shows when it is lubricated: the spring's part stays, the
// rubbing goes.
func TestLubricatedShowsRubbing(t *testing.T) {
	for friction, cautions := range map[quantity.NewtonMetre]int{0: 0, 12: 0, 13: 1} { // 12 of 62 Nm are 19 %, 13 of 63 Nm 21 %
		w := &technician{t: t, b: promised(), s: atSix}
		w.b.Toe.Friction = friction
		w.test()
		clean := w.verdicts[simulated.TwistLeft]
		w.b.Toe.Friction = 0
		w.test()
		require.Len(t, moment.Lubricated(clean, w.verdicts[simulated.TwistLeft]), cautions, "friction %s", friction)
	}
}
