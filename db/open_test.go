package db

import (
	"context"
	"database/sql"
	"fmt"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"drillstop/workflow"
)

func TestReopenKeepsAll(t *testing.T) {
	path := filepath.Join(t.TempDir(), "shop.db")
	s, err := Open(t.Context(), path, Options{})
	require.NoError(t, err)
	begin(t, s, "a")
	appendTo(t, s, answer(1, 2))
	require.NoError(t, s.SaveDraft(t.Context(), 1, "boots", "Ida", workflow.Answers{"sole": "31"}))
	require.NoError(t, s.SaveCard(t.Context(), workflow.Card{Kind: workflow.SkiCard, Name: "Firn 98"}))
	before, err := s.Entries(t.Context(), 1)
	require.NoError(t, err)
	head := requireWhole(t, s).Head
	require.NoError(t, s.Close())
	assert.NoFileExists(t, path+"-wal", "closing leaves one file")

	s = openAt(t, path)
	assert.False(t, s.Created())
	after, err := s.Entries(t.Context(), 1)
	require.NoError(t, err)
	assert.Equal(t, before, after)
	typed, err := s.Draft(t.Context(), 1, "boots", "Ida")
	require.NoError(t, err)
	assert.Equal(t, workflow.Answers{"sole": "31"}, typed)
	cards, err := s.Cards(t.Context(), workflow.SkiCard)
	require.NoError(t, err)
	assert.Len(t, cards, 1)
	assert.Equal(t, head, requireWhole(t, s).Head)
	assert.Equal(t, workflow.Ticket(2), begin(t, s, "b").Ticket)
}

func TestEveryConnectionHasThePragmas(t *testing.T) {
	s := newStore(t)
	for name, want := range map[string]int{"synchronous": 2, "foreign_keys": 1, "busy_timeout": 20_000, "query_only": 0} {
		var got int
		require.NoError(t, s.writer.QueryRowContext(t.Context(), "PRAGMA "+name).Scan(&got))
		assert.Equal(t, want, got, name)
	}
	_, err := s.reader.ExecContext(t.Context(), "DELETE FROM drafts")
	requireFault(t, s.fault(err), "db.read-only")
	assert.Equal(t, 1, s.writer.Stats().MaxOpenConnections, "several starve each other")
	var mode string
	require.NoError(t, s.reader.QueryRowContext(t.Context(), "PRAGMA journal_mode").Scan(&mode))
	assert.Equal(t, "wal", mode)
}

func TestOddPaths(t *testing.T) {
	folder := t.TempDir()
	for _, name := range []string{"a b.db", "why?.db", "no#1.db", "50%41.db", "a&b=c;d.db", "Größe.db", "'q\"q.db", "\xff.db", ":memory:", "file:x"} {
		path := filepath.Join(folder, name)
		s := openAt(t, path)
		begin(t, s, "a")
		info, err := os.Stat(path)
		require.NoError(t, err, name)
		assert.Positive(t, info.Size(), name)
	}
	_, err := Open(t.Context(), folder+"/a\x00b", Options{})
	requireFault(t, err, "db.cannot-open")
	_, err = Open(t.Context(), "", Options{})
	requireFault(t, err, "db.no-path")
}

func TestRelativePath(t *testing.T) {
	t.Chdir(t.TempDir())
	s := openAt(t, "shop.db")
	assert.True(t, filepath.IsAbs(s.Path()))
	assert.FileExists(t, "shop.db")
}

// TestRefusedFilesAreUntouched holds the promise that nothing is overwritten.
func TestRefusedFilesAreUntouched(t *testing.T) {
	foreign := filepath.Join(t.TempDir(), "foreign.db")
	_, err := rawOpenNew(t, foreign).ExecContext(t.Context(), "CREATE TABLE recipes (soup TEXT); PRAGMA user_version = 1")
	require.NoError(t, err)
	for name, c := range map[string]struct {
		content []byte
		code    string
		words   string
	}{
		"text":    {[]byte("Dear diary, today I waxed the skis and nothing went wrong, which is worth writing down at length, for once."), "db.not-a-database", "not a shop file"},
		"short":   {[]byte("x"), "db.not-a-database", "not a shop file"},
		"cut off": {[]byte(headerMagic), "db.not-a-database", "not a shop file"},
		"foreign": {readFile(t, foreign), "db.other-program", "not a shop file of this program"},
		"newer":   {withUserVersion(t, 9), "db.newer-schema", fmt.Sprintf("schema 9; this one knows up to %d", newest(t))},
	} {
		t.Run(name, func(t *testing.T) {
			folder := t.TempDir()
			path := filepath.Join(folder, "shop.db")
			require.NoError(t, os.WriteFile(path, c.content, 0o600))
			_, err := Open(t.Context(), path, Options{})
			requireFault(t, err, c.code, path, c.words)
			assert.Equal(t, c.content, readFile(t, path))
			assert.Equal(t, []string{"shop.db"}, namesIn(t, folder))
		})
	}
}

// withUserVersion returns a whole shop file whose header claims a schema.
func withUserVersion(t *testing.T, version byte) []byte {
	t.Helper()
	path := filepath.Join(t.TempDir(), "shop.db")
	s, err := Open(t.Context(), path, Options{})
	require.NoError(t, err)
	require.NoError(t, s.Close())
	content := readFile(t, path)
	content[63] = version // the lowest byte of user_version
	return content
}

// TestNewerSchemaInTheLog: right after an upgrade the new number may stand in
// the log beside the file only, where the header does not show it.
func TestNewerSchemaInTheLog(t *testing.T) {
	s := newStore(t)
	_, err := s.writer.ExecContext(t.Context(), "PRAGMA user_version = 9")
	require.NoError(t, err)
	_, err = Open(t.Context(), s.Path(), Options{})
	requireFault(t, err, "db.newer-schema", s.Path())

	_, err = s.Begin(t.Context(), opening("a"), func(e workflow.Entry) (workflow.Summary, error) { return summaryOf(e), nil })
	requireFault(t, err, "db.upgraded-meanwhile", "schema 9")
}

func TestDamagedFile(t *testing.T) {
	path := filepath.Join(t.TempDir(), "shop.db")
	content := withUserVersion(t, 1)
	for i := headerLength; i < len(content); i++ {
		content[i] = 0xa5
	}
	require.NoError(t, os.WriteFile(path, content, 0o600))
	s, err := Open(t.Context(), path, Options{})
	if err == nil {
		_, err = s.List(t.Context(), workflow.Query{})
		require.NoError(t, s.Close())
	}
	requireFault(t, err, "db.damaged", path)
}

func TestMissingThings(t *testing.T) {
	folder := t.TempDir()
	_, err := Open(t.Context(), filepath.Join(folder, "none.db"), Options{MustExist: true})
	requireFault(t, err, "db.missing", "none.db")
	_, err = Open(t.Context(), filepath.Join(folder, "no", "none.db"), Options{MustExist: true})
	requireFault(t, err, "db.missing", "none.db")
	assert.Empty(t, namesIn(t, folder))

	_, err = Open(t.Context(), folder, Options{})
	requireFault(t, err, "db.folder", "is a folder")
	require.NoError(t, os.WriteFile(filepath.Join(folder, "file"), nil, 0o600))
	_, err = Open(t.Context(), filepath.Join(folder, "file", "shop.db"), Options{})
	requireFault(t, err, "db.folder", "cannot be made")
}

func TestEmptyFile(t *testing.T) {
	path := filepath.Join(t.TempDir(), "shop.db")
	require.NoError(t, os.WriteFile(path, nil, 0o600))
	require.NoError(t, os.WriteFile(path+"-wal", []byte("perhaps jobs"), 0o600))
	_, err := Open(t.Context(), path, Options{})
	requireFault(t, err, "db.emptied", path+"-wal")
	assert.Equal(t, []byte("perhaps jobs"), readFile(t, path+"-wal"))

	require.NoError(t, os.Remove(path+"-wal"))
	s := openAt(t, path)
	begin(t, s, "a")
	requireWhole(t, s)
}

func TestLockedFile(t *testing.T) {
	path := filepath.Join(t.TempDir(), "shop.db")
	s, err := Open(t.Context(), path, Options{BusyTimeout: time.Millisecond})
	require.NoError(t, err)
	defer func() { require.NoError(t, s.Close()) }()
	begin(t, s, "a")
	other := rawOpen(t, path)
	_, err = other.ExecContext(t.Context(), "BEGIN IMMEDIATE")
	require.NoError(t, err)
	e := answer(1, 2)
	requireFault(t, s.Append(t.Context(), e, summaryOf(e)), "db.locked", path)
	patient, err := Open(t.Context(), path, Options{})
	require.NoError(t, err, "a file that is being written to can be opened")
	defer func() { require.NoError(t, patient.Close()) }()
	ctx, cancel := context.WithTimeout(t.Context(), time.Millisecond)
	defer cancel()
	err = patient.Append(ctx, e, summaryOf(e))
	requireFault(t, err, "db.locked", path)
	require.ErrorIs(t, err, context.DeadlineExceeded)
	list, err := s.List(t.Context(), workflow.Query{})
	require.NoError(t, err, "reading goes on")
	assert.Len(t, list, 1)
	_, err = other.ExecContext(t.Context(), "COMMIT")
	require.NoError(t, err)
	appendTo(t, s, e)
}

func TestFullDisk(t *testing.T) {
	s := newStore(t)
	begin(t, s, "a")
	var pages int
	require.NoError(t, s.writer.QueryRowContext(t.Context(), "PRAGMA page_count").Scan(&pages))
	_, err := s.writer.ExecContext(t.Context(), "PRAGMA max_page_count = 1") // SQLite takes the present number of pages
	require.NoError(t, err)
	e := answer(1, 2)
	e.Reason = string(make([]byte, 100_000))
	requireFault(t, s.Append(t.Context(), e, summaryOf(e)), "db.full", s.Path(), "Nothing was kept")
	_, err = s.writer.ExecContext(t.Context(), "PRAGMA max_page_count = 100000")
	require.NoError(t, err)
	assert.Equal(t, 1, requireWhole(t, s).Entries)
	appendTo(t, s, e)
}

func TestGivingUpIsNotAFault(t *testing.T) {
	s := newStore(t)
	begin(t, s, "a")
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	e := answer(1, 2)
	require.ErrorIs(t, s.Append(ctx, e, summaryOf(e)), ctx.Err())
	_, err := s.List(ctx, workflow.Query{})
	require.ErrorIs(t, err, ctx.Err())
	appendTo(t, s, e)
}

func rawOpenNew(t *testing.T, path string) *sql.DB {
	t.Helper()
	require.NoError(t, os.WriteFile(path, nil, 0o600))
	return rawOpen(t, path)
}

func readFile(t *testing.T, path string) []byte {
	t.Helper()
	content, err := os.ReadFile(path)
	require.NoError(t, err)
	return content
}

func namesIn(t *testing.T, folder string) []string {
	t.Helper()
	found, err := os.ReadDir(folder)
	require.NoError(t, err)
	var names []string
	for _, f := range found {
		names = append(names, f.Name())
	}
	return names
}
