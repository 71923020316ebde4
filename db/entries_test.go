package db

import (
	"errors"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"drillstop/workflow"
)

func TestTicketsCountFromOne(t *testing.T) {
	s := newStore(t)
	assert.Equal(t, workflow.Ticket(1), begin(t, s, "a").Ticket)
	assert.Equal(t, workflow.Ticket(2), begin(t, s, "b").Ticket)
	_, err := s.Begin(t.Context(), opening("c"), func(workflow.Entry) (workflow.Summary, error) {
		return workflow.Summary{}, errors.New("no summary")
	})
	require.EqualError(t, err, "no summary")
	assert.Equal(t, workflow.Ticket(3), begin(t, s, "d").Ticket, "a failed beginning leaves no gap")
	requireWhole(t, s)
}

func TestBeginAgainUnderTheSameToken(t *testing.T) {
	s := newStore(t)
	first := begin(t, s, "a")
	assert.Equal(t, first, begin(t, s, "a"))
	list, err := s.List(t.Context(), workflow.Query{})
	require.NoError(t, err)
	assert.Len(t, list, 1)
}

func TestEntriesReadBack(t *testing.T) {
	s := newStore(t)
	first := begin(t, s, "a")
	second, third := answer(1, 2), answer(1, 3)
	third.Kind, third.Answers, third.Reason = workflow.EntryWaived, nil, "measured twice"
	third.Waived = &second.Findings[0]
	appendTo(t, s, second)
	appendTo(t, s, third)

	got, err := s.Entries(t.Context(), 1)
	require.NoError(t, err)
	assert.Equal(t, []workflow.Entry{first, second, third}, got)
}

func TestTimesAreKeptInMillisecondsUTC(t *testing.T) {
	s := newStore(t)
	east := time.FixedZone("east", 3600)
	e := opening("a")
	e.At = noon.In(east).Add(456 * time.Nanosecond)
	kept, err := s.Begin(t.Context(), e, func(e workflow.Entry) (workflow.Summary, error) { return summaryOf(e), nil })
	require.NoError(t, err)
	assert.Equal(t, noon, kept.At)
	got, err := s.Entries(t.Context(), 1)
	require.NoError(t, err)
	assert.Equal(t, noon, got[0].At)
	var at int64
	require.NoError(t, rawOpen(t, s.Path()).QueryRowContext(t.Context(), "SELECT at FROM entries").Scan(&at))
	assert.Equal(t, noon.UnixMilli(), at)
}

func TestNoSuchJob(t *testing.T) {
	s := newStore(t)
	_, err := s.Entries(t.Context(), 7)
	require.ErrorIs(t, err, workflow.ErrNoJob)
	e := answer(7, 1)
	require.ErrorIs(t, s.Append(t.Context(), e, summaryOf(e)), workflow.ErrNoJob)
	require.ErrorIs(t, s.SaveDraft(t.Context(), 7, "skier", "Ida", workflow.Answers{"mass": "7"}), workflow.ErrNoJob)
}

func TestConflictOfTwoProgramsOnOneFile(t *testing.T) {
	here := newStore(t)
	there := openAt(t, here.Path())
	begin(t, here, "a")

	fast, slow := answer(1, 2), answer(1, 2)
	slow.Token, slow.Answers = "slow", workflow.Answers{"mass": "80 kg"}
	appendTo(t, here, fast)
	require.ErrorIs(t, there.Append(t.Context(), slow, summaryOf(slow)), workflow.ErrConflict)

	got, err := there.Entries(t.Context(), 1)
	require.NoError(t, err)
	require.Len(t, got, 2)
	assert.Equal(t, fast, got[1], "the loser wrote nothing, and sees the winner")
	slow.Seq = 3
	appendTo(t, there, slow)
	requireWhole(t, here)
}

func TestConflictAhead(t *testing.T) {
	s := newStore(t)
	begin(t, s, "a")
	e := answer(1, 4)
	require.ErrorIs(t, s.Append(t.Context(), e, summaryOf(e)), workflow.ErrConflict)
}

func TestAppendAgainUnderTheSameToken(t *testing.T) {
	s := newStore(t)
	begin(t, s, "a")
	begin(t, s, "b")
	appendTo(t, s, answer(1, 2))
	appendTo(t, s, answer(1, 3))
	again := answer(1, 2)
	appendTo(t, s, again) // its commit was never heard of

	got, err := s.Entries(t.Context(), 1)
	require.NoError(t, err)
	assert.Len(t, got, 3)
	list, err := s.List(t.Context(), workflow.Query{Words: "T-0001"})
	require.NoError(t, err)
	assert.Equal(t, 3, list[0].Seq, "the summary is not put back either")

	other := answer(2, 2)
	other.Token = again.Token
	appendTo(t, s, other)
	got, err = s.Entries(t.Context(), 2)
	require.NoError(t, err)
	assert.Len(t, got, 2, "a token counts within its job")
}

func TestRefusedEntriesLeaveNothing(t *testing.T) {
	s := newStore(t)
	begin(t, s, "a")
	noToken, foreign, broken, markless := answer(1, 2), answer(1, 2), answer(1, 2), answer(1, 2)
	noToken.Token = ""
	require.Error(t, s.Append(t.Context(), noToken, summaryOf(noToken)))
	require.Error(t, s.Append(t.Context(), foreign, summaryOf(answer(1, 3))))
	broken.Answers["name"] = "J\xf6rg"
	requireFault(t, s.Append(t.Context(), broken, summaryOf(broken)), "db.text", "name", "UTF-8")
	unreadable := summaryOf(markless)
	unreadable.Mark = 0
	require.Error(t, s.Append(t.Context(), markless, unreadable))

	got, err := s.Entries(t.Context(), 1)
	require.NoError(t, err)
	assert.Len(t, got, 1)
	requireWhole(t, s)
}

func TestTriggersRefuseChanges(t *testing.T) {
	s := newStore(t)
	begin(t, s, "a")
	appendTo(t, s, answer(1, 2))
	raw := rawOpen(t, s.Path())
	const columns = "ticket, seq, at, author, kind, token, body, job_prev, job_hash, file_prev, file_hash"
	for name, statement := range map[string]string{
		"update":            "UPDATE entries SET body = '{}' WHERE seq = 2",
		"update of nothing": "UPDATE entries SET at = at",
		"delete":            "DELETE FROM entries WHERE seq = 2",
		"replace":           "INSERT OR REPLACE INTO entries SELECT * FROM entries WHERE seq = 2",
		"upsert":            "INSERT INTO entries SELECT * FROM entries WHERE true ON CONFLICT DO UPDATE SET body = '{}'",
		"same token": "INSERT OR REPLACE INTO entries (file_seq, " + columns + ") SELECT 3, ticket, 3, at, author, kind, token, body, " +
			"job_hash, job_hash, file_hash, file_hash FROM entries WHERE seq = 2",
		"not linked": "INSERT INTO entries (file_seq, " + columns + ") SELECT 3, ticket, 3, at, author, kind, 'new', body, " +
			"job_prev, job_hash, file_prev, file_hash FROM entries WHERE seq = 2",
		"gap": "INSERT INTO entries (file_seq, " + columns + ") SELECT 4, ticket, 4, at, author, kind, 'new', body, " +
			"job_hash, job_hash, file_hash, file_hash FROM entries WHERE seq = 2",
		"ticket update": "UPDATE tickets SET ticket = 9",
		"ticket delete": "DELETE FROM tickets",
		"ticket gap":    "INSERT INTO tickets VALUES (9)",
	} {
		_, err := raw.ExecContext(t.Context(), statement)
		require.Error(t, err, name)
	}
	_, err := raw.ExecContext(t.Context(), "INSERT INTO entries (file_seq, "+columns+") SELECT 3, ticket, 3, at, author, kind, 'new', body, "+
		"job_hash, job_hash, file_hash, file_hash FROM entries WHERE seq = 2")
	require.NoError(t, err, "what follows the last entry goes through: the refusals above are not of the statement")
}
