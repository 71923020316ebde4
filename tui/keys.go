package tui

import (
	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"
)

// Keys are all keys of the program outside of forms. The footer and the help
// are made from these same bindings. Letters act only while no text is typed;
// whatever must work then has a function or control key as well.
var Keys = struct {
	Quit, Help, Back, Enter                   key.Binding
	Up, Down, PageUp, PageDown, Home, End     key.Binding
	Move, Turn                                key.Binding // both ways of the four above, for the help
	New, Filter, Finished, Void               key.Binding
	Why, Later, Card, KeepCard, Forget, Waive key.Binding
	Record, Present, Again, Pictures          key.Binding
	Map, ShiftBack, ShiftOn, LeapBack, LeapOn key.Binding
	Clear, Other                              key.Binding
	Shift, Leap                               key.Binding // both ways of the four above, for the help
}{
	Quit:  bind("ctrl+c", "quit", "ctrl+c"),
	Help:  bind("f1 ?", "help", "f1", "?"),
	Back:  bind("esc", "back", "esc"),
	Enter: bind("enter", "open", "enter"),

	Up:       bind("up", "up", "up"),
	Down:     bind("down", "down", "down"),
	PageUp:   bind("pgup", "page up", "pgup"),
	PageDown: bind("pgdn", "page down", "pgdown"),
	Home:     bind("home", "first", "home"),
	End:      bind("end", "last", "end"),
	Move:     bind("up/down", "choose"),
	Turn:     bind("pgup/pgdn", "page"),

	New:      bind("n", "new job", "n"),
	Filter:   bind("/", "find", "/"),
	Finished: bind("v", "finished", "v"),
	Void:     bind("x", "void", "x"),

	Why:      bind("f2", "why", "f2", "ctrl+y"),
	Later:    bind("ctrl+s", "leave for later", "ctrl+s"),
	Card:     bind("f5", "card", "f5", "ctrl+o"),
	KeepCard: bind("f6", "keep as card", "f6", "ctrl+p"),
	Forget:   bind("f7", "forget typed", "f7", "ctrl+r"),
	Waive:    bind("f8", "waive stop", "f8", "ctrl+g"),
	Record:   bind("r", "record", "r"),
	Present:  bind("enter", "open step", "enter"),
	Again:    bind("a", "again", "a"),
	Pictures: bind("f4", "picture", "f4", "ctrl+l"),

	Map:       bind("f3", "map of holes", "f3", "ctrl+t"),
	ShiftBack: bind("left", "1 mm back", "left"),
	ShiftOn:   bind("right", "1 mm on", "right"),
	LeapBack:  bind("down", "5 mm back", "down", "shift+left"),
	LeapOn:    bind("up", "5 mm on", "up", "shift+right"),
	Clear:     bind("c", "clear shift", "c"),
	Other:     bind("s", "other ski", "s"),
	Shift:     bind("left/right", "1 mm"),
	Leap:      bind("up/down", "5 mm"),
}

func bind(label, help string, keys ...string) key.Binding {
	return key.NewBinding(key.WithKeys(keys...), key.WithHelp(label, help))
}

// labelled returns the binding under another word for what it does here.
func labelled(b key.Binding, help string) key.Binding {
	b.SetHelp(b.Help().Key, help)
	return b
}

// is reports whether a key message is one of a binding's keys. Text that came
// in one read is one message, named like the text: a scanned "enter" or "f2" is
// text and no key.
func is(msg tea.KeyMsg, b key.Binding) bool {
	if msg.Type == tea.KeyRunes && (len(msg.Runes) > 1 || msg.Paste) {
		return false
	}
	return key.Matches(msg, b)
}
