package workflow_test

import (
	"context"
	"errors"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"drillstop/calc"
	"drillstop/workflow"
)

// lastingDesk is a desk whose words hold from season to season, and whose length
// does not.
func lastingDesk(t *testing.T, store workflow.Store) *workflow.Desk {
	t.Helper()
	steps := smallSteps()
	steps[0].Fields[1].Lasts = true
	steps[3].Fields[0].Lasts = true // of a later phase: never taken over
	list, err := workflow.NewChecklist(steps...)
	require.NoError(t, err)
	o := deskOptions(t, store, technician)
	o.Checklist = list
	return workflow.NewDesk(o)
}

func TestAgainTakesOverWhatLasts(t *testing.T) {
	ctx := context.Background()
	store := newMemory()
	desk := lastingDesk(t, store)
	p := play(t, desk, `
		{"step": "measure", "answers": {"length": 35, "words": "Ida"}}, {"step": "look"},
		{"step": "set", "answers": {"at": {"left": 5, "right": 5}, "far": "no"}}, {"step": "press", "answers": {"ok": true}},
		{"step": "closing", "answers": {"name": "Ida"}}`)
	require.Equal(t, workflow.Finished, p.Job.State)

	job, err := desk.Again(ctx, p.Job, workflow.Inspection, "2026-12-01")
	require.NoError(t, err)
	assert.Equal(t, workflow.Inspection, job.Kind)
	assert.Equal(t, "2026-12-01", job.Due)
	assert.Empty(t, job.Steps(), "nothing counts as answered")
	draft, err := desk.Draft(ctx, job.Ticket, measure)
	require.NoError(t, err)
	assert.Equal(t, workflow.Answers{"words": "Ida"}, draft, "what ages is asked again")
	draft, err = desk.Draft(ctx, job.Ticket, set)
	require.NoError(t, err)
	assert.Empty(t, draft)

	again, _, err := desk.Load(ctx, job.Ticket)
	require.NoError(t, err)
	last, ok := again.Last()
	require.True(t, ok, "it is in the record")
	assert.Equal(t, p.Job.Ticket, last.Ticket)
	assert.Equal(t, atTime(4).Format("2006-01-02"), last.Day)
	assert.Equal(t, "35", last.Text(measure, "length", workflow.Both))
	assert.Equal(t, []workflow.Figure{{Name: "length", Label: "length", Value: "35"}}, last.Figures[measure])
	_, ok = p.Job.Last()
	assert.False(t, ok)
}

// What was stale when the job ended was not known then.
func TestAgainLeavesStaleAnswersBehind(t *testing.T) {
	ctx := context.Background()
	desk := lastingDesk(t, newMemory())
	p := play(t, desk, goodSteps+`, {"step": "measure", "answers": {"length": 19}}`)
	void, err := desk.Void(ctx, p.Job, "withdrawn")
	require.NoError(t, err)
	job, err := desk.Again(ctx, void, workflow.Adjustment, "")
	require.NoError(t, err)
	last, _ := job.Last()
	assert.Equal(t, "19", last.Text(measure, "length", workflow.Both))
	assert.NotContains(t, last.Answers, set)
}

func TestAgainRefuses(t *testing.T) {
	ctx := context.Background()
	store := newMemory()
	desk := lastingDesk(t, store)
	open := play(t, desk, goodSteps).Job
	empty, err := desk.NewJob(ctx, workflow.Adjustment, "")
	require.NoError(t, err)
	empty, err = desk.Void(ctx, empty, "a slip")
	require.NoError(t, err)
	void, err := desk.Void(ctx, open, "withdrawn")
	require.NoError(t, err)
	for code, act := range map[string]func() (workflow.Job, error){
		"again.open":  func() (workflow.Job, error) { return desk.Again(ctx, open, workflow.Adjustment, "") },
		"again.empty": func() (workflow.Job, error) { return desk.Again(ctx, empty, workflow.Adjustment, "") },
		"job.due":     func() (workflow.Job, error) { return desk.Again(ctx, void, workflow.Adjustment, "soon") },
	} {
		_, err := act()
		var fault *calc.Fault
		require.ErrorAs(t, err, &fault, code)
		assert.Equal(t, code, fault.Code)
	}
	assert.Len(t, store.jobs, 2, "nothing was opened")
}

// A draft that cannot be kept leaves a job that is opened, and says so.
func TestAgainWithoutItsDrafts(t *testing.T) {
	ctx := context.Background()
	store := &forgetful{memory: newMemory()}
	desk := lastingDesk(t, store)
	p := play(t, desk, `{"step": "measure", "answers": {"length": 35, "words": "Ida"}}`)
	void, err := desk.Void(ctx, p.Job, "withdrawn")
	require.NoError(t, err)
	job, err := desk.Again(ctx, void, workflow.Adjustment, "")
	require.ErrorIs(t, err, errForgot)
	assert.Equal(t, workflow.Ticket(2), job.Ticket)
	_, ok := job.Last()
	assert.True(t, ok)
}

var errForgot = errors.New("forgot")

type forgetful struct{ *memory }

func (f *forgetful) SaveDraft(context.Context, workflow.Ticket, workflow.StepID, string, workflow.Answers) error {
	return errForgot
}
