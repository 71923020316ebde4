package pattern

import (
	"errors"
	"io"
	"path/filepath"
	"strings"

	"drillstop/calc"
	"drillstop/calc/layout"
	"drillstop/calc/quantity"
)

const codeWidths = "widths.file"

// mostWidths bounds how many places of a ski are read; our own limit.
const mostWidths = 200

var widthColumns = columns{of: "widths", must: []string{"x", "width"}}

// ReadWidths reads how wide a ski is along its length from a CSV file: x from
// the mount mark, to the tip positive, and the width there, from tail to tip.
// The first line names the columns x and width, in any order. Faults are those
// of ReadOld, of code "widths.file"; whether the widths can be those of a ski
// layout.Spec.Check says.
func ReadWidths(file string, text []byte) (layout.Width, error) {
	rows, err := openCSV(file, codeWidths, text, widthColumns)
	if err != nil {
		return layout.Width{}, err
	}
	var points []layout.WidthAt
	for {
		row, err := rows.next()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			return layout.Width{}, err
		}
		var at layout.WidthAt
		if at.X, err = rows.length(row, "x"); err != nil {
			return layout.Width{}, err
		}
		if at.Width, err = rows.length(row, "width"); err != nil {
			return layout.Width{}, err
		}
		points = append(points, at)
	}
	if n := len(points); n < 2 || n > mostWidths {
		return layout.Width{}, rows.d.fault(0, "", "2 to %d places of the ski are possible, and this file has %d.", mostWidths, n)
	}
	return layout.Profile(points), nil
}

// ParseWidths reads the same from one line, "-300:104, 0:98, 300:103"; with
// semicolons between the places a comma can be a decimal sign. What cannot be
// read is a *calc.Fault of code "widths.typed".
func ParseWidths(typed string) (layout.Width, error) {
	between := ","
	if strings.Contains(typed, ";") {
		between = ";"
	}
	var points []layout.WidthAt
	for part := range strings.SplitSeq(typed, between) {
		x, width, found := strings.Cut(part, ":")
		if !found {
			return layout.Width{}, calc.Faultf("widths.typed", "%q is no place and width: write -300:104, 0:98, 300:103, or name a file that ends in .csv.", strings.TrimSpace(part))
		}
		var at layout.WidthAt
		for _, v := range []struct {
			typed string
			to    *mm
		}{{x, &at.X}, {width, &at.Width}} {
			read, err := quantity.Parse(v.typed, quantity.MM)
			if err != nil {
				return layout.Width{}, err
			}
			*v.to = mm(read)
		}
		points = append(points, at)
	}
	if n := len(points); n < 2 || n > mostWidths {
		return layout.Width{}, calc.Faultf("widths.typed", "2 to %d places of the ski are possible, and %s has %d.", mostWidths, show(typed), n)
	}
	return layout.Profile(points), nil
}

// IsWidthsFile says whether a text names a file of widths.
func IsWidthsFile(typed string) bool { return strings.EqualFold(filepath.Ext(typed), ".csv") }
