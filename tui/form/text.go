package form

import (
	"strings"
	"unicode"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/x/ansi"
)

func blank(text string) bool { return strings.TrimSpace(text) == "" }

func gap(columns int) string { return strings.Repeat(" ", max(columns, 0)) }

// visible is a text without control characters, which become blanks.
func visible(runes []rune) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsControl(r) || r == unicode.ReplacementChar {
			return ' '
		}
		return r
	}, string(runes))
}

// oneLine makes a text from elsewhere fit for one line of a screen.
func oneLine(text string) string { return strings.Join(strings.Fields(visible([]rune(text))), " ") }

// tidyPaste returns what was pasted without the space around it, control
// characters inside as blanks, and whether it ended with a line break or a tab.
func tidyPaste(runes []rune) (text string, ended bool) {
	pasted := string(runes)
	body := strings.TrimRightFunc(pasted, unicode.IsSpace)
	return strings.TrimSpace(visible([]rune(pasted))), strings.ContainsAny(pasted[len(body):], "\r\n\t")
}

// isText reports whether a key is text for the field, and no shortcut.
func isText(msg tea.KeyMsg) bool {
	return (msg.Type == tea.KeyRunes || msg.Type == tea.KeySpace) && !msg.Alt
}

// rubs reports whether a key takes back what was typed.
func rubs(msg tea.KeyMsg) bool {
	switch msg.Type {
	case tea.KeyBackspace, tea.KeyCtrlH, tea.KeyDelete, tea.KeyCtrlU:
		return true
	default:
		return false
	}
}

// wrapped breaks a text into lines of at most width columns.
func wrapped(text string, width int) []string {
	return strings.Split(ansi.Wrap(text, max(width, 1), ""), "\n")
}
