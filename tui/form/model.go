// Package form turns the declaration of a step into a form, and what is typed
// into it back into answers. It decides nothing: whether a value is taken is
// said by workflow.Field.Accept and, after Submitted, by whoever answers the
// job and hands the refusal back through SetFaults.
//
// It is the only place that knows huh. A step is one huh.Form with one
// huh.Group; each field is a huh.Field of our own (row), which is drawn here
// and typed into through bubbles/textinput. From huh come the order of the
// fields, their focus and their errors. Not from huh come:
//
//   - moving on. huh moves the focus by a command, so that what follows Enter
//     in a burst from a barcode scanner lands in the field before it. Here the
//     focus has moved when Update returns.
//   - scrolling. huh's viewport puts the focused field at its top and cuts what
//     does not fit without a word.
//   - its selects and confirms, which enter a value by themselves.
package form

import (
	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/huh"

	"drillstop/workflow"
)

// Options are what a form is built from.
type Options struct {
	Step workflow.Step
	Job  workflow.Job // decides which fields are asked, and what is suggested
	Shop workflow.Shop
	// Draft is what was typed or answered before, by workflow.Key. Keys that
	// this job does not ask are dropped.
	Draft         workflow.Answers
	Width, Height int // of the form alone, in columns and lines
	Styles        Styles
	ASCII         bool   // draw with ASCII characters only
	Focus         string // the workflow.Key to begin at; else the first
}

// Submitted is sent when everything typed is to be kept: Enter on the last
// input, or the keep key anywhere. Typed is raw; it may well be refused.
type Submitted struct {
	Step  workflow.StepID
	Typed workflow.Answers
	ByKey bool // by the keep key: nobody presses that by the way
}

// Back is sent when the hand goes back from the first input.
type Back struct{ Step workflow.StepID }

// Left is sent when the hand has left an input, so that a draft can be kept.
// It carries no text: ask Typed, which is never late.
type Left struct {
	Step workflow.StepID
	Key  string
}

// Model is a form. It is changed in place by Update, SetFaults and Resize.
type Model struct {
	step          workflow.StepID
	rows          []*row
	form          *huh.Form // nil where the step asks nothing
	keys          keyMap
	look          *look
	width, height int
	reserve       int      // lines that the longest hint takes at this width
	stray         []string // faults on fields that this form does not have
	returned      bool     // the last key was a carriage return
}

// New builds the form of a step, with what was typed before in it.
func New(o Options) *Model {
	m := &Model{
		step: o.Step.ID, keys: newKeyMap(), look: newLook(o.Styles, o.ASCII),
		width: o.Width, height: o.Height,
	}
	for _, f := range o.Step.Asked(o.Job) {
		m.rows = append(m.rows, newRow(f, o, m.look))
	}
	if len(m.rows) > 0 {
		m.form = m.build(o.Styles)
	}
	m.Resize(o.Width, o.Height)
	m.focus(o.Focus)
	return m
}

// build puts the rows into huh's form. The form gets its theme at once, since
// without one it makes a theme anew at every access, and no key that ends it.
func (m *Model) build(s Styles) *huh.Form {
	fields := make([]huh.Field, len(m.rows))
	for i, r := range m.rows {
		fields[i] = r
	}
	quiet := huh.NewDefaultKeyMap()
	quiet.Quit.SetEnabled(false)
	group := huh.NewGroup(fields...).WithShowHelp(false).WithShowErrors(false)
	form := huh.NewForm(group).WithTheme(theme(s)).WithKeyMap(quiet)
	// Init focuses the first field now; the command that it returns would ask
	// for the window size, which is the root's to know.
	form.Init()
	return form
}

// Init returns no command: the form has its size and its focus since New.
func (m *Model) Init() tea.Cmd { return nil }

// Update takes keys; it ignores every other message. When it returns, what was
// typed is in its field and the focus is where the next key belongs.
func (m *Model) Update(msg tea.Msg) (*Model, tea.Cmd) {
	if press, ok := msg.(tea.KeyMsg); ok {
		return m, m.press(press)
	}
	return m, nil
}

// Typed returns what is typed so far, by workflow.Key: raw text, "yes" for a
// confirmed Seen field, the value of a chosen option. Empty inputs are left out.
func (m *Model) Typed() workflow.Answers {
	typed := workflow.Answers{}
	for _, r := range m.rows {
		for _, c := range r.cells {
			if text := c.input.text(); !blank(text) {
				typed[r.keyOf(c)] = text
			}
		}
	}
	return typed
}

// SetFaults shows faults on the fields where their values were typed and goes
// to the first of them. It replaces all faults shown before; a fault on a field
// that this form does not have is said whichever field has the focus. A fault
// stays until its value is typed anew.
func (m *Model) SetFaults(faults []workflow.FieldFault) {
	m.stray = nil
	for _, r := range m.rows {
		r.clearFaults()
	}
	for _, f := range faults {
		sentence := "This value was not taken."
		if f.Fault != nil {
			sentence = oneLine(f.Fault.Sentence)
		}
		if !m.place(f, sentence) {
			m.stray = append(m.stray, sentence)
		}
	}
	for _, r := range m.rows {
		for at, c := range r.cells {
			if c.fault != "" {
				m.goTo(r, at)
				return
			}
		}
	}
}

func (m *Model) place(f workflow.FieldFault, sentence string) bool {
	for _, r := range m.rows {
		if r.field.ID == f.Field {
			r.setFault(f.Side, sentence)
			return true
		}
	}
	return false
}

// Resize gives the form another size; it grows back as well as it shrinks.
func (m *Model) Resize(width, height int) {
	m.width, m.height = width, height
	if m.form != nil {
		m.form.WithWidth(max(width, 1))
	}
	m.reserve = m.longestHint()
}

// FocusedKey returns the workflow.Key of the input that has the focus, "" where
// the step asks nothing.
func (m *Model) FocusedKey() string {
	if r := m.focused(); r != nil {
		return r.keyOf(r.cell())
	}
	return ""
}

// FocusedField returns the field that has the focus, the zero Field where the
// step asks nothing.
func (m *Model) FocusedField() workflow.Field {
	if r := m.focused(); r != nil {
		return r.field
	}
	return workflow.Field{}
}

// Capturing reports whether letters belong to the form. They do in every field:
// choices are typed too, and a code scanned into a Seen field must show up
// there instead of acting elsewhere.
func (m *Model) Capturing() bool { return m.form != nil }

func (m *Model) focused() *row {
	if m.form == nil {
		return nil
	}
	r, _ := m.form.GetFocusedField().(*row)
	return r
}
