package workflow

import (
	"context"
	"errors"
	"time"

	"drillstop/calc"
)

// Errors of a store, for errors.Is.
var (
	// ErrConflict is returned by Append when the job has an entry that the
	// writer had not seen. Nothing was written.
	ErrConflict = errors.New("somebody else was faster on this job")
	// ErrNoJob is returned for a ticket that the shop file does not have.
	ErrNoJob = errors.New("there is no such job in this shop file")
)

// Store keeps entries, and what is derived from them. Every method is one
// transaction; what a method acknowledged is on the disk.
type Store interface {
	// Begin gives the job its ticket and appends its first entry.
	Begin(ctx context.Context, e Entry, summarise func(Entry) (Summary, error)) (Entry, error)
	// Append adds an entry to its job. e.Seq-1 is the last entry the writer had
	// seen; ErrConflict if there is a later one. An entry whose token is
	// already in the job is not written again and no error. An answer takes its
	// author's draft of the step with it, in the same transaction.
	Append(ctx context.Context, e Entry, s Summary) error
	// Entries returns all entries of a job in order; ErrNoJob if there is none.
	Entries(ctx context.Context, t Ticket) ([]Entry, error)
	// List returns summaries, newest ticket first.
	List(ctx context.Context, q Query) ([]Summary, error)

	// Draft returns what was typed into a step and not kept yet; nil if nothing.
	Draft(ctx context.Context, t Ticket, step StepID, by string) (Answers, error)
	// SaveDraft keeps what is typed so far; an empty draft is removed.
	SaveDraft(ctx context.Context, t Ticket, step StepID, by string, typed Answers) error

	// Cards returns the cards of a kind, by name.
	Cards(ctx context.Context, kind CardKind) ([]Card, error)
	// SaveCard keeps a card, replacing the one of the same kind and name.
	SaveCard(ctx context.Context, card Card) error
}

// Query chooses jobs for a list.
type Query struct {
	States []State // empty: all
	Words  string  // each word must begin a word of the summary, in any case
	Limit  int     // 0: 200
}

// Summary is a job in one line of the bench. It is derived from the entries
// and can be rebuilt from them.
type Summary struct {
	Ticket   Ticket      `json:"ticket"`
	Kind     Kind        `json:"kind"`
	State    State       `json:"state"`
	Skier    string      `json:"skier"`
	Ski      string      `json:"ski"`
	Binding  string      `json:"binding"`
	Due      string      `json:"due,omitempty"`
	OpenedAt time.Time   `json:"opened_at"`
	Touched  time.Time   `json:"touched"` // time of the last entry
	Seq      int         `json:"seq"`
	Here     string      `json:"here,omitempty"` // title of the step to answer next
	Phases   []PhaseView `json:"phases"`
	Stops    int         `json:"stops"`
	Cautions int         `json:"cautions"`
	Stales   int         `json:"stale"`
	Worst    string      `json:"worst,omitempty"` // the sentence that matters most
	Mark     Mark        `json:"mark"`            // of that sentence
}

// Describe says which answers name the job in a list; the steps know.
type Describe func(Job) (skier, ski, binding string)

// Summarise derives the summary of a job.
func (c *Checklist) Summarise(shop Shop, job Job, touched time.Time, describe Describe) Summary {
	v := c.View(shop, job)
	s := Summary{
		Ticket: job.Ticket, Kind: job.Kind, State: job.State, Due: job.Due,
		OpenedAt: job.OpenedAt, Touched: touched, Seq: job.Seq, Phases: v.Phases,
		Mark: MarkKept,
	}
	s.Skier, s.Ski, s.Binding = describe(job)
	if here, ok := v.Step(v.Here); ok {
		s.Here = here.Step.Title
	}
	s.count(v)
	return s
}

func (s *Summary) count(v View) {
	for _, f := range v.Findings {
		switch {
		case f.Holds():
			s.Stops++
		case f.Level == calc.Caution:
			s.Cautions++
		}
	}
	for _, sv := range v.Steps {
		if sv.Mark == MarkStale {
			s.Stales++
			if s.Stales == 1 {
				s.Mark, s.Worst = MarkStale, sv.Step.Title+": "+sv.Stale
			}
		}
	}
	worst, ok := Worst(v.Findings)
	switch {
	case ok && worst.Holds():
		s.Mark, s.Worst = MarkStop, worst.Text
	case s.Stales == 0 && ok && worst.Level == calc.Caution:
		s.Mark, s.Worst = MarkCaution, worst.Text
	}
}
