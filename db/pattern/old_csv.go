package pattern

import (
	"bytes"
	"encoding/csv"
	"errors"
	"io"
	"slices"
	"strings"
	"unicode/utf8"

	"drillstop/calc"
	"drillstop/calc/layout"
	"drillstop/calc/quantity"
)

// oldColumns are the columns of a CSV file of old holes; all but the last must
// be there.
var oldColumns = []string{"ski", "x", "y", "diameter", "state", "depth"}

// oldRows reads the rows of a CSV file, each by the names of its columns.
type oldRows struct {
	d       *document
	csv     *csv.Reader
	columns []string
	line    int
}

func readOldCSV(file string, text []byte) (Old, error) {
	rows, err := openCSV(file, text)
	if err != nil {
		return Old{}, err
	}
	var old Old
	for n := 1; ; n++ {
		row, err := rows.next()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			return Old{}, err
		}
		side, hole, err := rows.hole(row, n)
		if err != nil {
			return Old{}, err
		}
		old.add(side, hole)
	}
	rows.d.checkCount(old)
	if rows.d.err != nil {
		return Old{}, rows.d.err
	}
	return old, nil
}

// openCSV reads the first line, which names the columns.
func openCSV(file string, text []byte) (*oldRows, error) {
	d := &document{file: file, code: codeOld}
	text = bytes.TrimPrefix(text, []byte("\ufeff")) // as some tables are saved
	switch {
	case len(text) > largestFile:
		return nil, d.fault(0, "", "The file has %d bytes: at most %d are read.", len(text), largestFile)
	case !utf8.Valid(text):
		return nil, d.fault(0, "", "The file is not text in UTF-8.")
	}
	r := csv.NewReader(bytes.NewReader(text))
	r.Comment, r.TrimLeadingSpace, r.FieldsPerRecord = '#', true, -1
	if semicolons(text) {
		r.Comma = ';'
	}
	rows := &oldRows{d: d, csv: r}
	head, err := rows.read()
	if errors.Is(err, io.EOF) {
		return nil, d.fault(0, "", "The file is empty: its first line names the columns %s.", strings.Join(oldColumns, ", "))
	}
	if err != nil {
		return nil, err
	}
	return rows, rows.head(head)
}

// semicolons says whether the columns are named with semicolons between them.
func semicolons(text []byte) bool {
	for line := range bytes.Lines(text) {
		if line = bytes.TrimSpace(line); len(line) > 0 && line[0] != '#' {
			return bytes.ContainsRune(line, ';')
		}
	}
	return false
}

func (r *oldRows) head(names []string) error {
	for _, name := range names {
		name = strings.ToLower(strings.TrimSpace(name))
		switch {
		case !slices.Contains(oldColumns, name):
			return r.d.fault(r.line, "", "%s is not a column of old holes: they are %s.", show(name), strings.Join(oldColumns, ", "))
		case slices.Contains(r.columns, name):
			return r.d.fault(r.line, name, "The column is named twice.")
		}
		r.columns = append(r.columns, name)
	}
	for _, name := range oldColumns[:len(oldColumns)-1] {
		if !slices.Contains(r.columns, name) {
			return r.d.fault(r.line, name, "This column is missing: the columns are %s.", strings.Join(oldColumns, ", "))
		}
	}
	return nil
}

func (r *oldRows) read() ([]string, error) {
	row, err := r.csv.Read()
	var parse *csv.ParseError
	switch {
	case errors.As(err, &parse):
		return nil, r.d.fault(parse.Line, "", "This is not CSV: a quote is missing or stands where none belongs.")
	case err != nil:
		return nil, err
	}
	r.line, _ = r.csv.FieldPos(0)
	return row, nil
}

// next returns a row by the names of its columns, io.EOF after the last.
func (r *oldRows) next() (map[string]string, error) {
	fields, err := r.read()
	if err != nil {
		return nil, err
	}
	if len(fields) != len(r.columns) {
		return nil, r.d.fault(r.line, "", "The line has %d columns: %d are named. A comma inside of a number needs semicolons between the columns.", len(fields), len(r.columns))
	}
	row := map[string]string{}
	for i, name := range r.columns {
		row[name] = strings.TrimSpace(fields[i])
	}
	return row, nil
}

func (r *oldRows) hole(row map[string]string, n int) (layout.Side, layout.OldHole, error) {
	var hole layout.OldHole
	for _, v := range []struct {
		name string
		to   *mm
	}{{"x", &hole.X}, {"y", &hole.Y}, {"diameter", &hole.Diameter}, {"depth", &hole.Depth}} {
		if v.name == "depth" && row[v.name] == "" {
			continue
		}
		read, err := quantity.Parse(row[v.name], quantity.MM)
		if err != nil {
			return "", hole, r.d.fault(r.line, v.name, "%s", err)
		}
		*v.to = mm(read)
	}
	side, err := r.word(row, "ski", string(layout.Left), string(layout.Right), "both")
	if err != nil {
		return "", hole, err
	}
	state, err := r.word(row, "state", plugged, open)
	if err != nil {
		return "", hole, err
	}
	hole.Plugged = state == plugged
	var fault *calc.Fault
	if errors.As(hole.Check(n, layout.Both), &fault) {
		return "", hole, r.d.fault(r.line, fault.Field, "%s", fault.Sentence)
	}
	if side == "both" {
		return layout.Both, hole, nil
	}
	return layout.Side(side), hole, nil
}

func (r *oldRows) word(row map[string]string, name string, words ...string) (string, error) {
	word := strings.ToLower(row[name])
	if !slices.Contains(words, word) {
		return "", r.d.fault(r.line, name, "%s is not known here: %s or %s.", show(row[name]), strings.Join(words[:len(words)-1], ", "), words[len(words)-1])
	}
	return word, nil
}
