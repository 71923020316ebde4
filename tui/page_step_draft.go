package tui

import (
	"context"
	"maps"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"drillstop/workflow"
)

// draftPause is how long typed text waits before it is kept as a draft; leaving
// a field keeps it at once.
const draftPause = 700 * time.Millisecond

// draftMsg carries what was typed into a step and not kept, or nil.
type draftMsg struct {
	of    draftOf
	typed workflow.Answers
	err   error
}

// pausedMsg says that the time for a draft has come.
type pausedMsg struct{}

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
	// What the draft does not say is shown as it is kept, perhaps by somebody
	// else meanwhile.
	typed := p.remembered().Clone()
	maps.Copy(typed, msg.typed)
	p.setForm(typed)
	p.recalled = true
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

// rest returns the command that keeps the draft a moment after the first key
// that it does not have yet, whether the hand rests or not.
func (p *stepPage) rest() tea.Cmd {
	if p.waiting {
		return nil
	}
	p.waiting = true
	return tea.Tick(draftPause, func(time.Time) tea.Msg { return pausedMsg{} })
}

// forget drops what is typed and shows what is kept.
func (p *stepPage) forget() tea.Cmd {
	p.touched = false
	p.show(p.job, p.step.Step.ID)
	return tea.Batch(p.s.drafts.keep(p.draft(), nil), said(noticeMsg{workflow.MarkKept, "what was typed is forgotten; this is what is kept"}))
}
