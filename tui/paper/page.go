package paper

import (
	"strings"

	"github.com/charmbracelet/x/ansi"
)

// Width is how many characters a line of paper holds.
const Width = 80

// page collects the lines of a sheet.
type page struct {
	lines []string
}

// String returns the sheet, ending with a line break.
func (p *page) String() string { return strings.Join(p.lines, "\n") + "\n" }

// gap leaves a line free, never two in a row.
func (p *page) gap() {
	if n := len(p.lines); n > 0 && p.lines[n-1] != "" {
		p.lines = append(p.lines, "")
	}
}

// cell is a text in a column that starts at a character of the line and is
// broken at a width.
type cell struct {
	at, width int
	text      string
}

// row writes cells beside each other, each broken at words over as many lines
// as it needs; nothing is cut off.
func (p *page) row(cells ...cell) {
	broken := make([][]string, len(cells))
	height := 1
	for i, c := range cells {
		broken[i] = wrap(c.text, c.width)
		height = max(height, len(broken[i]))
	}
	for y := range height {
		line := ""
		for i, c := range cells {
			if y < len(broken[i]) && broken[i][y] != "" {
				line += strings.Repeat(" ", max(0, c.at-ansi.StringWidth(line))) + strings.TrimRight(broken[i][y], " ")
			}
		}
		p.lines = append(p.lines, line)
	}
}

// wrap breaks a text at its spaces, and a word that is wider than a line where
// the line ends. What fits on one line stays as it is.
func wrap(text string, width int) []string {
	if ansi.StringWidth(text) <= width {
		return []string{text}
	}
	var lines []string
	line := ""
	for _, word := range strings.Fields(text) {
		if line != "" && ansi.StringWidth(line)+1+ansi.StringWidth(word) <= width {
			line += " " + word
			continue
		}
		if line != "" {
			lines = append(lines, line)
		}
		for line = word; ansi.StringWidth(line) > width; {
			head := ansi.Truncate(line, width, "")
			if head == "" { // a character wider than the column
				break
			}
			lines, line = append(lines, head), strings.TrimPrefix(line, head)
		}
	}
	return append(lines, line)
}

// ends writes a text at the left end of a line and one at the right end, on two
// lines if they do not fit on one.
func (p *page) ends(left, right string) {
	room := Width - ansi.StringWidth(right)
	if ansi.StringWidth(left) >= room {
		p.row(cell{0, Width, left})
		left = ""
	}
	p.lines = append(p.lines, strings.TrimRight(left+strings.Repeat(" ", max(0, room-ansi.StringWidth(left)))+right, " "))
}

// indented writes a text that keeps its indent when it is broken, behind a
// mark of its own.
func (p *page) indented(at int, mark, text string) {
	behind := at + ansi.StringWidth(mark)
	p.row(cell{at, Width - at, mark}, cell{behind, Width - behind, text})
}
