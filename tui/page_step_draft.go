package tui

import (
	"context"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"drillstop/workflow"
)

// draftPause is how long the hand rests before what is typed is kept as a draft.
const draftPause = 700 * time.Millisecond

// draftMsg carries what was typed into a step and not kept, or nil.
type draftMsg struct {
	of    draftOf
	typed workflow.Answers
	err   error
}

// pausedMsg says that the hand has rested since a key.
type pausedMsg struct{ typing int }

func (p *stepPage) draft() draftOf { return draftOf{p.job.Ticket, p.step.Step.ID} }

func (p *stepPage) readDraft() tea.Cmd {
	of := p.draft()
	p.busy = true
	return do(func(ctx context.Context) tea.Msg {
		typed, err := p.s.drafts.read(ctx, of)
		return draftMsg{of, typed, err}
	})
}

// recall puts a draft back into the form.
func (p *stepPage) recall(msg draftMsg) tea.Cmd {
	if msg.of != p.draft() {
		return nil
	}
	p.busy = false
	switch {
	case msg.err != nil:
		return said(noticeMsg{workflow.MarkStop, sentence(msg.err)})
	case len(msg.typed) == 0:
		return nil
	}
	p.setForm(msg.typed)
	return said(noticeMsg{workflow.MarkHere, "what you had typed is back; it is not kept yet"})
}

// Leave keeps what is typed as a draft. What only repeats the present answer is
// none.
func (p *stepPage) Leave() tea.Cmd {
	if !p.touched {
		return nil
	}
	p.touched = false
	typed := p.form.Typed()
	if !workflow.Changed(p.remembered(), typed) {
		typed = nil
	}
	return p.s.drafts.keep(p.draft(), typed)
}

// rest returns the command that keeps the draft once the hand rests.
func (p *stepPage) rest() tea.Cmd {
	p.typing++
	typing := p.typing
	return tea.Tick(draftPause, func(time.Time) tea.Msg { return pausedMsg{typing} })
}
