package form

import (
	"strings"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/lipgloss"
	"github.com/muesli/termenv"

	"drillstop/calc/quantity"
	"drillstop/workflow"
)

// everyKind is an invented step with a field of every kind, for both skis and
// for each of them.
func everyKind() workflow.Step {
	return workflow.Step{ID: "bit", Title: "bit and stop", Fields: []workflow.Field{
		{ID: "name", Label: "Name of the ski", Kind: workflow.Text, Hint: "as it stands on the topsheet"},
		{ID: "bit", Label: "Bit measured", Kind: workflow.Number, Unit: quantity.MM, Min: 2, Max: 8, Hint: "with the caliper, at the flutes",
			Suggest: func(workflow.Shop, workflow.Job, workflow.Side) string { return "3.6 mm" }},
		{ID: "stop", Label: "Stop tried on scrap", Kind: workflow.Number, Unit: quantity.MM, Min: 3, Max: 15, PerSki: true, Hint: "depth of the hole in the scrap",
			Suggest: func(_ workflow.Shop, _ workflow.Job, side workflow.Side) string {
				return map[workflow.Side]string{workflow.Left: "9 mm", workflow.Right: "8.5 mm"}[side]
			}},
		{ID: "type", Label: "Skier type", Kind: workflow.Choice, Options: []workflow.Option{{Value: "I"}, {Value: "II"}, {Value: "III"}}, Hint: "as the skier states it"},
		{ID: "indicator", Label: "Forward pressure", Kind: workflow.Choice, PerSki: true, Options: []workflow.Option{
			{Value: "in window", Label: "in the window"}, {Value: "too little"}, {Value: "too much"}}},
		{ID: "eyes", Label: "Eye protection on", Kind: workflow.Seen},
		{ID: "mark", Label: "Mount mark seen", Kind: workflow.Seen, PerSki: true},
		{ID: "twist", Label: "Twist released to the left at", Kind: workflow.List, Unit: quantity.NM, Min: 0.5, Max: 300, Count: 3, PerSki: true},
		{ID: "due", Label: "Promised for", Kind: workflow.Date, Optional: true, Hint: "2026-11-27 or 27.11.2026"},
		{ID: "note", Label: "Anything else the next hand must know before it goes on", Kind: workflow.Text, Optional: true},
	}}
}

// plainStyles are styles of a terminal without colours.
func plainStyles() Styles { return styles(termenv.Ascii) }

func styles(profile termenv.Profile) Styles {
	r := lipgloss.NewRenderer(&strings.Builder{})
	r.SetColorProfile(profile)
	plain := r.NewStyle()
	bold, faint := plain.Bold(true), plain.Faint(true)
	return Styles{
		Label: plain, Focused: bold, Blurred: faint, Unit: faint, Typed: plain, Cursor: plain.Reverse(true), Suggest: faint,
		Chosen: bold, Hint: faint, Fault: bold.Foreground(lipgloss.Color("1")), Head: faint, More: faint,
	}
}

func open(o Options) *Model {
	if o.Step.ID == "" {
		o.Step = everyKind()
	}
	if o.Width == 0 {
		o.Width, o.Height = 80, 24
	}
	o.Styles = plainStyles()
	return New(o)
}

// press types into a form: names of keys in angle brackets, all else as the
// runes that they are, one message for each stretch between two keys.
func press(m *Model, typed string) []tea.Msg {
	var sent []tea.Msg
	for _, msg := range messages(typed) {
		_, cmd := m.Update(msg)
		if cmd != nil {
			sent = append(sent, cmd())
		}
	}
	return sent
}

var named = map[string]tea.KeyMsg{
	"enter": {Type: tea.KeyEnter}, "tab": {Type: tea.KeyTab}, "back": {Type: tea.KeyShiftTab},
	"up": {Type: tea.KeyUp}, "down": {Type: tea.KeyDown}, "left": {Type: tea.KeyLeft}, "right": {Type: tea.KeyRight},
	"home": {Type: tea.KeyHome}, "end": {Type: tea.KeyEnd}, "del": {Type: tea.KeyDelete}, "rub": {Type: tea.KeyBackspace},
	"ctrl+d": {Type: tea.KeyCtrlD}, "ctrl+c": {Type: tea.KeyCtrlC}, "ctrl+e": {Type: tea.KeyCtrlE}, "lf": {Type: tea.KeyCtrlJ},
	"ctrl+u": {Type: tea.KeyCtrlU}, "ctrl+v": {Type: tea.KeyCtrlV}, "esc": {Type: tea.KeyEscape},
	"alt+q": {Type: tea.KeyRunes, Runes: []rune("q"), Alt: true}, "alt+b": {Type: tea.KeyRunes, Runes: []rune("b"), Alt: true},
}

func messages(typed string) []tea.KeyMsg {
	var msgs []tea.KeyMsg
	for typed != "" {
		if name, rest, ok := strings.Cut(strings.TrimPrefix(typed, "<"), ">"); ok && typed[0] == '<' {
			msgs, typed = append(msgs, named[name]), rest
			continue
		}
		text, rest, more := strings.Cut(typed, "<")
		if text == " " {
			msgs = append(msgs, tea.KeyMsg{Type: tea.KeySpace, Runes: []rune(" ")})
		} else {
			msgs = append(msgs, tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(text)})
		}
		typed = rest
		if more {
			typed = "<" + rest
		}
	}
	return msgs
}

// oneByOne sends each rune as a message of its own, as a slow line does.
func oneByOne(m *Model, text string) {
	for _, r := range text {
		m.Update(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune{r}})
	}
}

func paste(m *Model, text string) []tea.Msg {
	_, cmd := m.Update(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(text), Paste: true})
	if cmd == nil {
		return nil
	}
	return []tea.Msg{cmd()}
}
