package workflow_test

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"drillstop/workflow"
)

// other returns a checklist of tomorrow: a step more, other words, other rules.
func other(t *testing.T) *workflow.Checklist {
	t.Helper()
	steps := smallSteps()
	steps[0].Title = "weigh"
	steps[0].Fields = steps[0].Fields[1:]
	steps[0].Check, steps[0].Figures, steps[0].Verify = nil, nil, nil
	steps[3].Fields[0].Label = "Put at"
	steps[3].Rests, steps[3].Fields[1].When = nil, nil
	wax := workflow.Step{ID: "wax", Phase: workflow.HandOver, Title: "wax", Fields: []workflow.Field{{ID: "hot", Label: "Hot", Kind: workflow.Seen}}}
	steps = append(steps[:len(steps)-1], wax, steps[len(steps)-1])
	for i := range steps {
		if steps[i].ID == press {
			steps[i].Rests = nil
		}
	}
	list, err := workflow.NewChecklist(steps...)
	require.NoError(t, err)
	return list
}

// A record reads the same under the rules of tomorrow, after it went through
// the store.
func TestAClosedJobReadsTheSameUnderOtherRules(t *testing.T) {
	b := newBench(t, workflow.Adjustment).full().answer(closing, "name", "IF")
	require.Equal(t, workflow.Finished, b.job.State)
	then := b.view()

	text, err := json.Marshal(b.all)
	require.NoError(t, err)
	var entries []workflow.Entry
	require.NoError(t, json.Unmarshal(text, &entries))
	job, err := workflow.Fold(entries)
	require.NoError(t, err)

	now := other(t).View(workflow.Shop{}, job)
	assert.Equal(t, then.Findings, now.Findings)
	assert.Equal(t, then.Phases, now.Phases)
	require.Len(t, now.Steps, len(then.Steps))
	for i, sv := range now.Steps {
		assert.Equal(t, then.Steps[i].Step.Title, sv.Step.Title)
		assert.Equal(t, then.Steps[i].Mark, sv.Mark)
		assert.Equal(t, then.Steps[i].Step.Fields, sv.Step.Fields)
	}
	assert.Empty(t, now.Here)
}

func TestAVoidJobKeepsHowItStood(t *testing.T) {
	b := newBench(t, workflow.Adjustment).answer(measure, "length", "45")
	found := b.view().Findings
	require.NotEmpty(t, found)
	e, err := b.list.Void(workflow.Shop{}, b.job, "the pair was sold", stampOf(supervisor))
	require.NoError(t, err)
	b.apply(e)
	assert.Equal(t, found, other(t).View(workflow.Shop{}, b.job).Findings)
	assert.Equal(t, workflow.MarkAhead, b.view().Steps[1].Mark, "nobody goes on from here")
}

// The closing step needs every other one, also one that was added later.
func TestHandOverNeedsAStepThatWasAddedLater(t *testing.T) {
	b := newBench(t, workflow.Adjustment)
	b.list = other(t)
	b.answer(measure).answer(look).answer(set, "at.left", "5", "at.right", "5", "far", "yes").answer(press, "ok", "yes")
	_, err := b.try(closing, "name", "IF")
	assert.ErrorContains(t, err, "First wax must be answered")
	b.answer("wax", "hot", "yes").answer(closing, "name", "IF")
	assert.Equal(t, workflow.Finished, b.job.State)
}

func TestNothingFollowsTheEnd(t *testing.T) {
	b := newBench(t, workflow.Adjustment).full().answer(closing, "name", "IF")
	_, err := b.job.Apply(workflow.Entry{Ticket: b.job.Ticket, Seq: b.job.Seq + 1, Kind: workflow.EntryAnswered, Step: measure})
	assert.ErrorIs(t, err, workflow.ErrSequence)
}
