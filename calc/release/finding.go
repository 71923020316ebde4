package release

import (
	"strings"

	"drillstop/calc"
)

// Sources of the rules, as they stand beside the findings.
const (
	fromISO8061Type = "ISO 8061, A.1.1"
	fromISO8061Cap  = "ISO 8061:2004, 4.2"
	fromISO8061Age  = "ISO 8061:2004, 4.3.3"
	fromISO8061Wish = "ISO 8061:2004, 4.3.4 to 4.3.6"
	fromISO13992    = "ISO 13992:2014"
	fromPractice    = "common practice, no source"
	fromOurRule     = "our rule, conservative"
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
		w.add(calc.Notef("release.height-lighter", fromISO8061Cap, "%s (row %s) is the lighter row beside %s (row %s): row %s counts.",
			w.in.Height, height, massText(w.in.Mass), mass, height))
	}
	if apart >= rowsApart || (!alone && apart <= -rowsApart) {
		w.add(calc.Cautionf("release.rows-apart", "our rule, no source", "%s (row %s) and %s (row %s) lie %d rows apart: check both numbers.",
			massText(w.in.Mass), mass, w.in.Height, height, max(apart, -apart)))
	}
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

// wishFinding puts a request on the record.
func (w *walk) wishFinding(piece string, wish Wish, row int) {
	const sentence = "%s one row %s on the skier's request: row %s, about 15 %% %s than computed. The reason belongs on the record."
	code := w.chart.rows[row].code
	title := strings.ToUpper(piece[:1]) + piece[1:]
	if wish == Lower {
		w.add(calc.Notef("release.lower-"+piece, fromISO8061Wish, sentence, title, wish, code, "less"))
		return
	}
	w.add(calc.Cautionf("release.higher-"+piece, fromISO8061Wish, sentence, title, wish, code, "more"))
}

// conclude adds what is said of the whole result.
func (w *walk) conclude() {
	r := &w.result
	if w.in.Type == TypeIII {
		w.add(calc.Cautionf("release.type-iii", fromISO8061Type, "Type III: two rows heavier than the chart's row for this skier. It is the skier's own statement and belongs on the record."))
	}
	if highest := max(r.Value, r.Toe, r.Heel); highest > 10 {
		r.AboveTen = true
		w.add(calc.Cautionf("release.above-ten", fromISO13992, "The value %s is above 10: make sure that it is meant.", plain(highest)))
	}
	if w.chart.caveat != "" {
		w.add(calc.Notef("release.chart-caveat", w.chart.identity.Source, "%s", w.chart.caveat))
	}
}
