package form

import (
	"fmt"
	"strings"

	"github.com/charmbracelet/x/ansi"
)

// nothingAsked is said where a step has no fields in this job.
const nothingAsked = "Nothing is typed here; enter keeps the step."

// View draws the form in at most Height lines of at most Width columns: the
// names of the two columns, the rows around the focused one, what is above and
// below them, and the reserved lines.
func (m *Model) View() string {
	if m.width < 1 || m.height < 1 {
		return ""
	}
	lines := m.lines()
	for i, line := range lines {
		if ansi.StringWidth(line) > m.width {
			lines[i] = ansi.Truncate(line, m.width, "")
		}
	}
	return strings.Join(lines, "\n")
}

func (m *Model) lines() []string {
	if m.form == nil {
		said := append([]string{nothingAsked}, m.stray...)
		return m.cut(wrapped(strings.Join(said, " "), m.width), m.height)
	}
	drawn, total := m.drawn()
	var lines []string
	if m.hasColumns() && (m.height >= 6 || m.height > total+2) {
		lines = append(lines, m.head())
	}
	note := m.reserved(m.height - len(lines) - total - 1)
	room := m.height - len(lines) - len(note)
	if total > room {
		rows, more := m.window(drawn, room)
		lines = append(lines, rows...)
		if more != "" {
			lines = append(lines, m.look.More.Render(gap(markWidth)+more))
		}
		return append(lines, note...)
	}
	lines = append(lines, flat(drawn)...)
	if total < room {
		lines = append(lines, "")
	}
	return append(lines, note...)
}

// drawn returns the lines of each row and how many they are.
func (m *Model) drawn() (drawn [][]string, total int) {
	for _, r := range m.rows {
		lines := strings.Split(r.View(), "\n")
		drawn = append(drawn, lines)
		total += len(lines)
	}
	return drawn, total
}

// reserved are the lines below the rows: what the present sentence needs, but
// no more than the spare ones or half of the height. Where all rows are shown
// it is as many as the longest hint takes, so that nothing moves.
func (m *Model) reserved(spare int) []string {
	if m.height == 1 {
		return nil
	}
	note := m.note(max(m.height/2, spare))
	for len(note) < min(m.reserve, spare) {
		note = append(note, "")
	}
	return note
}

// window returns the lines of the rows that fit into room lines, the focused
// row among them, and what tells of the others.
func (m *Model) window(drawn [][]string, room int) (lines []string, more string) {
	at := m.focused().position.Field
	if room > 1 {
		room--
	}
	if len(drawn[at]) > room {
		lines = around(drawn[at], m.focused().inputLine(), room)
		return lines, m.more(at, len(m.rows)-at-1)
	}
	from, to := span(drawn, at, room)
	return flat(drawn[from:to]), m.more(from, len(m.rows)-to)
}

// more tells how many rows are hidden.
func (m *Model) more(above, below int) string {
	var parts []string
	if above > 0 {
		parts = append(parts, fmt.Sprintf("more above, %d", above))
	}
	if below > 0 {
		parts = append(parts, fmt.Sprintf("more below, %d", below))
	}
	if m.height < 3 {
		return ""
	}
	return strings.Join(parts, "   ")
}

// span grows from the row at in both directions, as many whole rows as fit into
// room lines.
func span(drawn [][]string, at, room int) (from, to int) {
	from, to = at, at+1
	room -= len(drawn[at])
	for grown := true; grown; {
		grown = false
		if to < len(drawn) && len(drawn[to]) <= room {
			room -= len(drawn[to])
			to++
			grown = true
		}
		if from > 0 && len(drawn[from-1]) <= room {
			room -= len(drawn[from-1])
			from--
			grown = true
		}
	}
	return from, to
}

// around returns room lines of which the line at is one.
func around(lines []string, at, room int) []string {
	from := min(max(at-room+1, 0), len(lines)-room)
	return lines[from : from+room]
}

func flat(drawn [][]string) []string {
	var lines []string
	for _, d := range drawn {
		lines = append(lines, d...)
	}
	return lines
}
