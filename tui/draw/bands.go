package draw

import (
	"math"
	"slices"
	"strings"

	"drillstop/workflow"
)

// The bands, in rows of the chart either way, as they are drawn; calc/moment
// decides, and its verdict stands beside them.
const (
	keptRows      = 1
	correctedRows = 2
	shownRows     = correctedRows
	leastOuter    = 2 // columns of a band in which the cause is looked for
)

// BandsLegend names the marks of the moment bands in one line.
const BandsLegend = "= kept  . corrected  # look for the cause  o reading  ^ middle  < > beyond"

// Bands draws the bands of one direction around its reference moment, rows of
// the chart at equal distances: one row either way is kept (=), two are
// corrected (.), beyond the cause is looked for (#). The readings of each ski
// are o, their middle value is ^, and beside them stands what they come to.
//
// Every line is exactly width columns wide. Where the width is too small for a
// drawing, or there are no two rows that rise, it is told in words; nothing is
// returned for a width below 1. Rows that the chart does not have get no number.
func Bands(p workflow.BandsPicture, width int, ink Ink) []string {
	c, ok := columnsOf(width)
	says, tones := [2]string{}, [2]tone{}
	for i := range says {
		room := c.says
		if !ok {
			room = width - c.name
		}
		says[i], tones[i] = verdict(p, i, room)
	}
	if !ok || !drawable(p) {
		return told(p.Title, says, tones, width, ink)
	}
	b := newBandBar(p, c.bar)
	title := whole(width, phrase{strings.ToUpper(p.Title), plain}, phrase{"  reference " + plainly(p.Rows[p.At]) + " Nm", here})
	return []string{
		title.text(ink),
		c.line("Nm", b.numbers(), "", faint, ink),
		c.line("", b.bands(), "", faint, ink),
		c.line(leftName, b.readings(0), says[0], tones[0], ink),
		c.line(rightName, b.readings(1), says[1], tones[1], ink),
	}
}

// verdict tells the readings of one ski, their middle value and its mark; the
// readings give way where there is little room.
func verdict(p workflow.BandsPicture, ski, room int) (string, tone) {
	if len(p.Readings[ski]) == 0 && !known(p.Middle[ski]) {
		return notRead, faint
	}
	texts := make([]string, len(p.Readings[ski]))
	for i, r := range p.Readings[ski] {
		texts[i] = plainly(r)
	}
	all := strings.Join(texts, " ")
	if !known(p.Middle[ski]) {
		return all, plain
	}
	middle, t, word := plainly(p.Middle[ski]), plain, ""
	switch p.Mark[ski] {
	case workflow.MarkKept:
		word = " = kept"
	case workflow.MarkCaution:
		word = " ! correct"
	case workflow.MarkStop:
		word, t = " # cause", stop
	case workflow.MarkAhead, workflow.MarkHere, workflow.MarkStale, workflow.MarkWaived, workflow.MarkApart:
		word = " " + string(printable(rune(p.Mark[ski])))
	}
	if long := all + " -> " + middle + word; len(texts) > 0 && len(long) <= room {
		return long, t
	}
	return middle + word, t
}

// drawable reports whether there are two rows or more, of known moments that
// rise, and the reference among them.
func drawable(p workflow.BandsPicture) bool {
	for i, m := range p.Rows {
		if !known(m) || i > 0 && m <= p.Rows[i-1] {
			return false
		}
	}
	return len(p.Rows) >= 2 && p.At >= 0 && p.At < len(p.Rows)
}

// bandBar is the drawing of the bands: the reference stands in its middle.
type bandBar struct {
	p             workflow.BandsPicture
	width, centre int
	perRow        int // columns
}

func newBandBar(p workflow.BandsPicture, width int) bandBar {
	centre := (width - 1) / 2
	outer := max(leastOuter, width/10)
	return bandBar{p: p, width: width, centre: centre, perRow: (centre - outer) / shownRows}
}

// rows is how many rows a moment lies above the reference. Beyond the rows that
// are given it goes on by the ratio of the last two, as calc/moment counts.
func (b bandBar) rows(m float64) float64 {
	rows := b.p.Rows
	last := len(rows) - 1
	switch {
	case m < rows[0]:
		return math.Log(m/rows[0])/math.Log(rows[1]/rows[0]) - float64(b.p.At)
	case m >= rows[last]:
		return float64(last-b.p.At) + math.Log(m/rows[last])/math.Log(rows[last]/rows[last-1])
	}
	i, _ := slices.BinarySearchFunc(rows, m, func(row, m float64) int {
		if row <= m {
			return -1
		}
		return 1
	})
	low, high := rows[i-1], rows[i]
	return float64(i-1-b.p.At) + (m-low)/(high-low)
}

// column is where so many rows above the reference stand. What is not on an
// edge is never drawn on one, nor across it.
func (b bandBar) column(rows float64) int {
	edge := math.Round(rows)
	c := int(math.Round(bounded(float64(b.centre) + rows*float64(b.perRow))))
	at := b.centre + int(bounded(edge))*b.perRow
	switch {
	case c != at || math.Abs(rows-edge) <= scaleSlack:
		return c
	case rows < edge:
		return c - 1
	}
	return c + 1
}

// numbers are the reference moments of the rows, the skier's own first.
func (b bandBar) numbers() strip {
	line := newStrip(b.width, ' ')
	line.label(b.centre, plainly(b.p.Rows[b.p.At]), here)
	for i, m := range b.p.Rows {
		if away := i - b.p.At; i != b.p.At && away >= -shownRows && away <= shownRows {
			line.label(b.centre+away*b.perRow, plainly(m), faint)
		}
	}
	return line
}

// bands are the bands themselves, with a | at every row.
func (b bandBar) bands() strip {
	line := newStrip(b.width, '#')
	for away := -correctedRows * b.perRow; away <= correctedRows*b.perRow; away++ {
		switch {
		case away%b.perRow == 0:
			line.put(b.centre+away, "|", plain)
		case away > -keptRows*b.perRow && away < keptRows*b.perRow:
			line.put(b.centre+away, "=", plain)
		default:
			line.put(b.centre+away, ".", faint)
		}
	}
	return line
}

// readings are the marks of one ski, the middle value over the others.
func (b bandBar) readings(ski int) strip {
	line := newStrip(b.width, ' ')
	_, t := verdict(b.p, ski, 0)
	for _, r := range b.p.Readings[ski] {
		b.mark(line, r, "o", t)
	}
	b.mark(line, b.p.Middle[ski], "^", t)
	return line
}

// mark writes a sign at a moment, or shows beyond which end it lies.
func (b bandBar) mark(line strip, m float64, sign string, t tone) {
	if !known(m) {
		return
	}
	switch c := b.column(b.rows(m)); {
	case c < 0:
		line.put(0, beyondLow, t)
	case c >= b.width:
		line.put(b.width-1, beyondTop, t)
	default:
		line.put(c, sign, t)
	}
}
