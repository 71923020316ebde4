package workflow_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"drillstop/workflow"
)

func TestApplyRefusesWhatDoesNotFollow(t *testing.T) {
	b := newBench(t, workflow.Adjustment).answer(measure, "length", "18")
	next := workflow.Entry{Ticket: 7, Seq: 3, Kind: workflow.EntryVoided, Reason: "sold"}
	_, err := b.job.Apply(next)
	require.NoError(t, err)

	tests := map[string]workflow.Entry{
		"a gap":             {Ticket: 7, Seq: 4, Kind: workflow.EntryVoided},
		"the same again":    {Ticket: 7, Seq: 2, Kind: workflow.EntryVoided},
		"another job":       {Ticket: 8, Seq: 3, Kind: workflow.EntryVoided},
		"opened twice":      {Ticket: 7, Seq: 3, Kind: workflow.EntryOpened},
		"not opened at all": {Ticket: 7, Seq: 1, Kind: workflow.EntryAnswered},
	}
	for name, e := range tests {
		t.Run(name, func(t *testing.T) {
			job := b.job
			if e.Seq == 1 {
				job = workflow.Job{}
			}
			_, err := job.Apply(e)
			assert.ErrorIs(t, err, workflow.ErrSequence)
		})
	}
	_, err = b.job.Apply(workflow.Entry{Ticket: 7, Seq: 3, Kind: "painted"})
	assert.ErrorContains(t, err, "painted")
	_, err = workflow.Fold([]workflow.Entry{b.all[0], b.all[0]})
	assert.ErrorIs(t, err, workflow.ErrSequence)
}

func TestApplyLeavesTheJobBeforeAlone(t *testing.T) {
	b := newBench(t, workflow.Adjustment).full()
	before, entries := b.job, len(b.all)
	b.answer(measure, "length", "45")
	e, err := b.list.Waive(workflow.Shop{}, b.job, b.view().Findings[0], "seen", stampOf(supervisor))
	require.NoError(t, err)
	b.apply(e)

	again, err := workflow.Fold(b.all[:entries])
	require.NoError(t, err)
	assert.Equal(t, again, before)
	assert.Empty(t, mustAnswered(t, before, set).Stale)
	assert.Equal(t, setRests, mustAnswered(t, b.job, set).Stale)
}

func mustAnswered(t *testing.T, job workflow.Job, step workflow.StepID) workflow.Answered {
	a, ok := job.Answered(step)
	require.True(t, ok)
	return a
}

func TestVoidEndsTheJob(t *testing.T) {
	b := newBench(t, workflow.Adjustment)
	_, err := b.list.Void(workflow.Shop{}, b.job, " \t", stampOf(technician))
	require.ErrorIs(t, err, workflow.ErrNoReason)
	e, err := b.list.Void(workflow.Shop{}, b.job, " skis sold\n", stampOf(technician))
	require.NoError(t, err)
	b.apply(e)
	assert.Equal(t, workflow.Voided, b.job.State)
	assert.Equal(t, "skis sold", b.job.EndedWhy)
	assert.Contains(t, b.step(measure).Held, "void")
	_, err = b.list.Void(workflow.Shop{}, b.job, "again", stampOf(technician))
	assert.ErrorIs(t, err, workflow.ErrNotOpen)
}

// A record is the fold of its entries: whatever was answered in whatever order,
// replaying gives the same job, and an answer once given is never lost.
func TestReplayGivesTheSameJob(t *testing.T) {
	texts := rapid.SampledFrom([]string{"", "5", "18", "20", "35", "45", "61", "yes", "nobody", "x", "1,5", "-3", "\x00"})
	ids := rapid.SampledFrom([]workflow.StepID{measure, look, drill, set, press, closing})
	keys := rapid.SampledFrom([]string{"length", "words", "done", "at.left", "at.right", "far", "ok", "name"})
	rapid.Check(t, func(t *rapid.T) {
		b := newBench(t, rapid.SampledFrom([]workflow.Kind{workflow.NewMount, workflow.Adjustment}).Draw(t, "kind"))
		answered := 0
		for range rapid.IntRange(1, 30).Draw(t, "acts") {
			step := ids.Draw(t, "step")
			a := rapid.MapOfN(keys, texts, 0, 3).Draw(t, "typed")
			b.list.Preview(workflow.Shop{}, b.job, step, a)
			e, err := b.list.Answer(workflow.Shop{}, b.job, step, a, stampOf(technician))
			if err != nil {
				continue
			}
			b.apply(e)
			if now := len(b.job.Steps()); now < answered {
				t.Fatalf("%d answered steps became %d", answered, now)
			} else {
				answered = now
			}
		}
		again, err := workflow.Fold(b.all)
		require.NoError(t, err)
		require.Equal(t, b.job, again)
		v := b.view()
		if b.job.State == workflow.Finished {
			worst, ok := workflow.Worst(v.Findings)
			require.False(t, ok && worst.Holds(), "handed over in spite of %s", worst.Text)
			for _, sv := range v.Steps {
				require.NotEqual(t, workflow.MarkStale, sv.Mark, "%s", sv.Step.ID)
				require.NotEqual(t, workflow.MarkAhead, sv.Mark, "%s", sv.Step.ID)
			}
		}
	})
}
