package form

import (
	"strings"

	"drillstop/calc/quantity"
	"drillstop/workflow"
)

// note draws the reserved lines, at most limit of them: what is wrong with the
// value in hand, or else what to type there; for a choice its options as well.
func (m *Model) note(limit int) []string {
	r := m.focused()
	options, chosen := r.options(m.width)
	said := m.said(r)
	if len(options) == 0 {
		return m.cut(said, limit)
	}
	if room := limit - 1; len(options) > room {
		// A wall of options: show the ones around the chosen.
		room = max(room, 1)
		from := min(max(chosen-room/2, 0), len(options)-room)
		options = options[from : from+room]
	}
	if len(options) == limit {
		return options
	}
	return append(options, m.cut(said, limit-len(options))...)
}

// said is the sentence below the rows, in lines.
func (m *Model) said(r *row) []string {
	wrong := r.refused
	if wrong == "" {
		wrong = r.cell().fault
	}
	if wrong == "" && len(m.stray) > 0 {
		wrong = strings.Join(m.stray, " ")
	}
	if wrong == "" {
		wrong = m.behind(r)
	}
	style, text := m.look.Hint, r.hint()
	if wrong != "" {
		style, text = m.look.Fault, "! "+wrong
	}
	lines := wrapped(text, m.width-markWidth)
	for i, line := range lines {
		if line != "" {
			lines[i] = gap(markWidth) + style.Render(line)
		}
	}
	return lines
}

// behind is what is wrong with a value that the hand has left: said at once,
// while the eye is still near, and named since it stands elsewhere.
func (m *Model) behind(here *row) string {
	for _, r := range m.rows {
		for _, c := range r.cells {
			if c.fault != "" && (r != here || c != r.cell()) {
				if strings.HasPrefix(c.fault, oneLine(r.field.Label)) {
					return c.fault
				}
				return oneLine(r.field.Label) + ": " + c.fault
			}
		}
	}
	return ""
}

// cut keeps the first lines and shows where it cut.
func (m *Model) cut(lines []string, limit int) []string {
	if len(lines) <= limit {
		return lines
	}
	lines = lines[:limit]
	lines[limit-1] += m.look.cut
	return lines
}

// options are the lines that show what can be chosen, none for other fields.
func (r *row) options(width int) (lines []string, chosen int) {
	c, ok := r.cell().input.(*choice)
	if !ok || len(c.options) == 0 {
		return nil, 0
	}
	lines, chosen = c.list(r.look, max(width-markWidth+1, 1))
	for i := range lines {
		lines[i] = gap(markWidth-1) + lines[i]
	}
	return lines, chosen
}

// hint is what to type into the input in hand.
func (r *row) hint() string {
	var parts []string
	say := func(part string) {
		if part != "" {
			parts = append(parts, part)
		}
	}
	say(oneLine(r.field.Hint))
	say(r.howMany())
	say(r.span())
	if c := r.cell(); c.suggest != "" && !r.fits(c) {
		say("(" + c.suggest + ")")
	}
	switch r.field.Kind {
	case workflow.Seen:
		say("y when seen, n takes it back")
	case workflow.Choice:
		say("type it or left/right")
	case workflow.Text, workflow.Number, workflow.List, workflow.Date:
	}
	if r.canCopy() {
		say("= same as left")
	}
	if r.field.Optional {
		say("optional")
	}
	return strings.Join(parts, "; ")
}

// span is the range of a number: "3 to 5 mm".
func (r *row) span() string {
	f := r.field
	if f.Kind != workflow.Number && f.Kind != workflow.List || f.Min == 0 && f.Max == 0 {
		return ""
	}
	return quantity.Print(f.Min, quantity.Plain) + " to " + quantity.Print(f.Max, f.Unit)
}

func (r *row) howMany() string {
	switch {
	case r.field.Kind != workflow.List:
		return ""
	case r.field.Count == 0:
		return "one or more numbers"
	case r.field.Count == 1:
		return "one number"
	}
	return quantity.Print(float64(r.field.Count), quantity.Plain) + " numbers"
}

// longestHint is how many lines the longest hint takes at this width, so that
// the rows stay where they are while the focus moves from field to field.
func (m *Model) longestHint() int {
	longest := 1
	for _, r := range m.rows {
		options, _ := r.options(m.width)
		longest = max(longest, len(options)+len(wrapped(r.hint(), m.width-markWidth)))
	}
	return longest
}
