package steps

import (
	"testing"

	"github.com/stretchr/testify/require"

	"drillstop/workflow"
)

func TestLastLookAsksWhatThereIs(t *testing.T) {
	mount := newJob(t, workflow.NewMount).upTo(LastLook)
	require.Len(t, mount.usual(LastLook), 8)
	require.Len(t, mount.refused(LastLook, "heads.right", "").Fields, 1)

	adjust := newJob(t, workflow.Adjustment).upTo(LastLook)
	require.Len(t, adjust.refused(LastLook, "heads.left", "").Fields, 1, "screws work loose in use as well")

	bare := newJob(t, workflow.Adjustment).upTo(Binding).change(Binding, "brake", "").
		waive("fit.brake-none", "on leashes").upTo(LastLook)
	require.Len(t, bare.usual(LastLook), 6)
}

func TestLastLookWaitsForTheTests(t *testing.T) {
	b := newJob(t, workflow.Adjustment).through(ReleaseValue)
	require.Equal(t, "First release test must be answered.", b.held(LastLook))
	b.change(ReleaseTest)
	require.Equal(t, "First recentering must be answered.", b.held(LastLook))
	b.change(Recentering)
	require.Empty(t, b.held(LastLook))
}

func TestLastLookRests(t *testing.T) {
	for _, c := range []struct {
		name  string
		act   func(*bench)
		stale bool
	}{
		{"values set again", func(b *bench) { b.change(ReleaseValue) }, true},
		{"a scale set anew", func(b *bench) { b.change(ReleaseValue, "heel_set.left", "5.5") }, true},
		{"forward pressure turned", func(b *bench) { b.change(ForwardPressure, "turns.right", "1") }, true},
		{"toe height set", func(b *bench) { b.change(ToeHeight, "found.left", "stuck") }, true},
		{"toe height as it is", func(b *bench) { b.change(ToeHeight) }, false},
		{"sole length set anew", func(b *bench) { b.change(SoleLength, "set.left", "317") }, true},
		{"a stripped screw", func(b *bench) { b.change(Screws, "stripped.left", "1", "way_out", "insert") }, true},
		{"another hole", func(b *bench) { b.change(Holes, "depth", "9.1") }, true},
		{"another pair", func(b *bench) { b.change(Skis, "serial", "TN-9") }, true},
		{"another binding", func(b *bench) { b.change(Binding, "serial", "OR-9") }, true},
		{"the skier's telephone", func(b *bench) { b.change(Skier, "contact", "42") }, false},
	} {
		t.Run(c.name, func(t *testing.T) {
			b := newJob(t, workflow.NewMount).through(LastLook)
			c.act(b)
			require.Equal(t, c.stale, b.stale(LastLook) != "", b.stale(LastLook))
		})
	}
}
