package db

import (
	"context"
	"database/sql"
	"encoding/json"
	"fmt"
	"strings"
	"unicode"

	"drillstop/workflow"
)

const defaultLimit = 200 // jobs in a list, as workflow.Query says

// List returns the summaries that fit the query, newest ticket first. Each of
// its words must begin a word of the ticket, the skier, the ski or the binding,
// whatever the case and the accents; a word without a letter or a digit begins
// nothing and is left out. A ticket is found as T-0417, T417 or 417.
func (s *Store) List(ctx context.Context, q workflow.Query) ([]workflow.Summary, error) {
	query, args := listQuery(q)
	rows, err := s.reader.QueryContext(ctx, query, args...)
	if err != nil {
		return nil, s.fault(err)
	}
	defer rows.Close()
	var list []workflow.Summary
	for rows.Next() {
		var text sql.RawBytes
		if err := rows.Scan(&text); err != nil {
			return nil, s.fault(err)
		}
		summary, err := decodeSummary(text)
		if err != nil {
			return nil, err
		}
		list = append(list, summary)
	}
	return list, s.fault(rows.Err())
}

func listQuery(q workflow.Query) (query string, args []any) {
	query = "SELECT jobs.summary FROM jobs WHERE true"
	order := "jobs.ticket"
	if match := matchWords(q.Words); match != "" {
		// The words come first and in order: few jobs have them.
		query = "SELECT jobs.summary FROM job_words CROSS JOIN jobs ON jobs.ticket = job_words.rowid WHERE job_words MATCH ?"
		order = "job_words.rowid"
		args = append(args, match)
	}
	if len(q.States) > 0 {
		query += " AND jobs.state IN (?" + strings.Repeat(", ?", len(q.States)-1) + ")"
		for _, state := range q.States {
			args = append(args, string(state))
		}
	}
	limit := q.Limit
	if limit <= 0 {
		limit = defaultLimit
	}
	return query + " ORDER BY " + order + " DESC LIMIT ?", append(args, limit)
}

// matchWords writes what was typed as an FTS5 query: every word a quoted phrase
// of which the last token may go on. "" when there is no word to look for.
func matchWords(typed string) string {
	words := strings.FieldsFunc(typed, func(r rune) bool { return unicode.IsSpace(r) || unicode.IsControl(r) })
	var phrases []string
	for _, word := range words {
		word = strings.ToValidUTF8(word, "")
		if strings.ContainsFunc(word, func(r rune) bool { return unicode.IsLetter(r) || unicode.IsNumber(r) }) {
			phrases = append(phrases, `"`+strings.ReplaceAll(word, `"`, `""`)+`"*`)
		}
	}
	return strings.Join(phrases, " ")
}

// putJob writes the summary of a job; its words follow by trigger.
func putJob(ctx context.Context, tx *sql.Tx, summary workflow.Summary) error {
	summary.OpenedAt, summary.Touched = atMilliseconds(summary.OpenedAt), atMilliseconds(summary.Touched)
	text, err := encode(summary)
	if err != nil {
		return err
	}
	// One line that cannot be read would cost the whole bench.
	if _, err := decodeSummary(text); err != nil {
		return err
	}
	_, err = tx.ExecContext(ctx, `INSERT INTO jobs (ticket, seq, state, skier, ski, binding, summary)
		VALUES (?, ?, ?, ?, ?, ?, ?)
		ON CONFLICT (ticket) DO UPDATE SET seq = excluded.seq, state = excluded.state,
			skier = excluded.skier, ski = excluded.ski, binding = excluded.binding, summary = excluded.summary`,
		int64(summary.Ticket), summary.Seq, string(summary.State),
		summary.Skier, summary.Ski, summary.Binding, string(text))
	return err
}

func decodeSummary(text []byte) (workflow.Summary, error) {
	var summary workflow.Summary
	if err := json.Unmarshal(text, &summary); err != nil {
		return workflow.Summary{}, fmt.Errorf("summary of a job: %w", err)
	}
	return summary, nil
}
