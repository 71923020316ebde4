package steps

import (
	"testing"

	"github.com/stretchr/testify/require"

	"drillstop/workflow"
)

func TestBrakeIsAskedWhereThereIsOne(t *testing.T) {
	with := newJob(t, workflow.NewMount).upTo(Brake)
	require.Len(t, with.usual(Brake), 6)
	require.Len(t, with.refused(Brake, "moves.right", "").Fields, 1)
	require.Len(t, with.refused(Brake, "fitted.left", "no").Fields, 1)

	without := newJob(t, workflow.NewMount).upTo(Binding).change(Binding, "brake", "").
		waive("fit.brake-none", "on leashes").upTo(Brake)
	require.Len(t, without.usual(Brake), 2, "only the heel piece on its track")
	without.change(Brake)
	require.Empty(t, without.codes(Brake))
	require.NotEmpty(t, without.refused(Brake, "fitted", "yes").Fields)
}

func TestBrakeRests(t *testing.T) {
	for _, c := range []struct {
		name  string
		act   func(*bench)
		stale bool
	}{
		{"screws kept as they are", func(b *bench) { b.change(Screws) }, false},
		{"another torque", func(b *bench) { b.change(Screws, "torque", "4.2") }, false},
		{"a stripped screw done again", func(b *bench) { b.change(Screws, "stripped.left", "1", "way_out", "insert") }, true},
		{"another brake", func(b *bench) { b.change(Binding, "brake", "110") }, true},
		{"another serial number", func(b *bench) { b.change(Binding, "serial", "OR-77") }, true},
		{"another waist", func(b *bench) { b.change(Skis, "waist", "99") }, true},
		{"another ski", func(b *bench) { b.change(Skis, "length", "179") }, true},
		{"another mark", func(b *bench) { b.change(Skis, "marks", "no") }, false},
	} {
		t.Run(c.name, func(t *testing.T) {
			b := newJob(t, workflow.NewMount).through(Brake)
			c.act(b)
			require.Equal(t, c.stale, b.stale(Brake) != "", b.stale(Brake))
		})
	}
}
