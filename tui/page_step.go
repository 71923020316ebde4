package tui

import (
	"context"
	"errors"
	"fmt"
	"maps"

	tea "github.com/charmbracelet/bubbletea"

	"drillstop/tui/form"
	"drillstop/workflow"
)

// stepPage answers one step of a job, and goes on to the next one in place.
type stepPage struct {
	s      *Session
	job    workflow.Job
	view   workflow.View
	step   workflow.StepView
	form   *form.Model
	width  int
	height int

	found    []workflow.Finding // what the checks say to what is typed so far
	why      *scroll            // where the reasons are read that lie over the form
	recalled bool               // the form began with a draft
	busy     bool               // an answer is on its way, or a draft is being read
	touched  bool               // something was typed that no draft has yet
	waiting  bool               // a draft will be kept in a moment
	focused  string
}

// Init reads the draft of the step.
func (p *stepPage) Init() tea.Cmd { return p.readDraft() }

func (p *stepPage) Resume() tea.Cmd { return nil }

func newStepPage(s *Session, job workflow.Job, id workflow.StepID) *stepPage {
	p := &stepPage{s: s, width: usualWidth, height: usualHeight - frame}
	p.show(job, id)
	return p
}

// show turns the page to a step of the job as it stands now.
func (p *stepPage) show(job workflow.Job, id workflow.StepID) {
	p.job, p.view = job, p.s.Desk.View(job)
	p.step, _ = p.view.Step(id)
	p.found, p.why, p.touched, p.recalled = p.step.Findings, nil, false, false
	p.setForm(p.remembered())
}

// remembered is what the form begins with: the present answers, where they
// still hold. A stale step begins empty: its values must be seen again.
func (p *stepPage) remembered() workflow.Answers {
	if p.step.Stale != "" {
		return nil
	}
	return p.job.Answers(p.step.Step.ID)
}

// setForm builds the form with what was typed before in it.
func (p *stepPage) setForm(draft workflow.Answers) {
	step := p.step.Step
	step = p.recalling(step)
	p.form = form.New(form.Options{
		Step: step, Job: p.job, Shop: p.s.Desk.Shop(), Draft: draft, Focus: p.focused,
		Width: p.width, Height: p.height, Styles: p.s.Theme.Form, ASCII: p.s.ASCII,
	})
	p.focused = p.form.FocusedKey()
	p.resize()
}

// answeredMsg is what came of an answer.
type answeredMsg struct {
	step workflow.StepID
	job  workflow.Job
	err  error
}

func (p *stepPage) Update(msg tea.Msg) (tea.Cmd, move) {
	switch msg := msg.(type) {
	case answeredMsg:
		return p.answered(msg)
	case draftMsg:
		return p.recall(msg), stay
	case pausedMsg:
		p.waiting = false
		return p.Leave(), stay
	case shiftedMsg:
		p.shift(msg.offset)
		return nil, stay
	case cardMsg:
		return p.take(msg.card), stay
	case waivedMsg:
		return p.waived(msg.job)
	case turnedMsg:
		p.reload(msg.job)
		return nil, stay
	case tea.KeyMsg:
		if cmd, m, ok := p.key(msg); ok {
			return cmd, m
		}
	}
	return p.toForm(msg)
}

// toForm types into the form. What the form says to it is taken at once, not
// through the message loop: the next key must meet what came of this one.
func (p *stepPage) toForm(msg tea.Msg) (tea.Cmd, move) {
	if _, ok := msg.(tea.KeyMsg); !ok {
		return nil, stay
	}
	p.touched = true
	switch said := formSaid(p.form, msg).(type) {
	case form.Submitted:
		if p.step.Step.Closes && !said.ByKey {
			return sayNotice(workflow.MarkHere, "All is answered. ctrl+d hands over; that cannot be taken back."), stay
		}
		return p.submit(said.Typed), stay
	case form.Back:
		return p.back(), stay
	case form.Left:
		p.focused = p.form.FocusedKey()
		p.look()
		return p.Leave(), stay
	}
	p.focused = p.form.FocusedKey()
	p.resize() // a picture may have come or gone with what is typed
	return p.rest(), stay
}

// look asks the checks about what is typed, once it says enough to be judged.
func (p *stepPage) look() {
	p.found = p.step.Findings
	if found, ok := p.s.Desk.Preview(p.job, p.step.Step.ID, p.form.Typed()); ok {
		p.found = found
	}
	p.resize()
}

// formSaid gives a key to a form and returns what the form says to it, nil for
// nothing. A form's commands do no more than carry such a message.
func formSaid(f *form.Model, msg tea.Msg) tea.Msg {
	if _, cmd := f.Update(msg); cmd != nil {
		return cmd()
	}
	return nil
}

// back goes to the step before this one; what is typed here becomes a draft.
func (p *stepPage) back() tea.Cmd {
	before, ok := p.before()
	if !ok {
		return nil
	}
	keep := p.Leave()
	p.focused = ""
	p.show(p.job, before)
	return tea.Batch(keep, p.Init())
}

// before is the applicable step ahead of this one.
func (p *stepPage) before() (workflow.StepID, bool) {
	var last workflow.StepID
	for _, sv := range p.view.Steps {
		if sv.Step.ID == p.step.Step.ID {
			return last, last != ""
		}
		if sv.Mark != workflow.MarkApart {
			last = sv.Step.ID
		}
	}
	return "", false
}

func (p *stepPage) submit(typed workflow.Answers) tea.Cmd {
	p.busy = true
	job, step := p.job, p.step.Step.ID
	return do(func(ctx context.Context) tea.Msg {
		next, err := p.s.drafts.answer(ctx, job, step, typed)
		if errors.Is(err, workflow.ErrConflict) {
			fresh, _, loadErr := p.s.Desk.Load(ctx, job.Ticket)
			if loadErr == nil {
				next = fresh
			}
		}
		return answeredMsg{step, next, err}
	})
}

func (p *stepPage) answered(msg answeredMsg) (tea.Cmd, move) {
	p.busy = false
	if msg.step != p.step.Step.ID {
		return nil, stay
	}
	var refusal *workflow.Refusal
	switch {
	case msg.err == nil:
		p.touched = false
		before := p.view
		p.show(msg.job, msg.step)
		notice := p.kept(before, msg.step)
		cmd, m := p.onward()
		return tea.Batch(cmd, said(notice)), m
	case errors.As(msg.err, &refusal) && len(refusal.Fields) > 0:
		p.form.SetFaults(refusal.Fields)
		p.focused = p.form.FocusedKey()
		return nil, stay
	case errors.Is(msg.err, workflow.ErrConflict):
		p.reload(msg.job)
		return said(noticeMsg{workflow.MarkCaution, "Somebody kept this first; yours is still here. Compare, then keep."}), stay
	}
	return said(noticeMsg{workflow.MarkStop, sentence(msg.err)}), stay
}

func said(n noticeMsg) tea.Cmd { return func() tea.Msg { return n } }

func sayNotice(mark workflow.Mark, text string) tea.Cmd { return said(noticeMsg{mark, text}) }

// kept says what was kept, and what else came of it.
func (p *stepPage) kept(before workflow.View, id workflow.StepID) noticeMsg {
	was, _ := before.Step(id)
	text := "kept: " + was.Step.Title
	if now, _ := p.view.Step(id); now.Mark == workflow.MarkStop && p.mends() {
		worst, _ := workflow.Worst(now.Findings)
		return noticeMsg{workflow.MarkStop, text + "; " + onSide(worst)}
	} else if now.Mark == workflow.MarkStop {
		return noticeMsg{workflow.MarkStop, text + "; the job is held here until the cause is gone"}
	}
	if now, _ := p.view.Step(id); now.Mark == workflow.MarkCaution {
		worst, _ := workflow.Worst(now.Findings)
		return noticeMsg{workflow.MarkCaution, text + "; " + onSide(worst)}
	}
	for _, sv := range p.view.Steps {
		old, _ := before.Step(sv.Step.ID)
		if sv.Mark == workflow.MarkStale && old.Mark != workflow.MarkStale && sv.Step.ID != id {
			return noticeMsg{workflow.MarkStale, text + "; " + sv.Step.Title + " must be answered again: " + sv.Stale}
		}
	}
	for i, ph := range p.view.Phases {
		if ph.Of > 0 && ph.Done == ph.Of && before.Phases[i].Done < ph.Of {
			return noticeMsg{workflow.MarkKept, fmt.Sprintf("%s; %s is complete, %d of %d", text, ph.Phase, ph.Done, ph.Of)}
		}
	}
	return noticeMsg{workflow.MarkKept, text}
}

// mends reports whether the step to go to is there to remove the stop of this
// one.
func (p *stepPage) mends() bool {
	next, _ := p.view.Step(p.view.Here)
	return next.Step.Mends != "" && next.Step.Mends == p.step.Step.ID
}

// onward goes to the step that comes next. A stop keeps the hand where it is,
// unless another step is there to remove it; a finished job goes back to its
// list of steps.
func (p *stepPage) onward() (tea.Cmd, move) {
	worst, found := workflow.Worst(p.step.Findings)
	switch {
	case found && worst.Holds() && !p.mends():
		return nil, stay
	case p.view.Here == "":
		return nil, move{back: 1, then: turnedMsg{p.job}}
	}
	p.focused = ""
	p.show(p.job, p.view.Here)
	return p.Init(), stay
}

// waived goes on after a waiver, unless something is typed here that is not kept.
func (p *stepPage) waived(job workflow.Job) (tea.Cmd, move) {
	if typed := p.form.Typed(); workflow.Changed(p.remembered(), typed) {
		p.reload(job)
		return nil, stay
	}
	p.show(job, p.step.Step.ID)
	return p.onward()
}

// reload shows the job as it is now, with what is typed here left as it is.
func (p *stepPage) reload(job workflow.Job) {
	typed := p.form.Typed()
	p.show(job, p.step.Step.ID)
	p.setForm(typed)
	p.touched = true
}

// turnedMsg gives a page the job as it stands now.
type turnedMsg struct{ job workflow.Job }

// take fills the form from a card of the shop's library.
func (p *stepPage) take(card workflow.Card) tea.Cmd {
	typed := p.form.Typed()
	maps.Copy(typed, p.s.Desk.FromCard(p.job, p.step.Step.ID, card))
	p.touched = true
	p.setForm(typed)
	p.look()
	return said(noticeMsg{workflow.MarkHere, "card " + card.Name + ": compare each value with what lies before you"})
}

// Next names the step that comes once this one is kept.
func (p *stepPage) Next() string {
	for _, sv := range p.view.Steps {
		open := sv.Mark == workflow.MarkAhead || sv.Mark == workflow.MarkHere || sv.Mark == workflow.MarkStale || sv.Mark == workflow.MarkStop
		if open && sv.Step.ID != p.step.Step.ID {
			return sv.Step.Title
		}
	}
	return ""
}

func (p *stepPage) Busy() bool { return p.busy }

func (p *stepPage) Capturing() bool { return p.why == nil && p.form.Capturing() }

func (p *stepPage) Resize(width, height int) {
	p.width, p.height = width, height
	p.resize()
}

func (p *stepPage) resize() { p.form.Resize(p.width, p.room().form) }

func (p *stepPage) Head() (left, right string) { return jobHead(p.s, p.job, p.width) }
