package tui

import (
	"github.com/charmbracelet/lipgloss"

	"drillstop/tui/form"
	"drillstop/workflow"
)

// The two colours of the program, from the terminal's own sixteen so that they
// follow the user's light or dark scheme: one for what the hand does now, one
// for stops. Everything else is weight and space.
const (
	colourHand = lipgloss.Color("6")
	colourStop = lipgloss.Color("1")
)

// Theme holds every style of the screens. It is built once per session on the
// session's own renderer.
type Theme struct {
	Plain   lipgloss.Style
	Strong  lipgloss.Style // names, numbers
	Faint   lipgloss.Style // what can be skipped
	Hand    lipgloss.Style // what the hand does now
	Stop    lipgloss.Style
	Caution lipgloss.Style
	Figure  lipgloss.Style // a computed number
	Form    form.Styles
}

// NewTheme builds the styles on a renderer.
func NewTheme(r *lipgloss.Renderer) Theme {
	plain := r.NewStyle()
	t := Theme{
		Plain:   plain,
		Strong:  plain.Bold(true),
		Faint:   plain.Faint(true),
		Hand:    plain.Foreground(colourHand).Bold(true),
		Stop:    plain.Foreground(colourStop).Bold(true),
		Caution: plain.Bold(true),
		Figure:  plain.Bold(true),
	}
	t.Form = t.formStyles()
	return t
}

// Mark returns the style in which a mark and its sentence are drawn.
func (t Theme) Mark(m workflow.Mark) lipgloss.Style {
	switch m {
	case workflow.MarkStop:
		return t.Stop
	case workflow.MarkHere:
		return t.Hand
	case workflow.MarkCaution, workflow.MarkStale, workflow.MarkWaived:
		return t.Caution
	case workflow.MarkAhead, workflow.MarkApart:
		return t.Faint
	case workflow.MarkKept:
	}
	return t.Plain
}

// formStyles are the styles of a form, from the same few.
func (t Theme) formStyles() form.Styles {
	return form.Styles{
		Label: t.Plain, Focused: t.Hand, Blurred: t.Faint, Unit: t.Faint,
		Typed: t.Strong, Cursor: t.Plain.Reverse(true), Suggest: t.Faint, Chosen: t.Hand,
		Hint: t.Faint, Fault: t.Stop, Head: t.Faint, More: t.Faint,
	}
}
