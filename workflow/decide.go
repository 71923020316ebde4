package workflow

import (
	"errors"
	"slices"
	"strings"
	"time"

	"drillstop/calc"
)

// FieldFault is a fault on the field where it was typed.
type FieldFault struct {
	Field FieldID
	Side  Side
	Fault *calc.Fault
}

// Refusal says why an answer was not taken. Nothing was written, and nothing
// that was typed is lost.
type Refusal struct {
	Step   StepID
	Held   string       // the step cannot be answered now
	Fields []FieldFault // or these fields need another value
}

// Error joins the sentences.
func (r *Refusal) Error() string {
	if r.Held != "" {
		return r.Held
	}
	sentences := make([]string, len(r.Fields))
	for i, f := range r.Fields {
		sentences[i] = f.Fault.Sentence
	}
	return strings.Join(sentences, " ")
}

// Errors of decisions, for errors.Is.
var (
	// ErrNotWaivable is returned for a finding that nobody may waive.
	ErrNotWaivable = errors.New("this stop cannot be waived; its cause must go")
	// ErrNotSupervisor is returned when somebody else than a supervisor waives.
	ErrNotSupervisor = errors.New("only a supervisor may waive a stop")
	// ErrNoReason is returned for a waiver or a void without a reason.
	ErrNoReason = errors.New("a reason is needed, in a few words")
	// ErrNotOpen is returned for a job that was handed over or voided.
	ErrNotOpen = errors.New("the job is no longer open; a new job can take it up")
)

// Stamp is who writes an entry, when, and under which token.
type Stamp struct {
	By    Person
	At    time.Time
	Token string
}

func (s Stamp) entry(job Job, kind EntryKind) Entry {
	return Entry{Ticket: job.Ticket, Seq: job.Seq + 1, At: s.At, By: s.By.Name, Token: s.Token, Kind: kind}
}

// Answer decides on an answer: it returns the entry to append, or a *Refusal.
func (c *Checklist) Answer(shop Shop, job Job, step StepID, typed Answers, stamp Stamp) (Entry, error) {
	sv, ok := c.View(shop, job).Step(step)
	if !ok {
		return Entry{}, calc.Faultf("step.unknown", "There is no step %q.", string(step))
	}
	if sv.Held != "" {
		return Entry{}, &Refusal{Step: step, Held: sv.Held}
	}
	answers, faults := accept(shop, job, sv.Step, typed)
	if len(faults) == 0 && sv.Step.Verify != nil {
		faults = sv.Step.Verify(shop, job, answers)
	}
	if len(faults) > 0 {
		return Entry{}, &Refusal{Step: step, Fields: faults}
	}
	e := stamp.entry(job, EntryAnswered)
	e.Step, e.Answers, e.Finishes = step, answers, sv.Step.Closes
	e.Stale = c.disturbed(job, step, answers)
	after, err := job.Apply(e)
	if err != nil {
		return Entry{}, err
	}
	after.State = Open // so that the checks of a closing step still speak
	if sv.Step.Stales != nil {
		e.Stale = c.withMarks(job, e, sv.Step.Stales(shop, after, answers))
		if after, err = job.Apply(e); err != nil {
			return Entry{}, err
		}
		after.State = Open
	}
	if sv.Step.Figures != nil {
		e.Figures = sv.Step.Figures(shop, after)
	}
	e.Findings = c.findings(shop, after, sv.Step)
	if f, found := Worst(e.Findings); found && f.Holds() {
		e.Finishes = false
	}
	if e.Finishes {
		e.Closing = closing(c.View(shop, after))
	}
	return e, nil
}

// Preview says what would be found if the step were answered with what is
// typed so far, without writing; false while a field cannot be read yet: a
// check must not judge what nobody has said.
func (c *Checklist) Preview(shop Shop, job Job, step StepID, typed Answers) ([]Finding, bool) {
	s, ok := c.Step(step)
	if !ok || s.Check == nil || job.State != Open {
		return nil, false
	}
	answers, faults := accept(shop, job, s, typed)
	if len(faults) > 0 {
		return nil, false
	}
	e := Entry{Ticket: job.Ticket, Seq: job.Seq + 1, Kind: EntryAnswered, Step: step, Answers: answers}
	after, err := job.Apply(e)
	if err != nil {
		return nil, false
	}
	return c.findings(shop, after, s), true
}

// Accept reads the answers of a step outside of any job: the small questions
// that a screen asks beside the checklist.
func Accept(shop Shop, s Step, typed Answers) (Answers, []FieldFault) {
	return accept(shop, Job{}, s, typed)
}

// accept reads all fields of the step that this job asks. Answers to fields
// that it does not ask are faults too: a sheet must not say more than is kept.
func accept(shop Shop, job Job, s Step, typed Answers) (Answers, []FieldFault) {
	answers, faults := Answers{}, []FieldFault(nil)
	known := map[string]bool{}
	for _, f := range s.Asked(job) {
		f.Optional = f.Optional || f.Unless != nil && f.Unless(answers)
		sides := []Side{Both}
		if f.PerSki {
			sides = Sides[:]
		}
		for _, side := range sides {
			key := Key(f.ID, side)
			known[key] = true
			value, err := f.Accept(shop, typed[key])
			if err != nil {
				faults = append(faults, faultOn(f.ID, side, err))
			} else if value != "" {
				answers[key] = value
			}
		}
	}
	for _, key := range typed.Keys() {
		if !known[key] && strings.TrimSpace(typed[key]) != "" {
			faults = append(faults, FieldFault{Field: FieldID(key), Fault: calc.Faultf("field.unknown",
				"%s has no field %q in this job; its fields are %s.", s.Title, key, strings.Join(keysOf(s.Asked(job)), ", "))})
		}
	}
	return answers, faults
}

func keysOf(fields []Field) []string {
	var keys []string
	for _, f := range fields {
		keys = append(keys, f.Keys()...)
	}
	return keys
}

func faultOn(id FieldID, side Side, err error) FieldFault {
	fault, ok := asFault(err)
	if !ok {
		fault = &calc.Fault{Code: "field", Sentence: err.Error(), Cause: err}
	}
	return FieldFault{Field: id, Side: side, Fault: fault}
}

// disturbed returns the steps whose answer, or whose waiver, does not hold any
// more.
func (c *Checklist) disturbed(job Job, step StepID, after Answers) []StaleMark {
	var marks []StaleMark
	was, _ := job.Answered(step)
	for _, s := range c.steps {
		if _, answered := job.Answered(s.ID); !answered && !job.hasWaiver(s.ID) || s.ID == step {
			continue
		}
		for _, rest := range s.Rests {
			if rest.On == step && disturbs(rest, was, after) {
				marks = append(marks, StaleMark{Step: s.ID, Because: rest.Because})
				break
			}
		}
	}
	return marks
}

// withMarks adds to the marks of an entry those that its step gives itself: of
// other steps that are answered, each step once.
func (c *Checklist) withMarks(job Job, e Entry, more []StaleMark) []StaleMark {
	marks := slices.Clone(e.Stale)
	for _, m := range more {
		_, answered := job.Answered(m.Step)
		marked := slices.ContainsFunc(marks, func(k StaleMark) bool { return k.Step == m.Step })
		if answered && !marked && m.Step != e.Step {
			marks = append(marks, m)
		}
	}
	return marks
}

func disturbs(rest Rest, was Answered, after Answers) bool {
	switch {
	case rest.Redone && was.Stale != "":
		return true
	case rest.Disturbed != nil:
		return rest.Disturbed(was.Answers, after)
	}
	return Changed(was.Answers, after, rest.Fields...)
}

// Changed reports whether any of the fields differs between two answers of a
// step, on either side; without fields, whether anything differs.
func Changed(before, after Answers, fields ...FieldID) bool {
	for _, key := range slices.Concat(before.Keys(), after.Keys()) {
		id, _, _ := strings.Cut(key, ".")
		if (len(fields) == 0 || slices.Contains(fields, FieldID(id))) && before[key] != after[key] {
			return true
		}
	}
	return false
}

// Begin decides on a new job; its ticket is given by the store.
func Begin(kind Kind, due string, stamp Stamp) Entry {
	e := stamp.entry(Job{}, EntryOpened)
	e.JobKind, e.Due = kind, due
	return e
}

// Waive decides on letting the job go on in spite of a stop. What is waived is
// the stop as it stands in the job, not as the caller describes it.
func (c *Checklist) Waive(shop Shop, job Job, stop Finding, reason string, stamp Stamp) (Entry, error) {
	if job.State != Open {
		return Entry{}, ErrNotOpen
	}
	found := c.Findings(shop, job)
	at := slices.IndexFunc(found, func(f Finding) bool { return waiverKey(f) == waiverKey(stop) })
	switch {
	case at < 0:
		return Entry{}, calc.Faultf("waiver.gone", "This stop is no longer there: %s", stop.Text)
	case found[at].Never || found[at].Level != calc.Stop:
		return Entry{}, ErrNotWaivable
	case !stamp.By.Supervisor:
		return Entry{}, ErrNotSupervisor
	case tidy(reason) == "":
		return Entry{}, ErrNoReason
	}
	waived := found[at]
	waived.Waiver = nil
	e := stamp.entry(job, EntryWaived)
	e.Step, e.Waived, e.Reason = waived.Step, &waived, tidy(reason)
	return e, nil
}

// Void decides on ending the job without hand-over.
func (c *Checklist) Void(shop Shop, job Job, reason string, stamp Stamp) (Entry, error) {
	if job.State != Open {
		return Entry{}, ErrNotOpen
	}
	if tidy(reason) == "" {
		return Entry{}, ErrNoReason
	}
	e := stamp.entry(job, EntryVoided)
	e.Reason, e.Closing = tidy(reason), closing(c.View(shop, job))
	return e, nil
}
