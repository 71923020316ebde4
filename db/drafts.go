package db

import (
	"context"
	"database/sql"
	"encoding/json"
	"errors"
	"fmt"

	"drillstop/workflow"
)

// draftKey is whose draft of which step of which job.
type draftKey struct {
	ticket workflow.Ticket
	step   workflow.StepID
	by     string
}

// Draft returns what was typed into a step and not kept yet; nil if nothing.
func (s *Store) Draft(ctx context.Context, t workflow.Ticket, step workflow.StepID, by string) (workflow.Answers, error) {
	var text []byte
	err := s.reader.QueryRowContext(ctx, "SELECT typed FROM drafts WHERE ticket = ? AND step = ? AND author = ?",
		int64(t), string(step), by).Scan(&text)
	if errors.Is(err, sql.ErrNoRows) {
		return nil, nil
	}
	if err != nil {
		return nil, s.fault(err)
	}
	var typed workflow.Answers
	if err := json.Unmarshal(text, &typed); err != nil {
		return nil, fmt.Errorf("draft of %s of %s: %w", step, t, err)
	}
	return typed, nil
}

// SaveDraft keeps what is typed so far; a draft without any answer is removed.
// It fails with workflow.ErrNoJob for a job that the file does not have.
func (s *Store) SaveDraft(ctx context.Context, t workflow.Ticket, step workflow.StepID, by string, typed workflow.Answers) error {
	if err := validAnswers(typed); err != nil {
		return err
	}
	return s.write(ctx, func(tx *sql.Tx) error {
		if _, err := lastOf(ctx, tx, t); err != nil {
			return err
		}
		key := draftKey{t, step, by}
		if len(typed) == 0 {
			return deleteDraft(ctx, tx, key)
		}
		return putDraft(ctx, tx, key, typed)
	})
}

func putDraft(ctx context.Context, tx *sql.Tx, key draftKey, typed workflow.Answers) error {
	text, err := encode(typed)
	if err != nil {
		return err
	}
	_, err = tx.ExecContext(ctx, "INSERT OR REPLACE INTO drafts (ticket, step, author, typed) VALUES (?, ?, ?, ?)",
		int64(key.ticket), string(key.step), key.by, string(text))
	return err
}

func deleteDraft(ctx context.Context, tx *sql.Tx, key draftKey) error {
	_, err := tx.ExecContext(ctx, "DELETE FROM drafts WHERE ticket = ? AND step = ? AND author = ?",
		int64(key.ticket), string(key.step), key.by)
	return err
}
