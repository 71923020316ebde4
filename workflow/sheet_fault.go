package workflow

import (
	"bytes"
	"encoding/json"
	"errors"
	"strings"

	"drillstop/calc"
)

// sheetFault says in which line the sheet cannot be read. The decoder knows the
// place of a slip in the JSON itself; of a word or a value that does not belong
// there it often does not, and badPlace looks for it.
func sheetFault(data []byte, offset int64, err error) error {
	var syntax *json.SyntaxError
	var kind *json.UnmarshalTypeError
	switch {
	case errors.As(err, &syntax):
		offset = syntax.Offset
	case errors.As(err, &kind):
		offset = badPlace(data, kind.Offset)
	default:
		offset = badPlace(data, offset)
	}
	fault := calc.Faultf("sheet.json", "Line %d: this is not an answer sheet: %s.", line(data, offset),
		strings.TrimSuffix(strings.TrimPrefix(err.Error(), "json: "), "."))
	fault.Cause = err
	return fault
}

func line(data []byte, offset int64) int {
	offset = min(max(offset, 0), int64(len(data)))
	return 1 + bytes.Count(data[:offset], []byte("\n"))
}

// badPlace is where the first word stands that a sheet does not have, or the
// first step begins that cannot be read; otherwise if there is neither.
func badPlace(data []byte, otherwise int64) int64 {
	dec := json.NewDecoder(bytes.NewReader(data))
	dec.DisallowUnknownFields()
	if _, err := dec.Token(); err != nil {
		return otherwise
	}
	for dec.More() {
		word, err := dec.Token()
		if err != nil {
			return otherwise
		}
		name, _ := word.(string)
		switch strings.ToLower(name) {
		case "sheet", "kind", "due":
			var value json.RawMessage
			if dec.Decode(&value) != nil {
				return otherwise
			}
		case "steps":
			if at, found := badStep(data, dec); found {
				return at
			}
		default:
			return dec.InputOffset()
		}
	}
	return otherwise
}

// badStep reads the list of steps and returns where the first of them begins
// that cannot be read.
func badStep(data []byte, dec *json.Decoder) (at int64, found bool) {
	if open, err := dec.Token(); err != nil || open != json.Delim('[') {
		return dec.InputOffset(), true
	}
	for dec.More() {
		at := dec.InputOffset()
		var step SheetStep
		if dec.Decode(&step) != nil {
			between := len(data[at:]) - len(bytes.TrimLeft(data[at:], ", \t\r\n"))
			return at + int64(between), true
		}
	}
	_, err := dec.Token()
	return dec.InputOffset(), err != nil
}
