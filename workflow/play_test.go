package workflow_test

import (
	"context"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"drillstop/calc"
	"drillstop/workflow"
)

func play(t *testing.T, desk *workflow.Desk, steps string) workflow.Play {
	sheet, err := workflow.ReadSheet(strings.NewReader(`{"sheet": 1, "kind": "adjustment", "steps": [` + steps + `]}`))
	require.NoError(t, err)
	p, err := desk.Play(context.Background(), sheet)
	require.NoError(t, err)
	return p
}

const goodSteps = `
	{"step": "measure", "answers": {"length": 18}},
	{"step": "look"},
	{"step": "set", "answers": {"at": {"left": 5, "right": 5}}},
	{"step": "press", "answers": {"ok": true}}`

func TestPlayHandsOver(t *testing.T) {
	store := newMemory()
	desk := newDesk(t, store, technician)
	p := play(t, desk, goodSteps+`, {"step": "closing", "answers": {"name": "Ida Fjelde"}}`)
	assert.Equal(t, workflow.Finished, p.Job.State)
	assert.Empty(t, p.Refused)
	assert.False(t, p.Stopped(desk.View(p.Job)))
	require.Len(t, p.Events, 5)

	job, entries, err := desk.Load(context.Background(), p.Job.Ticket)
	require.NoError(t, err)
	assert.Equal(t, p.Job, job, "the store holds exactly the job")
	require.Len(t, entries, 6)
	tokens := map[string]bool{}
	for i, e := range entries {
		assert.Equal(t, i+1, e.Seq)
		assert.Zero(t, e.At.Nanosecond()%int(time.Millisecond), "no more than the store keeps")
		tokens[e.Token] = true
	}
	assert.Len(t, tokens, 6, "each entry under a token of its own")
	list, err := desk.List(context.Background(), workflow.Query{})
	require.NoError(t, err)
	require.Len(t, list, 1)
	assert.Equal(t, workflow.Finished, list[0].State)
}

func TestPlayCorrectsItself(t *testing.T) {
	desk := newDesk(t, newMemory(), technician)
	p := play(t, desk, `
		{"step": "measure", "answers": {"length": 9}},
		{"step": "measure", "answers": {"length": 18}},
		{"step": "look"},
		{"step": "set", "answers": {"at": {"left": 5, "right": 5}}},
		{"step": "press", "answers": {"ok": true}},
		{"step": "measure", "answers": {"length": 19}},
		{"step": "closing", "answers": {"name": "too early"}},
		{"step": "set", "answers": {"at": {"left": 5, "right": 5}}},
		{"step": "closing", "answers": {"name": "Ida Fjelde"}}`)
	assert.Equal(t, workflow.Finished, p.Job.State)
	assert.Empty(t, p.Refused)
	require.Len(t, p.Events, 9)
	first := p.Events[0]
	assert.False(t, first.Kept)
	assert.Equal(t, 1, first.Line)
	require.NotNil(t, first.Refusal)
	assert.Contains(t, first.Refusal.Error(), "Length 9 is outside 10 to 100.")
	assert.Equal(t, []workflow.StepID{set}, p.Events[5].Stale)
	assert.Equal(t, "First set must be answered again.", p.Events[6].Refusal.Held)
}

func TestPlayReportsWhatIsLeftRefused(t *testing.T) {
	desk := newDesk(t, newMemory(), technician)
	p := play(t, desk, `
		{"step": "measure", "answers": {"length": 45}},
		{"step": "look"},
		{"step": "set", "answers": {"at": {"left": 5, "right": 5}, "far": "no"}}`)
	assert.Equal(t, []workflow.StepID{look, set}, p.Refused)
	assert.True(t, p.Stopped(desk.View(p.Job)))
	require.Len(t, p.Events[0].Findings, 1)
	assert.Equal(t, "length.long", p.Events[0].Findings[0].Code)
	assert.Contains(t, p.Events[1].Refusal.Held, "The job is held at measure")
}

func TestPlayWaives(t *testing.T) {
	const steps = `
		{"step": "measure", "answers": {"length": 45}},
		{"step": "measure", "waive": "length.long", "reason": "measured twice"},
		{"step": "look"}`
	desk := newDesk(t, newMemory(), supervisor)
	p := play(t, desk, steps)
	assert.Empty(t, p.Refused)
	assert.False(t, p.Stopped(desk.View(p.Job)))

	p = play(t, newDesk(t, newMemory(), technician), steps)
	assert.Equal(t, "Waiving length.long: only a supervisor may waive a stop.", p.Events[1].Refusal.Held)
	assert.Equal(t, []workflow.StepID{measure, look}, p.Refused)

	p = play(t, desk, `{"step": "measure", "answers": {"length": 61}}, {"step": "measure", "waive": "length.never", "reason": "r"}`)
	assert.Contains(t, p.Events[1].Refusal.Held, "cannot be waived")

	p = play(t, desk, `{"step": "measure", "answers": {"length": 18}}, {"step": "measure", "waive": "length.long", "reason": "r"}`)
	assert.Contains(t, p.Events[1].Refusal.Held, "no stop length.long")
}

func TestPlaySkipsWhatIsStillBlank(t *testing.T) {
	desk := newDesk(t, newMemory(), technician)
	p := play(t, desk, `
		{"step": "measure", "answers": {"length": "18", "words": ""}},
		{"step": "look"},
		{"step": "set", "answers": {"at.left": "", "at.right": "", "far": ""}}`)
	assert.Len(t, p.Events, 2)
	assert.Empty(t, p.Refused)
	assert.Equal(t, set, desk.View(p.Job).Here)
}

func TestPlayFillsFromACard(t *testing.T) {
	store := newMemory()
	desk := newDesk(t, store, technician)
	ctx := context.Background()
	require.NoError(t, desk.SaveCard(ctx, workflow.Card{Kind: workflow.BindingCard, Name: "Orlo", Answers: typed("length", "18", "words", "from the card", "asked", "in other jobs only")}))
	p := play(t, desk, `{"step": "measure", "card": "Orlo", "answers": {"length": 19, "words": ""}}`)
	assert.Equal(t, typed("length", "19", "words", "from the card"), p.Job.Answers(measure), "a line says more than its card")

	for _, steps := range []string{`{"step": "measure", "card": "Nobody"}`, `{"step": "set", "card": "Orlo"}`} {
		sheet, err := workflow.ReadSheet(strings.NewReader(`{"sheet": 1, "kind": "adjustment", "steps": [` + steps + `]}`))
		require.NoError(t, err)
		_, err = desk.Play(ctx, sheet)
		var fault *calc.Fault
		require.ErrorAs(t, err, &fault)
		assert.Equal(t, "sheet.card", fault.Code)
	}
}

func TestDeskKeepsTheJobWhenSomebodyWasFaster(t *testing.T) {
	store := newMemory()
	desk := newDesk(t, store, technician)
	ctx := context.Background()
	job, err := desk.NewJob(ctx, workflow.Adjustment, "")
	require.NoError(t, err)
	store.faster = true
	same, err := desk.Answer(ctx, job, measure, typed("length", "18"))
	require.ErrorIs(t, err, workflow.ErrConflict)
	assert.Equal(t, job, same)
	next, err := desk.Answer(ctx, job, measure, typed("length", "18"))
	require.NoError(t, err)
	assert.Equal(t, 2, next.Seq)
	_, err = desk.Answer(ctx, job, measure, typed("length", "19"))
	assert.ErrorIs(t, err, workflow.ErrConflict, "from a job that is no longer the last")
	_, _, err = desk.Load(ctx, 99)
	assert.ErrorIs(t, err, workflow.ErrNoJob)
}

func TestDeskKeepsDraftsByPerson(t *testing.T) {
	store := newMemory()
	desk, other := newDesk(t, store, technician), newDesk(t, store, supervisor)
	ctx := context.Background()
	require.NoError(t, desk.SaveDraft(ctx, 1, measure, typed("length", "1")))
	mine, err := desk.Draft(ctx, 1, measure)
	require.NoError(t, err)
	assert.Equal(t, typed("length", "1"), mine)
	theirs, err := other.Draft(ctx, 1, measure)
	require.NoError(t, err)
	assert.Empty(t, theirs)
}

// A sheet that could not be played to its end opens no job.
func TestPlayOpensNothingForAnUnreadableSheet(t *testing.T) {
	store := newMemory()
	desk := newDesk(t, store, technician)
	for _, steps := range []string{
		`{"step": "measure", "answers": {"length": 18}}, {"step": "polish"}`,
		`{"step": "measure", "card": "no such card"}`,
		`{"step": "look", "card": "any"}`,
	} {
		sheet, err := workflow.ReadSheet(strings.NewReader(`{"sheet": 1, "kind": "adjustment", "steps": [` + steps + `]}`))
		require.NoError(t, err)
		_, err = desk.Play(context.Background(), sheet)
		var fault *calc.Fault
		require.ErrorAs(t, err, &fault, steps)
	}
	list, err := desk.List(context.Background(), workflow.Query{})
	require.NoError(t, err)
	assert.Empty(t, list)
}

// What belongs to one pair is neither kept on a card nor taken from an old one.
func TestCardsLeaveOutWhatBelongsToOnePair(t *testing.T) {
	steps := smallSteps()
	steps[0].Fields[1].OfPair = true
	list, err := workflow.NewChecklist(steps...)
	require.NoError(t, err)
	store := newMemory()
	desk := workflow.NewDesk(workflow.DeskOptions{
		Checklist: list, Store: store, Person: technician, Now: func() time.Time { return atTime(4) }, Token: func() string { return "t" },
		Describe: func(workflow.Job) (string, string, string) { return "", "", "" },
	})
	card := workflow.Card{Kind: workflow.BindingCard, Name: "Orlo", Answers: typed("length", "18", "words", "scratched", "gone", "x")}
	require.NoError(t, desk.SaveCard(context.Background(), card))
	assert.Equal(t, typed("length", "18"), store.cards[0].Answers)
	assert.Equal(t, typed("length", "18"), desk.FromCard(workflow.Job{Kind: workflow.Adjustment}, measure, card))
}
