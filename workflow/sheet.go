package workflow

import (
	"bytes"
	"encoding/json"
	"errors"
	"io"
	"strconv"
	"strings"

	"drillstop/calc"
	"drillstop/calc/quantity"
)

// SheetVersion is the version of the answer sheet that this program reads.
const SheetVersion = 1

// MaxSheet is the largest answer sheet that is read, in bytes.
const MaxSheet = 1 << 20

// Sheet is a job as a file: answers step by step, in the order in which they
// are given. A step may stand more than once: the later answer corrects.
type Sheet struct {
	Version int         `json:"sheet"`
	Kind    Kind        `json:"kind"`
	Due     string      `json:"due,omitempty"`
	Steps   []SheetStep `json:"steps"`
}

// SheetStep is one act: answering a step, or waiving one of its stops.
type SheetStep struct {
	Step    StepID       `json:"step"`
	Card    string       `json:"card,omitempty"` // fills the step from the shop's library first
	Answers SheetAnswers `json:"answers,omitempty"`
	Waive   string       `json:"waive,omitempty"`  // code of the stop to waive
	Reason  string       `json:"reason,omitempty"` // of the waiver
	About   []About      `json:"about,omitempty"`  // for the reader; not read by run
}

// About describes a field on a blank sheet.
type About struct {
	Field    FieldID       `json:"field"`
	Label    string        `json:"label"`
	Kind     FieldKind     `json:"kind"`
	Unit     quantity.Unit `json:"unit,omitempty"`
	Range    []float64     `json:"range,omitempty"`
	Count    int           `json:"count,omitempty"`
	Options  []string      `json:"options,omitempty"`
	PerSki   bool          `json:"per_ski,omitempty"`
	Optional bool          `json:"optional,omitempty"`
	// Sometimes is set where earlier answers decide whether the field is asked or
	// may stay empty.
	Sometimes bool   `json:"sometimes,omitempty"`
	Hint      string `json:"hint,omitempty"`
}

// SheetAnswers are answers as a person writes them in JSON: text, numbers,
// true, lists of numbers, and {"left": …, "right": …} for what is asked per ski.
type SheetAnswers Answers

// Blank returns an empty sheet for a kind of job: every step, every field.
func (c *Checklist) Blank(kind Kind) Sheet {
	sheet := Sheet{Version: SheetVersion, Kind: kind}
	for _, s := range c.steps {
		if !in(s.Kinds, kind) {
			continue
		}
		row := SheetStep{Step: s.ID, Answers: SheetAnswers{}}
		for _, f := range s.Fields {
			if !in(f.Kinds, kind) {
				continue
			}
			for _, key := range f.Keys() {
				row.Answers[key] = ""
			}
			row.About = append(row.About, about(f))
		}
		sheet.Steps = append(sheet.Steps, row)
	}
	return sheet
}

func about(f Field) About {
	a := About{
		Field: f.ID, Label: f.Label, Kind: f.Kind, Unit: f.Unit, Count: f.Count, PerSki: f.PerSki,
		Optional: f.Optional, Sometimes: f.When != nil || f.Unless != nil, Hint: f.Hint,
	}
	if f.Min != 0 || f.Max != 0 {
		a.Range = []float64{f.Min, f.Max}
	}
	for _, o := range f.Options {
		a.Options = append(a.Options, o.Value)
	}
	return a
}

// ReadSheet reads an answer sheet. Its faults name the line.
func ReadSheet(r io.Reader) (Sheet, error) {
	data, err := io.ReadAll(io.LimitReader(r, MaxSheet+1))
	if err != nil {
		return Sheet{}, err
	}
	if len(data) > MaxSheet {
		return Sheet{}, calc.Faultf("sheet.large", "The answer sheet is larger than %d bytes.", MaxSheet)
	}
	dec := json.NewDecoder(bytes.NewReader(data))
	dec.DisallowUnknownFields()
	var sheet Sheet
	if err := dec.Decode(&sheet); err != nil {
		return Sheet{}, sheetFault(data, dec.InputOffset(), err)
	}
	if _, err := dec.Token(); !errors.Is(err, io.EOF) {
		return Sheet{}, calc.Faultf("sheet.trailing", "Line %d: something follows the end of the answer sheet.", line(data, dec.InputOffset()))
	}
	if sheet.Version != SheetVersion {
		return Sheet{}, calc.Faultf("sheet.version", "\"sheet\" says version %d; this program reads version %d.", sheet.Version, SheetVersion)
	}
	kind, err := ParseKind(string(sheet.Kind))
	if err != nil {
		return Sheet{}, err
	}
	sheet.Kind = kind
	if sheet.Due, err = ParseDue(sheet.Due); err != nil {
		return Sheet{}, err
	}
	return sheet, nil
}

// UnmarshalJSON reads answers as a person writes them. A name that stands twice
// is refused: nobody can say which of the two was meant.
func (a *SheetAnswers) UnmarshalJSON(data []byte) error {
	out := SheetAnswers{}
	err := eachMember(data, func(key string, value json.RawMessage) error {
		if !bytes.HasPrefix(value, []byte("{")) {
			return out.put(key, value)
		}
		return eachMember(value, func(side string, v json.RawMessage) error {
			if Side(side) != Left && Side(side) != Right {
				return calc.Faultf("sheet.side", "%s: %q is not a ski; write left and right.", key, side)
			}
			return out.put(Key(FieldID(key), Side(side)), v)
		})
	})
	*a = out
	return err
}

// eachMember walks through a JSON object in the order in which it is written;
// null is an empty one.
func eachMember(data []byte, do func(string, json.RawMessage) error) error {
	dec := json.NewDecoder(bytes.NewReader(data))
	open, err := dec.Token()
	if err != nil || open == nil {
		return err
	}
	if open != json.Delim('{') {
		return errors.New("answers stand in braces, each behind its name")
	}
	for dec.More() {
		word, err := dec.Token()
		if err != nil {
			return err
		}
		name, _ := word.(string)
		var value json.RawMessage
		if err := dec.Decode(&value); err != nil {
			return err
		}
		if err := do(name, value); err != nil {
			return err
		}
	}
	return nil
}

func (a SheetAnswers) put(key string, raw json.RawMessage) error {
	text, err := scalar(raw)
	if err != nil {
		return calc.Faultf("sheet.value", "%s: %s is neither text, a number, true nor a list of numbers.", key, raw)
	}
	if _, twice := a[key]; twice {
		return calc.Faultf("sheet.twice", "%s is answered twice in one place.", key)
	}
	a[key] = text
	return nil
}

func scalar(raw json.RawMessage) (string, error) {
	var text string
	if json.Unmarshal(raw, &text) == nil {
		return text, nil
	}
	var yes bool
	if json.Unmarshal(raw, &yes) == nil {
		return map[bool]string{true: Yes, false: No}[yes], nil
	}
	var number json.Number
	if json.Unmarshal(raw, &number) == nil {
		return number.String(), nil
	}
	var list []*float64 // a null between numbers would be read as 0 without the pointer
	if err := json.Unmarshal(raw, &list); err != nil {
		return "", err
	}
	texts := make([]string, len(list))
	for i, v := range list {
		if v == nil {
			return "", errors.New("a list with a gap")
		}
		texts[i] = strconv.FormatFloat(*v, 'f', -1, 64)
	}
	return strings.Join(texts, "; "), nil
}
