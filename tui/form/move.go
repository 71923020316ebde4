package form

import (
	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"
)

// press takes one key. Keys that move or end the form never reach huh; the
// interrupt is the root's and is ignored.
func (m *Model) press(msg tea.KeyMsg) tea.Cmd {
	if isText(msg) {
		m.returned = false
		return m.write(msg)
	}
	lineFeed := m.returned && key.Matches(msg, m.keys.lineFeed)
	m.returned = key.Matches(msg, m.keys.enter)
	switch {
	case lineFeed, key.Matches(msg, m.keys.interrupt):
		return nil // scanners end with CR, LF or both: one end, one step on
	case key.Matches(msg, m.keys.keep):
		return m.submit(true)
	case key.Matches(msg, m.keys.enter, m.keys.lineFeed):
		return m.next(true)
	case key.Matches(msg, m.keys.next):
		return m.next(false)
	case key.Matches(msg, m.keys.prev):
		return m.prev()
	case key.Matches(msg, m.keys.down):
		return m.row(+1)
	case key.Matches(msg, m.keys.up):
		return m.row(-1)
	case m.form != nil:
		m.form.Update(msg)
	}
	return nil
}

// write gives text to the field that has the focus. Text is never compared with
// keys: a stretch of it in one message may well read "enter" or "end".
func (m *Model) write(msg tea.KeyMsg) tea.Cmd {
	switch {
	case m.form == nil:
		return nil
	case msg.Paste:
		return m.paste(msg.Runes)
	}
	m.form.Update(msg)
	return nil
}

// next goes to the next input: the right ski after the left one, then the next
// row. Behind the last one only Enter submits; any other key stays.
func (m *Model) next(enter bool) tea.Cmd {
	r := m.focused()
	if r == nil || r.onLastCell() && r.position.IsLast() {
		if enter {
			return m.submit(false)
		}
		m.judge()
		return nil
	}
	left := m.FocusedKey()
	if r.onLastCell() {
		m.goTo(m.rows[r.position.Field+1], 0)
	} else {
		m.goTo(r, r.at+1)
	}
	return m.left(left)
}

// prev goes to the input before, and from the first one back out of the step.
func (m *Model) prev() tea.Cmd {
	r := m.focused()
	if r == nil || r.at == 0 && r.position.IsFirst() {
		m.judge()
		return func() tea.Msg { return Back{Step: m.step} }
	}
	left := m.FocusedKey()
	if r.at > 0 {
		m.goTo(r, r.at-1)
	} else {
		before := m.rows[r.position.Field-1]
		m.goTo(before, len(before.cells)-1)
	}
	return m.left(left)
}

// row goes to the row below or above, in the column of the same ski. An arrow
// that runs along a list stays in it.
func (m *Model) row(by int) tea.Cmd {
	r := m.focused()
	if r == nil {
		return nil
	}
	to := r.position.Field + by
	if to < 0 || to >= len(m.rows) {
		m.judge()
		return nil
	}
	left := m.FocusedKey()
	m.goTo(m.rows[to], min(r.at, len(m.rows[to].cells)-1))
	return m.left(left)
}

// goTo moves the focus to an input of a row, through huh and at once. The
// commands that huh returns are dropped: they come from rows, which have none,
// or from going beyond the last field, which never happens here.
func (m *Model) goTo(r *row, at int) {
	from := m.focused()
	from.judge(from.cell())
	r.hold(at)
	for from.position.Field != r.position.Field {
		if from.position.Field < r.position.Field {
			m.form.NextField()
		} else {
			m.form.PrevField()
		}
		from = m.focused()
	}
}

// focus goes to the input of that key, if there is one.
func (m *Model) focus(key string) {
	for _, r := range m.rows {
		for at, c := range r.cells {
			if r.keyOf(c) == key {
				m.goTo(r, at)
				return
			}
		}
	}
}

// paste types a whole clipboard into the field that has the focus, and only
// there: what was a line break or a tab inside becomes a space. One at the end
// goes on to the next input, as after a scan, but never submits.
func (m *Model) paste(runes []rune) tea.Cmd {
	text, ended := tidyPaste(runes)
	if text != "" {
		m.form.Update(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(text), Paste: true})
	}
	if ended && m.focused().refused == "" {
		return m.next(false)
	}
	return nil
}

func (m *Model) submit(byKey bool) tea.Cmd {
	m.judge()
	sent := Submitted{Step: m.step, Typed: m.Typed(), ByKey: byKey}
	return func() tea.Msg { return sent }
}

func (m *Model) left(key string) tea.Cmd {
	return func() tea.Msg { return Left{Step: m.step, Key: key} }
}

// judge says of the value in the focused input whether it can be read.
func (m *Model) judge() {
	if r := m.focused(); r != nil {
		r.judge(r.cell())
	}
}
