package db

import (
	"database/sql"
	"fmt"
	"net/url"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"drillstop/calc"
	"drillstop/workflow"
)

var noon = time.Date(2026, 11, 24, 12, 0, 0, 123_000_000, time.UTC)

// newStore opens a new shop file of its own for the test.
func newStore(t testing.TB) *Store {
	t.Helper()
	return openAt(t, filepath.Join(t.TempDir(), "shop.db"))
}

// openAt opens a shop file and closes it after the test.
func openAt(t testing.TB, path string) *Store {
	t.Helper()
	s, err := Open(t.Context(), path, Options{})
	require.NoError(t, err)
	t.Cleanup(func() { require.NoError(t, s.Close()) })
	return s
}

// rawOpen opens the file as any other program would, past all that Store does.
func rawOpen(t testing.TB, path string) *sql.DB {
	t.Helper()
	raw, err := sql.Open("sqlite", dsn(path, time.Second, url.Values{}))
	require.NoError(t, err)
	raw.SetMaxOpenConns(1)
	t.Cleanup(func() { require.NoError(t, raw.Close()) })
	return raw
}

func summaryOf(e workflow.Entry) workflow.Summary {
	return workflow.Summary{
		Ticket: e.Ticket, Seq: e.Seq, Kind: workflow.NewMount, State: workflow.Open,
		Skier: "Edda Sommer", Ski: "Firn 98", Binding: "Two-piece 12",
		OpenedAt: noon, Touched: e.At, Mark: workflow.MarkHere,
		Phases: []workflow.PhaseView{{Phase: "intake", Mark: workflow.MarkKept, Done: 1, Of: 5}},
	}
}

// begin opens a job in the store under a token.
func begin(t testing.TB, s *Store, token string) workflow.Entry {
	t.Helper()
	e, err := s.Begin(t.Context(), opening(token), func(e workflow.Entry) (workflow.Summary, error) { return summaryOf(e), nil })
	require.NoError(t, err)
	return e
}

func opening(token string) workflow.Entry {
	return workflow.Entry{Kind: workflow.EntryOpened, JobKind: workflow.NewMount, At: noon, By: "Ida", Token: token}
}

// answer is entry seq of a job, with its token made of both numbers.
func answer(ticket workflow.Ticket, seq int) workflow.Entry {
	return workflow.Entry{
		Ticket: ticket, Seq: seq, Kind: workflow.EntryAnswered, At: noon.Add(time.Duration(seq) * time.Minute),
		By: "Ida", Token: fmt.Sprintf("%s/%d", ticket, seq), Step: "skier",
		Answers: workflow.Answers{"mass": "72 kg", "name": "Jörg <Zoë> & \"Söhne\""},
		Figures: []workflow.Figure{{Name: "release_value", Label: "release value", Value: "6", Path: "72 kg -> K"}},
		Findings: []workflow.Finding{{
			Step: "skier", Side: workflow.Left, Level: calc.Caution, Code: "x.y", Text: "A caution.", Source: "from memory",
		}},
		Stale: []workflow.StaleMark{{Step: "value", Because: "mass was changed"}},
	}
}

func appendTo(t testing.TB, s *Store, e workflow.Entry) {
	t.Helper()
	require.NoError(t, s.Append(t.Context(), e, summaryOf(e)))
}

func requireWhole(t testing.TB, s *Store) Report {
	t.Helper()
	report, err := s.Verify(t.Context())
	require.NoError(t, err)
	require.Empty(t, report.Faults)
	return report
}

// requireFault checks that a technician is told, with the code and the words.
func requireFault(t testing.TB, err error, code string, words ...string) {
	t.Helper()
	var fault *calc.Fault
	require.ErrorAs(t, err, &fault)
	require.Equal(t, code, fault.Code, "%v", fault.Cause)
	for _, w := range words {
		require.Contains(t, fault.Sentence, w)
	}
}
