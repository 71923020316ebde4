package pattern

import (
	"bytes"
	"encoding/csv"
	"errors"
	"io"
	"slices"
	"strings"
	"unicode/utf8"

	"drillstop/calc/quantity"
)

// columns are what the first line of a CSV file names, in any order.
type columns struct {
	of        string // what a line of the file is about, for its faults
	must, may []string
}

func (c columns) all() []string { return append(slices.Clone(c.must), c.may...) }

// csvRows reads the rows of a CSV file, each by the names of its columns.
type csvRows struct {
	d     *document
	csv   *csv.Reader
	known columns
	names []string // as the first line has them
	line  int
}

// openCSV reads the first line, which names the columns.
func openCSV(file, code string, text []byte, known columns) (*csvRows, error) {
	d := &document{file: file, code: code}
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
	rows := &csvRows{d: d, csv: r, known: known}
	head, err := rows.read()
	if errors.Is(err, io.EOF) {
		return nil, d.fault(0, "", "The file is empty: its first line names the columns %s.", strings.Join(known.all(), ", "))
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

func (r *csvRows) head(names []string) error {
	for _, name := range names {
		name = strings.ToLower(strings.TrimSpace(name))
		switch {
		case !slices.Contains(r.known.all(), name):
			return r.d.fault(r.line, "", "%s is not a column of %s: they are %s.", show(name), r.known.of, strings.Join(r.known.all(), ", "))
		case slices.Contains(r.names, name):
			return r.d.fault(r.line, name, "The column is named twice.")
		}
		r.names = append(r.names, name)
	}
	for _, name := range r.known.must {
		if !slices.Contains(r.names, name) {
			return r.d.fault(r.line, name, "This column is missing: the columns are %s.", strings.Join(r.known.all(), ", "))
		}
	}
	return nil
}

func (r *csvRows) read() ([]string, error) {
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
func (r *csvRows) next() (map[string]string, error) {
	fields, err := r.read()
	if err != nil {
		return nil, err
	}
	if len(fields) != len(r.names) {
		return nil, r.d.fault(r.line, "", "The line has %d columns: %d are named. A comma inside of a number needs semicolons between the columns.", len(fields), len(r.names))
	}
	row := map[string]string{}
	for i, name := range r.names {
		row[name] = strings.TrimSpace(fields[i])
	}
	return row, nil
}

// length reads a number in mm.
func (r *csvRows) length(row map[string]string, name string) (mm, error) {
	read, err := quantity.Parse(row[name], quantity.MM)
	if err != nil {
		return 0, r.d.fault(r.line, name, "%s", err)
	}
	return mm(read), nil
}

func (r *csvRows) word(row map[string]string, name string, words ...string) (string, error) {
	word := strings.ToLower(row[name])
	if !slices.Contains(words, word) {
		return "", r.d.fault(r.line, name, "%s is not known here: %s or %s.", show(row[name]), strings.Join(words[:len(words)-1], ", "), words[len(words)-1])
	}
	return word, nil
}
