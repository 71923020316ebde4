package workflow

import (
	"context"
	"maps"
	"time"

	"drillstop/calc"
	"drillstop/calc/layout"
)

// Desk is where a person answers jobs: the one way in for the screens, the
// answer sheets and whatever comes next. It reads, decides and appends.
type Desk struct {
	list     *Checklist
	store    Store
	shop     Shop
	person   Person
	describe Describe
	now      func() time.Time
	token    func() string
}

// DeskOptions are what a Desk works with; all are needed.
type DeskOptions struct {
	Checklist *Checklist
	Store     Store
	Shop      Shop // its Now is set anew for each use
	Person    Person
	Describe  Describe
	Now       func() time.Time
	Token     func() string // a new unguessable word at each call
}

// NewDesk returns a desk.
func NewDesk(o DeskOptions) *Desk {
	return &Desk{
		list: o.Checklist, store: o.Store, shop: o.Shop, person: o.Person,
		describe: o.Describe, now: o.Now, token: o.Token,
	}
}

// Checklist returns the steps of the desk.
func (d *Desk) Checklist() *Checklist { return d.list }

// Shop returns the shop at this moment.
func (d *Desk) Shop() Shop {
	shop := d.shop
	shop.Now = d.now()
	return shop
}

// Person returns who answers here.
func (d *Desk) Person() Person { return d.person }

// Describe names a job's skier, ski and binding, "" for what is not known yet.
func (d *Desk) Describe(job Job) (skier, ski, binding string) { return d.describe(job) }

// View looks at a job without the store.
func (d *Desk) View(job Job) View { return d.list.View(d.Shop(), job) }

// Preview says what would be found if the step were answered with what is
// typed so far; false while a field cannot be read yet.
func (d *Desk) Preview(job Job, step StepID, typed Answers) ([]Finding, bool) {
	return d.list.Preview(d.Shop(), job, step, typed)
}

// NewJob opens a job of a kind, due on a day ("" for none). It fails as
// ParseDue does, and then opens nothing.
func (d *Desk) NewJob(ctx context.Context, kind Kind, due string) (Job, error) {
	return d.open(ctx, kind, due, nil)
}

// open opens a job, made from the last one if there is one.
func (d *Desk) open(ctx context.Context, kind Kind, due string, last *Last) (Job, error) {
	due, err := ParseDue(due)
	if err != nil {
		return Job{}, err
	}
	e := Begin(kind, due, d.stamp())
	e.Last = last
	e, err = d.store.Begin(ctx, e, func(e Entry) (Summary, error) {
		job, err := Job{}.Apply(e)
		return d.summarise(job, e.At), err
	})
	if err != nil {
		return Job{}, err
	}
	return Job{}.Apply(e)
}

// Load reads a job; ErrNoJob if there is none.
func (d *Desk) Load(ctx context.Context, t Ticket) (Job, []Entry, error) {
	entries, err := d.store.Entries(ctx, t)
	if err != nil {
		return Job{}, nil, err
	}
	job, err := Fold(entries)
	return job, entries, err
}

// Answer keeps an answer. It returns the job after it, or the job as it was
// with a *Refusal, ErrConflict, or what the store says.
func (d *Desk) Answer(ctx context.Context, job Job, step StepID, typed Answers) (Job, error) {
	e, err := d.list.Answer(d.Shop(), job, step, typed, d.stamp())
	if err != nil {
		return job, err
	}
	return d.append(ctx, job, e)
}

// Waive lets the job go on in spite of a stop.
func (d *Desk) Waive(ctx context.Context, job Job, finding Finding, reason string) (Job, error) {
	e, err := d.list.Waive(d.Shop(), job, finding, reason, d.stamp())
	if err != nil {
		return job, err
	}
	return d.append(ctx, job, e)
}

// Void ends the job without hand-over.
func (d *Desk) Void(ctx context.Context, job Job, reason string) (Job, error) {
	e, err := d.list.Void(d.Shop(), job, reason, d.stamp())
	if err != nil {
		return job, err
	}
	return d.append(ctx, job, e)
}

// List returns jobs in one line each.
func (d *Desk) List(ctx context.Context, q Query) ([]Summary, error) { return d.store.List(ctx, q) }

// Draft returns what this person had typed into a step and not kept.
func (d *Desk) Draft(ctx context.Context, t Ticket, step StepID) (Answers, error) {
	return d.store.Draft(ctx, t, step, d.person.Name)
}

// SaveDraft keeps what this person has typed into a step so far.
func (d *Desk) SaveDraft(ctx context.Context, t Ticket, step StepID, typed Answers) error {
	return d.store.SaveDraft(ctx, t, step, d.person.Name, typed)
}

// Map returns the layout that a step draws, with what is typed into it so far;
// fields that cannot be read are left out. false if there is nothing to draw.
func (d *Desk) Map(job Job, step StepID, typed Answers) (layout.Spec, bool) {
	s, ok := d.list.Step(step)
	if !ok || s.Map == nil || !s.applies(job) {
		return layout.Spec{}, false
	}
	shop := d.Shop()
	answers, _ := accept(shop, job, s, typed)
	return s.Map(shop, job, answers)
}

// Figures are the step's computed numbers with what is typed so far, as far as
// it can be read. What a stale answer concluded does not hold now and is left
// out.
func (d *Desk) Figures(job Job, step StepID, typed Answers) []Figure {
	s, ok := d.list.Step(step)
	if !ok || s.Figures == nil || !s.applies(job) {
		return nil
	}
	shop := d.Shop()
	answers, _ := accept(shop, job, s, typed)
	now := job.Without(step)
	if len(answers) == 0 {
		return s.Figures(shop, now)
	}
	e := Entry{Ticket: job.Ticket, Seq: job.Seq + 1, Kind: EntryAnswered, Step: step, Answers: answers}
	if typed, err := now.Apply(e); err == nil {
		now = typed
	}
	return s.Figures(shop, now)
}

// Picture returns what may be drawn beside a step, with what is typed into it so
// far; fields that cannot be read are left out.
func (d *Desk) Picture(job Job, step StepID, typed Answers) []Picture {
	s, ok := d.list.Step(step)
	if !ok || s.Picture == nil || !s.applies(job) {
		return nil
	}
	shop := d.Shop()
	answers, _ := accept(shop, job, s, typed)
	return s.Picture(shop, job, answers)
}

// Cards returns the cards of a kind that this job can take: those of the shop's
// library, and for HolesCard what earlier jobs on the same pair know.
func (d *Desk) Cards(ctx context.Context, kind CardKind, job Job) ([]Card, error) {
	if kind == HolesCard {
		return d.earlier(ctx, kind, job)
	}
	return d.store.Cards(ctx, kind)
}

// SaveCard keeps a card in the shop's library, without what belongs to one pair
// only. Holes do as a whole: they stay with their job, and a card of them is the
// fault "card.holes".
func (d *Desk) SaveCard(ctx context.Context, card Card) error {
	if card.Kind == HolesCard {
		return calc.Faultf("card.holes", "Holes belong to one pair: they are kept with its job, and a later job on it finds them there.")
	}
	answers := Answers{}
	for _, s := range d.list.steps {
		if s.CardOf == card.Kind {
			maps.Copy(answers, ofItem(s.Fields, card.Answers))
		}
	}
	card.Answers = answers
	return d.store.SaveCard(ctx, card)
}

// FromCard returns what a card says about the fields that this job asks: a card
// holds more than an adjustment wants to know, and may be older than what is
// known to belong to one pair only.
func (d *Desk) FromCard(job Job, step StepID, card Card) Answers {
	s, _ := d.list.Step(step)
	return ofItem(s.Asked(job), card.Answers)
}

// ofItem leaves out what is empty, and what belongs to one pair.
func ofItem(fields []Field, answers Answers) Answers {
	out := Answers{}
	for _, f := range fields {
		for _, key := range f.Keys() {
			if value := answers[key]; value != "" && !f.OfPair {
				out[key] = value
			}
		}
	}
	return out
}

func (d *Desk) stamp() Stamp {
	// Milliseconds are what the store keeps; more would not survive it.
	return Stamp{By: d.person, At: d.now().UTC().Truncate(time.Millisecond), Token: d.token()}
}

func (d *Desk) append(ctx context.Context, job Job, e Entry) (Job, error) {
	next, err := job.Apply(e)
	if err != nil {
		return job, err
	}
	if err := d.store.Append(ctx, e, d.summarise(next, e.At)); err != nil {
		return job, err
	}
	return next, nil
}

func (d *Desk) summarise(job Job, at time.Time) Summary {
	return d.list.Summarise(d.Shop(), job, at, d.describe)
}
