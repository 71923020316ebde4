package release

import (
	"math"

	"drillstop/calc/quantity"
)

// Highest numbers a chart can hold. Beyond them a decimal point is missing. Our
// own limits, no source.
const (
	highestValue                       = 30
	highestMoment quantity.NewtonMetre = 2000
)

// check holds a chart against everything that must be true of it.
func (c *Chart) check() error {
	for _, hold := range []func() error{c.checkColumns, c.checkCodes, c.checkMasses, c.checkHeights, c.checkValues, c.checkMoments} {
		if err := hold(); err != nil {
			return err
		}
	}
	return nil
}

// checkColumns: sole lengths rise without gaps; only the outer ones are open.
func (c *Chart) checkColumns() error {
	for i, b := range c.columns {
		name := b.in(quantity.MM)
		switch {
		case !b.set:
			return fault("release.chart-band", "chart", "Chart: sole column %d has no band.", i+1)
		case i == 0:
		case math.IsInf(b.low, -1) || !b.follows(c.columns[i-1]):
			return fault("release.chart-band", "chart", "Chart: sole column %s does not follow %s.", name, c.columns[i-1].in(quantity.MM))
		}
	}
	return nil
}

// checkCodes: capital letters or digits, each once, in order.
func (c *Chart) checkCodes() error {
	for i, r := range c.rows {
		if !isCode(r.code) {
			return lineFault("release.chart-code", r.line, "%q is not a skier code: one to three capital letters or digits.", short(r.code))
		}
		if i > 0 && !codeAfter(r.code, c.rows[i-1].code) {
			return lineFault("release.chart-code", r.line, "row %s does not come after row %s: codes are unique and in order.", r.code, c.rows[i-1].code)
		}
	}
	return nil
}

func isCode(code string) bool {
	for _, r := range code {
		if (r < 'A' || r > 'Z') && (r < '0' || r > '9') {
			return false
		}
	}
	return code != "" && len(code) <= 3
}

// codeAfter orders A before B and 9 before 10.
func codeAfter(code, before string) bool {
	if len(code) != len(before) {
		return len(code) > len(before)
	}
	return code > before
}

// checkMasses: the lightest row has a mass, and masses rise without gaps from
// there on. Rows without one are reached by type and request only.
func (c *Chart) checkMasses() error {
	if first := c.rows[0]; !first.mass.set || math.IsInf(first.mass.low, -1) {
		return lineFault("release.chart-band", first.line, "row %s, the lightest, needs a mass with a lower limit.", first.code)
	}
	for i := 1; i < len(c.rows); i++ {
		r, before := c.rows[i], c.rows[i-1]
		if r.mass.set && (!before.mass.set || !r.mass.follows(before.mass)) {
			return lineFault("release.chart-band", r.line, "row %s: mass %s does not follow %s of row %s.",
				r.code, r.mass.in(quantity.KG), before.mass.in(quantity.KG), before.code)
		}
	}
	return nil
}

// checkHeights: the first height is "<=", the others rise without gaps in the
// rows that follow it, all of them rows with a mass.
func (c *Chart) checkHeights() error {
	started := false
	for i, r := range c.rows {
		if !r.height.set {
			continue
		}
		name := r.height.in(quantity.CM)
		switch {
		case !r.mass.set:
			return lineFault("release.chart-band", r.line, "row %s has a height (%s) but no mass.", r.code, name)
		case !started && !math.IsInf(r.height.low, -1):
			return lineFault("release.chart-band", r.line, "row %s: the first height must be an upper limit such as <=148, not %s.", r.code, name)
		case started && (!c.rows[i-1].height.set || !r.height.follows(c.rows[i-1].height)):
			return lineFault("release.chart-band", r.line, "row %s: height %s does not follow %s of row %s.",
				r.code, name, c.rows[i-1].height.in(quantity.CM), c.rows[i-1].code)
		}
		started = true
	}
	if !started {
		return fault("release.chart-band", "chart", "Chart: no row has a height.")
	}
	return nil
}

// checkValues: values never rise with sole length and never fall with mass.
func (c *Chart) checkValues() error {
	above := make([]cell, len(c.columns)) // last value seen in each column
	for _, r := range c.rows {
		var left cell
		for i, v := range r.values {
			if !v.set {
				continue
			}
			column, text := c.columns[i].in(quantity.MM), quantity.Print(v.value, quantity.Plain)
			switch {
			case v.value > highestValue:
				return lineFault("release.chart-number", r.line, "row %s, %s: %s is above %d, a decimal point may be missing.", r.code, column, text, highestValue)
			case left.set && v.value > left.value:
				return lineFault("release.chart-order", r.line, "row %s, %s: %s is more than the value of a shorter sole, %s.",
					r.code, column, text, quantity.Print(left.value, quantity.Plain))
			case above[i].set && v.value < above[i].value:
				return lineFault("release.chart-order", r.line, "row %s, %s: %s is less than the value of a lighter row, %s.",
					r.code, column, text, quantity.Print(above[i].value, quantity.Plain))
			}
			left, above[i] = v, v
		}
	}
	return nil
}

// checkMoments: both columns rise.
func (c *Chart) checkMoments() error {
	for i, r := range c.rows {
		if r.twist > highestMoment || r.lean > highestMoment {
			return lineFault("release.chart-number", r.line, "row %s: a moment above %s cannot be.", r.code, highestMoment)
		}
		if i == 0 {
			continue
		}
		before := c.rows[i-1]
		if r.twist <= before.twist {
			return lineFault("release.chart-order", r.line, "row %s, twist: %s does not rise above %s.", r.code, r.twist, before.twist)
		}
		if r.lean <= before.lean {
			return lineFault("release.chart-order", r.line, "row %s, forward lean: %s does not rise above %s.", r.code, r.lean, before.lean)
		}
	}
	return nil
}
