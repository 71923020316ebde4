package form

import (
	"fmt"

	"github.com/charmbracelet/bubbles/cursor"
	"github.com/charmbracelet/bubbles/key"
	"github.com/charmbracelet/bubbles/textinput"
	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/x/ansi"

	"drillstop/workflow"
)

// fullAt is where an input takes no more characters: far beyond what any field
// accepts, so that a text that is too long can be seen and shortened, and yet
// a clipboard gone wrong does not stop the screen.
const fullAt = 4 * workflow.MaxText

// typing is the input of text, numbers, lists and dates. bubbles/textinput
// edits; it is drawn here, because textinput shows no cursor on a terminal
// without colours, and cuts without saying so.
type typing struct {
	edit textinput.Model
	kind workflow.FieldKind
	anew bool // the next character begins a new value
}

func newTyping(kind workflow.FieldKind) *typing {
	edit := textinput.New()
	edit.KeyMap = typingKeys()
	// A blinking cursor would send a message, and so output, all the time.
	edit.Cursor.SetMode(cursor.CursorStatic)
	edit.Focus()
	return &typing{edit: edit, kind: kind}
}

// typingKeys are textinput's, without completion and without pasting by key:
// over a remote terminal that is the server's clipboard.
func typingKeys() textinput.KeyMap {
	off := key.NewBinding(key.WithDisabled())
	keys := textinput.DefaultKeyMap
	keys.Paste, keys.AcceptSuggestion, keys.NextSuggestion, keys.PrevSuggestion = off, off, off, off
	return keys
}

func (t *typing) press(msg tea.KeyMsg) (refused string) {
	if msg.Type == tea.KeyRunes && msg.Alt && !key.Matches(msg, t.edit.KeyMap.WordForward, t.edit.KeyMap.WordBackward, t.edit.KeyMap.DeleteWordForward) {
		return "" // a shortcut of somebody else, not a letter
	}
	// The text "end" in one message has the same name as the key; as a paste it
	// matches no key.
	msg.Paste = isText(msg)
	if t.anew && isText(msg) {
		t.edit.SetValue("")
	}
	t.anew = false
	if n := len([]rune(t.edit.Value())) + len(msg.Runes); n > fullAt {
		return fmt.Sprintf("%d characters do not fit here; nothing of it was entered.", n)
	}
	t.edit, _ = t.edit.Update(msg)
	return ""
}

func (t *typing) text() string { return t.edit.Value() }

func (t *typing) set(text string) {
	t.edit.SetValue(text)
	t.edit.CursorEnd()
}

// hold puts the hand into the input. A value that stands there already is
// replaced by what is typed next, as one measures again; words are added to,
// and the arrows or backspace edit either.
func (t *typing) hold() {
	t.edit.CursorEnd()
	t.anew = t.kind != workflow.Text
}

func (t *typing) keys() []key.Binding { return nil }

func (t *typing) room() int {
	switch t.kind {
	case workflow.Number:
		return 12
	case workflow.Date:
		return 14
	case workflow.List:
		return 22
	case workflow.Text, workflow.Choice, workflow.Seen:
	}
	return 44
}

func (t *typing) draw(l *look, width int, inHand bool) string {
	inner := max(width-2, 1)
	if !inHand {
		text := ansi.Truncate(t.edit.Value(), inner, l.cut)
		return l.Blurred.Render("[") + l.Typed.Render(text) + gap(inner-ansi.StringWidth(text)) + l.Blurred.Render("]")
	}
	before, under, after := t.around(l, inner)
	free := inner - ansi.StringWidth(before+under+after)
	return l.Focused.Render("[") + l.Typed.Render(before) + l.Cursor.Render(under) +
		l.Typed.Render(after) + gap(free) + l.Focused.Render("]")
}

// around returns what is seen of the text around the cursor, in at most width
// columns, and what stands under it: "_" at the end.
func (t *typing) around(l *look, width int) (before, under, after string) {
	runes := []rune(t.edit.Value())
	pos := t.edit.Position()
	under = "_"
	if pos < len(runes) {
		under, after = string(runes[pos]), string(runes[pos+1:])
		if l.bar {
			under, after = "|", string(runes[pos:])
		}
	}
	behind := min(ansi.StringWidth(after), width/4)
	before = lastColumns(runes[:pos], width-ansi.StringWidth(under)-behind, l.cut)
	after = ansi.Truncate(after, max(width-ansi.StringWidth(before+under), 0), l.cut)
	return before, under, after
}

// lastColumns returns the end of a text that fits into width columns, and shows
// where its beginning was cut off.
func lastColumns(runes []rune, width int, cut string) string {
	if text := string(runes); ansi.StringWidth(text) <= width {
		return text
	}
	width -= ansi.StringWidth(cut)
	from := len(runes)
	for used := 0; from > 0; from-- {
		used += ansi.StringWidth(string(runes[from-1]))
		if used > width {
			break
		}
	}
	return cut + string(runes[from:])
}
