// Package db keeps the shop file: an SQLite database that satisfies the store
// which package workflow declares. The record is a table of entries that only
// grows; everything else is derived from it or may be thrown away.
//
// Exported methods open and commit one transaction; unexported ones take it.
// Errors that a technician can do something about are *calc.Fault.
package db

import (
	"context"
	"database/sql"
	"errors"
	"os"
	"time"

	_ "modernc.org/sqlite" // registers the driver "sqlite"

	"drillstop/db/migrations"
	"drillstop/workflow"
)

const (
	// defaultBusyTimeout is how long a transaction waits for another program
	// that is writing to the same file.
	defaultBusyTimeout = 20 * time.Second
	// readers is how many lists and jobs are read at the same time.
	readers = 4
	// maxTurns is how often a file that others are opening too is tried.
	maxTurns = 100
)

// Options are how a shop file is opened. The zero value is what the program uses.
type Options struct {
	// MustExist refuses to make a new file: for commands that only look at jobs.
	MustExist bool
	// BusyTimeout is how long to wait for another program that is writing; 0: 20 s.
	BusyTimeout time.Duration
}

// Store is an open shop file. It may be used from several goroutines.
//
// All writing goes through one connection. Several would not be faster, since
// SQLite lets one write at a time, and they starve each other: one goes on
// committing while another waits in vain. Waiting for a single connection is
// fair.
type Store struct {
	path    string
	created bool
	backup  string
	file    os.FileInfo // which file it was, to notice when another takes its name
	schema  int64
	writer  *sql.DB
	reader  *sql.DB
}

var _ workflow.Store = (*Store)(nil)

// Open opens the shop file at path, and makes it (0600, its folder 0700) when
// it is missing. A file of an older schema is upgraded after a copy of it was
// made beside it. A file of a newer schema, of another program, or that is no
// database is refused with a *calc.Fault and left as it is.
func Open(ctx context.Context, path string, opts Options) (*Store, error) {
	known, err := loadSchema(migrations.Files)
	if err != nil {
		return nil, err
	}
	return open(ctx, path, opts, known)
}

func open(ctx context.Context, path string, opts Options, known schema) (*Store, error) {
	path, created, err := prepare(path, opts.MustExist)
	if err != nil {
		return nil, err
	}
	s := &Store{path: path, created: created, schema: known.version}
	if err := s.connect(ctx, opts, known); err != nil {
		return nil, errors.Join(s.fault(err), s.Close())
	}
	return s, nil
}

func (s *Store) connect(ctx context.Context, opts Options, known schema) (err error) {
	wait := opts.BusyTimeout
	if wait == 0 {
		wait = defaultBusyTimeout
	}
	if s.writer, err = sql.Open("sqlite", writerDSN(s.path, wait)); err != nil {
		return err
	}
	s.writer.SetMaxOpenConns(1)
	if s.reader, err = sql.Open("sqlite", readerDSN(s.path, wait)); err != nil {
		return err
	}
	s.reader.SetMaxOpenConns(readers)
	s.reader.SetMaxIdleConns(readers)
	if s.file, err = os.Stat(s.path); err != nil {
		return faultFile(s.path, err)
	}
	if err := s.migrate(ctx, known); err != nil {
		return err
	}
	return s.journal(ctx)
}

// journal switches the file to a write-ahead log, which it stays in. It comes
// last, so that a refused file was not touched and a new file is either empty
// or whole.
func (s *Store) journal(ctx context.Context) error {
	mode, err := s.switchToLog(ctx)
	// SQLite does not wait for others that have the file open while it is being
	// switched; several programs may have found it new at the same moment.
	for turn := 0; turn < maxTurns && isBusy(err); turn++ {
		if _, err := s.writer.ExecContext(ctx, "BEGIN EXCLUSIVE; ROLLBACK"); err != nil { // this does wait
			return err
		}
		mode, err = s.switchToLog(ctx)
	}
	if err != nil {
		return err
	}
	if mode != "wal" {
		return faultNoLog(s.path, mode)
	}
	return nil
}

func (s *Store) switchToLog(ctx context.Context) (mode string, err error) {
	err = s.writer.QueryRowContext(ctx, "PRAGMA journal_mode = WAL").Scan(&mode)
	return mode, err
}

// Close waits for what is being written and closes the file.
func (s *Store) Close() error {
	var errs []error
	for _, pool := range []*sql.DB{s.reader, s.writer} { // the last one to close tidies the log
		if pool != nil {
			errs = append(errs, pool.Close())
		}
	}
	return s.fault(errors.Join(errs...))
}

// Path returns the absolute path of the shop file.
func (s *Store) Path() string { return s.path }

// Created reports whether the file was made by opening it.
func (s *Store) Created() bool { return s.created }

// Backup returns the path of the copy that was made before this call of Open
// upgraded the file; "" if it did not.
func (s *Store) Backup() string { return s.backup }

// write runs work in a transaction that holds the right to write from its
// first statement on. Once write has returned nil, the work is on the disk.
func (s *Store) write(ctx context.Context, work func(*sql.Tx) error) error {
	tx, err := s.writer.BeginTx(ctx, nil)
	if errors.Is(err, context.DeadlineExceeded) { // its turn never came
		return withCause(faultLocked(s.path), err)
	}
	if err != nil {
		return s.fault(err)
	}
	defer tx.Rollback() //nolint:errcheck // without effect after a commit; else the error below is the one to tell
	if err := s.sameFile(); err != nil {
		return err
	}
	if err := s.sameSchema(ctx, tx); err != nil {
		return s.fault(err)
	}
	if err := work(tx); err != nil {
		return s.fault(err)
	}
	return s.fault(tx.Commit())
}

// sameFile stops a program whose file was moved or replaced: the system would
// let it go on writing to a file that nobody can open any more.
func (s *Store) sameFile() error {
	now, err := os.Stat(s.path) //nolint:gosec // the technician names it
	if err != nil || !os.SameFile(now, s.file) {
		return withCause(faultMoved(s.path), err)
	}
	return nil
}

// sameSchema stops a program that was left running while a newer one upgraded
// the file: it would write lines that the new one cannot trust.
func (s *Store) sameSchema(ctx context.Context, tx *sql.Tx) error {
	version, err := userVersion(ctx, tx)
	if err == nil && version != s.schema {
		err = faultUpgradedMeanwhile(s.path, version, s.schema)
	}
	return err
}
