package db

import (
	"context"
	"database/sql"
	"fmt"
	"path/filepath"
	"time"
	"unicode/utf8"

	"drillstop/calc/layout"
	"drillstop/db/pattern"
)

// Pattern is a hole pattern of the shop's library.
type Pattern struct {
	Layout *layout.Pattern
	Source string    // the file as it was imported
	At     time.Time // of the import
	By     string    // who imported it
}

// Patterns returns the shop's hole patterns, by name.
func (s *Store) Patterns(ctx context.Context) ([]Pattern, error) {
	rows, err := s.reader.QueryContext(ctx, "SELECT name, source, at, author FROM patterns ORDER BY name")
	if err != nil {
		return nil, s.fault(err)
	}
	defer rows.Close()
	var list []Pattern
	for rows.Next() {
		var p Pattern
		var name string
		var at int64
		if err := rows.Scan(&name, &p.Source, &at, &p.By); err != nil {
			return nil, s.fault(err)
		}
		if p.Layout, err = pattern.Read(fmt.Sprintf("pattern %q of the shop file", name), []byte(p.Source)); err != nil {
			return nil, err
		}
		p.At = time.UnixMilli(at).UTC()
		list = append(list, p)
	}
	return list, s.fault(rows.Err())
}

// SavePattern reads a pattern file and keeps it in the library, replacing the
// pattern of the same name in any case. A file that cannot be used is refused
// as pattern.Read does, and nothing of it is kept. replaced says whether there
// was one of that name.
func (s *Store) SavePattern(ctx context.Context, file string, source []byte, at time.Time, by string) (p Pattern, replaced bool, err error) {
	if !utf8.ValidString(by) {
		return Pattern{}, false, faultText("The name of who imports the pattern")
	}
	p = Pattern{Source: string(source), At: atMilliseconds(at), By: by}
	if p.Layout, err = pattern.Read(filepath.Base(file), source); err != nil {
		return Pattern{}, false, err
	}
	err = s.write(ctx, func(tx *sql.Tx) error {
		if err := tx.QueryRowContext(ctx, "SELECT EXISTS (SELECT 1 FROM patterns WHERE name = ?)", p.Layout.Name).Scan(&replaced); err != nil {
			return err
		}
		_, err := tx.ExecContext(ctx, "INSERT OR REPLACE INTO patterns (name, source, at, author) VALUES (?, ?, ?, ?)",
			p.Layout.Name, p.Source, p.At.UnixMilli(), p.By)
		return err
	})
	if err != nil {
		return Pattern{}, false, err
	}
	return p, replaced, nil
}
