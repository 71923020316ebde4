package workflow

import (
	"context"
	"errors"
	"fmt"

	"drillstop/calc"
)

// Event is what came of one line of an answer sheet.
type Event struct {
	Line     int       // of the sheet's steps, from 1
	Step     StepID    //
	Kept     bool      // the answer or waiver is in the record
	Refusal  *Refusal  // why not
	Findings []Finding // of this step, once kept
	Stale    []StepID  // steps that became stale by it
}

// Play is the result of an answer sheet.
type Play struct {
	Job    Job
	Events []Event
	// Refused are the steps whose last line on the sheet was not taken.
	Refused []StepID
}

// Stopped reports whether the sheet ended in a stop: one that holds the job, or
// a line that was refused and not corrected.
func (p Play) Stopped(view View) bool {
	worst, ok := Worst(view.Findings)
	return ok && worst.Holds() || len(p.Refused) > 0
}

// Play opens a job and answers it line by line from a sheet, through the same
// decisions as the screens. A refused line is reported and the next one tried:
// the sheet may correct itself, as a person would.
func (d *Desk) Play(ctx context.Context, sheet Sheet) (Play, error) {
	if err := d.readable(ctx, sheet); err != nil {
		return Play{}, err
	}
	job, err := d.NewJob(ctx, sheet.Kind, sheet.Due)
	if err != nil {
		return Play{}, err
	}
	play := Play{Job: job}
	refused := map[StepID]bool{}
	for i, row := range sheet.Steps {
		if row.empty() && d.blank(play.Job, row.Step) {
			continue
		}
		next, err := d.playRow(ctx, play.Job, row)
		e := Event{Line: i + 1, Step: row.Step, Kept: err == nil}
		if err != nil && !errors.As(err, &e.Refusal) {
			return play, err
		}
		refused[row.Step] = err != nil
		e.Stale = newlyStale(play.Job, next)
		play.Job = next
		if sv, ok := d.View(next).Step(row.Step); ok && e.Kept {
			e.Findings = sv.Findings
		}
		play.Events = append(play.Events, e)
	}
	for _, s := range d.list.steps {
		if refused[s.ID] {
			play.Refused = append(play.Refused, s.ID)
		}
	}
	return play, nil
}

// readable looks for what would break the sheet off half-way, before a job is
// opened for it.
func (d *Desk) readable(ctx context.Context, sheet Sheet) error {
	for i, row := range sheet.Steps {
		if _, ok := d.list.Step(row.Step); !ok {
			return calc.Faultf("sheet.step", "Line %d of the sheet answers %q; there is no such step.", i+1, string(row.Step))
		}
		if s, _ := d.list.Step(row.Step); row.Card == "" || s.CardOf == HolesCard {
			continue // which jobs are on the same pair is known once the pair is
		}
		if _, err := d.card(ctx, Job{}, row); err != nil {
			return err
		}
	}
	return nil
}

// blank reports whether an empty line means that nobody has come so far: the
// step asks something, or what it needs is not there yet.
func (d *Desk) blank(job Job, id StepID) bool {
	s, _ := d.list.Step(id)
	return len(s.Asked(job)) > 0 || !d.list.ready(job, s)
}

// empty reports whether nothing was written into the line: a blank sheet may be
// filled from the top down as the job goes on.
func (r SheetStep) empty() bool {
	for _, v := range r.Answers {
		if v != "" {
			return false
		}
	}
	return r.Waive == "" && r.Card == ""
}

func (d *Desk) playRow(ctx context.Context, job Job, row SheetStep) (Job, error) {
	if row.Waive != "" {
		return d.playWaiver(ctx, job, row)
	}
	typed := Answers{}
	if row.Card != "" {
		card, err := d.card(ctx, job, row)
		if err != nil {
			return job, err
		}
		typed = d.FromCard(job, row.Step, card)
	}
	for key, value := range row.Answers {
		if value != "" {
			typed[key] = value
		}
	}
	return d.Answer(ctx, job, row.Step, typed)
}

func (d *Desk) playWaiver(ctx context.Context, job Job, row SheetStep) (Job, error) {
	for _, f := range d.View(job).Findings {
		if f.Step == row.Step && f.Code == row.Waive && f.Holds() {
			next, err := d.Waive(ctx, job, f, row.Reason)
			if errors.Is(err, ErrNotWaivable) || errors.Is(err, ErrNotSupervisor) || errors.Is(err, ErrNoReason) {
				err = &Refusal{Step: row.Step, Held: "Waiving " + row.Waive + ": " + err.Error() + "."}
			}
			return next, err
		}
	}
	return job, &Refusal{Step: row.Step, Held: "There is no stop " + row.Waive + " to waive here."}
}

func (d *Desk) card(ctx context.Context, job Job, row SheetStep) (Card, error) {
	s, ok := d.list.Step(row.Step)
	if !ok || s.CardOf == "" {
		return Card{}, calc.Faultf("sheet.card", "%s cannot be filled from a card.", row.Step)
	}
	cards, err := d.Cards(ctx, s.CardOf, job)
	if err != nil {
		return Card{}, err
	}
	for _, c := range cards {
		if c.Name == row.Card {
			return c, nil
		}
	}
	if s.CardOf == HolesCard {
		return Card{}, &Refusal{Step: row.Step, Held: fmt.Sprintf("There is no job %q on the same pair of skis whose holes are known.", row.Card)}
	}
	return Card{}, calc.Faultf("sheet.card", "The shop file has no %s card named %q.", string(s.CardOf), row.Card)
}

func newlyStale(before, after Job) []StepID {
	var out []StepID
	for _, id := range after.Steps() {
		was, _ := before.Answered(id)
		is, _ := after.Answered(id)
		if is.Stale != "" && was.Stale == "" {
			out = append(out, id)
		}
	}
	return out
}
