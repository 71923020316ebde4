package form

import (
	"strings"

	"github.com/charmbracelet/x/ansi"

	"drillstop/workflow"
)

// markWidth is what stands before every label: "!" for a fault, ">" for the
// focus, and a blank.
const markWidth = 3

// Widths at which the layout changes, in columns.
const (
	stackedBelow = 58 // inputs go under their label
	wideFrom     = 120
)

// geometry is where things stand at one width.
type geometry struct {
	stacked bool
	label   int // columns of a label
	single  int // columns for one input
	cell    int // columns for one of two inputs
}

func measure(width int) geometry {
	if width < stackedBelow {
		room := max(width-markWidth, 1)
		return geometry{stacked: true, label: room, single: room, cell: max(room-sideWidth, 1)}
	}
	g := geometry{label: 30}
	switch {
	case width < 72:
		g.label = width*2/5 - 1
	case width >= wideFrom:
		g.label = 36
	}
	room := width - g.inputs()
	g.single = room
	g.cell = min((room-2)/2, 28)
	return g
}

// inputs is the column where the first input begins.
func (g geometry) inputs() int { return markWidth + g.label + 1 }

// right is the column where the input of the right ski begins.
func (g geometry) right() int { return g.inputs() + g.cell + 2 }

// sideWidth is the name of a side before its input, where they are stacked.
const sideWidth = len("right ")

// lines draws the row.
func (r *row) lines() []string {
	labels := r.labels()
	if !r.geometry.stacked {
		labels[0] += r.inputs(labels[0])
		return labels
	}
	for i, c := range r.cells {
		if len(r.cells) == 1 {
			labels = append(labels, gap(markWidth)+r.input(i))
			continue
		}
		side := string(c.side) + gap(sideWidth-len(c.side))
		labels = append(labels, gap(markWidth)+r.look.Head.Render(side)+r.input(i))
	}
	return labels
}

// inputLine is the line of the row on which the input in hand stands.
func (r *row) inputLine() int {
	if !r.geometry.stacked {
		return 0
	}
	return len(r.labels()) + r.at
}

// labels draws the mark and the label, on as many lines as it takes.
func (r *row) labels() []string {
	text, unit, style := oneLine(r.field.Label), "", r.look.Label
	if r.field.Unit != "" {
		unit = ", " + string(r.field.Unit)
	}
	if r.focused {
		style = r.look.Focused
	}
	lines := wrapped(text+unit, r.geometry.label)
	for i, line := range lines {
		name := line
		if tail := strings.TrimLeft(unit, ", "); i == len(lines)-1 && tail != "" {
			name = strings.TrimSuffix(line, tail)
		}
		mark := gap(markWidth)
		if i == 0 {
			mark = r.mark()
		}
		lines[i] = mark + style.Render(name) + r.look.Unit.Render(line[len(name):])
	}
	return lines
}

func (r *row) mark() string {
	wrong, here := " ", " "
	if r.Error() != nil {
		wrong = r.look.Fault.Render("!")
	}
	if r.focused {
		here = r.look.Focused.Render(">")
	}
	return wrong + here + " "
}

// inputs draws what stands to the right of the label.
func (r *row) inputs(label string) string {
	line := gap(r.geometry.inputs() - ansi.StringWidth(label))
	if len(r.cells) == 1 {
		return line + r.input(0)
	}
	left := r.input(0)
	line += left + gap(r.geometry.cell-ansi.StringWidth(left)+2)
	return line + r.input(1)
}

// input draws one input, its mark and what is suggested for it, in at most room
// columns. A suggestion that does not fit is told on the hint line instead.
func (r *row) input(at int) string {
	c := r.cells[at]
	text := c.input.draw(r.look, r.box(c), r.focused && at == r.at)
	mark := " "
	if c.fault != "" {
		mark = r.look.Fault.Render("!")
	}
	if c.suggest != "" && r.fits(c) {
		return text + mark + r.look.Suggest.Render("("+c.suggest+")")
	}
	return text + mark
}

// room is how many columns each input of the row has.
func (r *row) room() int {
	if len(r.cells) == 1 {
		return r.geometry.single
	}
	return r.geometry.cell
}

// box is how many of them the input itself takes; one is for its mark.
func (r *row) box(c *cell) int { return max(min(c.input.room(), r.room()-1), 3) }

// fits reports whether what is suggested fits beside the input.
func (r *row) fits(c *cell) bool {
	return r.box(c)+len("!()")+ansi.StringWidth(c.suggest) <= r.room()
}

// head names the two columns.
func (m *Model) head() string {
	g := measure(m.width)
	left := gap(g.inputs()) + string(workflow.Left)
	return m.look.Head.Render(left + gap(g.right()-len(left)) + string(workflow.Right))
}

// hasColumns reports whether any field is asked for both skis in two columns.
func (m *Model) hasColumns() bool {
	for _, r := range m.rows {
		if r.field.PerSki && !r.geometry.stacked {
			return true
		}
	}
	return false
}
