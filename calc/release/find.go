package release

import (
	"drillstop/calc/quantity"
)

// massRow is the heaviest row whose lower limit the mass reaches, so that
// between two bands the lighter row counts.
func (c *Chart) massRow(m quantity.Kilogram) (int, error) {
	at := -1
	for i, r := range c.rows {
		if r.mass.set && float64(m) >= r.mass.low {
			at = i
		}
	}
	if at < 0 {
		return 0, fault("release.mass-range", "mass", "%s is below the lightest row of this chart, %s with %s: it has no value for this skier.",
			massText(m), c.rows[0].code, c.rows[0].mass.in(quantity.KG))
	}
	heaviest := at+1 == len(c.rows) || !c.rows[at+1].mass.set
	if heaviest && float64(m) > c.rows[at].mass.high {
		return 0, fault("release.mass-range", "mass", "%s is above the heaviest mass of this chart, row %s with %s: it has no value for this skier.",
			massText(m), c.rows[at].code, c.rows[at].mass.in(quantity.KG))
	}
	return at, nil
}

// heightRow is the tallest row whose lower limit the height reaches. Up to the
// upper limit of the first height the mass decides alone; half a centimetre more
// is past it and takes that first row until the next band begins.
func (c *Chart) heightRow(h quantity.Centimetre) (at int, alone bool, err error) {
	at = -1
	for i, r := range c.rows {
		if !r.height.set || float64(h) < r.height.low {
			continue
		}
		if at < 0 && float64(h) <= r.height.high {
			return i, true, nil
		}
		at = i
	}
	tallest := at+1 == len(c.rows) || !c.rows[at+1].height.set
	if tallest && float64(h) > c.rows[at].height.high {
		return 0, false, fault("release.height-range", "height", "%s is above the tallest height of this chart, row %s with %s: it has no value for this skier.",
			h, c.rows[at].code, c.rows[at].height.in(quantity.CM))
	}
	return at, false, nil
}

// soleColumn is the shortest column whose upper limit the sole does not pass, so
// that between two columns the longer one counts.
func (c *Chart) soleColumn(s quantity.Millimetre) (int, error) {
	for i, b := range c.columns {
		if float64(s) > b.high {
			continue
		}
		if i == 0 && float64(s) < b.low {
			break
		}
		return i, nil
	}
	return 0, fault("release.sole-range", "sole", "%s is outside the sole lengths of this chart, %s to %s: it has no value for this boot.",
		s, c.columns[0].in(quantity.MM), c.columns[len(c.columns)-1].in(quantity.MM))
}
