package draw

import (
	"strings"

	"drillstop/workflow"
)

// windowParts are what an indicator reads, from too little pressure to too much.
var windowParts = [...]string{workflow.WindowLittle, workflow.WindowIn, workflow.WindowMuch}

// WindowLegend names the marks of a forward-pressure window in one line.
const WindowLegend = "= in its window  . outside  o as found  ^ as left"

// Window draws the window of the forward-pressure indicator for both skis, with
// the indicator as found (o) and as left (^). One that was left outside of the
// window is marked with #, and below it stands which way to turn.
//
// Every line is exactly width columns wide. Where the width is too small for a
// drawing it is told in words; nothing is returned for a width below 1. A
// reading that is none of the three is told and not drawn.
func Window(p workflow.WindowPicture, width int, ink Ink) []string {
	says, tones := [2]string{}, [2]tone{}
	for i := range says {
		says[i], tones[i] = pressure(p, i)
	}
	c, ok := columnsOf(width)
	if !ok {
		return told(p.Title, says, tones, width, ink)
	}
	w := windowBar{p, c.bar}
	lines := []string{
		whole(width, phrase{strings.ToUpper(p.Title), plain}, phrase{"  o as found  ^ as left", faint}).text(ink),
		c.line("", w.labels(), "", faint, ink),
	}
	for i, name := range [...]string{leftName, rightName} {
		lines = append(lines, c.line(name, w.indicator(i), says[i], tones[i], ink))
		if p.Advice[i] != "" {
			lines = append(lines, whole(width, phrase{strings.Repeat(" ", c.name), faint}, phrase{p.Advice[i], here}).text(ink))
		}
	}
	return lines
}

// pressure tells what the indicator of one ski showed.
func pressure(p workflow.WindowPicture, ski int) (string, tone) {
	found, left := p.Found[ski], p.Left[ski]
	switch {
	case found == "" && left == "":
		return notRead, faint
	case left == "":
		return "found " + found, plain
	}
	text, t := left+" =", plain
	if left != workflow.WindowIn {
		text, t = left+" #", stop
	}
	if found != "" && found != left {
		text = found + " -> " + text
	}
	return text, t
}

// windowBar is the drawing of a window, in three parts.
type windowBar struct {
	p     workflow.WindowPicture
	width int
}

// edges are where the window begins and ends.
func (w windowBar) edges() (from, to int) { return w.width / 3, w.width - 1 - w.width/3 }

// middle is the column in the middle of a part.
func (w windowBar) middle(part int) int {
	from, to := w.edges()
	return [...]int{from / 2, (from + to) / 2, (to + w.width - 1) / 2}[part]
}

// labels are the names of the parts, that of the window first.
func (w windowBar) labels() strip {
	line := newStrip(w.width, ' ')
	for _, part := range [...]int{1, 0, 2} {
		line.label(w.middle(part), windowParts[part], faint)
	}
	return line
}

// indicator is the window with the indicator of one ski in it.
func (w windowBar) indicator(ski int) strip {
	line := newStrip(w.width, '.')
	from, to := w.edges()
	line.put(from, "["+strings.Repeat("=", max(to-from-1, 0))+"]", plain)
	line.put(0, "|", faint)
	line.put(w.width-1, "|", faint)
	found, left := w.place(w.p.Found[ski]), w.place(w.p.Left[ski])
	if found >= 0 {
		line.put(found, "o", plain)
	}
	if left >= 0 {
		_, t := pressure(w.p, ski)
		line.put(left, "^", t)
	}
	return line
}

// place is the column of a reading, -1 where it is none of the three.
func (w windowBar) place(reading string) int {
	for part, name := range windowParts {
		if reading == name {
			return w.middle(part)
		}
	}
	return -1
}
