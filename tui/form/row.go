package form

import (
	"errors"
	"io"
	"strings"

	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/huh"

	"drillstop/workflow"
)

// errAlone is returned where huh would run a field outside of its form.
var errAlone = errors.New("form: a row is typed into within its form only")

// row is one field of a step as a field of huh: its label and one input, or two
// for the left and the right ski.
type row struct {
	field    workflow.Field
	shop     workflow.Shop
	look     *look
	cells    []*cell
	at       int // the cell in hand
	focused  bool
	refused  string // why the last key was not taken
	geometry geometry
	position huh.FieldPosition
	drawn    string // the view, "" when something changed since
}

// cell is one input of a row.
type cell struct {
	side    workflow.Side
	input   input
	suggest string
	fault   string // sentence of what is wrong with it
	edited  bool   // since it was last judged
}

// input is where the text of one answer is typed.
type input interface {
	// press takes a key; a sentence tells that it was not taken, and why.
	press(tea.KeyMsg) (refused string)
	// text is what is typed, or the value that it stands for.
	text() string
	set(text string)
	// hold tells the input that the hand came to it.
	hold()
	// draw shows the input in exactly width columns.
	draw(l *look, width int, inHand bool) string
	// room is how many columns it would like to have.
	room() int
	keys() []key.Binding
}

func newRow(f workflow.Field, o Options, l *look) *row {
	r := &row{field: f, shop: o.Shop, look: l, geometry: measure(o.Width)}
	sides := []workflow.Side{workflow.Both}
	if f.PerSki {
		sides = workflow.Sides[:]
	}
	for _, side := range sides {
		c := &cell{side: side, input: newInput(f)}
		c.input.set(o.Draft[workflow.Key(f.ID, side)])
		if f.Suggest != nil {
			c.suggest = oneLine(f.Suggest(o.Shop, o.Job, side))
		}
		c.edited = true
		r.judge(c)
		r.cells = append(r.cells, c)
	}
	return r
}

func newInput(f workflow.Field) input {
	switch f.Kind {
	case workflow.Choice:
		return newChoice(f.Options)
	case workflow.Seen:
		return &seen{}
	case workflow.Text, workflow.Number, workflow.List, workflow.Date:
	}
	return newTyping(f.Kind)
}

func (r *row) keyOf(c *cell) string { return workflow.Key(r.field.ID, c.side) }
func (r *row) cell() *cell          { return r.cells[r.at] }
func (r *row) onLastCell() bool     { return r.at == len(r.cells)-1 }

// hold takes another cell in hand.
func (r *row) hold(at int) {
	r.at = at
	r.refused = ""
	r.cell().input.hold()
	r.touch()
}

// judge asks the field what it says of a value that changed since it was last
// asked. An empty input is no fault before the step is submitted.
func (r *row) judge(c *cell) {
	if !c.edited {
		return
	}
	c.edited, c.fault = false, ""
	if text := c.input.text(); !blank(text) {
		if _, err := r.field.Accept(r.shop, text); err != nil {
			c.fault = oneLine(err.Error())
		}
	}
	r.touch()
}

func (r *row) clearFaults() {
	for _, c := range r.cells {
		c.fault, c.edited = "", false
	}
	r.touch()
}

// setFault puts a fault on the input of that side, or on the first one.
func (r *row) setFault(side workflow.Side, sentence string) {
	on := r.cells[0]
	for _, c := range r.cells {
		if c.side == side {
			on = c
		}
	}
	on.fault = sentence
	r.touch()
}

// press gives a key to the input in hand.
func (r *row) press(msg tea.KeyMsg) {
	c := r.cell()
	before := c.input.text()
	if r.same(msg) {
		r.refused = r.copyLeft()
	} else {
		r.refused = c.input.press(msg)
	}
	if c.input.text() != before {
		c.edited, c.fault = true, ""
	}
	r.touch()
}

// sameKey typed into an input of the right ski copies the left one: still an own
// act for the right ski. Words may contain it and are copied into an empty input
// only; what must be looked at cannot be copied.
const sameKey = "="

func (r *row) canCopy() bool {
	words := r.field.Kind == workflow.Text && r.cell().input.text() != ""
	return r.field.PerSki && r.at > 0 && !r.field.ReadBack && r.field.Kind != workflow.Seen && !words
}

func (r *row) same(msg tea.KeyMsg) bool { return msg.String() == sameKey && r.canCopy() }

func (r *row) copyLeft() (refused string) {
	left := r.cells[0].input.text()
	if blank(left) {
		return "There is nothing on the left to copy."
	}
	r.cell().input.set(left)
	return ""
}

func (r *row) touch() { r.drawn = "" }

// The methods below are those of huh.Field.

// Init implements huh.Field.
func (r *row) Init() tea.Cmd { return nil }

// Update implements huh.Field. huh also sends it messages of its own, which
// mean nothing to a row.
func (r *row) Update(msg tea.Msg) (tea.Model, tea.Cmd) {
	if msg, ok := msg.(tea.KeyMsg); ok {
		r.press(msg)
	}
	return r, nil
}

// View implements huh.Field.
func (r *row) View() string {
	if r.drawn == "" {
		r.drawn = strings.Join(r.lines(), "\n")
	}
	return r.drawn
}

// Focus implements huh.Field.
func (r *row) Focus() tea.Cmd {
	r.focused = true
	r.touch()
	return nil
}

// Blur implements huh.Field.
func (r *row) Blur() tea.Cmd {
	r.focused = false
	r.touch()
	return nil
}

// Error implements huh.Field.
func (r *row) Error() error {
	for _, c := range r.cells {
		if c.fault != "" {
			return errors.New(c.fault)
		}
	}
	return nil
}

// KeyBinds implements huh.Field.
func (r *row) KeyBinds() []key.Binding {
	binds := r.cell().input.keys()
	if r.canCopy() {
		binds = append(binds, key.NewBinding(key.WithKeys(sameKey), key.WithHelp(sameKey, "same as left")))
	}
	return binds
}

// WithWidth implements huh.Field.
func (r *row) WithWidth(width int) huh.Field {
	r.geometry = measure(width)
	r.touch()
	return r
}

// WithPosition implements huh.Field.
func (r *row) WithPosition(p huh.FieldPosition) huh.Field {
	r.position = p
	return r
}

// GetKey implements huh.Field.
func (r *row) GetKey() string { return string(r.field.ID) }

// GetValue implements huh.Field. Values are read from the inputs by Typed; huh
// keeps one only for fields that were left forwards.
func (r *row) GetValue() any { return nil }

// Skip and Zoom implement huh.Field: a row is never passed over and never alone.
func (r *row) Skip() bool { return false }

// Zoom implements huh.Field.
func (r *row) Zoom() bool { return false }

// Run implements huh.Field.
func (r *row) Run() error { return errAlone }

// RunAccessible implements huh.Field.
func (r *row) RunAccessible(io.Writer, io.Reader) error { return errAlone }

// WithTheme, WithAccessible, WithKeyMap and WithHeight implement huh.Field. A
// row looks as its form does, has the keys of its form, and takes the lines
// that it needs.
func (r *row) WithTheme(*huh.Theme) huh.Field { return r }

// WithAccessible implements huh.Field.
func (r *row) WithAccessible(bool) huh.Field { return r }

// WithKeyMap implements huh.Field.
func (r *row) WithKeyMap(*huh.KeyMap) huh.Field { return r }

// WithHeight implements huh.Field.
func (r *row) WithHeight(int) huh.Field { return r }
