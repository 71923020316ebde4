package db

import (
	"context"
	"database/sql"
	"encoding/hex"
	"errors"
	"fmt"

	"modernc.org/sqlite"
	sqlite3 "modernc.org/sqlite/lib"
)

// Report is what Verify saw.
type Report struct {
	// Faults are what is wrong with the file, in sentences; none: the file is whole.
	Faults []string
	// Head is the newest hash of the chain through the file, in hex; "" for a
	// file without entries. Who has written it down elsewhere can tell later
	// that nothing before it was changed or removed, not even by somebody who
	// calculated all hashes anew.
	Head string
	// Entries and Jobs are how many the file holds.
	Entries, Jobs int
}

// Verify reads the whole file and checks what it can: SQLite's own structure,
// references between tables, the guards of the entries, every hash of every
// chain, and that the summaries follow from the last entries. It changes
// nothing. What it finds is in the report; its error says that it could not
// look.
func (s *Store) Verify(ctx context.Context) (Report, error) {
	tx, err := s.reader.BeginTx(ctx, &sql.TxOptions{ReadOnly: true})
	if err != nil {
		return Report{}, s.fault(err)
	}
	defer tx.Rollback() //nolint:errcheck // nothing was written
	var report Report
	for _, check := range []func(context.Context, *sql.Tx, *Report) error{
		checkStructure, checkReferences, checkGuards, checkEntries, checkTickets, checkJobs,
	} {
		if err := check(ctx, tx, &report); err != nil && !report.damage(err) {
			return report, s.fault(err)
		}
	}
	return report, nil
}

func (r *Report) faultf(format string, args ...any) {
	r.Faults = append(r.Faults, fmt.Sprintf(format, args...))
}

// damage takes an error that says that the file is damaged into the report.
func (r *Report) damage(err error) bool {
	var driver *sqlite.Error
	if !errors.As(err, &driver) || driver.Code()&0xff != sqlite3.SQLITE_CORRUPT {
		return false
	}
	r.faultf("A part of the file cannot be read: %v.", driver)
	return true
}

func checkStructure(ctx context.Context, tx *sql.Tx, report *Report) error {
	return each(ctx, tx, "PRAGMA integrity_check", func(rows *sql.Rows) error {
		var line string
		if err := rows.Scan(&line); err != nil {
			return err
		}
		if line != "ok" {
			report.faultf("The file is damaged: %s.", line)
		}
		return nil
	})
}

func checkReferences(ctx context.Context, tx *sql.Tx, report *Report) error {
	return each(ctx, tx, `SELECT "table", parent, coalesce("rowid", '?') FROM pragma_foreign_key_check`, func(rows *sql.Rows) error {
		var table, parent, row string
		if err := rows.Scan(&table, &parent, &row); err != nil {
			return err
		}
		report.faultf("Row %s of %s refers to a row of %s that is not there.", row, table, parent)
		return nil
	})
}

// guards are the triggers that keep the record from being changed.
var guards = [...]string{
	"entries_follow", "entries_no_update", "entries_no_delete",
	"tickets_follow", "tickets_no_update", "tickets_no_delete",
}

func checkGuards(ctx context.Context, tx *sql.Tx, report *Report) error {
	for _, name := range guards {
		var there bool
		err := tx.QueryRowContext(ctx, "SELECT EXISTS (SELECT 1 FROM sqlite_schema WHERE type = 'trigger' AND name = ?)", name).Scan(&there)
		if err != nil {
			return err
		}
		if !there {
			report.faultf("The guard %s was removed from the file.", name)
		}
	}
	return nil
}

func checkTickets(ctx context.Context, tx *sql.Tx, report *Report) error {
	expected := int64(0)
	return each(ctx, tx, `SELECT ticket, EXISTS (SELECT 1 FROM entries WHERE entries.ticket = tickets.ticket)
		FROM tickets ORDER BY ticket`, func(rows *sql.Rows) error {
		var ticket int64
		var used bool
		if err := rows.Scan(&ticket, &used); err != nil {
			return err
		}
		if expected++; ticket != expected {
			report.faultf("Ticket %s follows ticket number %d; those between are gone.", printed(ticket), expected-1)
			expected = ticket
		}
		if !used {
			report.faultf("%s has no entries.", printed(ticket))
		}
		return nil
	})
}

// checkJobs compares the summaries with the last entries of their jobs.
func checkJobs(ctx context.Context, tx *sql.Tx, report *Report) error {
	return each(ctx, tx, `SELECT ends.ticket, ends.seq, ends.at,
			coalesce(jobs.seq, 0), coalesce(jobs.state, ''), coalesce(jobs.skier, ''),
			coalesce(jobs.ski, ''), coalesce(jobs.binding, ''), coalesce(jobs.summary, '')
		FROM (SELECT ticket, seq, at FROM entries e
			WHERE seq = (SELECT max(seq) FROM entries WHERE ticket = e.ticket)) AS ends
		LEFT JOIN jobs ON jobs.ticket = ends.ticket ORDER BY ends.ticket`,
		func(rows *sql.Rows) error {
			var ticket, at int64
			var last, seq int
			var state, skier, ski, binding string
			var text []byte
			if err := rows.Scan(&ticket, &last, &at, &seq, &state, &skier, &ski, &binding, &text); err != nil {
				return err
			}
			report.Jobs++
			if seq == 0 {
				report.faultf("%s has no line on the bench.", printed(ticket))
				return nil
			}
			summary, err := decodeSummary(text)
			switch {
			case err != nil:
				report.faultf("The line of %s on the bench cannot be read: %v.", printed(ticket), err)
			case seq != last || summary.Seq != last || summary.Touched.UnixMilli() != at:
				report.faultf("The line of %s on the bench is that of entry %d, but its last entry is %d.", printed(ticket), summary.Seq, last)
			case int64(summary.Ticket) != ticket || string(summary.State) != state ||
				summary.Skier != skier || summary.Ski != ski || summary.Binding != binding:
				report.faultf("The line of %s on the bench and what it is searched by do not agree.", printed(ticket))
			}
			return nil
		})
}

// each calls visit for every row of a query.
func each(ctx context.Context, tx *sql.Tx, query string, visit func(*sql.Rows) error) error {
	rows, err := tx.QueryContext(ctx, query)
	if err != nil {
		return err
	}
	defer rows.Close()
	for rows.Next() {
		if err := visit(rows); err != nil {
			return err
		}
	}
	return rows.Err()
}

// headOf writes a hash as people copy it.
func headOf(h hash) string { return hex.EncodeToString(h[:]) }
