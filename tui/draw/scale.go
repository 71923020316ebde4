package draw

import (
	"math"
	"strings"

	"drillstop/workflow"
)

// scaleSlack keeps a value that stands on a mark from missing it by the last
// bit of a division.
const scaleSlack = 1e-6

// ScaleLegend names the marks of a release scale in one line.
const ScaleLegend = "V computed  [=] middle third  ^ set  > < corrected  # not at the value"

// Scale draws one release scale of a binding with both skis on it: its marks,
// its middle third, the computed value, and for each ski what is set and, with
// an arrow from there, what it was corrected to. A setting that is not at the
// nearest mark at or below the computed value is marked with #, unless a
// correction sends it on or, being the same value, had sent it there.
//
// Every line is exactly width columns wide. Where the width is too small for a
// drawing, or the scale is none (not finite, or not rising), the numbers are
// told in words; nothing is returned for a width below 1. A value off the scale
// stands beyond its end as < or >.
func Scale(p workflow.ScalePicture, width int, ink Ink) []string {
	says, tones := [2]string{}, [2]tone{}
	for i := range says {
		says[i], tones[i] = setting(p, i)
	}
	c, ok := columnsOf(width)
	if d := p.High - p.Low; !ok || !(d > 0) || math.IsInf(d, 0) {
		return told(p.Title, says, tones, width, ink)
	}
	s := newReleaseBar(p, c.bar)
	title, name := []string(nil), strings.ToUpper(p.Title)
	if len([]rune(name)) >= c.name {
		title, name = []string{whole(width, phrase{name, plain}).text(ink)}, ""
	}
	head := newStrip(c.name, ' ')
	head.put(0, name, plain)
	reads := whole(c.says, phrase{computedText(p), here})
	return append(title,
		head.text(ink)+s.labels().text(ink)+separator+reads.text(ink),
		c.line("", s.marks(), "[=] middle third", faint, ink),
		c.line(leftName, s.pointers(0), says[0], tones[0], ink),
		c.line(rightName, s.pointers(1), says[1], tones[1], ink),
	)
}

// setting tells what one ski is set to.
func setting(p workflow.ScalePicture, ski int) (string, tone) {
	set, corrected := p.Set[ski], p.Corrected[ski]
	switch {
	case known(set) && known(corrected) && corrected != set:
		return plainly(set) + " -> " + plainly(corrected), here
	case !known(set) && known(corrected):
		return "-> " + plainly(corrected), here
	case !known(set):
		return notRead, faint
	case known(corrected):
		return plainly(set) + " corrected", plain
	case !known(p.Computed):
		return plainly(set), plain
	case differs(p, set):
		return plainly(set) + " # not at its value", stop
	}
	return plainly(set) + " =", plain
}

// differs reports whether a setting is not at the nearest mark at or below the
// computed value.
func differs(p workflow.ScalePicture, set float64) bool {
	below := p.Computed - set
	if below < -scaleSlack {
		return true
	}
	if !known(p.Step) {
		return below > scaleSlack
	}
	return below > p.Step-scaleSlack
}

func computedText(p workflow.ScalePicture) string {
	switch {
	case !known(p.Computed):
		return "not computed yet"
	case p.Computed < p.Low || p.Computed > p.High:
		return "computed " + plainly(p.Computed) + " # off the scale"
	}
	return "computed " + plainly(p.Computed)
}

// releaseBar is the drawing of a scale, in the first width columns of the room.
type releaseBar struct {
	p           workflow.ScalePicture
	width, room int
}

// leastFilled is the part of its room that a scale takes at least.
const leastFilled = 0.7

// newReleaseBar makes all marks equally far apart, if that leaves the scale
// large enough.
func newReleaseBar(p workflow.ScalePicture, room int) releaseBar {
	s := releaseBar{p: p, width: room, room: room}
	n := math.Round((p.High - p.Low) / p.Step)
	if !known(p.Step) || !(n >= 1 && n < float64(room)) || math.Abs(n*p.Step-(p.High-p.Low)) > scaleSlack {
		return s
	}
	even := int(n)*((room-1)/int(n)) + 1
	if float64(even) >= leastFilled*float64(room) {
		s.width = even
	}
	return s
}

// column is where a value stands; it may lie outside of the drawing.
func (s releaseBar) column(v float64) int {
	at := (v - s.p.Low) / (s.p.High - s.p.Low) * float64(s.width-1)
	return int(math.Round(bounded(at)))
}

// each calls mark for the multiples of a step that lie on the scale, if they
// are not too many to be told apart.
func (s releaseBar) each(step float64, mark func(v float64)) {
	if !known(step) || !((s.p.High-s.p.Low)/step <= float64(s.width-1)/2) {
		return
	}
	first := math.Ceil(s.p.Low/step - scaleSlack)
	for i := 0.0; (first+i)*step <= s.p.High+scaleSlack && i < float64(s.width); i++ {
		mark((first + i) * step)
	}
}

// labels are the numbers above the scale.
func (s releaseBar) labels() strip {
	line := newStrip(s.room, ' ')
	line.label(0, plainly(s.p.Low), faint)
	line.label(s.width-1, plainly(s.p.High), faint)
	s.each(1, func(v float64) { line.label(s.column(v), plainly(v), faint) })
	return line
}

// marks is the scale itself: a | at whole numbers, a + at the marks between
// them, = in the middle third.
func (s releaseBar) marks() strip {
	line := newStrip(s.room, ' ')
	line.put(0, strings.Repeat("-", s.width), faint)
	third := (s.p.High - s.p.Low) / 3
	from, to := s.column(s.p.Low+third), s.column(s.p.High-third)
	line.put(from, "["+strings.Repeat("=", max(to-from-1, 0))+"]", plain)
	s.each(s.p.Step, func(v float64) { s.mark(line, v, "+") })
	s.each(1, func(v float64) { s.mark(line, v, "|") })
	line.put(0, "|", faint)
	line.put(s.width-1, "|", faint)
	if known(s.p.Computed) {
		s.point(line, s.p.Computed, "V", here)
	}
	return line
}

// mark writes the mark of a value, but not over the ends of the middle third.
func (s releaseBar) mark(line strip, v float64, sign string) {
	c := s.column(v)
	if c >= 0 && c < s.width && line.runes[c] != '[' && line.runes[c] != ']' {
		line.put(c, sign, line.tones[c])
	}
}

// pointers are what one ski is set to, and what it was corrected to.
func (s releaseBar) pointers(ski int) strip {
	line := newStrip(s.room, ' ')
	set, corrected := s.p.Set[ski], s.p.Corrected[ski]
	if known(set) && known(corrected) {
		from, to := s.column(set), s.column(corrected)
		for c := max(min(from, to), 0); c <= min(max(from, to), s.width-1); c++ {
			line.put(c, "-", here)
		}
	}
	if known(corrected) && corrected != set {
		head := ">"
		if corrected < set {
			head = "<"
		}
		s.point(line, corrected, head, here)
	}
	if known(set) {
		_, t := setting(s.p, ski)
		s.point(line, set, "^", t)
	}
	return line
}

// point writes a sign at a value, or shows beyond which end it lies.
func (s releaseBar) point(line strip, v float64, sign string, t tone) {
	switch c := s.column(v); {
	case v < s.p.Low-scaleSlack || c < 0:
		line.put(0, beyondLow, t)
	case v > s.p.High+scaleSlack || c >= s.width:
		line.put(s.width-1, beyondTop, t)
	default:
		line.put(c, sign, t)
	}
}
