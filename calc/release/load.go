package release

import (
	"bytes"
	"crypto/sha256"
	"encoding/csv"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"

	"drillstop/calc"
	"drillstop/calc/quantity"
)

// What a chart file may be. Our own limits.
const (
	largestFile = 64 << 10 // bytes
	fewestRows  = 3        // the lightest row and the two of types II and III
	mostRows    = 60
	mostColumns = 30
)

// units is what the units line of a chart must say.
var units = [...]string{"mass kg", "height cm", "sole mm", "moment Nm"}

// Load reads a chart file and checks all of it: the units, the codes (unique, in
// order), the bands (rising, without gaps), the values (never rising along a
// row, never falling down a column) and the moments (rising). The format is
// described at the head of the embedded chart_default.csv.
//
// Every error is a *calc.Fault that names line and cell: release.chart-read,
// -size, -shape, -units, -number, -band, -code, -order.
func Load(r io.Reader) (*Chart, error) {
	data, err := io.ReadAll(io.LimitReader(r, largestFile+1))
	if err != nil {
		f := calc.Faultf("release.chart-read", "The chart could not be read: %v.", err)
		f.Field, f.Cause = "chart", err
		return nil, f
	}
	if len(data) > largestFile {
		return nil, fault("release.chart-size", "chart", "The chart is larger than %d kB: this is another file.", largestFile>>10)
	}
	sum := sha256.Sum256(data)
	lines, err := cut(data)
	if err != nil {
		return nil, err
	}
	c := &Chart{}
	if err := c.read(lines); err != nil {
		return nil, err
	}
	if err := c.check(); err != nil {
		return nil, err
	}
	c.identity.Checksum = hex.EncodeToString(sum[:])
	return c, nil
}

// line is one line of the file with its number.
type line struct {
	number int
	fields []string
}

// cut makes trimmed fields of the file, without comments and empty lines.
func cut(data []byte) ([]line, error) {
	reader := csv.NewReader(bytes.NewReader(bytes.TrimPrefix(data, []byte("\ufeff"))))
	reader.Comment = '#'
	reader.FieldsPerRecord = -1
	reader.TrimLeadingSpace = true
	var lines []line
	for {
		fields, err := reader.Read()
		if errors.Is(err, io.EOF) {
			return lines, nil
		}
		if err != nil {
			f := calc.Faultf("release.chart-shape", "The chart is not a CSV file: %v.", err)
			f.Field, f.Cause = "chart", err
			return nil, f
		}
		number, _ := reader.FieldPos(0)
		for i := range fields {
			fields[i] = strings.TrimSpace(fields[i])
		}
		// Spreadsheets quote comments and pad short lines with empty fields.
		if strings.HasPrefix(fields[0], "#") || !slices.ContainsFunc(fields, func(f string) bool { return f != "" }) {
			continue
		}
		lines = append(lines, line{number, fields})
	}
}

// read fills the chart from the lines: the head first, then the table.
func (c *Chart) read(lines []line) error {
	seen := map[string]bool{}
	for i, l := range lines {
		key := strings.ToLower(l.fields[0])
		if seen[key] {
			return lineFault("release.chart-shape", l.number, "%q stands there twice.", short(key))
		}
		seen[key] = true
		if key == "code" {
			for _, needed := range []string{"edition", "source", "units"} {
				if !seen[needed] {
					return lineFault("release.chart-shape", l.number, "the %s line is missing above the table.", needed)
				}
			}
			return c.readTable(l, lines[i+1:])
		}
		if err := c.readHead(key, l); err != nil {
			return err
		}
	}
	return fault("release.chart-shape", "chart", "The chart has no table: the line that begins with code is missing.")
}

// readHead reads one line above the table.
func (c *Chart) readHead(key string, l line) error {
	values := slices.Clone(l.fields[1:])
	for len(values) > 0 && values[len(values)-1] == "" {
		values = values[:len(values)-1]
	}
	if key == "units" {
		if !slices.Equal(values, units[:]) {
			return lineFault("release.chart-units", l.number, "the units must be exactly: %s.", strings.Join(units[:], ", "))
		}
		return nil
	}
	texts := map[string]*string{"edition": &c.identity.Edition, "source": &c.identity.Source, "caveat": &c.caveat}
	text, known := texts[key]
	switch {
	case !known:
		return lineFault("release.chart-shape", l.number, "%q is not known here: edition, source, caveat, units or code is expected, with commas between the fields.", short(key))
	case len(values) != 1:
		return lineFault("release.chart-shape", l.number, "%q needs one text; a text with commas stands between double quotes.", short(key))
	}
	*text = values[0]
	return nil
}

// readTable reads the column heads and all rows.
func (c *Chart) readTable(head line, lines []line) error {
	n := len(head.fields)
	named := n >= 6 && slices.Equal(head.fields[:3], []string{"code", "mass", "height"}) &&
		slices.Equal(head.fields[n-2:], []string{"twist", "forward lean"})
	if !named {
		return lineFault("release.chart-shape", head.number, "the heads must be: code, mass, height, the sole lengths, twist, forward lean.")
	}
	for i, text := range head.fields[3 : n-2] {
		b, err := readBand(text)
		if err != nil {
			return cellFault(err, head.number, "head", fmt.Sprintf("sole column %d", i+1))
		}
		c.columns = append(c.columns, b)
	}
	if len(c.columns) > mostColumns || len(lines) < fewestRows || len(lines) > mostRows {
		return lineFault("release.chart-shape", head.number, "a chart has %d to %d rows and at most %d sole columns; this one has %d and %d.",
			fewestRows, mostRows, mostColumns, len(lines), len(c.columns))
	}
	for _, l := range lines {
		r, err := c.readRow(l, n)
		if err != nil {
			return err
		}
		c.rows = append(c.rows, r)
	}
	return nil
}

// readRow reads one skier code with its bands, values and moments.
func (c *Chart) readRow(l line, n int) (row, error) {
	if len(l.fields) != n {
		return row{}, lineFault("release.chart-shape", l.number, "row %s has %d cells, the heads have %d; a blank cell is written -.", short(l.fields[0]), len(l.fields), n)
	}
	r := row{code: l.fields[0], line: l.number}
	var err error
	if r.mass, err = readBand(l.fields[1]); err != nil {
		return row{}, cellFault(err, l.number, r.code, "mass")
	}
	if r.height, err = readBand(l.fields[2]); err != nil {
		return row{}, cellFault(err, l.number, r.code, "height")
	}
	for i, text := range l.fields[3 : n-2] {
		value := cell{}
		if text != none {
			value.set = true
			if value.value, err = readNumber(text); err != nil {
				return row{}, cellFault(err, l.number, r.code, c.columns[i].in(quantity.MM))
			}
		}
		r.values = append(r.values, value)
	}
	for i, moment := range []*quantity.NewtonMetre{&r.twist, &r.lean} {
		v, err := readNumber(l.fields[n-2+i])
		if err != nil {
			return row{}, cellFault(err, l.number, r.code, [...]string{"twist", "forward lean"}[i])
		}
		*moment = quantity.NewtonMetre(v)
	}
	return r, nil
}

func lineFault(code string, number int, format string, args ...any) error {
	return fault(code, "chart", "Chart line %d: %s", number, fmt.Sprintf(format, args...))
}

// cellFault says in which cell the cause was found.
func cellFault(cause error, number int, code, column string) error {
	kind := "release.chart-number"
	var inner *calc.Fault
	if errors.As(cause, &inner) {
		kind = inner.Code
	}
	f := calc.Faultf(kind, "Chart line %d, row %s, %s: %v", number, short(code), column, cause)
	f.Field, f.Cause = "chart", cause
	return f
}
