package workflow

import (
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"drillstop/calc"
	"drillstop/calc/quantity"
)

// MaxText is the longest free text a field takes, in characters.
const MaxText = 400

// leastWord is how much of a word within an option stands for it.
const leastWord = 3

// FieldKind says how a field is typed and read.
type FieldKind string

// The kinds of field.
const (
	Text   FieldKind = "text"   // free words
	Number FieldKind = "number" // one number with a unit and a range
	List   FieldKind = "list"   // several numbers with a unit and a range each
	Choice FieldKind = "choice" // one of Choices
	Seen   FieldKind = "seen"   // something looked at or done: "yes", or not answered
	Date   FieldKind = "date"   // a day, kept as 2026-11-25
)

// Yes is the canonical answer of a Seen field; No is its counterpart in yes-no
// choices.
const (
	Yes = "yes"
	No  = "no"
)

// Option is one value of a Choice field.
type Option struct {
	Value string // canonical, kept in the record
	Label string // for the eye; Value where empty
}

// Field is one question of a step.
type Field struct {
	ID       FieldID
	Label    string // "Boot sole length", without the unit
	Hint     string // where to read it or what to type, one short line
	Kind     FieldKind
	Unit     quantity.Unit
	Min, Max float64  // inclusive range in Unit; both 0: no range
	Count    int      // of a List: exactly so many, 0: one or more
	Options  []Option // of a Choice
	PerSki   bool     // asked for the left and the right ski
	Optional bool
	ReadBack bool   // read from each ski by itself: the right one is never copied from the left
	OfPair   bool   // belongs to this one pair: a card of the library does not keep it
	Lasts    bool   // holds from season to season: a job made from the last one begins with it
	Kinds    []Kind // the kinds of job that ask it; empty: all of them
	// When decides beyond the kind whether the field is asked in this job; nil:
	// it is. It may look at earlier steps only.
	When func(Job) bool
	// Unless makes the field optional by what the fields before it in its step
	// say; nil: they say nothing about it.
	Unless func(Answers) bool
	// Suggest returns what the program expects, shown beside the field and
	// never entered by itself; nil: nothing.
	Suggest func(Shop, Job, Side) string
	// Read replaces the reading by Kind where a quantity has a reader of its
	// own; it returns the canonical text.
	Read func(Shop, string) (string, error)
}

// YesNo are the options of a plain question.
var YesNo = []Option{{Value: Yes}, {Value: No}}

// Keys returns the field's keys in Answers: one, or left and right.
func (f Field) Keys() []string {
	if !f.PerSki {
		return []string{string(f.ID)}
	}
	return []string{Key(f.ID, Left), Key(f.ID, Right)}
}

// Asked reports whether the field is asked in this job.
func (f Field) Asked(job Job) bool {
	return in(f.Kinds, job.Kind) && (f.When == nil || f.When(job))
}

// Accept reads what was typed and returns its canonical text. An empty text is
// "" for an optional field and the fault "field.empty" for any other.
func (f Field) Accept(shop Shop, typed string) (string, error) {
	typed = tidy(typed)
	if typed == "" {
		if f.Optional {
			return "", nil
		}
		return "", f.fault("field.empty", "%s", f.missing())
	}
	if f.Read != nil {
		return f.Read(shop, typed)
	}
	switch f.Kind {
	case Number:
		return f.acceptNumber(typed)
	case List:
		return f.acceptList(typed)
	case Choice:
		return f.acceptChoice(typed)
	case Seen:
		return f.acceptSeen(typed)
	case Date:
		return f.acceptDate(typed)
	case Text:
		return f.acceptText(typed)
	}
	return "", f.fault("field.kind", "%s: the field has no kind.", f.Label)
}

func (f Field) fault(code, format string, args ...any) *calc.Fault {
	fault := calc.Faultf(code, format, args...)
	fault.Field = string(f.ID)
	return fault
}

func (f Field) missing() string {
	switch f.Kind {
	case Seen:
		return f.Label + ": look, then confirm with yes."
	case Choice:
		return f.Label + ": choose " + f.choices() + "."
	case Number, List, Text, Date:
	}
	return f.Label + ": not answered yet."
}

func (f Field) acceptNumber(typed string) (string, error) {
	v, err := quantity.Parse(typed, f.Unit)
	if err != nil {
		return "", err
	}
	if err := f.inRange(v); err != nil {
		return "", err
	}
	return quantity.Print(v, f.Unit), nil
}

func (f Field) acceptList(typed string) (string, error) {
	vs, err := quantity.ParseList(typed, f.Unit, f.Count)
	if err != nil {
		return "", err
	}
	for _, v := range vs {
		if err := f.inRange(v); err != nil {
			return "", err
		}
	}
	return quantity.PrintList(vs, f.Unit), nil
}

func (f Field) inRange(v float64) error {
	if f.Min == 0 && f.Max == 0 || v >= f.Min && v <= f.Max {
		return nil
	}
	return f.fault("field.range", "%s %s is outside %s to %s.", f.Label,
		quantity.Print(v, f.Unit), quantity.Print(f.Min, quantity.Plain), quantity.Print(f.Max, f.Unit))
}

func (f Field) acceptChoice(typed string) (string, error) {
	if at := FindOption(f.Options, typed); at >= 0 {
		return f.Options[at].Value, nil
	}
	return "", f.fault("field.choice", "%s: %q is none of %s.", f.Label, typed, f.choices())
}

// FindOption returns the index of the option that a text stands for, -1 if it
// stands for none: a value or a label in any case, or else the beginning of just
// one of them, or else, from leastWord characters on, of a word of just one of
// them, so that a hurried hand may type "n" for none and "9523" for ISO 9523.
func FindOption(options []Option, text string) int {
	text = strings.TrimSpace(text)
	if text == "" {
		return -1
	}
	for i, o := range options {
		if strings.EqualFold(text, o.Value) || strings.EqualFold(text, o.Label) {
			return i
		}
	}
	for _, begins := range []func(string, string) bool{hasPrefixFold, hasWordFold} {
		at, count := -1, 0
		for i, o := range options {
			if begins(o.Value, text) || begins(o.Label, text) {
				at, count = i, count+1
			}
		}
		switch {
		case count == 1:
			return at
		case count > 1 || utf8.RuneCountInString(text) < leastWord:
			return -1
		}
	}
	return -1
}

func (f Field) choices() string {
	values := make([]string, len(f.Options))
	for i, o := range f.Options {
		values[i] = o.Value
	}
	return strings.Join(values, ", ")
}

func (f Field) acceptSeen(typed string) (string, error) {
	switch strings.ToLower(typed) {
	case Yes, "y", "x", "true", "ok":
		return Yes, nil
	}
	return "", f.fault("field.seen", "%s: %q does not confirm it; yes does.", f.Label, typed)
}

func (f Field) acceptDate(typed string) (string, error) {
	for _, layout := range []string{time.DateOnly, "2.1.2006", "2/1/2006"} {
		if day, err := time.Parse(layout, typed); err == nil {
			return day.Format(time.DateOnly), nil
		}
	}
	return "", f.fault("field.date", "%s: %q is not a day; write 2026-11-25 or 25.11.2026.", f.Label, typed)
}

func (f Field) acceptText(typed string) (string, error) {
	if n := len([]rune(typed)); n > MaxText {
		return "", f.fault("field.long", "%s has %d characters; at most %d fit.", f.Label, n, MaxText)
	}
	return typed, nil
}

// tidy removes what scanners and pasted text bring along: control characters
// and space at the ends.
func tidy(typed string) string {
	return strings.TrimSpace(strings.Map(func(r rune) rune {
		if unicode.IsControl(r) {
			return ' '
		}
		return r
	}, typed))
}

// hasPrefixFold reports whether s begins with prefix, in any case.
func hasPrefixFold(s, prefix string) bool {
	runes := []rune(s)
	n := utf8.RuneCountInString(prefix)
	return len(runes) >= n && strings.EqualFold(string(runes[:n]), prefix)
}

// hasWordFold reports whether s holds prefix at the beginning of a word.
func hasWordFold(s, prefix string) bool {
	for at, r := range s {
		if r == ' ' && hasPrefixFold(s[at+1:], prefix) {
			return true
		}
	}
	return false
}
