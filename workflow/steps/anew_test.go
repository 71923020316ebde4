package steps

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"drillstop/workflow"
)

// everyStep answers a mount with a hybrid binding, on skis with old holes, up to the last look: no step
// but the hand-over is left.
func everyStep(t require.TestingT) *bench {
	return newJob(t, workflow.NewMount).upTo(Boots).change(Boots, "inserts", "yes").
		upTo(Skis).change(Skis, "old_holes", "yes").upTo(Binding).change(Binding, "kind", "hybrid", "risers", "2").through(LastLook)
}

// What was done on a pair, or read off it, does not hold for another one.
func TestAnotherPairOfSkisMakesEverythingStale(t *testing.T) {
	for field, value := range map[string]string{"name": "Tarn 99 / 178", "serial": "TN-9", "length": "179"} {
		b := everyStep(t).change(Skis, field, value)
		for _, s := range b.list.Steps()[slices.Index(ids(b), Fit):slices.Index(ids(b), HandOver)] {
			if s.ID == Correction {
				continue // nothing was to be corrected
			}
			assert.NotEmpty(t, b.stale(s.ID), "%s after another %s", s.ID, field)
		}
		assert.Empty(t, b.stale(Boots), field)
		assert.NotEmpty(t, b.refused(HandOver).Held)
	}
	b := everyStep(t).change(Skis)
	assert.Empty(t, b.stale(Fit), "the same pair")
}

func ids(b *bench) []workflow.StepID {
	var out []workflow.StepID
	for _, s := range b.list.Steps() {
		out = append(out, s.ID)
	}
	return out
}

// A mount point that is moved after the test: the holes are drilled anew, and all
// that was done on them is done anew, though every number is what it was.
func TestWorkDoneAnewGoesDownTheLine(t *testing.T) {
	b := everyStep(t).change(MountPoint, "offset", "20")
	for _, step := range []workflow.StepID{Template, Holes, Clean, Glue, Screws, Brake, SoleLength} {
		require.NotEmpty(t, b.stale(step), "%s", step)
		b.change(step)
	}
	assert.NotEmpty(t, b.stale(ForwardPressure))
	assert.NotEmpty(t, b.stale(ToeHeight))
	b.change(ForwardPressure).change(ToeHeight)
	assert.Empty(t, b.stale(ForwardPressure), "toe height was only looked at")
	for _, step := range []workflow.StepID{ReleaseTest, Recentering, Touring} {
		require.NotEmpty(t, b.stale(step), "%s", step)
		b.change(step)
	}
	assert.NotEmpty(t, b.stale(LastLook))
	assert.Empty(t, b.stale(ReleaseValue), "no scale was touched")
	assert.Empty(t, b.stale(Bit))
}

// Answered again as they were while they held, screws disturb nothing; after
// they were stale they were driven again, and do.
func TestScrewsDrivenAgain(t *testing.T) {
	b := everyStep(t).change(Screws)
	assert.Empty(t, b.stale(Brake))
	assert.Empty(t, b.stale(ReleaseTest))
	b.change(Glue, "kind", "epoxy").change(Screws)
	assert.Equal(t, "screws were driven again after brake and heel piece went on", b.stale(Brake))
	assert.Equal(t, "screws were driven after the release test", b.stale(ReleaseTest))
}

func TestRedrilledHolesAreOldHoles(t *testing.T) {
	b := newJob(t, workflow.NewMount).through(Holes).change(Holes, "depth", "9.1")
	assert.Nil(t, b.finding("holes.redrilled"), "gauged again, in the same place")
	b.change(MountPoint, "tail", "825").through(Holes)
	f := b.finding("holes.redrilled")
	require.NotNil(t, f)
	assert.Contains(t, f.Text, "at least 10 mm")
	assert.Equal(t, workflow.Both, f.Side)
	assert.NotNil(t, b.change(Holes).finding("holes.redrilled"), "they do not go away")

	b = newJob(t, workflow.NewMount).through(Holes).change(Bit, "stop", "9.1").change(Holes)
	assert.Nil(t, b.finding("holes.redrilled"), "another stop moves no hole")
}

// No two steps rest on each other, directly or round about: answering one of
// them again would never end.
func TestRestsDoNotGoInCircles(t *testing.T) {
	rests := map[workflow.StepID][]workflow.Rest{}
	for _, s := range All() {
		rests[s.ID] = s.Rests
	}
	var walk func(path []workflow.StepID)
	walk = func(path []workflow.StepID) {
		for _, r := range rests[path[len(path)-1]] {
			require.NotContains(t, path, r.On, "%v goes back to %s", path, r.On)
			walk(append(slices.Clone(path), r.On))
		}
	}
	for _, s := range All() {
		walk([]workflow.StepID{s.ID})
	}
}

// From whatever became stale, answering the step that the job leads to ends.
func TestStaleStepsComeToAnEnd(t *testing.T) {
	done := *everyStep(t)
	rapid.Check(t, func(t *rapid.T) {
		b := done
		b.t, b.entries = t, slices.Clone(done.entries)
		changes := []change{
			{MountPoint, []string{"offset", "3"}}, {Skis, []string{"serial", "TN-9"}}, {Boots, []string{"name", "Lest"}},
			{Boots, []string{"midsole", "no"}}, {Screws, []string{"driven", "8", "torque", "4.2", "stripped.left", "1", "way_out", "insert"}},
			{Brake, nil}, {ToeHeight, []string{"found", "slides"}}, {ForwardPressure, []string{"turns", "1"}}, {Skier, []string{"age", "35"}},
			{SoleLength, []string{"set", "317"}}, {Holes, []string{"depth", "9.1"}}, {Bit, []string{"stop", "9.1"}}, {Binding, []string{"serial", "OR-9"}},
		}
		for _, c := range rapid.SliceOfN(rapid.SampledFrom(changes), 1, 6).Draw(t, "changes") {
			if b.held(c.step) == "" {
				b.change(c.step, c.typed...)
			}
		}
		for range 3 * len(All()) {
			here := b.list.View(b.shop, b.job).Here
			if here == HandOver {
				return
			}
			b.change(here)
		}
		require.Fail(t, "it does not end", "at %s", b.list.View(b.shop, b.job).Here)
	})
}

// A waiver is told to whoever takes the skis.
func TestWhatWasWaivedIsTold(t *testing.T) {
	b := newJob(t, workflow.Adjustment).upTo(Boots).change(Boots, "condition.left", "damaged").waive("fit.boot-damaged", "a lug, away from the binding")
	b.upTo(HandOver)
	require.Equal(t, workflow.FieldID("told_waived"), b.refused(HandOver, "told_waived", "").Fields[0].Field)
	require.Equal(t, workflow.Finished, b.change(HandOver).job.State)

	b = newJob(t, workflow.Adjustment).upTo(Boots).change(Boots, "condition.left", "damaged").waive("fit.boot-damaged", "a lug, away from the binding")
	b.change(Boots, "name", "Lest 110 / 27.5")
	require.True(t, b.finding("fit.boot-damaged").Holds(), "another pair of boots was not waived")
	b.change(Boots, "condition", "good").upTo(HandOver)
	require.NotContains(t, b.usual(HandOver), "told_waived")
}
