package db

import (
	"context"
	"database/sql"
	"encoding/json"
	"errors"
	"fmt"

	"drillstop/workflow"
)

// Begin gives the job its ticket, 1 for the first of the file, and appends its
// first entry. A job that was begun under the same token is returned as it is.
// Times are kept in milliseconds, UTC.
func (s *Store) Begin(ctx context.Context, e workflow.Entry,
	summarise func(workflow.Entry) (workflow.Summary, error),
) (workflow.Entry, error) {
	e.Seq, e.At = 1, atMilliseconds(e.At)
	if e.Kind != workflow.EntryOpened || e.Token == "" {
		return workflow.Entry{}, fmt.Errorf("the first entry of a job opens it, under a token; this one is %q under %q", e.Kind, e.Token)
	}
	err := s.write(ctx, func(tx *sql.Tx) error {
		begun, found, err := openedUnder(ctx, tx, e.Token)
		if err != nil || found {
			e = begun
			return err
		}
		if e.Ticket, err = nextTicket(ctx, tx); err != nil {
			return err
		}
		summary, err := summarise(e)
		if err != nil {
			return err
		}
		return keep(ctx, tx, e, hash{}, summary)
	})
	if err != nil {
		return workflow.Entry{}, err
	}
	return e, nil
}

// Append adds an entry to its job: workflow.ErrNoJob if there is no such job,
// workflow.ErrConflict if e.Seq-1 is not its last entry. An entry whose token
// is in the job already is not written again, and no error. Times are kept in
// milliseconds, UTC.
func (s *Store) Append(ctx context.Context, e workflow.Entry, summary workflow.Summary) error {
	e.At = atMilliseconds(e.At)
	if e.Token == "" {
		return fmt.Errorf("entry %d of %s has no token", e.Seq, e.Ticket)
	}
	return s.write(ctx, func(tx *sql.Tx) error {
		last, err := lastOf(ctx, tx, e.Ticket)
		if err != nil {
			return err
		}
		kept, err := hasToken(ctx, tx, e.Ticket, e.Token)
		if err != nil || kept {
			return err
		}
		if e.Seq != last.seq+1 {
			return fmt.Errorf("entry %d of %s after entry %d: %w", e.Seq, e.Ticket, last.seq, workflow.ErrConflict)
		}
		return keep(ctx, tx, e, last.hash, summary)
	})
}

// Entries returns all entries of a job in order; workflow.ErrNoJob if there is
// none.
func (s *Store) Entries(ctx context.Context, t workflow.Ticket) ([]workflow.Entry, error) {
	rows, err := s.reader.QueryContext(ctx, "SELECT body FROM entries WHERE ticket = ? ORDER BY seq", int64(t))
	if err != nil {
		return nil, s.fault(err)
	}
	defer rows.Close()
	var entries []workflow.Entry
	for rows.Next() {
		var body sql.RawBytes
		if err := rows.Scan(&body); err != nil {
			return nil, s.fault(err)
		}
		var e workflow.Entry
		if err := json.Unmarshal(body, &e); err != nil {
			return nil, fmt.Errorf("entry %d of %s: %w", len(entries)+1, t, err)
		}
		entries = append(entries, e)
	}
	if err := rows.Err(); err != nil {
		return nil, s.fault(err)
	}
	if len(entries) == 0 {
		return nil, noJob(t)
	}
	return entries, nil
}

// keep writes an entry and all that follows from it.
func keep(ctx context.Context, tx *sql.Tx, e workflow.Entry, after hash, summary workflow.Summary) error {
	if summary.Ticket != e.Ticket || summary.Seq != e.Seq {
		return fmt.Errorf("entry %d of %s came with the summary of entry %d of %s", e.Seq, e.Ticket, summary.Seq, summary.Ticket)
	}
	if err := insertEntry(ctx, tx, e, after); err != nil {
		return err
	}
	if err := putJob(ctx, tx, summary); err != nil {
		return err
	}
	if e.Kind != workflow.EntryAnswered {
		return nil // a waiver is about a step too, but what is typed there is still wanted
	}
	return deleteDraft(ctx, tx, draftKey{e.Ticket, e.Step, e.By})
}

func insertEntry(ctx context.Context, tx *sql.Tx, e workflow.Entry, after hash) error {
	body, err := encodeEntry(e)
	if err != nil {
		return err
	}
	fileSeq, fileHash, err := lastOfFile(ctx, tx)
	if err != nil {
		return err
	}
	before := links{job: after, file: fileHash}
	now := before.next(body)
	_, err = tx.ExecContext(ctx, `INSERT INTO entries
		(file_seq, ticket, seq, at, author, kind, token, body, job_prev, job_hash, file_prev, file_hash)
		VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)`,
		fileSeq+1, int64(e.Ticket), e.Seq, e.At.UnixMilli(), e.By, string(e.Kind), e.Token, string(body),
		before.job[:], now.job[:], before.file[:], now.file[:])
	return err
}

// nextTicket takes a number that no job had before.
func nextTicket(ctx context.Context, tx *sql.Tx) (workflow.Ticket, error) {
	var t int64
	err := tx.QueryRowContext(ctx, `INSERT INTO tickets (ticket)
		SELECT 1 + coalesce(max(ticket), 0) FROM tickets RETURNING ticket`).Scan(&t)
	return workflow.Ticket(t), err
}

func openedUnder(ctx context.Context, tx *sql.Tx, token string) (e workflow.Entry, found bool, err error) {
	var body []byte
	err = tx.QueryRowContext(ctx, "SELECT body FROM entries WHERE seq = 1 AND token = ?", token).Scan(&body)
	if errors.Is(err, sql.ErrNoRows) {
		return workflow.Entry{}, false, nil
	}
	if err == nil {
		err = json.Unmarshal(body, &e)
	}
	return e, err == nil, err
}

func hasToken(ctx context.Context, tx *sql.Tx, t workflow.Ticket, token string) (found bool, err error) {
	err = tx.QueryRowContext(ctx, "SELECT EXISTS (SELECT 1 FROM entries WHERE ticket = ? AND token = ?)",
		int64(t), token).Scan(&found)
	return found, err
}

// end is where a chain can be continued.
type end struct {
	seq  int
	hash hash
}

// lastOf returns the end of a job; workflow.ErrNoJob if it has no entry.
func lastOf(ctx context.Context, tx *sql.Tx, t workflow.Ticket) (end, error) {
	var seq int
	var sum []byte
	err := tx.QueryRowContext(ctx, "SELECT seq, job_hash FROM entries WHERE ticket = ? ORDER BY seq DESC LIMIT 1",
		int64(t)).Scan(&seq, &sum)
	if errors.Is(err, sql.ErrNoRows) {
		return end{}, noJob(t)
	}
	if err != nil {
		return end{}, err
	}
	return end{seq, hash(sum)}, nil // 32 bytes, says a constraint of the table
}

// lastOfFile returns the end of the file; 0 and the zero hash while it has no
// entry.
func lastOfFile(ctx context.Context, tx *sql.Tx) (seq int64, h hash, err error) {
	var sum []byte
	err = tx.QueryRowContext(ctx, "SELECT file_seq, file_hash FROM entries ORDER BY file_seq DESC LIMIT 1").Scan(&seq, &sum)
	if errors.Is(err, sql.ErrNoRows) {
		return 0, hash{}, nil
	}
	if err != nil {
		return 0, hash{}, err
	}
	return seq, hash(sum), nil
}

func noJob(t workflow.Ticket) error { return fmt.Errorf("%s: %w", t, workflow.ErrNoJob) }
