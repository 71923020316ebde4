package release

import "drillstop/calc"

// Sources of the rules, as they stand beside the findings.
const (
	fromISO8061Type = "ISO 8061, A.1.1"
	fromISO8061Cap  = "ISO 8061:2004, 4.2"
	fromISO8061Age  = "ISO 8061:2004, 4.3.3"
	fromISO8061Wish = "ISO 8061:2004, 4.3.4 to 4.3.6"
	fromISO13992    = "ISO 13992:2014"
	fromPractice    = "common practice, no source"
	fromOurRule     = "our rule, conservative"
	fromOwnRule     = "our rule, no source"
)

// rowsApart is how far the rows of mass and height may lie from each other
// before one of the two numbers is asked after. Our rule, no source.
const rowsApart = 3

func (w *walk) add(f calc.Finding) { w.result.Findings = append(w.result.Findings, f) }

// between notes that a number fell into the gap between two bands.
func (w *walk) between(what, where, counts string) {
	w.add(calc.Notef("release.between-"+what, fromOurRule, "The %s of %s, between two bands: %s counts, the lower value.", what, where, counts))
}

// compareRows notes that the height decides, and asks after numbers that hardly
// belong to one person. row is the row of the height.
func (w *walk) compareRows(row int, alone bool) {
	mass, height := w.code(), w.chart.rows[row].code
	apart := w.row - row // above 0: the mass is the heavier one
	if !alone && apart > 0 {
		w.add(calc.Notef("release.height-lighter", w.lighterSource(), "%s (row %s) is the lighter row beside %s (row %s): row %s counts.",
			w.in.Height, height, massText(w.in.Mass), mass, height))
	}
	if apart >= rowsApart || (!alone && apart <= -rowsApart) {
		w.add(calc.Cautionf("release.rows-apart", fromOwnRule, "%s (row %s) and %s (row %s) lie %d rows apart: check both numbers.",
			massText(w.in.Mass), mass, w.in.Height, height, max(apart, -apart)))
	}
}

// lighterSource is the source of the rule that the lighter row counts: the cap of
// the mass where it applies, and common practice elsewhere.
func (w *walk) lighterSource() string {
	if limit, tall := usualMass(w.in.Height); tall && w.in.Mass > limit {
		return fromISO8061Cap
	}
	return fromPractice
}

// ageNotes notes the age correction that was applied.
func (w *walk) ageNotes() {
	w.add(calc.Notef("release.age", fromISO8061Age, "%d years: one row lighter, about 15 %% less.", w.in.Age))
	if w.in.Mass < lightSkier {
		w.add(calc.Notef("release.light-age", "common practice; sources differ", "Sources differ on whether the age counts under %s (%s): it was counted, the lower value.",
			lightSkier, massText(w.in.Mass)))
	}
}

// nothingLighter notes that a lighter row was due and does not exist.
func (w *walk) nothingLighter(due string) {
	w.add(calc.Notef("release.nothing-lighter", fromPractice, "Row %s is the lightest of the chart: %s cannot make it lighter.", w.code(), due))
}

// conclude adds what is said of the whole result.
func (w *walk) conclude() {
	r := &w.result
	if w.in.Type == TypeIII {
		w.add(calc.Cautionf("release.type-iii", fromISO8061Type, "Type III: two rows heavier than the chart's row for this skier. It is the skier's own statement and belongs on the record."))
	}
	if w.in.Type == TypeIII && w.in.Mass < lightUpTo && (w.in.Toe > AsComputed || w.in.Heel > AsComputed) {
		w.add(calc.Cautionf("release.light-raised", fromOwnRule,
			"%s is a light skier for type III together with a higher value: both raise it; ask once more whether both are meant.", massText(w.in.Mass)))
	}
	if highest := max(r.Value, r.Toe, r.Heel); highest > 10 {
		r.AboveTen = true
		w.add(calc.Cautionf("release.above-ten", fromISO13992, "The value %s is above 10: make sure that it is meant.", plain(highest)))
	}
	if w.chart.caveat != "" {
		w.add(calc.Notef("release.chart-caveat", w.chart.identity.Source, "%s", w.chart.caveat))
	}
}
