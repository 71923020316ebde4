package db

import (
	"context"
	"database/sql"
	"encoding/json"
	"fmt"
	"unicode/utf8"

	"drillstop/workflow"
)

// Cards returns the cards of a kind, by name.
func (s *Store) Cards(ctx context.Context, kind workflow.CardKind) ([]workflow.Card, error) {
	rows, err := s.reader.QueryContext(ctx, "SELECT name, answers FROM cards WHERE kind = ? ORDER BY name COLLATE NOCASE, name", string(kind))
	if err != nil {
		return nil, s.fault(err)
	}
	defer rows.Close()
	var cards []workflow.Card
	for rows.Next() {
		card := workflow.Card{Kind: kind}
		var text []byte
		if err := rows.Scan(&card.Name, &text); err != nil {
			return nil, s.fault(err)
		}
		if err := json.Unmarshal(text, &card.Answers); err != nil {
			return nil, fmt.Errorf("%s card %q: %w", kind, card.Name, err)
		}
		cards = append(cards, card)
	}
	return cards, s.fault(rows.Err())
}

// SaveCard keeps a card, replacing the one of the same kind and name.
func (s *Store) SaveCard(ctx context.Context, card workflow.Card) error {
	if !utf8.ValidString(card.Name) {
		return faultText("The name of the card")
	}
	if err := validAnswers(card.Answers); err != nil {
		return err
	}
	text, err := encode(card.Answers)
	if err != nil {
		return err
	}
	return s.write(ctx, func(tx *sql.Tx) error {
		_, err := tx.ExecContext(ctx, "INSERT OR REPLACE INTO cards (kind, name, answers) VALUES (?, ?, ?)",
			string(card.Kind), card.Name, string(text))
		return err
	})
}
