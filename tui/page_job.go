package tui

import (
	"fmt"
	"strings"

	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"

	"drillstop/tui/draw"
	"drillstop/workflow"
)

// titleWidth holds the longest title of a step.
const titleWidth = 24

// jobView is the whole job as a list of steps: where it stands, what was
// answered, and the way to any step that can be answered or corrected.
type jobView struct {
	s      *Session
	job    workflow.Job
	view   workflow.View
	at     int // among the applicable steps
	width  int
	height int
}

func newJobView(s *Session, job workflow.Job) *jobView {
	v := &jobView{s: s}
	v.turn(job)
	return v
}

// turn shows the job as it stands now, with the cursor where the hand goes next.
func (v *jobView) turn(job workflow.Job) {
	v.job, v.view = job, v.s.Desk.View(job)
	v.at = 0
	for i, sv := range v.steps() {
		if sv.Step.ID == v.view.Here {
			v.at = i
		}
	}
}

func (v *jobView) steps() []workflow.StepView {
	var out []workflow.StepView
	for _, sv := range v.view.Steps {
		if sv.Mark != workflow.MarkApart {
			out = append(out, sv)
		}
	}
	return out
}

func (v *jobView) Init() tea.Cmd   { return nil }
func (v *jobView) Resume() tea.Cmd { return nil }
func (v *jobView) Leave() tea.Cmd  { return nil }
func (v *jobView) Next() string    { return "" }
func (v *jobView) Busy() bool      { return false }
func (v *jobView) Capturing() bool { return false }

func (v *jobView) Resize(width, height int) { v.width, v.height = width, height }

func (v *jobView) Head() (left, right string) { return jobHead(v.s, v.job, v.width) }

func (v *jobView) Keys() []key.Binding {
	keys := []key.Binding{labelled(Keys.Back, "bench"), Keys.Record}
	if v.job.State == workflow.Open {
		keys = append([]key.Binding{Keys.Present}, keys...)
	} else {
		keys = append([]key.Binding{Keys.Again}, keys...)
	}
	if _, ok := v.waivable(); ok && v.s.Desk.Person().Supervisor {
		keys = append(keys, Keys.Waive)
	}
	if v.job.State == workflow.Open {
		keys = append(keys, Keys.Void)
	}
	return append(keys, Keys.Move)
}

// waivable returns the first stop of the chosen step that may be waived.
func (v *jobView) waivable() (workflow.Finding, bool) {
	for _, f := range v.steps()[v.at].Findings {
		if f.Holds() && !f.Never {
			return f, true
		}
	}
	return workflow.Finding{}, false
}

func (v *jobView) Update(msg tea.Msg) (tea.Cmd, move) {
	switch msg := msg.(type) {
	case turnedMsg:
		v.turn(msg.job)
	case waivedMsg:
		v.turn(msg.job)
	case openedMsg:
		// Made from this one; the bench opens it, and has it in hand afterwards.
		return nil, move{back: all, then: msg}
	case tea.KeyMsg:
		return v.key(msg)
	}
	return nil, stay
}

func (v *jobView) key(msg tea.KeyMsg) (tea.Cmd, move) {
	steps := v.steps()
	switch {
	case scanned(msg):
		// A ticket that is scanned here is looked for on the bench, where the
		// rest of it goes as well.
		return nil, move{back: all, then: msg}
	case is(msg, Keys.Back):
		return nil, pop()
	case is(msg, Keys.Record):
		return nil, push(newRecord(v.s, v.job))
	case is(msg, Keys.Waive):
		if stop, ok := v.waivable(); ok && v.s.Desk.Person().Supervisor {
			return nil, push(waivePage(v.s, v.job, stop))
		}
	case is(msg, Keys.Void) && v.job.State == workflow.Open:
		skier, _, _ := v.s.Desk.Describe(v.job)
		return nil, move{back: 1, on: []page{voidPage(v.s, workflow.Summary{Ticket: v.job.Ticket, Skier: skier})}}
	case is(msg, Keys.Again) && v.job.State != workflow.Open:
		return nil, push(againPage(v.s, v.job))
	case is(msg, Keys.Present) && v.job.State != workflow.Open:
		return sayNotice(workflow.MarkKept, "This job is closed. a begins a new one for the same skier and pair; r shows its record."), stay
	case is(msg, Keys.Present):
		if held := steps[v.at].Held; held != "" {
			return said(noticeMsg{workflow.MarkStop, held}), stay
		}
		return nil, push(newStepPage(v.s, v.job, steps[v.at].Step.ID))
	case is(msg, Keys.Up):
		v.at--
	case is(msg, Keys.Down):
		v.at++
	case is(msg, Keys.PageUp):
		v.at -= v.height / 2
	case is(msg, Keys.PageDown):
		v.at += v.height / 2
	}
	v.at = max(min(v.at, len(steps)-1), 0)
	return nil, stay
}

func (v *jobView) View() string {
	lines := []string{" " + v.ski(), ""}
	below := v.chosenLines()
	list, at := v.list()
	room := max(v.height-len(lines)-len(below)-1, 3)
	if hidden := len(list) - room; hidden > 0 {
		room--
		from := min(max(at-room/2, 0), len(list)-room)
		more := fmt.Sprintf("   %d more above, %d more below", from, len(list)-room-from)
		list = append(append([]string{}, list[from:from+room]...), v.s.Theme.Faint.Render(more))
	}
	lines = append(lines, list...)
	for len(lines) < v.height-len(below) {
		lines = append(lines, "")
	}
	return strings.Join(append(lines, below...), "\n")
}

func (v *jobView) ski() string {
	here := workflow.Phase("")
	title := ""
	if sv, ok := v.view.Step(v.view.Here); ok {
		here, title = sv.Step.Phase, sv.Step.Title
	}
	at := 0
	for _, ph := range v.view.Phases {
		if ph.Phase == here {
			at = min(ph.Done+1, ph.Of)
		}
	}
	return draw.Ski{Phases: v.view.Phases, Here: here, Step: title, At: at, Width: v.width - 2, Ink: v.s.ink()}.String()
}

// list draws the steps, the phase named at the first of its steps, and returns
// the line of the chosen one.
func (v *jobView) list() (lines []string, at int) {
	t := v.s.Theme
	phase := workflow.Phase("")
	for i, sv := range v.steps() {
		name := ""
		if sv.Step.Phase != phase {
			phase = sv.Step.Phase
			name = string(phase)
		}
		cursor := "  "
		title := t.Plain.Render(pad(sv.Step.Title, titleWidth))
		if i == v.at {
			cursor, title = t.Hand.Render("> "), t.Strong.Render(pad(sv.Step.Title, titleWidth))
			at = len(lines)
		}
		head := cursor + t.Faint.Render(pad(name, 11)) + t.Mark(sv.Mark).Render(v.s.mark(sv.Mark)) + " " + title
		lines = append(lines, head+" "+t.Faint.Render(clip(v.said(sv), v.width-widthOf(head)-2)))
	}
	return lines, at
}

// said is a step's answer in a few words, or why it has none.
func (v *jobView) said(sv workflow.StepView) string {
	if f, ok := workflow.Worst(sv.Findings); ok && f.Holds() {
		return onSide(f)
	}
	if sv.Stale != "" {
		return sv.Stale
	}
	a, ok := v.job.Answered(sv.Step.ID)
	if !ok {
		return ""
	}
	var parts []string
	for _, figure := range a.Figures {
		parts = append(parts, figure.Label+" "+figure.Value)
	}
	for _, f := range sv.Step.Fields {
		left, right := a.Answers.Text(f.ID, workflow.Left), a.Answers.Text(f.ID, workflow.Right)
		switch {
		case f.Kind == workflow.Seen:
		case !f.PerSki:
			parts = appendSaid(parts, a.Answers.Text(f.ID, workflow.Both))
		case left == right:
			parts = appendSaid(parts, left)
		default:
			parts = appendSaid(parts, left+" | "+right)
		}
	}
	if len(parts) == 0 {
		return "seen " + a.At.Local().Format("15:04") + " " + a.By
	}
	return strings.Join(parts, ", ")
}

func appendSaid(parts []string, text string) []string {
	if text == "" || text == " | " {
		return parts
	}
	return append(parts, text)
}

// chosenLines say what is to say of the chosen step, or of a job that ended.
func (v *jobView) chosenLines() []string {
	t := v.s.Theme
	sv := v.steps()[v.at]
	var lines []string
	for _, f := range sv.Findings {
		for _, line := range marked(string(levelMark(f)), onSide(f), v.width) {
			lines = append(lines, t.Mark(levelMark(f)).Render(line))
		}
	}
	if most := max(v.height/3, 3); len(lines) > most {
		lines = append(lines[:most-1], t.Faint.Render(fmt.Sprintf("   %d lines more in the record (r)", len(lines)-most+1)))
	}
	switch v.job.State {
	case workflow.Finished:
		lines = append(lines, " = handed over "+v.job.EndedAt.Local().Format("Mon 2 Jan 2006 15:04"))
	case workflow.Voided:
		lines = append(lines, marked("-", "void since "+v.job.EndedAt.Local().Format("Mon 2 Jan 2006 15:04")+": "+v.job.EndedWhy, v.width)...)
	case workflow.Open:
	}
	return lines
}
