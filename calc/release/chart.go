// Package release answers which release indicator value and which reference
// moments belong to a skier and a boot, and by what path through the chart.
//
// The chart is data: a CSV file with its edition, its source and the checksum of
// its bytes, so that every job can keep which chart it used. A default chart is
// embedded; a shop loads its own with Load. The values are for setting and
// service of alpine bindings, not for judging worn equipment, and not for heavy
// loads, sleds or boots above mid-calf (ASTM F939, scope).
//
// Every refusal is a *calc.Fault whose code begins with "release.".
package release

import (
	"bytes"
	_ "embed" // the default chart
	"slices"
	"strings"
	"sync"

	"drillstop/calc/quantity"
)

//go:embed chart_default.csv
var defaultBytes []byte

var defaultChart = sync.OnceValues(func() (*Chart, error) { return Load(bytes.NewReader(defaultBytes)) })

// Chart is a release chart that passed all checks of Load. It does not change.
type Chart struct {
	identity Identity
	caveat   string
	columns  []band // sole lengths in mm, rising
	rows     []row  // lightest first
}

// row is one skier code.
type row struct {
	code         string
	line         int // in the file, for faults
	mass, height band
	values       []cell // one per column
	twist, lean  quantity.NewtonMetre
}

// cell is one value of the chart; a blank cell has none.
type cell struct {
	value float64
	set   bool
}

// Identity is what a record keeps of the chart that was used.
type Identity struct {
	Edition  string
	Source   string
	Checksum string // SHA-256 of the file's bytes, 64 hexadecimal digits
}

// Reference is the pair of reference moments of a skier code.
type Reference struct {
	Code        string
	Row         int // index into Codes, TwistColumn and ForwardLeanColumn
	Twist       quantity.NewtonMetre
	ForwardLean quantity.NewtonMetre
}

// Default is the embedded chart. Most of its cells are from memory; the file
// says which are not, and Caveat says it to the technician. The error is a flaw
// of the embedded file, which a test rules out.
func Default() (*Chart, error) { return defaultChart() }

// Identity returns the chart's edition, source and checksum.
func (c *Chart) Identity() Identity { return c.identity }

// Caveat is what the chart's author wants said with every value; "" for nothing.
func (c *Chart) Caveat() string { return c.caveat }

// Codes returns the skier codes, lightest first.
func (c *Chart) Codes() []string {
	codes := make([]string, len(c.rows))
	for i, r := range c.rows {
		codes[i] = r.code
	}
	return codes
}

// Columns returns the sole length columns as printed, such as "311 to 330 mm",
// shortest first.
func (c *Chart) Columns() []string {
	columns := make([]string, len(c.columns))
	for i, b := range c.columns {
		columns[i] = b.in(quantity.MM)
	}
	return columns
}

// Reference returns the reference moments of a skier code, in Nm. An unknown
// code is a *calc.Fault release.code.
func (c *Chart) Reference(code string) (Reference, error) {
	want := strings.ToUpper(strings.TrimSpace(code))
	i := slices.IndexFunc(c.rows, func(r row) bool { return r.code == want })
	if i < 0 {
		return Reference{}, fault("release.code", "code", "%q is not a skier code of this chart: it has %s to %s.",
			short(code), c.rows[0].code, c.rows[len(c.rows)-1].code)
	}
	return Reference{Code: want, Row: i, Twist: c.rows[i].twist, ForwardLean: c.rows[i].lean}, nil
}

// TwistColumn returns the reference moments in twist, in Nm, lightest row first.
func (c *Chart) TwistColumn() []quantity.NewtonMetre {
	return c.moments(func(r row) quantity.NewtonMetre { return r.twist })
}

// ForwardLeanColumn returns the reference moments in forward lean, in Nm,
// lightest row first.
func (c *Chart) ForwardLeanColumn() []quantity.NewtonMetre {
	return c.moments(func(r row) quantity.NewtonMetre { return r.lean })
}

func (c *Chart) moments(of func(row) quantity.NewtonMetre) []quantity.NewtonMetre {
	column := make([]quantity.NewtonMetre, len(c.rows))
	for i, r := range c.rows {
		column[i] = of(r)
	}
	return column
}
