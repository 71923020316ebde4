package workflow

import (
	"context"
	"maps"
	"time"

	"drillstop/calc"
)

// Last is what the last job of the same skier and pair knew, kept with the job
// that was made from it: the new one reads the same when the old one is gone.
type Last struct {
	Ticket  Ticket              `json:"ticket"`
	Day     string              `json:"day"` // on which it ended, 2025-11-20
	Answers map[StepID]Answers  `json:"answers"`
	Figures map[StepID][]Figure `json:"figures,omitempty"`
}

// Last returns what the job was made from, false if it was opened empty. The
// caller does not change it.
func (j Job) Last() (*Last, bool) { return j.last, j.last != nil }

// Text returns one answer of the last job, "" where there was none.
func (l *Last) Text(step StepID, id FieldID, side Side) string {
	return l.Answers[step].Text(id, side)
}

// Again opens a new job of a kind for the skier and the pair of an earlier one,
// due on a day ("" for none). Its intake steps begin with what does not age; all
// else is asked again, and what was answered last time stands beside it.
//
// A job that is still in hand is the fault "again.open", one in which nothing was
// answered "again.empty"; it fails as NewJob does too, and then opens nothing. An
// error together with an opened job says that some of what it should begin with
// could not be kept.
func (d *Desk) Again(ctx context.Context, from Job, kind Kind, due string) (Job, error) {
	switch {
	case from.State == Open:
		return Job{}, calc.Faultf("again.open", "%s is still in hand: go on with it, or end it first.", from.Ticket)
	case len(from.answered) == 0:
		return Job{}, calc.Faultf("again.empty", "%s ended before anything was answered: there is nothing to take over from it.", from.Ticket)
	}
	job, err := d.open(ctx, kind, due, d.lastOf(from))
	if err != nil {
		return Job{}, err
	}
	for _, s := range d.list.steps {
		draft := lasting(s.Asked(job), from.Answers(s.ID))
		if s.Phase != Intake || len(draft) == 0 {
			continue
		}
		if err := d.SaveDraft(ctx, job.Ticket, s.ID, draft); err != nil {
			return job, err
		}
	}
	return job, nil
}

// lastOf sums up an ended job. What was stale when it ended was not known then.
func (d *Desk) lastOf(from Job) *Last {
	last := &Last{
		Ticket: from.Ticket, Day: from.EndedAt.In(d.now().Location()).Format(time.DateOnly),
		Answers: map[StepID]Answers{}, Figures: map[StepID][]Figure{},
	}
	for id, a := range from.answered {
		if a.Stale != "" {
			continue
		}
		if len(a.Answers) > 0 {
			last.Answers[id] = maps.Clone(a.Answers)
		}
		if len(a.Figures) > 0 {
			last.Figures[id] = a.Figures
		}
	}
	return last
}

// lasting are the answers to those fields that hold from season to season.
func lasting(fields []Field, answers Answers) Answers {
	out := Answers{}
	for _, f := range fields {
		for _, key := range f.Keys() {
			if value := answers[key]; f.Lasts && value != "" {
				out[key] = value
			}
		}
	}
	return out
}
