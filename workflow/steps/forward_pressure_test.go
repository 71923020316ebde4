package steps

import (
	"testing"

	"github.com/stretchr/testify/require"

	"drillstop/workflow"
)

func TestForwardPressure(t *testing.T) {
	for _, c := range []struct {
		name, left, right string
		want              []string
	}{
		{"in the window", "in window", "in window", []string{}},
		{"too little", "too little", "in window", []string{"stop forward-pressure.window"}},
		{"too much", "in window", "too much", []string{"stop forward-pressure.window"}},
		{"both off", "too much", "too little", []string{"stop forward-pressure.window", "stop forward-pressure.window"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			b := newJob(t, workflow.Adjustment).upTo(ForwardPressure)
			b.change(ForwardPressure, "indicator.left", c.left, "indicator.right", c.right)
			require.Equal(t, c.want, b.codes(ForwardPressure))
			require.Empty(t, b.held(ToeHeight), "a toe at the wrong height may be the cause")
			require.NotEmpty(t, b.held(ReleaseValue))
		})
	}
}

func TestForwardPressureSaysTheWay(t *testing.T) {
	b := newJob(t, workflow.Adjustment).upTo(ForwardPressure).change(ForwardPressure, "indicator.right", "too much")
	f := b.finding("forward-pressure.window")
	require.Equal(t, workflow.Right, f.Side)
	require.True(t, f.Never)
	require.Equal(t, "Right ski: forward pressure is too much: move the heel piece away from the toe until the indicator "+
		"stands in its window, and read it again.", f.Text)
}

func TestForwardPressureTurns(t *testing.T) {
	for typed, want := range map[string][]string{
		"6": {}, "-6": {}, "6.1": {"caution forward-pressure.turns"}, "-20": {"caution forward-pressure.turns"},
	} {
		b := newJob(t, workflow.Adjustment).upTo(ForwardPressure).change(ForwardPressure, "turns.left", typed)
		require.Equal(t, want, b.codes(ForwardPressure), typed)
	}
}

// Pins hold the boot by its inserts: what is measured there is a gap.
func TestPinBindingsHaveAGap(t *testing.T) {
	b := newJob(t, workflow.Adjustment).upTo(Boots).change(Boots, "inserts", "yes").
		upTo(Binding).change(Binding, "kind", "pin").upTo(ForwardPressure)
	require.NotEmpty(t, b.refused(ForwardPressure, "indicator", "in window").Fields)
	require.Len(t, b.refused(ForwardPressure, "gap.left", "").Fields, 1)
	b.change(ForwardPressure, "gap.right", "too large")
	f := b.finding("forward-pressure.gap")
	require.Equal(t, workflow.Right, f.Side)
	require.True(t, f.Never)
	require.Equal(t, "Right ski: the gap at the heel is too large: move the heel piece towards the toe until it is the gap that "+
		"the binding's maker gives, and look again.", f.Text)
	b.change(ForwardPressure, "gap", "as the maker says").through(ReleaseTest)
	require.Empty(t, b.codes(ForwardPressure))
	b.change(ForwardPressure, "gap.left", "too small")
	require.NotEmpty(t, b.stale(ReleaseTest))
	require.NotEmpty(t, newJob(t, workflow.Adjustment).upTo(ForwardPressure).refused(ForwardPressure, "gap", "too large").Fields)
}

func TestForwardPressureRefuses(t *testing.T) {
	b := newJob(t, workflow.Adjustment).upTo(ForwardPressure)
	require.Len(t, b.refused(ForwardPressure, "turns.left", "21").Fields, 1)
	require.Len(t, b.refused(ForwardPressure, "indicator.left", "fine").Fields, 1)
	require.Len(t, b.refused(ForwardPressure, "indicator.left", "too").Fields, 1, "two ways to go on")
}

// The classical case and all that looks like it: toe height answered after
// forward pressure was read.
func TestToeHeightAfterForwardPressure(t *testing.T) {
	left := func(found, set string) []string { return []string{"found", found, "set", set} }
	for _, c := range []struct {
		name  string
		first []string // toe height as answered first
		again []string // and then again, after forward pressure was read; nil: not again
		stale bool
	}{
		{"found and left alike", left("drags", "drags"), nil, false},
		{"found and left apart", left("slides", "drags"), nil, true},
		{"apart on one ski only", []string{"found.left", "drags", "found.right", "stuck", "set", "drags"}, nil, true},
		{"again, nothing moved", left("drags", "drags"), left("drags", "drags"), false},
		{"again, moved", left("drags", "drags"), left("stuck", "drags"), true},
		{"again, found so once more", left("slides", "drags"), left("slides", "drags"), true},
		{"again, left otherwise than before", left("drags", "drags"), left("slides", "slides"), true},
		{"again, measured for the first time", left("drags", "drags"), []string{"found", "drags", "gauge", "0.5"}, false},
		{
			"again, measured otherwise", []string{"found", "drags", "set", "drags", "gauge", "0.5"},
			[]string{"found", "drags", "gauge.right", "0.7"}, true,
		},
	} {
		t.Run(c.name, func(t *testing.T) {
			b := newJob(t, workflow.Adjustment).upTo(ForwardPressure).change(ForwardPressure, "turns", "")
			b.change(ToeHeight, c.first...)
			if c.again != nil {
				b.change(ForwardPressure)
				require.Empty(t, b.stale(ForwardPressure))
				b.change(ToeHeight, c.again...)
			}
			if !c.stale {
				require.Empty(t, b.stale(ForwardPressure))
				return
			}
			require.Equal(t, "toe height was changed after forward pressure was read", b.stale(ForwardPressure))
			if len(b.codes(ToeHeight)) == 0 {
				require.Equal(t, "First forward pressure must be answered again.", b.held(ReleaseValue))
			}
			b.change(ForwardPressure)
			require.Empty(t, b.stale(ForwardPressure))
		})
	}
}

// The other order: toe height first, then forward pressure. Nothing is stale.
func TestToeHeightBeforeForwardPressure(t *testing.T) {
	b := newJob(t, workflow.Adjustment).upTo(ForwardPressure)
	b.change(ToeHeight, "found", "slides", "set", "drags")
	b.change(ForwardPressure)
	require.Empty(t, b.stale(ForwardPressure))
	require.Empty(t, b.stale(ToeHeight), "forward pressure does not move the toe")
	require.Empty(t, b.held(ReleaseValue))
}

func TestForwardPressureRests(t *testing.T) {
	for _, c := range []struct {
		name  string
		act   func(*bench)
		stale bool
	}{
		{"sole length as it is", func(b *bench) { b.change(SoleLength) }, false},
		{"sole length set anew", func(b *bench) { b.change(SoleLength, "set.left", "317") }, true},
		{"another sole", func(b *bench) { b.change(Boots, "sole.left", "319") }, true},
		{"worn toe", func(b *bench) { b.change(Boots, "wear", "1") }, false},
		{"another binding", func(b *bench) { b.change(Binding, "serial", "OR-2") }, true},
		{"another scale", func(b *bench) { b.change(Binding, "scale_max", "11") }, false},
		{"older skier", func(b *bench) { b.change(Skier, "age", "35") }, false},
	} {
		t.Run(c.name, func(t *testing.T) {
			b := newJob(t, workflow.Adjustment).through(ForwardPressure)
			c.act(b)
			require.Equal(t, c.stale, b.stale(ForwardPressure) != "", b.stale(ForwardPressure))
		})
	}
}
