package tui

import (
	"context"
	"errors"
	"strings"

	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"

	"drillstop/calc"
	"drillstop/calc/quantity"
	"drillstop/tui/form"
	"drillstop/workflow"
)

// ask is a small page that asks a few things outside of a job's steps: the kind
// of a new job, the reason of a void or a waiver. Its questions are declared
// like those of a step and typed in the same form.
type ask struct {
	s     *Session
	title string
	text  []workflow.Finding // said above the questions
	step  workflow.Step
	// act runs with the canonical answers and returns what is said to the page
	// below, or an error.
	act    func(ctx context.Context, answers workflow.Answers) (tea.Msg, error)
	form   *form.Model
	width  int
	height int
	busy   bool
}

// askedMsg is the end of a question that went well; then goes to the page below.
type askedMsg struct{ then tea.Msg }

// refusedMsg is the error of one that did not.
type refusedMsg struct{ err error }

func newAsk(s *Session, title string, step workflow.Step, act func(context.Context, workflow.Answers) (tea.Msg, error)) *ask {
	return &ask{s: s, title: title, step: step, act: act}
}

func (a *ask) Init() tea.Cmd {
	a.form = form.New(form.Options{
		Step: a.step, Shop: a.s.Desk.Shop(), Width: max(a.width, leastWidth), Height: a.formHeight(),
		Styles: a.s.Theme.Form, ASCII: a.s.ASCII,
	})
	return a.form.Init()
}

func (a *ask) Resume() tea.Cmd     { return nil }
func (a *ask) Leave() tea.Cmd      { return nil }
func (a *ask) Next() string        { return "" }
func (a *ask) Busy() bool          { return a.busy }
func (a *ask) Capturing() bool     { return a.form != nil && a.form.Capturing() }
func (a *ask) Head() (l, r string) { return a.title, a.s.Desk.Person().Name }
func (a *ask) formHeight() int     { return max(a.height-len(a.above())-1, 4) }
func (a *ask) Keys() []key.Binding { return []key.Binding{labelled(Keys.Enter, "next"), Keys.Back} }

func (a *ask) Resize(width, height int) {
	a.width, a.height = width, height
	if a.form != nil {
		a.form.Resize(width, a.formHeight())
	}
}

func (a *ask) Update(msg tea.Msg) (tea.Cmd, move) {
	switch msg := msg.(type) {
	case askedMsg:
		return nil, move{back: 1, then: msg.then}
	case refusedMsg:
		a.busy = false
		last := a.step.Fields[len(a.step.Fields)-1].ID
		a.form.SetFaults([]workflow.FieldFault{{Field: last, Fault: &calc.Fault{Sentence: sentence(msg.err)}}})
	case tea.KeyMsg:
		if is(msg, Keys.Back) {
			return nil, pop()
		}
		if said, ok := formSaid(a.form, msg).(form.Submitted); ok {
			return a.submit(said.Typed), stay
		}
	}
	return nil, stay
}

func (a *ask) submit(typed workflow.Answers) tea.Cmd {
	answers, faults := workflow.Accept(a.s.Desk.Shop(), a.step, typed)
	if len(faults) > 0 {
		a.form.SetFaults(faults)
		return nil
	}
	a.busy = true
	return do(func(ctx context.Context) tea.Msg {
		then, err := a.act(ctx, answers)
		if err != nil {
			return refusedMsg{err}
		}
		return askedMsg{then}
	})
}

func (a *ask) above() []string {
	var lines []string
	for _, f := range a.text {
		for _, line := range marked(string(levelMark(f)), f.Text, a.width) {
			lines = append(lines, a.s.Theme.Mark(levelMark(f)).Render(line))
		}
	}
	if len(lines) > 0 {
		lines = append(lines, "")
	}
	return lines
}

func (a *ask) View() string {
	return strings.Join(append(a.above(), a.form.View()), "\n")
}

// newJobStep are the questions that open a job.
func newJobStep() workflow.Step {
	return workflow.Step{ID: "new", Title: "new job", Fields: []workflow.Field{
		{ID: "kind", Label: "Kind of job", Kind: workflow.Choice, Options: workflow.Kinds, Hint: "what is done to this pair"},
		{ID: "due", Label: "Promised for", Kind: workflow.Date, Optional: true, Hint: "2026-11-27 or 27.11.2026; may stay empty"},
	}}
}

// newJobPage asks for the kind of a new job and the day it is due.
func newJobPage(s *Session) page {
	return newAsk(s, "New job", newJobStep(), func(ctx context.Context, answers workflow.Answers) (tea.Msg, error) {
		kind, err := workflow.ParseKind(answers.Text("kind", workflow.Both))
		if err != nil {
			return nil, err
		}
		job, err := s.Desk.NewJob(ctx, kind, answers.Text("due", workflow.Both))
		if err != nil {
			return nil, err
		}
		return openedMsg{job: job}, nil
	})
}

var reason = workflow.Field{ID: "reason", Label: "Reason", Kind: workflow.Text, Unit: quantity.Plain, Hint: "in a few words; it stays in the record"}

// voidPage asks why a job ends without hand-over.
func voidPage(s *Session, sum workflow.Summary) page {
	step := workflow.Step{ID: "void", Title: "void", Fields: []workflow.Field{reason}}
	title := "Void " + sum.Ticket.String() + "  " + sum.Skier
	a := newAsk(s, title, step, func(ctx context.Context, answers workflow.Answers) (tea.Msg, error) {
		job, _, err := s.Desk.Load(ctx, sum.Ticket)
		if err != nil {
			return nil, err
		}
		if _, err := s.Desk.Void(ctx, job, answers.Text("reason", workflow.Both)); err != nil {
			return nil, err
		}
		return noticeMsg{workflow.MarkKept, sum.Ticket.String() + " is void; its record stays."}, nil
	})
	a.text = []workflow.Finding{{Level: calc.Caution, Text: "A void job leaves the bench without hand-over. Its record stays and can be read."}}
	return a
}

// waivePage asks a supervisor why the job may go on in spite of a stop.
func waivePage(s *Session, job workflow.Job, stop workflow.Finding) page {
	step := workflow.Step{ID: "waive", Title: "waiver", Fields: []workflow.Field{reason}}
	a := newAsk(s, "Waive a stop of "+job.Ticket.String(), step, func(ctx context.Context, answers workflow.Answers) (tea.Msg, error) {
		next, err := s.Desk.Waive(ctx, job, stop, answers.Text("reason", workflow.Both))
		if errors.Is(err, workflow.ErrConflict) {
			// Somebody else was faster: show the job as it is now instead.
			fresh, _, err := s.Desk.Load(ctx, job.Ticket)
			return turnedMsg{fresh}, err
		}
		if err != nil {
			return nil, err
		}
		return waivedMsg{next}, nil
	})
	a.text = []workflow.Finding{stop, {Level: calc.Caution, Text: "The waiver stands in the record and on the ticket under your name. It covers exactly these numbers."}}
	return a
}

// waivedMsg carries the job after a waiver.
type waivedMsg struct{ job workflow.Job }
