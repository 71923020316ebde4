package db

import (
	"database/sql"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestVerifyEmptyFile(t *testing.T) {
	assert.Equal(t, Report{}, requireWhole(t, newStore(t)))
}

func TestVerifyWholeFile(t *testing.T) {
	s := newStore(t)
	begin(t, s, "a")
	before := requireWhole(t, s)
	appendTo(t, s, answer(1, 2))
	after := requireWhole(t, s)
	assert.Equal(t, 2, after.Entries)
	assert.Equal(t, 1, after.Jobs)
	assert.Len(t, after.Head, 64)
	assert.NotEqual(t, before.Head, after.Head)
}

// unguarded opens the file raw, with the triggers of the record out of the way
// while tamper runs, as somebody would who knows them.
func unguarded(t *testing.T, path string, tamper string) {
	t.Helper()
	raw := rawOpen(t, path)
	definitions := triggersOf(t, raw)
	run(t, raw, "PRAGMA foreign_keys = OFF")
	for name := range definitions {
		run(t, raw, "DROP TRIGGER "+name)
	}
	run(t, raw, tamper)
	for _, definition := range definitions {
		run(t, raw, definition)
	}
}

// triggersOf returns the SQL of every trigger by its name.
func triggersOf(t *testing.T, raw *sql.DB) map[string]string {
	t.Helper()
	rows, err := raw.QueryContext(t.Context(), "SELECT name, sql FROM sqlite_schema WHERE type = 'trigger'")
	require.NoError(t, err)
	defer func() { require.NoError(t, rows.Close()) }()
	definitions := map[string]string{}
	for rows.Next() {
		var name, definition string
		require.NoError(t, rows.Scan(&name, &definition))
		definitions[name] = definition
	}
	require.NoError(t, rows.Err())
	return definitions
}

func run(t *testing.T, raw *sql.DB, statement string) {
	t.Helper()
	_, err := raw.ExecContext(t.Context(), statement)
	require.NoError(t, err, statement)
}

func TestVerifyFindsTampering(t *testing.T) {
	for name, c := range map[string]struct{ tamper, want string }{
		"text":             {"UPDATE entries SET body = replace(body, '72 kg', '62 kg') WHERE ticket = 1 AND seq = 2", "Entry 2 of T-0001 (line 3 of the file) is not what its hash says"},
		"time":             {"UPDATE entries SET at = at + 1 WHERE file_seq = 2", "Line 2 of the file and what it is searched by do not agree"},
		"author":           {"UPDATE entries SET author = 'Bo' WHERE file_seq = 4", "filed as entry 2 of T-0002, by Bo"},
		"job hash":         {"UPDATE entries SET job_hash = zeroblob(32) WHERE file_seq = 3", "Entry 3 of T-0001 is not linked"},
		"file hash":        {"UPDATE entries SET file_hash = zeroblob(32) WHERE file_seq = 3", "Line 4 of the file is not linked"},
		"previous":         {"UPDATE entries SET file_prev = zeroblob(32) WHERE file_seq = 3", "Line 3 of the file is not linked"},
		"line in between":  {"DELETE FROM entries WHERE file_seq = 3", "Line 4 of the file follows line 2"},
		"entry in between": {"DELETE FROM entries WHERE file_seq = 3", "Entry 3 of T-0001 follows entry 1"},
		"first line":       {"DELETE FROM entries WHERE file_seq = 1", "Line 2 of the file follows line 0"},
		"last line":        {"DELETE FROM entries WHERE file_seq = 5", "The line of T-0001 on the bench is that of entry 3, but its last entry is 2."},
		"whole job":        {"DELETE FROM entries WHERE ticket = 2", "T-0002 has no entries"},
		"job and ticket":   {"DELETE FROM entries WHERE ticket = 1; DELETE FROM tickets WHERE ticket = 1", "Ticket T-0002 follows ticket number 0"},
		"ticket":           {"DELETE FROM tickets WHERE ticket = 2", "of entries refers to a row of tickets that is not there"},
		"bench":            {"DELETE FROM jobs WHERE ticket = 2", "T-0002 has no line on the bench"},
		"old bench":        {"UPDATE jobs SET seq = 1 WHERE ticket = 1", "but its last entry is 3"},
		"searched name":    {"UPDATE jobs SET skier = 'Nobody' WHERE ticket = 1", "T-0001 on the bench and what it is searched by"},
		"bench text":       {"UPDATE jobs SET summary = '[]' WHERE ticket = 1", "T-0001 on the bench cannot be read"},
		"entry text":       {"UPDATE entries SET body = '[]' WHERE file_seq = 3", "line 3 of the file) cannot be read"},
	} {
		t.Run(name, func(t *testing.T) {
			s := newStore(t)
			begin(t, s, "a")
			begin(t, s, "b")
			appendTo(t, s, answer(1, 2))
			appendTo(t, s, answer(2, 2))
			appendTo(t, s, answer(1, 3))
			requireWhole(t, s)
			unguarded(t, s.Path(), c.tamper)
			report, err := s.Verify(t.Context())
			require.NoError(t, err)
			assert.Contains(t, strings.Join(report.Faults, "\n"), c.want)
		})
	}
}

func TestVerifyFindsMissingGuards(t *testing.T) {
	for _, name := range guards {
		s := newStore(t)
		run(t, rawOpen(t, s.Path()), "DROP TRIGGER "+name)
		report, err := s.Verify(t.Context())
		require.NoError(t, err)
		assert.Equal(t, []string{"The guard " + name + " was removed from the file."}, report.Faults)
	}
}

// TestVerifyFindsChangedBytes edits the file itself, below all SQL.
func TestVerifyFindsChangedBytes(t *testing.T) {
	s := newStore(t)
	path := s.Path()
	begin(t, s, "a")
	appendTo(t, s, answer(1, 2))
	run(t, s.writer, "PRAGMA wal_checkpoint(TRUNCATE)")
	content := string(readFile(t, path))
	require.Contains(t, content, `"mass":"72 kg"`)
	changed := strings.Replace(content, `"mass":"72 kg"`, `"mass":"62 kg"`, 1)
	require.NoError(t, os.WriteFile(path, []byte(changed), 0o600))

	report, err := openAt(t, path).Verify(t.Context())
	require.NoError(t, err)
	require.Len(t, report.Faults, 1)
	assert.Contains(t, report.Faults[0], "Entry 2 of T-0001")
}

func TestVerifyFindsDamagedPages(t *testing.T) {
	s := newStore(t)
	path := s.Path()
	for i := 2; i < 60; i++ {
		if i == 2 {
			begin(t, s, "a")
		}
		appendTo(t, s, answer(1, i))
	}
	run(t, s.writer, "PRAGMA wal_checkpoint(TRUNCATE)")
	content := readFile(t, path)
	at := strings.LastIndex(string(content), `"mass":"72 kg"`)
	page := at / 4096 * 4096
	copy(content[page:page+64], make([]byte, 64))
	require.NoError(t, os.WriteFile(path, content, 0o600))
	report, err := openAt(t, path).Verify(t.Context())
	require.NoError(t, err)
	assert.NotEmpty(t, report.Faults)
}
