// Package pattern reads what a shop knows about holes: the hole patterns of its
// bindings, and the old holes of a ski. The files are TOML, old holes also CSV;
// lengths are in millimetres. Whatever is wrong in a file is said with the
// file, the line and the key, and nothing of the file is used.
package pattern

import (
	"errors"
	"fmt"
	"strings"
	"unicode/utf8"

	"github.com/pelletier/go-toml/v2"
	"github.com/pelletier/go-toml/v2/unstable"

	"drillstop/calc"
	"drillstop/calc/quantity"
)

// mm keeps the many lengths of this room readable.
type mm = quantity.Millimetre

// largestFile bounds what is read, in bytes; our own limit.
const largestFile = 1 << 18

// document is a TOML file with the line of every key. It keeps the first thing
// that is wrong, so that a reader can ask for one value after the other.
type document struct {
	file  string
	code  string // of its faults
	lines map[string]int
	err   error
}

// openTOML reads a TOML file into its outermost table.
func openTOML(file, code string, text []byte) (*document, *table, error) {
	d := &document{file: file, code: code, lines: map[string]int{}}
	switch {
	case len(text) > largestFile:
		return nil, nil, d.fault(0, "", "The file has %d bytes: at most %d are read.", len(text), largestFile)
	case !utf8.Valid(text):
		return nil, nil, d.fault(0, "", "The file is not text in UTF-8.")
	}
	values := map[string]any{}
	if err := toml.Unmarshal(text, &values); err != nil {
		return nil, nil, d.syntax(err)
	}
	if err := d.index(text); err != nil {
		return nil, nil, d.syntax(err)
	}
	return d, &table{d: d, values: values}, nil
}

// fault says what is wrong at a key; its line is that of the key or of the
// table around it.
func (d *document) fault(line int, key, format string, args ...any) error {
	fault := calc.Faultf(d.code, "%s: %s", d.at(line, key), fmt.Sprintf(format, args...))
	fault.Field = key
	return fault
}

// at names a place in the file.
func (d *document) at(line int, key string) string {
	where := d.file
	if line > 0 {
		where += fmt.Sprintf(", line %d", line)
	}
	if key != "" {
		where += ", " + key
	}
	return where
}

// place names the place of a key.
func (d *document) place(key string) string { return d.at(d.line(key), key) }

// syntax says where a file stops being TOML.
func (d *document) syntax(err error) error {
	line, key := 0, ""
	said := strings.TrimPrefix(err.Error(), "toml: ")
	var decode *toml.DecodeError
	if errors.As(err, &decode) {
		line, _ = decode.Position()
		key = strings.Join(decode.Key(), ".")
	}
	wrapped := d.fault(line, key, "This is not TOML: %s.", strings.TrimSuffix(said, "."))
	var fault *calc.Fault
	if errors.As(wrapped, &fault) {
		fault.Cause = err
	}
	return wrapped
}

// wrong keeps the first thing that is wrong.
func (d *document) wrong(key, format string, args ...any) {
	if d.err == nil {
		d.err = d.fault(d.line(key), key, format, args...)
	}
}

// line is the line of a key, or of the nearest table around it, or of the first
// of a list; for what is missing at the top it is the first line.
func (d *document) line(key string) int {
	if key == "" {
		return 0
	}
	for at := key; at != ""; at = at[:max(0, strings.LastIndexByte(at, '.'))] {
		if line, ok := d.lines[at]; ok {
			return line
		}
		if line, ok := d.lines[at+"[1]"]; ok {
			return line
		}
	}
	return 1
}

// index notes the line of every key. The decoder does not tell it, and a shop
// that types a pattern of thirty numbers needs to know which one is meant.
func (d *document) index(text []byte) error {
	p := &unstable.Parser{}
	p.Reset(text)
	seen := map[string]int{} // how many tables an array has so far
	inside := ""
	for p.NextExpression() {
		switch e := p.Expression(); e.Kind {
		case unstable.Table, unstable.ArrayTable:
			inside = d.header(p, e, seen)
		case unstable.KeyValue:
			d.pair(p, e, inside)
		default:
		}
	}
	return p.Error()
}

// header notes a table and returns the way to it.
func (d *document) header(p *unstable.Parser, e *unstable.Node, seen map[string]int) string {
	path, line := "", 0
	for keys := e.Key(); keys.Next(); {
		node := keys.Node()
		path, line = join(path, string(node.Data)), lineOf(p, node)
		last := !hasNext(node)
		if last && e.Kind == unstable.ArrayTable {
			seen[path]++
		}
		if n := seen[path]; n > 0 {
			path += fmt.Sprintf("[%d]", n)
		}
	}
	d.lines[path] = line
	return path
}

// hasNext says whether a part of a dotted key is followed by another.
func hasNext(node *unstable.Node) bool {
	next := node.Next()
	return next != nil && next.Valid()
}

// pair notes a key and, if its value is a table or a list, what is in it.
func (d *document) pair(p *unstable.Parser, e *unstable.Node, inside string) {
	path, line := inside, 0
	for keys := e.Key(); keys.Next(); {
		path, line = join(path, string(keys.Node().Data)), lineOf(p, keys.Node())
	}
	d.lines[path] = line
	d.value(p, e.Value(), path)
}

func (d *document) value(p *unstable.Parser, v *unstable.Node, path string) {
	switch v.Kind {
	case unstable.InlineTable:
		for pairs := v.Children(); pairs.Next(); {
			d.pair(p, pairs.Node(), path)
		}
	case unstable.Array:
		n := 0
		for items := v.Children(); items.Next(); {
			n++
			d.item(p, items.Node(), fmt.Sprintf("%s[%d]", path, n))
		}
	default:
	}
}

// item notes what is in one item of a list. A table without a header stands
// where its first key does.
func (d *document) item(p *unstable.Parser, v *unstable.Node, path string) {
	if v.Kind == unstable.InlineTable {
		if pairs := v.Children(); pairs.Next() {
			for keys := pairs.Node().Key(); keys.Next(); {
				d.lines[path] = lineOf(p, keys.Node())
			}
		}
	}
	d.value(p, v, path)
}

func lineOf(p *unstable.Parser, key *unstable.Node) int {
	return p.Shape(key.Raw).Start.Line
}

func join(path, key string) string {
	if path == "" {
		return key
	}
	return path + "." + key
}
