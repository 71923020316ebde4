package workflow_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"drillstop/calc"
	"drillstop/workflow"
)

func (b *bench) waive(p workflow.Person, f workflow.Finding, reason string) (workflow.Entry, error) {
	return b.list.Waive(workflow.Shop{}, b.job, f, reason, stampOf(p))
}

func TestWaiverCoversExactlyItsNumbers(t *testing.T) {
	b := newBench(t, workflow.Adjustment).answer(measure, "length", "45")
	stop := b.view().Findings[0]
	e, err := b.waive(supervisor, stop, " measured twice ")
	require.NoError(t, err)
	b.apply(e)

	require.Len(t, b.view().Findings, 1)
	waived := b.view().Findings[0]
	assert.False(t, waived.Holds())
	assert.Equal(t, &workflow.Waiver{By: "KL", Reason: "measured twice"}, waived.Waiver)
	assert.Equal(t, workflow.MarkWaived, b.step(measure).Mark)
	assert.Empty(t, b.step(look).Held)

	b.answer(measure, "length", "46")
	assert.True(t, b.view().Findings[0].Holds(), "46 is not what was waived")
	assert.NotEmpty(t, b.step(look).Held)

	b.answer(measure, "length", "45")
	assert.True(t, b.view().Findings[0].Holds(), "nor is another 45: the waiver ended with the answer it was given for")
}

func (b *bench) waived(code string) *bench {
	for _, f := range b.view().Findings {
		if f.Code == code {
			e, err := b.waive(supervisor, f, "seen")
			require.NoError(b.t, err)
			return b.apply(e)
		}
	}
	require.Failf(b.t, "no such stop", "%s", code)
	return b
}

// A waiver is given for a step as it stands. Whatever it was given for lasts as
// long as it does, and no longer.
func TestWaiverEnds(t *testing.T) {
	long := func() *bench {
		return newBench(t, workflow.Adjustment).answer(measure, "length", "45").waived("length.long")
	}
	tests := []struct {
		name  string
		b     *bench
		holds bool
	}{
		{"the same answers again", long().answer(measure, "length", "45"), false},
		{"other answers", long().answer(measure, "length", "45", "words", "another pair"), true},
		{"another step answered", long().answer(look), false},
		{"a step that asks nothing, confirmed", newBench(t, workflow.Adjustment).answer(measure, "length", "20").waived("look.20").answer(look), false},
		{"and confirmed again", newBench(t, workflow.Adjustment).answer(measure, "length", "20").waived("look.20").answer(look).answer(look), false},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			require.Len(t, tt.b.view().Findings, 1)
			assert.Equal(t, tt.holds, tt.b.view().Findings[0].Holds())
			assert.Equal(t, !tt.holds, tt.b.job.Waived())
			again, err := workflow.Fold(tt.b.all)
			require.NoError(t, err)
			assert.Equal(t, tt.b.job, again)
		})
	}
}

// A waiver ends when its step becomes stale, confirmed or not: look speaks
// before anybody has answered it.
func TestWaiverEndsWithAStaleStep(t *testing.T) {
	steps := smallSteps()
	for i := range steps {
		if steps[i].ID == look {
			steps[i].Rests = []workflow.Rest{{On: measure, Because: "it was measured anew"}}
		}
	}
	list, err := workflow.NewChecklist(steps...)
	require.NoError(t, err)
	for name, confirmed := range map[string]bool{"confirmed": true, "not confirmed": false} {
		t.Run(name, func(t *testing.T) {
			b := newBench(t, workflow.Adjustment)
			b.list = list
			b.answer(measure, "length", "20").waived("look.20")
			if confirmed {
				b.answer(look)
			}
			require.True(t, b.job.Waived())
			b.answer(measure, "length", "20", "words", "another pair")
			assert.False(t, b.job.Waived())
			assert.True(t, b.view().Findings[0].Holds())
		})
	}
}

func TestWhoMayWaiveWhat(t *testing.T) {
	long := newBench(t, workflow.Adjustment).answer(measure, "length", "45")
	never := newBench(t, workflow.Adjustment).answer(measure, "length", "61")
	near := newBench(t, workflow.Adjustment).answer(measure, "length", "31")
	tests := []struct {
		name   string
		b      *bench
		by     workflow.Person
		reason string
		want   error
	}{
		{"a technician", long, technician, "in a hurry", workflow.ErrNotSupervisor},
		{"without a reason", long, supervisor, " \n", workflow.ErrNoReason},
		{"what is never waived", never, supervisor, "trust me", workflow.ErrNotWaivable},
		{"a caution", near, supervisor, "it is one", workflow.ErrNotWaivable},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			_, err := tt.b.waive(tt.by, tt.b.view().Findings[0], tt.reason)
			assert.ErrorIs(t, err, tt.want)
		})
	}
	t.Run("a stop that is gone", func(t *testing.T) {
		_, err := near.waive(supervisor, long.view().Findings[0], "still")
		var fault *calc.Fault
		require.ErrorAs(t, err, &fault)
		assert.Equal(t, "waiver.gone", fault.Code)
	})
}

// An entry that claims to waive what cannot be waived changes nothing: the rule
// is asked again whenever the job is looked at.
func TestForgedWaiverOfNeverHasNoEffect(t *testing.T) {
	b := newBench(t, workflow.Adjustment).answer(measure, "length", "61")
	f := b.view().Findings[0]
	b.apply(workflow.Entry{Ticket: 7, Seq: 3, Kind: workflow.EntryWaived, Step: measure, Waived: &f, Reason: "trust me", By: "KL"})
	assert.True(t, b.view().Findings[0].Holds())
}

func TestWaivedStopIsOnTheFinishedRecord(t *testing.T) {
	b := newBench(t, workflow.Adjustment).answer(measure, "length", "45")
	e, err := b.waive(supervisor, b.view().Findings[0], "measured twice")
	require.NoError(t, err)
	b.apply(e)
	b.answer(look).answer(set, "at.left", "5", "at.right", "5", "far", "no").answer(press, "ok", "y").answer(closing, "name", "Ida Fjelde")
	require.Equal(t, workflow.Finished, b.job.State)
	found := b.list.Findings(workflow.Shop{}, b.job)
	require.Len(t, found, 1)
	assert.NotNil(t, found[0].Waiver)
}

func TestWorst(t *testing.T) {
	note := workflow.Finding{Level: calc.Note, Text: "n"}
	caution := workflow.Finding{Level: calc.Caution, Text: "c"}
	stop := workflow.Finding{Level: calc.Stop, Text: "s"}
	waived := workflow.Finding{Level: calc.Stop, Text: "w", Waiver: &workflow.Waiver{}}
	tests := []struct {
		found []workflow.Finding
		want  string
	}{
		{nil, ""},
		{[]workflow.Finding{note}, "n"},
		{[]workflow.Finding{note, caution, waived}, "c"},
		{[]workflow.Finding{waived, caution}, "w"},
		{[]workflow.Finding{waived, caution, stop}, "s"},
	}
	for _, tt := range tests {
		worst, ok := workflow.Worst(tt.found)
		assert.Equal(t, tt.want, worst.Text)
		assert.Equal(t, tt.want != "", ok)
	}
}
