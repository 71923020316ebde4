package steps

import (
	"testing"

	"github.com/stretchr/testify/require"

	"drillstop/calc"
	"drillstop/workflow"
)

func TestToeHeight(t *testing.T) {
	for _, c := range []struct {
		name  string
		typed []string
		want  []string
	}{
		{"drags", []string{"found", "drags"}, []string{}},
		{"stuck", []string{"set.left", "stuck"}, []string{"stop toe-height.paper"}},
		{"slides", []string{"set.right", "slides"}, []string{"stop toe-height.paper"}},
		{"rattles on both", []string{"set", "rattles"}, []string{"stop toe-height.paper", "stop toe-height.paper"}},
		{"gauges alike", []string{"gauge.left", "0.5", "gauge.right", "0.8"}, []string{}},
		{"gauges unlike", []string{"gauge.left", "0.5", "gauge.right", "0.9"}, []string{"caution toe-height.unlike"}},
		{"one gauge", []string{"gauge.left", "0.5"}, []string{}},
		{"as wide as paper can drag", []string{"gauge", "3"}, []string{}},
		{"too wide for paper to drag", []string{"gauge", "3.1"}, []string{"caution toe-height.gauge", "caution toe-height.gauge"}},
		{"as wide, and it slides", []string{"gauge.left", "8", "gauge.right", "8", "set.left", "slides"}, []string{"stop toe-height.paper", "caution toe-height.gauge"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			b := newJob(t, workflow.Adjustment).upTo(ToeHeight).change(ToeHeight, c.typed...)
			require.Equal(t, c.want, b.codes(ToeHeight))
		})
	}
}

func TestToeHeightSaysTheWay(t *testing.T) {
	b := newJob(t, workflow.Adjustment).upTo(ToeHeight)
	for set, want := range map[string]string{
		"stuck":   "Left ski: the paper is stuck: raise the toe piece until it moves with clear resistance, then read forward pressure again.",
		"slides":  "Left ski: the paper slides freely: lower the toe piece until it moves with clear resistance, then read forward pressure again.",
		"rattles": "Left ski: the boot rattles: lower the toe piece until the paper moves with clear resistance, then read forward pressure again.",
	} {
		f := b.change(ToeHeight, "set.left", set, "set.right", "drags").finding("toe-height.paper")
		require.Equal(t, want, f.Text)
		require.True(t, f.Never)
	}
	b.change(ToeHeight, "found", "slides", "set", "drags")
	require.Equal(t, calc.Note, b.finding("toe-height.moved").Level)
	b.change(ToeHeight, "found", "drags")
	require.Nil(t, b.finding("toe-height.moved"))
}

func TestToeHeightThatIsNotSet(t *testing.T) {
	for _, kind := range []string{"fixed", "automatic"} {
		b := newJob(t, workflow.Adjustment).upTo(Binding).change(Binding, "toe_height", kind).upTo(ToeHeight)
		require.Len(t, b.refused(ToeHeight, "moves.left", "").Fields, 1)
		require.NotEmpty(t, b.refused(ToeHeight, "set", "drags").Fields, "there is nothing to set")
		b.change(ToeHeight)
		require.Empty(t, b.codes(ToeHeight))
		require.Empty(t, b.stale(ForwardPressure), "nothing was moved")
	}
}

func TestToeHeightRests(t *testing.T) {
	for _, c := range []struct {
		name  string
		act   func(*bench)
		stale bool
	}{
		{"another sole", func(b *bench) { b.change(Boots, "sole", "319") }, true},
		{"worn toe", func(b *bench) { b.change(Boots, "wear", "1") }, true},
		{"another shell", func(b *bench) { b.change(Boots, "shell", "28") }, true},
		{"another boot", func(b *bench) { b.change(Boots, "name", "Kamp 100 / 27.5") }, true},
		{"sole length set anew", func(b *bench) { b.change(SoleLength, "set.left", "317") }, true},
		{"boots without inserts", func(b *bench) { b.change(Boots, "inserts", "yes") }, false},
		{"another binding", func(b *bench) { b.change(Binding, "name", "Orlo 11") }, true},
		{"a fixed toe after all", func(b *bench) { b.change(Binding, "toe_height", "fixed") }, true},
		{"another brake", func(b *bench) { b.change(Binding, "brake", "110") }, false},
	} {
		t.Run(c.name, func(t *testing.T) {
			b := newJob(t, workflow.Adjustment).through(ToeHeight)
			c.act(b)
			require.Equal(t, c.stale, b.stale(ToeHeight) != "", b.stale(ToeHeight))
		})
	}
}
