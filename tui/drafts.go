package tui

import (
	"context"
	"errors"
	"sync"

	tea "github.com/charmbracelet/bubbletea"

	"drillstop/workflow"
)

// drafts keeps what is typed and not kept. What the store does not have yet is
// held here, so that a page left and entered again at once finds it; and the
// store is spoken to in turn, so that an older text never lands after a newer
// one, nor after the answer that it became.
type drafts struct {
	desk *workflow.Desk
	turn sync.Mutex // held while the store is spoken to

	mu      sync.Mutex
	unsaved map[draftOf]workflow.Answers
}

// draftOf names a draft of this session's technician.
type draftOf struct {
	ticket workflow.Ticket
	step   workflow.StepID
}

func newDrafts(desk *workflow.Desk) *drafts {
	return &drafts{desk: desk, unsaved: map[draftOf]workflow.Answers{}}
}

// keep holds what is typed and returns the command that saves it.
func (d *drafts) keep(of draftOf, typed workflow.Answers) tea.Cmd {
	d.mu.Lock()
	d.unsaved[of] = typed
	d.mu.Unlock()
	return do(func(ctx context.Context) tea.Msg {
		if err := d.save(ctx, of); err != nil {
			return draftFailedMsg{err}
		}
		return nil
	})
}

// draftFailedMsg says that what is typed is held by this program only.
type draftFailedMsg struct{ err error }

// save writes the newest text of a draft, if it is not written yet.
func (d *drafts) save(ctx context.Context, of draftOf) error {
	d.turn.Lock()
	defer d.turn.Unlock()
	typed, ok := d.held(of)
	if !ok {
		return nil
	}
	if err := d.desk.SaveDraft(ctx, of.ticket, of.step, typed); err != nil {
		return err
	}
	d.mu.Lock()
	defer d.mu.Unlock()
	if newest := d.unsaved[of]; !workflow.Changed(newest, typed) {
		delete(d.unsaved, of)
	}
	return nil
}

func (d *drafts) held(of draftOf) (workflow.Answers, bool) {
	d.mu.Lock()
	defer d.mu.Unlock()
	typed, ok := d.unsaved[of]
	return typed, ok
}

// read returns the draft of a step, nil if there is none.
func (d *drafts) read(ctx context.Context, of draftOf) (workflow.Answers, error) {
	if typed, ok := d.held(of); ok {
		return typed, nil
	}
	d.turn.Lock()
	defer d.turn.Unlock()
	return d.desk.Draft(ctx, of.ticket, of.step)
}

// answer keeps an answer; the draft that it was goes with it.
func (d *drafts) answer(ctx context.Context, job workflow.Job, step workflow.StepID, typed workflow.Answers) (workflow.Job, error) {
	d.turn.Lock()
	defer d.turn.Unlock()
	next, err := d.desk.Answer(ctx, job, step, typed)
	if err == nil {
		d.mu.Lock()
		delete(d.unsaved, draftOf{job.Ticket, step})
		d.mu.Unlock()
	}
	return next, err
}

// flush saves all that is held.
func (d *drafts) flush(ctx context.Context) error {
	d.mu.Lock()
	left := make([]draftOf, 0, len(d.unsaved))
	for of := range d.unsaved {
		left = append(left, of)
	}
	d.mu.Unlock()
	var failed error
	for _, of := range left {
		failed = errors.Join(failed, d.save(ctx, of))
	}
	return failed
}
