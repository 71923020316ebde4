package pattern

import (
	"fmt"
	"math"
	"slices"
	"strings"
)

// table is one table of a document.
type table struct {
	d      *document
	path   string
	values map[string]any
}

// only asks that the table has no other keys: another one is a spelling mistake,
// which is said before the right one is missed.
func (t *table) only(known ...string) {
	var odd []string
	for key := range t.values {
		if !slices.Contains(known, key) {
			odd = append(odd, key)
		}
	}
	if len(odd) == 0 {
		return
	}
	// The one that stands first in the file.
	first := slices.MinFunc(odd, func(a, b string) int {
		if by := t.d.line(join(t.path, a)) - t.d.line(join(t.path, b)); by != 0 {
			return by
		}
		return strings.Compare(a, b)
	})
	t.d.wrong(join(t.path, first), "This key is not known here; known are %s.", strings.Join(known, ", "))
}

// take returns the value of a key, nil if it is not there.
func (t *table) take(key string) (value any, path string) {
	return t.values[key], join(t.path, key)
}

// must is take for a key that has to be there.
func (t *table) must(key, what string) (value any, path string) {
	value, path = t.take(key)
	if value == nil {
		if t.path == "" {
			t.d.wrong(path, "This key is missing: it needs %s.", what)
		} else {
			t.d.wrong(path, "This key is missing in the table that begins here: it needs %s.", what)
		}
	}
	return value, path
}

const aLength = "a number in mm"

// length reads a number in mm.
func (t *table) length(key string) mm {
	value, path := t.must(key, aLength)
	return t.number(value, path)
}

// maybeLength reads a number in mm that need not be there.
func (t *table) maybeLength(key string) mm {
	value, path := t.take(key)
	return t.number(value, path)
}

func (t *table) number(value any, path string) mm {
	switch v := value.(type) {
	case nil:
		return 0
	case float64:
		if math.IsNaN(v) || math.IsInf(v, 0) {
			t.d.wrong(path, "%v is not a length: %s belongs here.", v, aLength)
		}
		return mm(v)
	case int64:
		return mm(v)
	}
	t.d.wrong(path, "%s is %s: %s belongs here, without quotes and without a unit.", show(value), kindOf(value), aLength)
	return 0
}

// count reads a whole number.
func (t *table) count(key string) int {
	value, path := t.must(key, "a whole number")
	v, ok := value.(int64)
	if value != nil && (!ok || v < -1e6 || v > 1e6) {
		t.d.wrong(path, "%s is %s: a small whole number belongs here.", show(value), kindOf(value))
		return 0
	}
	return int(v)
}

// text reads a text.
func (t *table) text(key, what string) string {
	value, path := t.must(key, what)
	return t.word(value, path)
}

// maybeText reads a text that need not be there.
func (t *table) maybeText(key string) string {
	value, path := t.take(key)
	return t.word(value, path)
}

func (t *table) word(value any, path string) string {
	v, ok := value.(string)
	if value != nil && !ok {
		t.d.wrong(path, "%s is %s: a text in quotes belongs here.", show(value), kindOf(value))
	}
	return v
}

// choice reads one of some words.
func (t *table) choice(key string, words ...string) string {
	either := strings.Join(words[:len(words)-1], ", ") + " or " + words[len(words)-1]
	v, path := t.must(key, either)
	word := t.word(v, path)
	if v != nil && !slices.Contains(words, word) {
		t.d.wrong(path, "%q is not known here: %s.", word, either)
	}
	return word
}

// flag reads true or false; what is not there is false.
func (t *table) flag(key string) bool {
	value, path := t.take(key)
	v, ok := value.(bool)
	if value != nil && !ok {
		t.d.wrong(path, "%s is %s: true or false belongs here.", show(value), kindOf(value))
	}
	return v
}

// tables reads a list of tables; what is not there is none.
func (t *table) tables(key string) []*table {
	value, path := t.take(key)
	var list []*table
	items, ok := value.([]any)
	if value != nil && !ok {
		t.d.wrong(path, "This is %s: a list of tables belongs here, each begun with [[%s]].", kindOf(value), bare(path))
	}
	for i, item := range items {
		at := fmt.Sprintf("%s[%d]", path, i+1)
		values, ok := item.(map[string]any)
		if !ok {
			t.d.wrong(at, "%s is %s: a table belongs here.", show(item), kindOf(item))
			continue
		}
		list = append(list, &table{d: t.d, path: at, values: values})
	}
	return list
}

// bare is a way without its numbers, as a table header has it.
func bare(path string) string {
	var b strings.Builder
	for part := range strings.SplitSeq(path, "[") {
		if _, rest, ok := strings.Cut(part, "]"); ok {
			part = rest
		}
		b.WriteString(part)
	}
	return b.String()
}

// longestShown is how much of a value a sentence shows.
const longestShown = 40

func show(value any) string {
	text := fmt.Sprintf("%v", value)
	if s, ok := value.(string); ok {
		text = fmt.Sprintf("%q", s)
	}
	if len(text) > longestShown {
		return strings.ToValidUTF8(text[:longestShown], "") + "..."
	}
	return text
}

func kindOf(value any) string {
	switch value.(type) {
	case string:
		return "a text"
	case bool:
		return "true or false"
	case int64, float64:
		return "a number"
	case map[string]any:
		return "a table"
	case []any:
		return "a list"
	}
	return "a date or time"
}
