package db

import (
	"flag"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"testing/fstest"

	"github.com/pressly/goose/v3/database"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"drillstop/db/migrations"
	"drillstop/workflow"
)

var writeSchema = flag.Bool("write-schema", false, "write testdata/schema/vN.db for the newest schema")

const schemaFolder = "../testdata/schema"

// newest is the schema of this program.
func newest(t *testing.T) int64 {
	t.Helper()
	known, err := loadSchema(migrations.Files)
	require.NoError(t, err)
	return known.version
}

// later is the schema of this program and two more that might come.
func later(t *testing.T, second string) schema {
	t.Helper()
	files := fstest.MapFS{}
	names, err := fs.Glob(migrations.Files, "*.sql")
	require.NoError(t, err)
	for _, name := range names {
		text, err := migrations.Files.ReadFile(name)
		require.NoError(t, err)
		files[name] = &fstest.MapFile{Data: text}
	}
	next := newest(t) + 1
	files[fmt.Sprintf("%05d_count.sql", next)] = &fstest.MapFile{Data: []byte("-- +goose Up\nALTER TABLE jobs ADD COLUMN shelf TEXT NOT NULL DEFAULT 'left';\n" +
		"CREATE TABLE count (n INTEGER) STRICT;\n")}
	files[fmt.Sprintf("%05d_first.sql", next+1)] = &fstest.MapFile{Data: []byte("-- +goose Up\nINSERT INTO count VALUES (0);\n" + second)} // would run twice without complaint
	known, err := loadSchema(files)
	require.NoError(t, err)
	require.Equal(t, next+1, known.version)
	return known
}

func copyOfV1(t *testing.T) string {
	t.Helper()
	return copyOf(t, "v1.db")
}

// copyOf is a copy of a stored shop file.
func copyOf(t *testing.T, stored string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "shop.db")
	require.NoError(t, os.WriteFile(path, readFile(t, filepath.Join(schemaFolder, stored)), 0o600))
	return path
}

func TestUpgradeCopiesFirst(t *testing.T) {
	path := copyOfV1(t)
	s, err := open(t.Context(), path, Options{}, later(t, ""))
	require.NoError(t, err)
	assert.Equal(t, path+".schema-1.backup", s.Backup())
	assert.False(t, s.Created())
	requireV1(t, s)
	version, err := userVersion(t.Context(), s.reader)
	require.NoError(t, err)
	assert.Equal(t, newest(t)+2, version)
	require.NoError(t, s.Close())

	info, err := os.Stat(s.Backup())
	require.NoError(t, err)
	assert.Equal(t, os.FileMode(0o600), info.Mode().Perm())
	old := openAt(t, s.Backup())
	requireV1(t, old)

	_, err = Open(t.Context(), path, Options{})
	requireFault(t, err, "db.newer-schema", fmt.Sprintf("schema %d; this one knows up to %d", newest(t)+2, newest(t)))
}

func TestUpgradeNeverOverwritesACopy(t *testing.T) {
	path := copyOfV1(t)
	require.NoError(t, os.WriteFile(path+".schema-1.backup", []byte("of last year"), 0o600))
	s, err := open(t.Context(), path, Options{}, later(t, ""))
	require.NoError(t, err)
	require.NoError(t, s.Close())
	assert.Equal(t, path+".schema-1-2.backup", s.Backup())
	assert.Equal(t, []byte("of last year"), readFile(t, path+".schema-1.backup"))
}

func TestFailedUpgradeStopsAtAWholeVersion(t *testing.T) {
	path := copyOfV1(t)
	_, err := open(t.Context(), path, Options{}, later(t, "INSERT INTO nowhere VALUES (1);"))
	require.Error(t, err)
	raw := rawOpen(t, path)
	version, err := userVersion(t.Context(), raw)
	require.NoError(t, err)
	assert.Equal(t, newest(t)+1, version)
	var rows int
	require.NoError(t, raw.QueryRowContext(t.Context(), "SELECT count(*) FROM count").Scan(&rows))
	assert.Zero(t, rows, "the failed step left nothing")

	s, err := open(t.Context(), path, Options{}, later(t, "")) // a repaired program goes on from there
	require.NoError(t, err)
	requireV1(t, s)
	require.NoError(t, s.Close())
}

// TestManyOpenAtOnce: several programs find no file, or an old one, at the same moment.
func TestManyOpenAtOnce(t *testing.T) {
	for name, path := range map[string]string{"new": filepath.Join(t.TempDir(), "shop.db"), "old": copyOfV1(t)} {
		t.Run(name, func(t *testing.T) {
			known := later(t, "")
			var group sync.WaitGroup
			stores, errs := make([]*Store, 8), make([]error, 8)
			for i := range stores {
				group.Go(func() { stores[i], errs[i] = open(t.Context(), path, Options{}, known) })
			}
			group.Wait()
			created := 0
			for i, s := range stores {
				require.NoError(t, errs[i])
				if s.Created() {
					created++
				}
				var rows int
				require.NoError(t, s.reader.QueryRowContext(t.Context(), "SELECT count(*) FROM count").Scan(&rows))
				assert.Equal(t, 1, rows, "each migration ran once")
			}
			assert.Equal(t, map[string]int{"new": 1, "old": 0}[name], created)
			for _, s := range stores {
				require.NoError(t, s.Close())
			}
		})
	}
}

func TestMigrationThatWasRunMeanwhile(t *testing.T) {
	s := newStore(t)
	for _, version := range []int64{1, newest(t), newest(t) + 2} {
		err := versionStore{}.Insert(t.Context(), s.writer, database.InsertRequest{Version: version})
		require.ErrorIs(t, err, errRaced)
	}
	require.NoError(t, versionStore{}.Insert(t.Context(), s.writer, database.InsertRequest{Version: newest(t) + 1}))
}

func TestMigrationWithoutNumber(t *testing.T) {
	_, err := loadSchema(fstest.MapFS{"first.sql": {}})
	require.Error(t, err)
}

// fillV1 writes what requireV1 finds.
func fillV1(t *testing.T, s *Store) {
	t.Helper()
	begin(t, s, "a")
	begin(t, s, "b")
	appendTo(t, s, answer(1, 2))
	appendTo(t, s, answer(2, 2))
	voided := workflow.Entry{Ticket: 2, Seq: 3, Kind: workflow.EntryVoided, At: noon, By: "Bo", Token: "v", Reason: "brought back"}
	summary := summaryOf(voided)
	summary.State = workflow.Voided
	require.NoError(t, s.Append(t.Context(), voided, summary))
	require.NoError(t, s.SaveDraft(t.Context(), 1, "boots", "Ida", workflow.Answers{"sole.left": "318"}))
	require.NoError(t, s.SaveCard(t.Context(), workflow.Card{Kind: workflow.SkiCard, Name: "Firn 98", Answers: workflow.Answers{"waist": "98 mm"}}))
}

func requireV1(t *testing.T, s *Store) {
	t.Helper()
	report := requireWhole(t, s)
	assert.Equal(t, 5, report.Entries)
	assert.Equal(t, 2, report.Jobs)
	assert.Equal(t, v1Head, report.Head)
	entries, err := s.Entries(t.Context(), 1)
	require.NoError(t, err)
	first := opening("a")
	first.Ticket, first.Seq = 1, 1
	assert.Equal(t, []workflow.Entry{first, answer(1, 2)}, entries)
	assert.Equal(t, []int{2}, tickets(t, s, workflow.Query{States: []workflow.State{workflow.Voided}, Words: "edda firn"}))
	typed, err := s.Draft(t.Context(), 1, "boots", "Ida")
	require.NoError(t, err)
	assert.Equal(t, workflow.Answers{"sole.left": "318"}, typed)
	cards, err := s.Cards(t.Context(), workflow.SkiCard)
	require.NoError(t, err)
	assert.Equal(t, []workflow.Card{{Kind: workflow.SkiCard, Name: "Firn 98", Answers: workflow.Answers{"waist": "98 mm"}}}, cards)
}

// v1Head is the newest hash of the stored files: the record of every release
// must go on being read with the very same bytes.
const v1Head = "9df9b5d18e98b0b7cd2eebb7d2b06db356870fe5abf07a73bfc3465b52d862b9"

// fillV2 writes what requireV2 finds.
func fillV2(t *testing.T, s *Store) {
	t.Helper()
	fillV1(t, s)
	_, _, err := s.SavePattern(t.Context(), "tre.toml", []byte(smallPattern), noon, "Ida")
	require.NoError(t, err)
}

func requireV2(t *testing.T, s *Store) {
	t.Helper()
	requireV1(t, s)
	list, err := s.Patterns(t.Context())
	require.NoError(t, err)
	require.Len(t, list, 1)
	assert.Equal(t, smallPattern, list[0].Source)
	assert.Equal(t, "Ida", list[0].By)
	assert.Equal(t, noon, list[0].At)
}

// fillV3 writes what requireV3 finds.
func fillV3(t *testing.T, s *Store) {
	t.Helper()
	fillV2(t, s)
	require.NoError(t, s.SaveDevice(t.Context(), bench))
	retired := bench
	retired.Name = "Old arm (invented)"
	require.NoError(t, s.SaveDevice(t.Context(), retired))
	require.NoError(t, s.RetireDevice(t.Context(), retired.Name))
}

func requireV3(t *testing.T, s *Store) {
	t.Helper()
	requireV2(t, s)
	assert.Equal(t, []workflow.Device{bench}, devices(t, s))
}

// TestStoredSchemas opens a copy of a file of every released schema, and goes
// on working in it. With -write-schema it writes the file of the newest one
// first.
func TestStoredSchemas(t *testing.T) {
	if *writeSchema {
		path := filepath.Join(t.TempDir(), "shop.db")
		s, err := Open(t.Context(), path, Options{})
		require.NoError(t, err)
		fillV3(t, s)
		require.NoError(t, s.Close())
		require.NoError(t, os.MkdirAll(schemaFolder, 0o750))
		require.NoError(t, os.WriteFile(filepath.Join(schemaFolder, "v3.db"), readFile(t, path), 0o600))
	}
	for stored, c := range map[string]struct {
		holds    func(*testing.T, *Store)
		upgraded string // the copy that was made beside it
	}{
		"v1.db": {requireV1, ".schema-1.backup"},
		"v2.db": {requireV2, ".schema-2.backup"},
		"v3.db": {requireV3, ""},
	} {
		t.Run(stored, func(t *testing.T) {
			path := copyOf(t, stored)
			s := openAt(t, path)
			c.holds(t, s)
			if c.upgraded == "" {
				assert.Empty(t, s.Backup())
			} else {
				assert.Equal(t, path+c.upgraded, s.Backup())
			}
			assert.Equal(t, workflow.Ticket(3), begin(t, s, "c").Ticket)
			appendTo(t, s, answer(1, 3))
			_, _, err := s.SavePattern(t.Context(), "two.toml", []byte(strings.Replace(smallPattern, "Tre", "To", 1)), noon, "Bo")
			require.NoError(t, err)
			more := workflow.Device{Name: "Second bench (invented)", Low: 1, High: 300, CalibrationDue: "2026-12-01"}
			had := devices(t, s)
			require.NoError(t, s.SaveDevice(t.Context(), more))
			assert.Equal(t, append(had, more), devices(t, s))
			requireWhole(t, s)
		})
	}
}
