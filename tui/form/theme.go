package form

import (
	"github.com/charmbracelet/huh"
	"github.com/charmbracelet/lipgloss"
)

// Styles are how a form looks. They come from the theme of the session, built
// on its own renderer; none of them may change the size of what it renders.
type Styles struct {
	Label   lipgloss.Style // the label of a row
	Focused lipgloss.Style // label and brackets of what has the focus
	Blurred lipgloss.Style // the other brackets
	Unit    lipgloss.Style // the unit behind a label
	Typed   lipgloss.Style // what is typed or chosen
	Cursor  lipgloss.Style // the place where the next character goes
	Suggest lipgloss.Style // what the program expects, and "(choose)"
	Chosen  lipgloss.Style // the chosen one in the list of options
	Hint    lipgloss.Style // the reserved line, while nothing is wrong
	Fault   lipgloss.Style // the reserved line and the marks, when something is
	Head    lipgloss.Style // "left   right"
	More    lipgloss.Style // "more below, 3"
}

// look is what all parts of one form draw with.
type look struct {
	Styles
	cut string // stands where a text was cut
	// bar: the cursor style shows nothing on this terminal, so that a cursor
	// within a text is drawn as a character of its own.
	bar bool
}

func newLook(s Styles, ascii bool) *look {
	l := &look{Styles: s, cut: "…", bar: s.Cursor.Render("x") == "x"}
	if ascii {
		l.cut = ".."
	}
	return l
}

// theme is what huh needs one for: the rows draw themselves, since huh has no
// names for a unit, a suggestion or a row's mark.
func theme(s Styles) *huh.Theme {
	t := &huh.Theme{FieldSeparator: s.Label.SetString("\n")}
	t.Form.Base = s.Label
	t.Group.Base = s.Label
	t.Focused.ErrorMessage, t.Blurred.ErrorMessage = s.Fault, s.Fault
	return t
}
