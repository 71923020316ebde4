package workflow

import (
	"errors"
	"fmt"
	"maps"
	"slices"
	"time"

	"drillstop/calc"
	"drillstop/calc/quantity"
)

// Kind is the kind of job: a filter over the same steps.
type Kind string

// The kinds of job.
const (
	NewMount   Kind = "mount"
	ReMount    Kind = "remount"
	Adjustment Kind = "adjustment"
	Inspection Kind = "inspection"
	Rental     Kind = "rental"
)

// Kinds are all kinds of job with their names for the eye.
var Kinds = []Option{
	{Value: string(NewMount), Label: "new mount"},
	{Value: string(ReMount), Label: "re-mount, old holes"},
	{Value: string(Adjustment), Label: "adjustment"},
	{Value: string(Inspection), Label: "periodic inspection"},
	{Value: string(Rental), Label: "rental inspection"},
}

// ParseKind reads a kind of job, by its value or the beginning of it.
func ParseKind(typed string) (Kind, error) {
	field := Field{ID: "kind", Label: "Kind of job", Kind: Choice, Options: Kinds}
	value, err := field.Accept(Shop{}, typed)
	return Kind(value), err
}

// ParseDue reads the day on which a job is due, "" where none is given. It fails
// with the code "job.due" on what is no day of the calendar.
func ParseDue(typed string) (string, error) {
	field := Field{ID: "due", Label: "Due", Kind: Date, Optional: true}
	due, err := field.Accept(Shop{}, typed)
	if fault, ok := asFault(err); ok {
		fault.Code = "job.due"
	}
	return due, err
}

// KindLabel is the name of a kind for the eye: "new mount".
func KindLabel(kind Kind) string {
	for _, o := range Kinds {
		if o.Value == string(kind) {
			return o.Label
		}
	}
	return string(kind)
}

// State says whether a job is in hand.
type State string

// The states of a job.
const (
	Open     State = "open"
	Finished State = "handed over"
	Voided   State = "void"
)

// Job is the fold of its entries and nothing else. Its methods never change
// it; Apply returns the next one.
type Job struct {
	Ticket   Ticket
	Kind     Kind
	State    State
	OpenedAt time.Time
	OpenedBy string
	Due      string // a day, or ""
	Seq      int    // of the last entry applied
	EndedAt  time.Time
	EndedWhy string // of a void

	answered map[StepID]Answered
	waivers  map[string]Waiver
	closing  *Closing // once the job has ended
	last     *Last    // the job it was made from
}

// Answered is the present answer of a step.
type Answered struct {
	Answers  Answers
	Figures  []Figure
	Findings []Finding // as found when it was answered
	At       time.Time
	By       string
	Seq      int
	Stale    string // why it must be answered again; "" while it holds
	// Redone are the steps for whose sake it was answered again after it had
	// become stale, each once: what was done before may have left its traces.
	Redone []StepID
	// Before is the answer that this one replaced; nil for the first. It is
	// shared between jobs and never changed.
	Before *Answered

	disturbedBy []StepID // since it became stale
}

// ErrSequence is returned by Apply for an entry that does not follow the last
// one of the job, or that follows its end.
var ErrSequence = errors.New("entry out of sequence")

// Fold replays entries from an empty job.
func Fold(entries []Entry) (Job, error) {
	var job Job
	for _, e := range entries {
		next, err := job.Apply(e)
		if err != nil {
			return Job{}, err
		}
		job = next
	}
	return job, nil
}

// Apply returns the job after one more entry. It fails with ErrSequence when
// the entry does not follow, is of another job, or the job has ended.
func (j Job) Apply(e Entry) (Job, error) {
	if j.Seq > 0 && j.State != Open || e.Seq != j.Seq+1 || j.Seq > 0 && e.Ticket != j.Ticket || (j.Seq == 0) != (e.Kind == EntryOpened) {
		return Job{}, fmt.Errorf("%w: entry %d (%s) of %s after entry %d of %s",
			ErrSequence, e.Seq, e.Kind, e.Ticket, j.Seq, j.Ticket)
	}
	j.Seq = e.Seq
	switch e.Kind {
	case EntryOpened:
		j.Ticket, j.Kind, j.State = e.Ticket, e.JobKind, Open
		j.OpenedAt, j.OpenedBy, j.Due, j.last = e.At, e.By, e.Due, e.Last
	case EntryAnswered:
		j.waivers = j.waiversAfter(e)
		j.answered = j.withAnswer(e)
		if e.Finishes {
			j.State, j.EndedAt, j.closing = Finished, e.At, e.Closing
		}
	case EntryWaived:
		if e.Waived != nil {
			j.waivers = maps.Clone(j.waivers)
			if j.waivers == nil {
				j.waivers = map[string]Waiver{}
			}
			j.waivers[waiverKey(*e.Waived)] = Waiver{By: e.By, Reason: e.Reason}
		}
	case EntryVoided:
		j.State, j.EndedAt, j.EndedWhy, j.closing = Voided, e.At, e.Reason, e.Closing
	default:
		return Job{}, fmt.Errorf("entry %d of %s: unknown kind %q", e.Seq, e.Ticket, e.Kind)
	}
	return j, nil
}

func (j Job) withAnswer(e Entry) map[StepID]Answered {
	answered := make(map[StepID]Answered, len(j.answered)+1)
	maps.Copy(answered, j.answered)
	for _, mark := range e.Stale {
		if a, ok := answered[mark.Step]; ok {
			a.Stale = mark.Because
			a.disturbedBy = withStep(a.disturbedBy, e.Step)
			answered[mark.Step] = a
		}
	}
	now := Answered{
		Answers: e.Answers, Figures: e.Figures, Findings: e.Findings,
		At: e.At, By: e.By, Seq: e.Seq,
	}
	if was, again := j.answered[e.Step]; again {
		now.Redone, now.Before = withStep(was.Redone, was.disturbedBy...), &was
	}
	answered[e.Step] = now
	return answered
}

// withStep returns the steps with more of them, each once; it never writes into
// what another job holds.
func withStep(steps []StepID, more ...StepID) []StepID {
	out := slices.Clone(steps)
	for _, id := range more {
		if !slices.Contains(out, id) {
			out = append(out, id)
		}
	}
	return out
}

// Answered returns the present answer of a step.
func (j Job) Answered(step StepID) (Answered, bool) {
	a, ok := j.answered[step]
	return a, ok
}

// Without returns the job as if a step were not answered.
func (j Job) Without(step StepID) Job {
	j.answered = maps.Clone(j.answered)
	delete(j.answered, step)
	return j
}

// Fresh reports whether a step is answered and its answer still holds.
func (j Job) Fresh(step StepID) bool {
	a, ok := j.answered[step]
	return ok && a.Stale == ""
}

// Steps returns the answered steps in a fixed order.
func (j Job) Steps() []StepID { return slices.Sorted(maps.Keys(j.answered)) }

// Answers returns the answers of a step; nil where it was not answered.
func (j Job) Answers(step StepID) Answers { return j.answered[step].Answers }

// Text returns one answer, "" where there is none.
func (j Job) Text(step StepID, id FieldID, side Side) string {
	return j.answered[step].Answers.Text(id, side)
}

// Is reports whether one answer is exactly value.
func (j Job) Is(step StepID, id FieldID, side Side, value string) bool {
	return j.Text(step, id, side) == value
}

// Number returns one answer as a number of unit.
func (j Job) Number(step StepID, id FieldID, side Side, unit quantity.Unit) (float64, bool) {
	return j.answered[step].Answers.Number(id, side, unit)
}

// List returns one answer as numbers of unit, nil where there is none.
func (j Job) List(step StepID, id FieldID, side Side, unit quantity.Unit) []float64 {
	return j.answered[step].Answers.List(id, side, unit)
}

func asFault(err error) (*calc.Fault, bool) {
	var fault *calc.Fault
	ok := errors.As(err, &fault)
	return fault, ok
}
