package steps

import (
	"testing"

	"github.com/stretchr/testify/require"

	"drillstop/workflow"
)

func TestRecentering(t *testing.T) {
	for _, c := range []struct {
		name  string
		typed []string
		want  []string
	}{
		{"returns", nil, []string{}},
		{"slow", []string{"toe.left", "slow"}, []string{"caution recentering.slow"}},
		{"sticks", []string{"heel.right", "sticks"}, []string{"stop recentering.stuck"}},
		{"everything", []string{"toe", "slow", "heel", "sticks"}, []string{
			"caution recentering.slow", "stop recentering.stuck", "caution recentering.slow", "stop recentering.stuck",
		}},
	} {
		t.Run(c.name, func(t *testing.T) {
			b := newJob(t, workflow.Adjustment).upTo(Recentering).change(Recentering, c.typed...)
			require.Equal(t, c.want, b.codes(Recentering))
		})
	}
	b := newJob(t, workflow.Adjustment).upTo(Recentering).change(Recentering, "heel.right", "sticks")
	f := b.finding("recentering.stuck")
	require.Equal(t, workflow.Right, f.Side)
	require.True(t, f.Never)
	require.Contains(t, f.Text, "Right ski: the heel piece sticks")
	require.Contains(t, b.held(LastLook), "The job is held at recentering")
}

func TestRecenteringRests(t *testing.T) {
	for _, c := range []struct {
		name  string
		act   func(*bench)
		stale bool
	}{
		{"values as they are", func(b *bench) { b.change(ReleaseValue) }, false},
		{"a scale set anew", func(b *bench) { b.change(ReleaseValue, "heel_set.left", "5.5") }, true},
		{"forward pressure turned", func(b *bench) { b.change(ForwardPressure, "turns.right", "1") }, true},
		{"toe height set", func(b *bench) { b.change(ToeHeight, "found.left", "stuck") }, true},
		{"toe height as it is", func(b *bench) { b.change(ToeHeight) }, false},
		{"sole length set anew", func(b *bench) { b.change(SoleLength, "set.left", "317") }, true},
		{"other boots", func(b *bench) { b.change(Boots, "condition", "worn") }, true},
		{"another binding", func(b *bench) { b.change(Binding, "name", "Orlo 11") }, true},
		{"another test", func(b *bench) { b.change(ReleaseTest, "device", "") }, false},
	} {
		t.Run(c.name, func(t *testing.T) {
			b := newJob(t, workflow.Adjustment).through(Recentering)
			c.act(b)
			require.Equal(t, c.stale, b.stale(Recentering) != "", b.stale(Recentering))
		})
	}
}
