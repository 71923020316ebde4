package db

import (
	"fmt"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"drillstop/calc"
	"drillstop/workflow"
)

// TestEntriesReadBackEqual: whatever a job is answered, its record says it again.
func TestEntriesReadBackEqual(t *testing.T) {
	s := newStore(t)
	jobs := 0
	rapid.Check(t, func(rt *rapid.T) {
		jobs++
		first := begin(t, s, fmt.Sprint("job ", jobs))
		want := []workflow.Entry{first}
		for range rapid.IntRange(0, 5).Draw(rt, "entries") {
			e := anyEntry(rt)
			e.Ticket, e.Seq, e.Token = first.Ticket, len(want)+1, fmt.Sprint(len(want)+1)
			require.NoError(rt, s.Append(t.Context(), e, summaryOf(e)))
			want = append(want, e)
		}
		got, err := s.Entries(t.Context(), first.Ticket)
		require.NoError(rt, err)
		require.Equal(rt, want, got)
	})
	requireWhole(t, s)
}

// TestDraftsReadBackEqual is the same for what was only typed.
func TestDraftsReadBackEqual(t *testing.T) {
	s := newStore(t)
	begin(t, s, "a")
	rapid.Check(t, func(rt *rapid.T) {
		step := workflow.StepID(rapid.String().Draw(rt, "step"))
		by, typed := rapid.String().Draw(rt, "by"), anyAnswers(rt)
		require.NoError(rt, s.SaveDraft(t.Context(), 1, step, by, typed))
		got, err := s.Draft(t.Context(), 1, step, by)
		require.NoError(rt, err)
		require.Equal(rt, typed, got)
	})
}

// TestAnyWordsAreSearched: no typed text breaks the search, and the beginning
// of a name always finds its job.
func TestAnyWordsAreSearched(t *testing.T) {
	s := newStore(t)
	begin(t, s, "a")
	rapid.Check(t, func(rt *rapid.T) {
		list, err := s.List(t.Context(), workflow.Query{Words: rapid.String().Draw(rt, "words")})
		require.NoError(rt, err)
		require.LessOrEqual(rt, len(list), 1)

		word := rapid.SampledFrom([]string{"edda", "SOMMER", "Firn", "98", "two-piece", "t-0001"}).Draw(rt, "word")
		list, err = s.List(t.Context(), workflow.Query{Words: word[:rapid.IntRange(1, len(word)).Draw(rt, "typed")]})
		require.NoError(rt, err)
		require.Len(rt, list, 1)
	})
}

func anyEntry(rt *rapid.T) workflow.Entry {
	text := rapid.String()
	e := workflow.Entry{
		At:      time.UnixMilli(rapid.Int64Range(-1e12, 1e13).Draw(rt, "at")).UTC(),
		By:      text.Draw(rt, "by"),
		Kind:    rapid.SampledFrom([]workflow.EntryKind{workflow.EntryAnswered, workflow.EntryWaived, workflow.EntryVoided}).Draw(rt, "kind"),
		Step:    workflow.StepID(text.Draw(rt, "step")),
		Answers: anyAnswers(rt),
		Reason:  text.Draw(rt, "reason"),
	}
	if rapid.Bool().Draw(rt, "waives") {
		f := anyFinding(rt)
		e.Waived = &f
	}
	for range rapid.IntRange(0, 3).Draw(rt, "findings") {
		e.Findings = append(e.Findings, anyFinding(rt))
		e.Figures = append(e.Figures, workflow.Figure{Name: text.Draw(rt, "name"), Value: text.Draw(rt, "value")})
		e.Stale = append(e.Stale, workflow.StaleMark{Step: "mount", Because: text.Draw(rt, "because")})
	}
	return e
}

func anyFinding(rt *rapid.T) workflow.Finding {
	f := workflow.Finding{
		Side:  rapid.SampledFrom([]workflow.Side{workflow.Both, workflow.Left, workflow.Right}).Draw(rt, "side"),
		Level: rapid.SampledFrom([]calc.Level{calc.Note, calc.Caution, calc.Stop}).Draw(rt, "level"),
		Text:  rapid.String().Draw(rt, "text"),
		Never: rapid.Bool().Draw(rt, "never"),
	}
	if rapid.Bool().Draw(rt, "waived") {
		f.Waiver = &workflow.Waiver{By: "Bo", Reason: rapid.String().Draw(rt, "reason")}
	}
	return f
}

// anyAnswers draws answers that are nil when there are none, as they are read.
func anyAnswers(rt *rapid.T) workflow.Answers {
	answers := workflow.Answers(rapid.MapOfN(rapid.String(), rapid.String(), 0, 5).Draw(rt, "answers"))
	if len(answers) == 0 {
		return nil
	}
	return answers
}
