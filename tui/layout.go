package tui

import (
	"errors"
	"strings"

	"github.com/charmbracelet/x/ansi"

	"drillstop/calc"
	"drillstop/workflow"
)

// widthOf is how many columns a text takes, without its colours.
func widthOf(s string) int { return ansi.StringWidth(s) }

// clip cuts a text to a width and shows that it was cut.
func clip(s string, width int) string { return ansi.Truncate(s, max(width, 0), "..") }

// pad fills a text to a width, or cuts it.
func pad(s string, width int) string {
	s = clip(s, width)
	return s + strings.Repeat(" ", max(width-widthOf(s), 0))
}

// ends puts one text at the left and one at the right of a line; the left one
// gives way.
func ends(left, right string, width int) string {
	right = clip(right, width)
	room := width - widthOf(right)
	if room < 12 {
		return pad(left, width)
	}
	return pad(clip(left, room-2), room) + right
}

// wrap breaks a text into lines of at most width columns.
func wrap(s string, width int) []string {
	return strings.Split(ansi.Wrap(s, max(width, 8), ""), "\n")
}

// marked writes a sentence behind its mark and indents what follows.
func marked(mark, text string, width int) []string {
	lines := wrap(text, width-4)
	for i := range lines {
		if i == 0 {
			lines[i] = " " + mark + " " + lines[i]
		} else {
			lines[i] = "   " + lines[i]
		}
	}
	return lines
}

// fit makes a text exactly height lines, none wider than width.
func fit(s string, width, height int) string {
	lines := strings.Split(s, "\n")
	if len(lines) > height {
		lines = lines[:max(height, 0)]
	}
	for i, line := range lines {
		if widthOf(line) > width {
			lines[i] = ansi.Truncate(line, width, "")
		}
	}
	for len(lines) < height {
		lines = append(lines, "")
	}
	return strings.Join(lines, "\n")
}

// window returns the part of lines around the line at, at most height of them.
func window(lines []string, at, height int) []string {
	if len(lines) <= height || height < 1 {
		return lines
	}
	from := min(max(at-height/2, 0), len(lines)-height)
	return lines[from : from+height]
}

// mark returns a mark as this terminal can show it.
func (s *Session) mark(m workflow.Mark) string {
	if s.ASCII && m == workflow.MarkAhead {
		return "."
	}
	return string(m)
}

// sentence is what a technician reads of an error: its own sentence, if it has
// one, or what it says.
func sentence(err error) string {
	var fault *calc.Fault
	if errors.As(err, &fault) {
		return fault.Sentence
	}
	text := err.Error()
	return strings.ToUpper(text[:1]) + text[1:]
}

// levelMark is the mark of a finding.
func levelMark(f workflow.Finding) workflow.Mark {
	switch {
	case f.Waiver != nil:
		return workflow.MarkWaived
	case f.Level == calc.Stop:
		return workflow.MarkStop
	case f.Level == calc.Caution:
		return workflow.MarkCaution
	}
	return workflow.MarkKept
}
