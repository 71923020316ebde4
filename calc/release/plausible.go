package release

import (
	"drillstop/calc"
	"drillstop/calc/quantity"
)

// Mass in per cent beyond 100 x (height in m - 1) kg at which one of the two
// numbers is asked after. Our rule, no source.
const (
	tooHeavyPercent = 25
	tooLightPercent = 40
)

// capAbove is the height above which a mass is held against the height
// (ISO 8061:2004, 4.2).
const capAbove quantity.Centimetre = 150

// usualMass is 100 x (height in m - 1) kg, and whether the height is one that it
// is used for (ISO 8061:2004, 4.2).
func usualMass(h quantity.Centimetre) (quantity.Kilogram, bool) {
	return quantity.Kilogram(h - 100), h > capAbove
}

// checkPlausible asks after a mass and a height that hardly belong together, such
// as pounds typed as kilograms.
func (w *walk) checkPlausible() {
	usual, used := usualMass(w.in.Height)
	if !used {
		return
	}
	percent := 100 * float64(w.in.Mass-usual) / float64(usual)
	if percent > tooHeavyPercent || percent < -tooLightPercent {
		w.add(calc.Cautionf("release.mass-height", fromOwnRule, "%s at %s: check the number and its unit (kg or lb).", massText(w.in.Mass), w.in.Height))
	}
}

// checkEdge asks after a height that stands exactly where the mass still decides
// alone, if one step more would give a lighter row. first is the row of that
// height.
func (w *walk) checkEdge(first int) {
	next := first + 1
	if next >= w.row || float64(w.in.Height) != w.chart.rows[first].height.high {
		return
	}
	if taller := w.chart.rows[next].height; taller.set {
		w.add(calc.Cautionf("release.height-edge", fromOwnRule,
			"At %s the mass alone decides, row %s; a height of %s would give the lighter row %s: measure it once more.",
			w.in.Height, w.code(), quantity.Centimetre(taller.low), w.chart.rows[next].code))
	}
}
