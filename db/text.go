package db

import (
	"bytes"
	"encoding/json"
	"time"
	"unicode/utf8"

	"drillstop/workflow"
)

// encode writes a value as JSON that a person can read: package json sorts the
// keys of maps, so that the same value is always the same bytes.
func encode(v any) ([]byte, error) {
	var out bytes.Buffer
	encoder := json.NewEncoder(&out)
	encoder.SetEscapeHTML(false)
	if err := encoder.Encode(v); err != nil {
		return nil, err
	}
	return bytes.TrimSuffix(out.Bytes(), []byte("\n")), nil
}

// encodeEntry writes the canonical text of an entry, which its hashes are made
// of. Its time is kept in milliseconds, UTC.
func encodeEntry(e workflow.Entry) ([]byte, error) {
	for what, text := range map[string]string{
		"The name of who answered": e.By, "The token": e.Token, "The due day": e.Due, "The reason": e.Reason,
	} {
		if !utf8.ValidString(text) {
			return nil, faultText(what)
		}
	}
	if err := validAnswers(e.Answers); err != nil {
		return nil, err
	}
	return encode(e)
}

// validAnswers refuses what JSON cannot hold: it would put another character
// in its place without a word.
func validAnswers(answers workflow.Answers) error {
	for _, key := range answers.Keys() {
		if !utf8.ValidString(key) || !utf8.ValidString(answers[key]) {
			return faultText("The answer to " + key)
		}
	}
	return nil
}

func atMilliseconds(t time.Time) time.Time { return t.UTC().Truncate(time.Millisecond) }
