package form

import "github.com/charmbracelet/bubbles/key"

// keyMap are the keys of the form itself; each input adds its own.
type keyMap struct {
	enter, lineFeed, next, down, prev, up, keep, interrupt key.Binding
}

func newKeyMap() keyMap {
	return keyMap{
		enter:     key.NewBinding(key.WithKeys("enter"), key.WithHelp("enter", "next")),
		lineFeed:  key.NewBinding(key.WithKeys("ctrl+j"), key.WithHelp("enter", "next")),
		next:      key.NewBinding(key.WithKeys("tab"), key.WithHelp("tab", "next")),
		down:      key.NewBinding(key.WithKeys("down")),
		prev:      key.NewBinding(key.WithKeys("shift+tab"), key.WithHelp("shift+tab", "back")),
		up:        key.NewBinding(key.WithKeys("up")),
		keep:      key.NewBinding(key.WithKeys("ctrl+d"), key.WithHelp("ctrl+d", "keep all")),
		interrupt: key.NewBinding(key.WithKeys("ctrl+c")),
	}
}

// KeyBinds returns what keys do where the focus is, most useful first, for the
// footer and the help.
func (m *Model) KeyBinds() []key.Binding {
	enter := m.keys.enter
	r := m.focused()
	if r == nil {
		enter.SetHelp("enter", "keep")
		return []key.Binding{enter, m.keys.prev}
	}
	if r.position.IsLast() && r.onLastCell() {
		enter.SetHelp("enter", "keep all")
	}
	return append([]key.Binding{enter, m.keys.prev, m.keys.keep}, r.KeyBinds()...)
}
