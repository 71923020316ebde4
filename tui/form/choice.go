package form

import (
	"fmt"
	"strconv"
	"strings"

	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/x/ansi"

	"drillstop/workflow"
)

// unchosen stands in a choice until something is chosen; nothing ever is by
// itself.
const unchosen = "(choose)"

// choice is the input of a field with options. It is typed like a text: the
// letters typed since the hand came stand for an option as long as they name
// just one. So a code that a scanner types here stays visible as what it is,
// instead of its last character choosing something.
type choice struct {
	options []workflow.Option
	chosen  int // index of the option, or none
	typed   string
	anew    bool // the next letter begins a new text
}

const none = -1

func newChoice(options []workflow.Option) *choice {
	return &choice{options: options, chosen: none}
}

func (c *choice) press(msg tea.KeyMsg) (refused string) {
	switch {
	case msg.Type == tea.KeyLeft:
		c.step(-1)
	case msg.Type == tea.KeyRight:
		c.step(+1)
	case rubs(msg):
		c.clear()
	case isText(msg):
		return c.write(msg.Runes)
	}
	return ""
}

// step goes to the next or the previous option and stays at the ends; from
// nothing it begins at the first or the last.
func (c *choice) step(by int) {
	last := len(c.options) - 1
	switch {
	case last < 0:
		return
	case c.chosen == none && by < 0:
		c.chosen = last
	case c.chosen == none:
		c.chosen = 0
	default:
		c.chosen = min(max(c.chosen+by, 0), last)
	}
	c.typed, c.anew = "", true
}

func (c *choice) clear() { c.chosen, c.typed, c.anew = none, "", false }

func (c *choice) write(runes []rune) (refused string) {
	if c.anew {
		c.clear()
	}
	if n := len([]rune(c.typed)) + len(runes); n > fullAt {
		return fmt.Sprintf("%d characters do not fit here; nothing of it was entered.", n)
	}
	c.typed = strings.TrimLeft(c.typed+visible(runes), " ")
	c.chosen = c.find(c.typed)
	return ""
}

// find returns the option that a text stands for: as the workflow reads it, or
// its number from 1; else none.
func (c *choice) find(text string) int {
	text = strings.TrimSpace(text)
	if at := workflow.FindOption(c.options, text); at >= 0 {
		return at
	}
	if n, err := strconv.Atoi(text); err == nil && n >= 1 && n <= len(c.options) && text == strconv.Itoa(n) {
		return n - 1
	}
	return none
}

func (c *choice) text() string {
	if c.chosen != none {
		return c.options[c.chosen].Value
	}
	return c.typed
}

func (c *choice) set(text string) {
	c.typed = visible([]rune(text))
	c.chosen = c.find(c.typed)
	c.anew = true
}

func (c *choice) hold() { c.anew = true }

// label is what the eye reads of an option.
func label(o workflow.Option) string {
	if o.Label != "" {
		return oneLine(o.Label)
	}
	return oneLine(o.Value)
}

func (c *choice) room() int {
	widest := ansi.StringWidth(unchosen)
	for _, o := range c.options {
		widest = max(widest, ansi.StringWidth(label(o)))
	}
	return widest + len("< ") + len("_ >")
}

func (c *choice) draw(l *look, width int, inHand bool) string {
	edge, tail := l.Blurred, " "
	if inHand {
		edge, tail = l.Focused, "_"
	}
	inner := max(width-len("< ")-len("_ >"), 1)
	shown := l.Suggest.Render(ansi.Truncate(unchosen, inner, l.cut))
	switch {
	case c.chosen != none:
		shown = l.Typed.Render(ansi.Truncate(label(c.options[c.chosen]), inner, l.cut))
	case c.typed != "":
		shown = l.Typed.Render(lastColumns([]rune(c.typed), inner, l.cut))
	}
	if inHand {
		tail = l.Cursor.Render(tail)
	}
	return edge.Render("<") + " " + shown + tail + gap(inner-ansi.StringWidth(shown)) + " " + edge.Render(">")
}

func (c *choice) keys() []key.Binding {
	return []key.Binding{key.NewBinding(key.WithKeys("left", "right"), key.WithHelp("left/right", "choose"))}
}

// list shows all options in lines of at most width columns, the chosen one in
// brackets, which are blanks around the others so that nothing moves.
func (c *choice) list(l *look, width int) (lines []string, chosen int) {
	line, used := "", 0
	for i, o := range c.options {
		name := ansi.Truncate(label(o), max(width-2, 1), l.cut)
		w := ansi.StringWidth(name) + 2
		if used > 0 && used+w > width {
			lines, line, used = append(lines, line), "", 0
		}
		if i == c.chosen {
			line += l.Chosen.Render("[" + name + "]")
			chosen = len(lines)
		} else {
			line += l.Hint.Render(" " + name + " ")
		}
		used += w
	}
	return append(lines, line), chosen
}
