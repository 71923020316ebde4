package workflow_test

import (
	"context"
	"fmt"
	"strconv"
	"time"

	"github.com/stretchr/testify/require"

	"drillstop/calc"
	"drillstop/calc/quantity"
	"drillstop/workflow"
)

// A small invented checklist: enough to hold every rule of the core, and none
// of the bench's subject.
const (
	measure workflow.StepID = "measure"
	look    workflow.StepID = "look"
	drill   workflow.StepID = "drill"
	set     workflow.StepID = "set"
	press   workflow.StepID = "press"
	closing workflow.StepID = "closing"
)

const setRests = "the length was measured anew after it was set"
const pressRests = "it was set higher after it was pressed"

func number(a workflow.Answers, id workflow.FieldID, side workflow.Side) float64 {
	v, _ := a.Number(id, side, quantity.Plain)
	return v
}

func smallSteps() []workflow.Step {
	return []workflow.Step{
		{
			ID: measure, Phase: workflow.Intake, Title: "measure", CardOf: workflow.BindingCard,
			Fields: []workflow.Field{
				{ID: "length", Label: "Length", Kind: workflow.Number, Min: 10, Max: 100},
				{ID: "words", Label: "Words", Kind: workflow.Text, Optional: true},
			},
			Check:   checkMeasure,
			Figures: figuresOfMeasure,
			Verify: func(_ workflow.Shop, _ workflow.Job, a workflow.Answers) []workflow.FieldFault {
				if number(a, "length", workflow.Both) == 13 {
					return []workflow.FieldFault{{Field: "words", Fault: calc.Faultf("words.13", "13 needs its reason.")}}
				}
				return nil
			},
		},
		{
			ID: look, Phase: workflow.Intake, Title: "look", Needs: []workflow.StepID{measure},
			Check: func(_ workflow.Shop, job workflow.Job) []workflow.Finding {
				if v, _ := job.Number(measure, "length", workflow.Both, quantity.Plain); v == 20 || v == 50 {
					return workflow.On(workflow.Left, []calc.Finding{calc.Stopf("look.20", "our rule", "20 is seen to be wrong.")})
				}
				return nil
			},
		},
		{
			ID: drill, Phase: workflow.Drilling, Title: "drill", Needs: []workflow.StepID{look},
			Kinds:  []workflow.Kind{workflow.NewMount},
			Fields: []workflow.Field{{ID: "done", Label: "Done", Kind: workflow.Seen}},
		},
		{
			ID: set, Phase: workflow.Adjusting, Title: "set", Needs: []workflow.StepID{look, drill},
			Fields: []workflow.Field{
				{ID: "at", Label: "Set at", Kind: workflow.Number, Min: 0, Max: 100, PerSki: true},
				{
					ID: "far", Label: "Far", Kind: workflow.Choice, Options: workflow.YesNo,
					When: func(job workflow.Job) bool {
						v, _ := job.Number(measure, "length", workflow.Both, quantity.Plain)
						return v > 25
					},
				},
			},
			Rests: []workflow.Rest{{On: measure, Fields: []workflow.FieldID{"length"}, Because: setRests}},
		},
		{
			ID: press, Phase: workflow.Testing, Title: "press", Needs: []workflow.StepID{look},
			Fields: []workflow.Field{{ID: "ok", Label: "Pressed", Kind: workflow.Seen}},
			Rests: []workflow.Rest{{
				On: set, Because: pressRests,
				Disturbed: func(before, after workflow.Answers) bool {
					return number(after, "at", workflow.Left) > number(before, "at", workflow.Left)
				},
			}},
		},
		{
			ID: closing, Phase: workflow.HandOver, Title: "closing", Closes: true,
			Needs: []workflow.StepID{measure, look, drill, set, press},
			Fields: []workflow.Field{
				{ID: "name", Label: "Name", Kind: workflow.Text},
			},
			Check: func(_ workflow.Shop, job workflow.Job) []workflow.Finding {
				if job.Is(closing, "name", workflow.Both, "nobody") {
					return []workflow.Finding{{Level: calc.Stop, Code: "closing.nobody", Text: "Nobody signed."}}
				}
				return nil
			},
		},
	}
}

func checkMeasure(_ workflow.Shop, job workflow.Job) []workflow.Finding {
	v, _ := job.Number(measure, "length", workflow.Both, quantity.Plain)
	text := fmt.Sprintf("Length %g is more than 40.", v)
	switch {
	case v > 60:
		return []workflow.Finding{{Level: calc.Stop, Code: "length.never", Text: text, Never: true}}
	case v > 40:
		return []workflow.Finding{{Level: calc.Stop, Code: "length.long", Text: text}}
	case v > 30:
		return []workflow.Finding{{Level: calc.Caution, Code: "length.near", Text: "Length is near 40."}}
	}
	return nil
}

func figuresOfMeasure(_ workflow.Shop, job workflow.Job) []workflow.Figure {
	return []workflow.Figure{{Name: "length", Label: "length", Value: job.Text(measure, "length", workflow.Both)}}
}

// bench answers a job of the small checklist without a store.
type bench struct {
	t    require.TestingT
	list *workflow.Checklist
	job  workflow.Job
	all  []workflow.Entry
}

var (
	technician = workflow.Person{Name: "MB"}
	supervisor = workflow.Person{Name: "KL", Supervisor: true}
)

func atTime(minute int) time.Time { return time.Date(2026, 11, 25, 17, minute, 0, 0, time.UTC) }

func stampOf(p workflow.Person) workflow.Stamp {
	return workflow.Stamp{By: p, At: atTime(4), Token: "t"}
}

func newBench(t require.TestingT, kind workflow.Kind) *bench {
	list, err := workflow.NewChecklist(smallSteps()...)
	require.NoError(t, err)
	b := &bench{t: t, list: list}
	e := workflow.Begin(kind, "2026-11-26", stampOf(technician))
	e.Ticket = 7
	return b.apply(e)
}

func (b *bench) apply(e workflow.Entry) *bench {
	next, err := b.job.Apply(e)
	require.NoError(b.t, err)
	b.job, b.all = next, append(b.all, e)
	return b
}

// answer keeps an answer, keys and values by turns.
func (b *bench) answer(step workflow.StepID, kv ...string) *bench {
	e, err := b.try(step, kv...)
	require.NoError(b.t, err)
	return b.apply(e)
}

func (b *bench) try(step workflow.StepID, kv ...string) (workflow.Entry, error) {
	return b.list.Answer(workflow.Shop{}, b.job, step, typed(kv...), stampOf(technician))
}

func (b *bench) view() workflow.View { return b.list.View(workflow.Shop{}, b.job) }

func (b *bench) step(id workflow.StepID) workflow.StepView {
	sv, ok := b.view().Step(id)
	require.True(b.t, ok)
	return sv
}

// full answers every step of an adjustment but the closing one.
func (b *bench) full() *bench {
	return b.answer(measure, "length", "18").answer(look).
		answer(set, "at.left", "5", "at.right", "5").answer(press, "ok", "yes")
}

func typed(kv ...string) workflow.Answers {
	a := workflow.Answers{}
	for i := 0; i+1 < len(kv); i += 2 {
		a[kv[i]] = kv[i+1]
	}
	return a
}

// memory is a store in memory, for the desk's tests.
type memory struct {
	jobs      map[workflow.Ticket][]workflow.Entry
	summaries map[workflow.Ticket]workflow.Summary
	drafts    map[string]workflow.Answers
	cards     []workflow.Card
	faster    bool // somebody else was: the next append conflicts
}

func newMemory() *memory {
	return &memory{
		jobs:      map[workflow.Ticket][]workflow.Entry{},
		summaries: map[workflow.Ticket]workflow.Summary{},
		drafts:    map[string]workflow.Answers{},
	}
}

func (m *memory) Begin(_ context.Context, e workflow.Entry, sum func(workflow.Entry) (workflow.Summary, error)) (workflow.Entry, error) {
	e.Ticket = workflow.Ticket(len(m.jobs) + 1)
	s, err := sum(e)
	if err != nil {
		return workflow.Entry{}, err
	}
	m.jobs[e.Ticket], m.summaries[e.Ticket] = []workflow.Entry{e}, s
	return e, nil
}

func (m *memory) Append(_ context.Context, e workflow.Entry, s workflow.Summary) error {
	if m.faster || e.Seq != len(m.jobs[e.Ticket])+1 {
		m.faster = false
		return workflow.ErrConflict
	}
	m.jobs[e.Ticket] = append(m.jobs[e.Ticket], e)
	m.summaries[e.Ticket] = s
	return nil
}

func (m *memory) Entries(_ context.Context, t workflow.Ticket) ([]workflow.Entry, error) {
	entries, ok := m.jobs[t]
	if !ok {
		return nil, workflow.ErrNoJob
	}
	return entries, nil
}

func (m *memory) List(context.Context, workflow.Query) ([]workflow.Summary, error) {
	var all []workflow.Summary
	for t := range len(m.jobs) {
		all = append(all, m.summaries[workflow.Ticket(t+1)])
	}
	return all, nil
}

func draftKey(t workflow.Ticket, step workflow.StepID, by string) string {
	return t.String() + "/" + string(step) + "/" + by
}

func (m *memory) Draft(_ context.Context, t workflow.Ticket, step workflow.StepID, by string) (workflow.Answers, error) {
	return m.drafts[draftKey(t, step, by)], nil
}

func (m *memory) SaveDraft(_ context.Context, t workflow.Ticket, step workflow.StepID, by string, typed workflow.Answers) error {
	m.drafts[draftKey(t, step, by)] = typed
	return nil
}

func (m *memory) Cards(_ context.Context, kind workflow.CardKind) ([]workflow.Card, error) {
	var out []workflow.Card
	for _, c := range m.cards {
		if c.Kind == kind {
			out = append(out, c)
		}
	}
	return out, nil
}

func (m *memory) SaveCard(_ context.Context, card workflow.Card) error {
	m.cards = append(m.cards, card)
	return nil
}

// newDesk is a desk on a store in memory, with a clock that stands still and
// tokens that count.
func newDesk(t require.TestingT, store workflow.Store, person workflow.Person) *workflow.Desk {
	return workflow.NewDesk(deskOptions(t, store, person))
}

func deskOptions(t require.TestingT, store workflow.Store, person workflow.Person) workflow.DeskOptions {
	list, err := workflow.NewChecklist(smallSteps()...)
	require.NoError(t, err)
	tokens := 0
	return workflow.DeskOptions{
		Checklist: list, Store: store, Shop: workflow.Shop{Name: "invented"}, Person: person,
		Describe: func(job workflow.Job) (string, string, string) {
			return job.Text(measure, "words", workflow.Both), "", ""
		},
		Now:   func() time.Time { return atTime(4).Add(123456 * time.Nanosecond) },
		Token: func() string { tokens++; return strconv.Itoa(tokens) },
	}
}
