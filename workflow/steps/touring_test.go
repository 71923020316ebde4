package steps

import (
	"testing"

	"github.com/stretchr/testify/require"

	"drillstop/workflow"
)

// touringJob is the usual job on an invented hybrid binding with two risers.
func touringJob(t *testing.T) *bench {
	return newJob(t, workflow.Adjustment).upTo(Boots).change(Boots, "inserts", "yes").
		upTo(Binding).change(Binding, "kind", "hybrid", "risers", "2")
}

func TestTouringAppliesToBindingsThatTour(t *testing.T) {
	for kind, applies := range map[string]bool{"alpine": false, "hybrid": true, "pin": true, "frame": true, "system track": false} {
		b := newJob(t, workflow.Adjustment).upTo(Boots).change(Boots, "inserts", "yes").
			upTo(Binding).change(Binding, "kind", kind).upTo(Touring)
		sv, _ := b.list.View(b.shop, b.job).Step(Touring)
		require.Equal(t, applies, sv.Mark != workflow.MarkApart, kind)
		require.Equal(t, applies, sv.Held == "", "%s: %s", kind, sv.Held)
		if !applies {
			require.Equal(t, "This step does not apply to this job.", b.refused(Touring).Held)
			require.Empty(t, b.held(LastLook), "nothing waits for a step that does not apply")
		} else {
			require.Equal(t, "First touring mode must be answered.", b.held(LastLook))
		}
	}
}

// Without inserts the pins of a hybrid hold nothing: the boot skis in it, and
// that is all. The plate of a frame lifts with any boot.
func TestTouringNeedsInserts(t *testing.T) {
	for kind, applies := range map[string]bool{"hybrid": false, "frame": true} {
		b := newJob(t, workflow.Adjustment).upTo(Binding).change(Binding, "kind", kind).upTo(Touring)
		sv, _ := b.list.View(b.shop, b.job).Step(Touring)
		require.Equal(t, applies, sv.Mark != workflow.MarkApart, kind)
		f := b.finding("fit.no-touring")
		require.Equal(t, kind == "hybrid", f != nil, kind)
		b.upTo(HandOver).change(HandOver)
		require.Equal(t, workflow.Finished, b.job.State)
		require.Contains(t, b.job.Answers(HandOver), "told_touring", "its toe can be locked all the same")
	}
}

func TestTouringAsksWhatTheBindingHas(t *testing.T) {
	b := touringJob(t).upTo(Touring)
	require.Len(t, b.usual(Touring), 14)
	require.Len(t, b.refused(Touring, "each_riser.left", "").Fields, 1)
	require.Len(t, b.refused(Touring, "toe_released.right", "no").Fields, 1)

	b = touringJob(t).change(Binding, "risers", "0", "brake", "").
		waive("fit.brake-none", "on leashes").upTo(Touring)
	require.Len(t, b.usual(Touring), 10)
	b.change(Touring)
	require.Empty(t, b.codes(Touring))
}

func TestTouringReadsTheScalesAgain(t *testing.T) {
	b := touringJob(t).upTo(Touring).change(Touring, "values_again.right", "changed")
	f := b.finding("touring.values")
	require.Equal(t, workflow.Right, f.Side)
	require.Contains(t, f.Text, "Right ski: after touring mode a scale no longer reads toe 6  heel 6")
	require.NotEmpty(t, f.Source)
	require.True(t, f.Never)
	require.Contains(t, b.held(LastLook), "The job is held at touring mode")
	b.change(Touring, "values_again", "unchanged")
	require.Equal(t, "First release test must be answered again.", b.held(LastLook), "saying unchanged is not testing")
	b.change(ReleaseTest)
	require.Empty(t, b.held(LastLook))
}

func TestTouringRests(t *testing.T) {
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
		{"other boots", func(b *bench) { b.change(Boots, "name", "Fura tour / 27.5") }, true},
		{"another riser", func(b *bench) { b.change(Binding, "risers", "3") }, true},
		{"recentering again", func(b *bench) { b.change(Recentering, "toe", "slow") }, false},
	} {
		t.Run(c.name, func(t *testing.T) {
			b := touringJob(t).through(Touring)
			c.act(b)
			require.Equal(t, c.stale, b.stale(Touring) != "", b.stale(Touring))
		})
	}
}
