package tui

import (
	"strings"

	"github.com/charmbracelet/bubbles/key"

	"drillstop/workflow"
)

// helpLines are the keys of the page on top, what works in every form, and the
// marks.
func (a *App) helpLines() []string {
	lines := []string{" Keys here", ""}
	for _, b := range append(a.top().Keys(), Keys.Help, Keys.Quit) {
		lines = append(lines, "   "+pad(strings.Join(keysOf(b), " "), 20)+" "+b.Help().Desc)
	}
	if a.top().Capturing() {
		lines = append(lines, "", " In a form", "",
			"   enter tab            next field, left ski before right",
			"   shift+tab            back; from the first field to the step before",
			"   up down              the field above or below, same ski",
			"   ctrl+u               empties the field",
			"   =                    the right ski like the left one",
			"   y n                  seen, not seen",
			"   left right           choose; or type the beginning of it",
		)
	}
	lines = append(lines, "", " Marks", "")
	for _, m := range []workflow.Mark{
		workflow.MarkAhead, workflow.MarkHere, workflow.MarkKept, workflow.MarkStale,
		workflow.MarkCaution, workflow.MarkStop, workflow.MarkWaived, workflow.MarkApart,
	} {
		lines = append(lines, "   "+a.session.mark(m)+"   "+m.Word())
	}
	return lines
}

// keysOf names all keys of a binding, the one of the footer first.
func keysOf(b key.Binding) []string {
	names := strings.Fields(b.Help().Key)
	for _, k := range b.Keys() {
		if !strings.Contains(b.Help().Key, k) && k != "pgdown" && k != "pgup" {
			names = append(names, k)
		}
	}
	return names
}
