package form

import (
	"fmt"
	"slices"
	"strings"

	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/x/ansi"

	"drillstop/workflow"
)

// seen is the input of something that must be looked at or done. It is
// confirmed by typing y, x, a space or yes, and by nothing else: Enter passes
// it by, a paste is refused, and a code that a scanner types here is kept as
// the text it is, whichever letters are in it.
type seen struct{ typed string }

// What confirms, with what is on the way to it, and what denies.
var (
	confirming = []string{"y", "x", " ", "ye", workflow.Yes}
	denying    = []string{"", "n", workflow.No}
)

func (s *seen) confirmed() bool { return slices.Contains(confirming, strings.ToLower(s.typed)) }
func (s *seen) denied() bool    { return slices.Contains(denying, strings.ToLower(s.typed)) }

func (s *seen) press(msg tea.KeyMsg) (refused string) {
	switch {
	case rubs(msg):
		s.typed = ""
	case msg.Paste:
		return "A paste confirms nothing: look, then press y."
	case isText(msg):
		return s.write(visible(msg.Runes))
	}
	return ""
}

// write adds what was typed. A single key that says the same again changes
// nothing, and one that says the opposite begins anew; all else is added, and
// what comes of it confirms only if it is one of the confirming texts.
func (s *seen) write(typed string) (refused string) {
	lower := strings.ToLower(typed)
	yes, no := slices.Contains(confirming, lower), slices.Contains(denying, lower)
	switch {
	case len(s.typed)+len(typed) > fullAt:
		return fmt.Sprintf("%d characters do not fit here; nothing of it was entered.", len(s.typed)+len(typed))
	case s.confirmed() && yes:
	case s.confirmed() && no, s.denied() && yes:
		s.typed = typed
	default:
		s.typed += typed
	}
	return ""
}

func (s *seen) text() string {
	switch {
	case s.confirmed():
		return workflow.Yes
	case s.denied():
		return ""
	}
	return s.typed
}

func (s *seen) set(text string) { s.typed = visible([]rune(text)) }

func (s *seen) hold() {}

func (s *seen) room() int { return 16 }

func (s *seen) draw(l *look, width int, inHand bool) string {
	edge, cursor := l.Blurred, ""
	if inHand {
		edge, cursor = l.Focused, l.Cursor.Render("_")
	}
	box, word := " ", ""
	switch {
	case s.confirmed():
		box, word = l.Typed.Render("x"), l.Typed.Render(" seen")+cursor
	case s.denied():
		if inHand {
			box = cursor
		}
	default:
		word = " " + l.Typed.Render(lastColumns([]rune(s.typed), max(width-5, 1), l.cut)) + cursor
	}
	shown := edge.Render("[") + box + edge.Render("]") + word
	return ansi.Truncate(shown, width, "") + gap(width-ansi.StringWidth(shown))
}

func (s *seen) keys() []key.Binding {
	if s.confirmed() {
		return []key.Binding{key.NewBinding(key.WithKeys("backspace", "n"), key.WithHelp("n", "not seen"))}
	}
	return []key.Binding{key.NewBinding(key.WithKeys("y", "x", " "), key.WithHelp("y", "seen"))}
}
