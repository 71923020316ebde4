package tui

import (
	"fmt"

	tea "github.com/charmbracelet/bubbletea"
)

// scroll is where a long text is being read.
type scroll struct{ from, height, of int }

// key moves through the text; false if the key is none for that.
func (s *scroll) key(msg tea.KeyMsg) bool {
	switch {
	case is(msg, Keys.Up):
		s.from--
	case is(msg, Keys.Down):
		s.from++
	case is(msg, Keys.PageUp):
		s.from -= s.height - 1
	case is(msg, Keys.PageDown):
		s.from += s.height - 1
	case is(msg, Keys.Home):
		s.from = 0
	case is(msg, Keys.End):
		s.from = s.of
	default:
		return false
	}
	return true
}

// window returns the lines to show in height lines, the last of which says how
// much is hidden and how to get on.
func (s *scroll) window(lines []string, height int, leave string) []string {
	s.height, s.of = max(height-1, 1), len(lines)
	s.from = max(min(s.from, s.of-s.height), 0)
	to := min(s.from+s.height, s.of)
	shown := append([]string{}, lines[s.from:to]...)
	for len(shown) < s.height {
		shown = append(shown, "")
	}
	last := "   " + leave
	if hidden := s.of - to; hidden > 0 || s.from > 0 {
		last = fmt.Sprintf("   %d above, %d below: up/down, pgup/pgdn; %s", s.from, hidden, leave)
	}
	return append(shown, last)
}
