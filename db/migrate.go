package db

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"io/fs"
	"strconv"
	"strings"

	"github.com/pressly/goose/v3"
	"github.com/pressly/goose/v3/database"
)

// schema is what a program knows: its migrations, and the number of the last.
type schema struct {
	files   fs.FS
	version int64
}

// errRaced is returned by a migration that another program ran first.
var errRaced = errors.New("another program migrated the file")

func loadSchema(files fs.FS) (schema, error) {
	names, err := fs.Glob(files, "*.sql")
	if err != nil {
		return schema{}, err
	}
	known := schema{files: files}
	for _, name := range names {
		number, _, _ := strings.Cut(name, "_")
		version, err := strconv.ParseInt(number, 10, 64)
		if err != nil {
			return schema{}, fmt.Errorf("migration %s: its name begins with no number: %w", name, err)
		}
		known.version = max(known.version, version)
	}
	return known, nil
}

// migrate brings the file to the known schema. On a file that is up to date it
// costs one look at its header: the library is not started.
func (s *Store) migrate(ctx context.Context, known schema) error {
	version, err := userVersion(ctx, s.writer)
	switch {
	case err != nil:
		return err
	case version > known.version:
		return faultNewerSchema(s.path, version, known.version)
	case version == known.version:
		return nil
	case version > 0:
		if s.backup, err = s.copyBeside(ctx, version); err != nil {
			return err
		}
	}
	return s.climb(ctx, known, version)
}

// climb runs what is missing above version. Each migration is a transaction of
// its own that ends at one version or stays at the one before, so that when
// another program runs them at the same time, one of the two fails on each and
// simply goes on from where the other got.
func (s *Store) climb(ctx context.Context, known schema, version int64) error {
	for {
		failed := s.up(ctx, known)
		now, err := userVersion(ctx, s.writer)
		switch {
		case err != nil:
			return errors.Join(failed, err)
		case now == known.version:
			return nil
		case now > known.version:
			return faultNewerSchema(s.path, now, known.version)
		case now == version:
			return fmt.Errorf("upgrade of %s from schema %d: %w", s.path, version, failed)
		}
		version = now
	}
}

func (s *Store) up(ctx context.Context, known schema) error {
	provider, err := goose.NewProvider(goose.DialectCustom, s.writer, known.files,
		goose.WithStore(versionStore{}), goose.WithDisableGlobalRegistry(true))
	if err != nil {
		return err
	}
	_, err = provider.Up(ctx)
	return err
}

type queryer interface {
	QueryRowContext(ctx context.Context, query string, args ...any) *sql.Row
}

func userVersion(ctx context.Context, db queryer) (version int64, err error) {
	err = db.QueryRowContext(ctx, "PRAGMA user_version").Scan(&version)
	return version, err
}

// versionStore keeps the number of the schema in the header of the file
// instead of a table: one truth, readable before anything else is.
type versionStore struct{}

var _ database.StoreExtender = versionStore{}

// Tablename names what stands for the table in messages.
func (versionStore) Tablename() string { return "user_version" }

// TableExists is true of every database: the number is part of its header.
func (versionStore) TableExists(context.Context, database.DBTxConn) (bool, error) { return true, nil }

// CreateVersionTable has nothing to do.
func (versionStore) CreateVersionTable(context.Context, database.DBTxConn) error { return nil }

// Insert records a migration, in its transaction. It fails when the file is
// not at the version before it, which undoes what the migration did.
func (versionStore) Insert(ctx context.Context, db database.DBTxConn, req database.InsertRequest) error {
	version, err := userVersion(ctx, db)
	if err != nil {
		return err
	}
	if version != req.Version-1 {
		return fmt.Errorf("%w: it is at %d, not %d", errRaced, version, req.Version-1)
	}
	_, err = db.ExecContext(ctx, fmt.Sprintf("PRAGMA user_version = %d", req.Version)) // takes no parameter
	return err
}

// Delete is never needed: a shop file only goes forward.
func (versionStore) Delete(context.Context, database.DBTxConn, int64) error {
	return database.ErrNotImplemented
}

// GetMigration returns one migration that was applied.
func (versionStore) GetMigration(ctx context.Context, db database.DBTxConn, version int64) (*database.GetMigrationResult, error) {
	latest, err := userVersion(ctx, db)
	if err != nil {
		return nil, err
	}
	if version > latest {
		return nil, database.ErrVersionNotFound
	}
	return &database.GetMigrationResult{IsApplied: true}, nil
}

// GetLatestVersion returns the version of the file, 0 for an empty one.
func (versionStore) GetLatestVersion(ctx context.Context, db database.DBTxConn) (int64, error) {
	return userVersion(ctx, db)
}

// ListMigrations returns all that were applied, latest first, and the empty
// file as version 0.
func (versionStore) ListMigrations(ctx context.Context, db database.DBTxConn) ([]*database.ListMigrationsResult, error) {
	latest, err := userVersion(ctx, db)
	if err != nil {
		return nil, err
	}
	var applied []*database.ListMigrationsResult
	for v := latest; v >= 0; v-- {
		applied = append(applied, &database.ListMigrationsResult{Version: v, IsApplied: true})
	}
	return applied, nil
}
