//go:build unix

package db

import (
	"io/fs"
	"os"
	"path/filepath"
	"syscall"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"drillstop/workflow"
)

func TestOpenMakesFolderAndFile(t *testing.T) {
	folder := filepath.Join(t.TempDir(), "data", "drillstop")
	path := filepath.Join(folder, "shop.db")
	s := openAt(t, path)
	begin(t, s, "a")
	assert.True(t, s.Created())
	assert.Equal(t, path, s.Path())
	assert.Empty(t, s.Backup())
	for name, mode := range map[string]fs.FileMode{
		folder: 0o700, filepath.Dir(folder): 0o700,
		path: 0o600, path + "-wal": 0o600, path + "-shm": 0o600,
	} {
		info, err := os.Stat(name)
		require.NoError(t, err)
		assert.Equal(t, mode, info.Mode().Perm(), name)
	}
}

func TestReadOnlyFile(t *testing.T) {
	if os.Geteuid() == 0 {
		t.Skip("the superuser may write to everything")
	}
	path := filepath.Join(t.TempDir(), "shop.db")
	s, err := Open(t.Context(), path, Options{})
	require.NoError(t, err)
	require.NoError(t, s.Close())

	require.NoError(t, os.Chmod(path, 0o400))
	_, err = Open(t.Context(), path, Options{})
	requireFault(t, err, "db.read-only", path)
	require.NoError(t, os.Chmod(path, 0o600))

	folder := filepath.Dir(path)
	require.NoError(t, os.Chmod(folder, 0o500))
	t.Cleanup(func() { require.NoError(t, os.Chmod(folder, 0o700)) })
	_, err = Open(t.Context(), path, Options{}) // the log cannot be made
	requireFault(t, err, "db.read-only", path)
	_, err = Open(t.Context(), filepath.Join(folder, "new.db"), Options{})
	requireFault(t, err, "db.read-only", "new.db")
	_, err = Open(t.Context(), filepath.Join(folder, "sub", "new.db"), Options{})
	requireFault(t, err, "db.folder", "sub")
}

func TestPipeIsRefused(t *testing.T) {
	pipe := filepath.Join(t.TempDir(), "shop.db")
	require.NoError(t, syscall.Mkfifo(pipe, 0o600))
	_, err := Open(t.Context(), pipe, Options{})
	requireFault(t, err, "db.irregular", pipe)
}

func TestFileMovedWhileOpen(t *testing.T) {
	s := newStore(t)
	begin(t, s, "a")
	path, away := s.Path(), s.Path()+".away"
	e := answer(1, 2)
	require.NoError(t, os.Rename(path, away))
	requireFault(t, s.Append(t.Context(), e, summaryOf(e)), "db.moved", path)
	_, err := s.List(t.Context(), workflow.Query{}) // through a connection that was not open yet
	requireFault(t, err, "db.cannot-open", path)
	assert.NoFileExists(t, path, "no empty file takes its place")

	require.NoError(t, os.WriteFile(path, nil, 0o600))
	requireFault(t, s.Append(t.Context(), e, summaryOf(e)), "db.moved", path)
	require.NoError(t, os.Rename(away, path))
	appendTo(t, s, e)
	requireWhole(t, s)
}
