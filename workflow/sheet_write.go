package workflow

import (
	"bytes"
	"encoding/json"
)

// MarshalJSON writes the answers in the order in which About names their
// fields, left before right, so that a blank sheet is filled from the top down.
// Answers that About does not name follow in the order of their names.
func (r SheetStep) MarshalJSON() ([]byte, error) {
	answers, err := r.inOrder()
	if err != nil {
		return nil, err
	}
	return text(struct {
		Step    StepID          `json:"step"`
		Card    string          `json:"card,omitempty"`
		Answers json.RawMessage `json:"answers,omitempty"`
		Waive   string          `json:"waive,omitempty"`
		Reason  string          `json:"reason,omitempty"`
		About   []About         `json:"about,omitempty"`
	}{r.Step, r.Card, answers, r.Waive, r.Reason, r.About})
}

func (r SheetStep) inOrder() (json.RawMessage, error) {
	if len(r.Answers) == 0 {
		return nil, nil
	}
	var b bytes.Buffer
	sep := byte('{')
	for _, key := range r.keys() {
		pair, err := text(map[string]string{key: r.Answers[key]})
		if err != nil {
			return nil, err
		}
		b.WriteByte(sep)
		b.Write(pair[1 : len(pair)-1]) // without the braces of its own
		sep = ','
	}
	b.WriteByte('}')
	return b.Bytes(), nil
}

// keys are the keys of the answers in the order of the form.
func (r SheetStep) keys() []string {
	var keys []string
	left := Answers(r.Answers).Clone()
	for _, a := range r.About {
		for _, side := range []Side{Both, Left, Right} {
			key := Key(a.Field, side)
			if _, ok := left[key]; ok {
				keys = append(keys, key)
				delete(left, key)
			}
		}
	}
	return append(keys, left.Keys()...)
}

// text is JSON for people: without escapes for web pages.
func text(v any) ([]byte, error) {
	var b bytes.Buffer
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	err := enc.Encode(v)
	return bytes.TrimSpace(b.Bytes()), err
}
