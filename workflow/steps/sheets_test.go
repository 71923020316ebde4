package steps

import (
	"context"
	"fmt"
	"os"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"drillstop/calc"
	"drillstop/workflow"
)

// memory is a store that forgets when the test ends: enough to play a sheet.
type memory struct {
	jobs map[workflow.Ticket][]workflow.Entry
	list []workflow.Summary // as of the last entry of each job, by ticket
}

func (m *memory) Begin(_ context.Context, e workflow.Entry, summarise func(workflow.Entry) (workflow.Summary, error)) (workflow.Entry, error) {
	e.Ticket = workflow.Ticket(len(m.jobs) + 1)
	summary, err := summarise(e)
	if err != nil {
		return workflow.Entry{}, err
	}
	m.list = append(m.list, summary)
	m.jobs[e.Ticket] = []workflow.Entry{e}
	return e, nil
}

func (m *memory) Append(_ context.Context, e workflow.Entry, summary workflow.Summary) error {
	if len(m.jobs[e.Ticket]) != e.Seq-1 {
		return workflow.ErrConflict
	}
	m.jobs[e.Ticket] = append(m.jobs[e.Ticket], e)
	m.list[e.Ticket-1] = summary
	return nil
}

func (m *memory) Entries(_ context.Context, t workflow.Ticket) ([]workflow.Entry, error) {
	if _, ok := m.jobs[t]; !ok {
		return nil, workflow.ErrNoJob
	}
	return slices.Clone(m.jobs[t]), nil
}

func (m *memory) List(_ context.Context, q workflow.Query) ([]workflow.Summary, error) {
	var list []workflow.Summary
	for _, s := range m.list {
		if s.Skier == q.Words || s.Ski == q.Words {
			list = append(list, s)
		}
	}
	return list, nil
}

func (m *memory) Draft(context.Context, workflow.Ticket, workflow.StepID, string) (workflow.Answers, error) {
	return nil, nil
}

func (m *memory) SaveDraft(context.Context, workflow.Ticket, workflow.StepID, string, workflow.Answers) error {
	return nil
}

func (m *memory) Cards(context.Context, workflow.CardKind) ([]workflow.Card, error) { return nil, nil }

func (m *memory) SaveCard(context.Context, workflow.Card) error { return nil }

// played is a sheet after it ran, with the desk it ran at.
type played struct {
	workflow.Play
	desk  *workflow.Desk
	store *memory
}

func playSheet(t *testing.T, name string) played {
	t.Helper()
	shop := testShop(t)
	shop.Patterns = append(shop.Patterns, alpinePattern())
	store, tokens := &memory{jobs: map[workflow.Ticket][]workflow.Entry{}}, 0
	list, err := Checklist()
	require.NoError(t, err)
	desk := workflow.NewDesk(workflow.DeskOptions{
		Checklist: list, Store: store, Shop: shop, Person: workflow.Person{Name: "MB"}, Describe: Describe,
		Now:   func() time.Time { return shop.Now },
		Token: func() string { tokens++; return fmt.Sprint("token ", tokens) },
	})
	play, err := desk.Play(t.Context(), readSheet(t, name))
	require.NoError(t, err)
	return played{Play: play, desk: desk, store: store}
}

func readSheet(t *testing.T, name string) workflow.Sheet {
	t.Helper()
	file, err := os.Open("../../testdata/sheets/" + name)
	require.NoError(t, err)
	defer func() { require.NoError(t, file.Close()) }()
	sheet, err := workflow.ReadSheet(file)
	require.NoError(t, err)
	return sheet
}

// told is one line of a sheet in short: the step, whether it was kept or with
// what it was refused, its findings from a caution upwards, and what it made
// stale.
func (p played) told() []string {
	var lines []string
	for _, e := range p.Events {
		line := string(e.Step)
		switch {
		case e.Refusal != nil && e.Refusal.Held != "":
			line += " held"
		case e.Refusal != nil:
			for _, f := range e.Refusal.Fields {
				line += " refused " + f.Fault.Code
			}
		default:
			for _, f := range e.Findings {
				if f.Level != calc.Note {
					line += " " + string(f.Level) + " " + f.Code
				}
			}
		}
		for _, id := range e.Stale {
			line += " ~" + string(id)
		}
		lines = append(lines, line)
	}
	return lines
}

// text is the sentence of a finding as it was seen at that line.
func (p played) text(t *testing.T, line int, code string) string {
	t.Helper()
	for _, f := range p.Events[line-1].Findings {
		if f.Code == code {
			require.NotEmpty(t, f.Source)
			return f.Text
		}
	}
	require.Failf(t, "not found", "line %d names no %s", line, code)
	return ""
}

// The worked example's skier (40 years, 70 kg, 175 cm, sole 305 mm, type III ->
// 8; a press article, not a standard) on an invented hybrid binding with a
// centre screw and an adjustable toe.
func TestWorkedExampleIsHandedOver(t *testing.T) {
	p := playSheet(t, "worked_example.json")
	require.Equal(t, []string{
		"skier", "boots", "skis", "binding", "fit",
		"mount-point", "template", "bit", "holes", "clean",
		"glue", "screws", "brake",
		"sole-length",
		"forward-pressure",
		"toe-height ~forward-pressure", // the classical case
		"forward-pressure",
		"release-value caution release.type-iii",
		"release-test", "recentering", "touring",
		"last-look", "hand-over",
	}, p.told())
	require.Empty(t, p.Refused)
	require.Equal(t, workflow.Finished, p.Job.State)
	require.False(t, p.Stopped(p.desk.View(p.Job)))

	value, _ := p.Job.Answered(ReleaseValue)
	require.Equal(t, "toe 8  heel 8", value.Figures[0].Value)
	require.Equal(t, "mass 70 kg -> K, height 175 cm -> K, type III -> M, sole 305 mm -> 8", value.Figures[0].Path)
	for _, id := range p.Job.Steps() {
		require.True(t, p.Job.Fresh(id), id)
	}
	require.Equal(t, "Left ski, twist to the left: 57 Nm is 1.7 % below the reference 58 Nm: inspection range, keep.",
		p.text(t, 19, "release-test.keep"))
}

// What the store was given is the whole job.
func TestWorkedExampleReplays(t *testing.T) {
	p := playSheet(t, "worked_example.json")
	entries, err := p.store.Entries(t.Context(), p.Job.Ticket)
	require.NoError(t, err)
	require.Len(t, entries, len(p.Events)+1)
	require.Equal(t, []workflow.StaleMark{{Step: ForwardPressure, Because: "toe height was changed after forward pressure was read"}}, entries[16].Stale)
	again, err := workflow.Fold(entries)
	require.NoError(t, err)
	require.Equal(t, p.Job, again)
}

// Six traps, each named, each corrected by a later line but the last.
func TestSixTrapsAreNamed(t *testing.T) {
	p := playSheet(t, "six_traps.json")
	require.Equal(t, []string{
		"skier caution release.mass-height",                             // 54 lb
		"boots refused quantity.shell-size refused quantity.shell-size", // 1: the shell size typed for each sole length
		"boots",
		"skis",
		"binding",
		// 2 sole norm, 3 brake, 4 blank cell, 5 ski too thin for its stop
		"fit stop fit.norm-touring stop fit.brake-narrow stop release.blank-cell stop bore.thin",
		"mount-point held",
		"skier ~fit", "boots", "skis", "binding",
		"fit",
		"mount-point", "template", "bit", "holes", "clean", "glue", "screws", "brake",
		"sole-length", "toe-height", "forward-pressure",
		"release-value stop release-value.differs", // 6: one scale read back wrong, and left so
		"release-test held",
	}, p.told())

	shell := p.Events[1].Refusal.Fields
	require.Equal(t, "27.5 is a shell size; the sole length is the three-digit number in mm at the heel, roughly 300 to 330 for this shell.",
		shell[0].Fault.Sentence)
	require.Equal(t, workflow.FieldID("sole"), shell[0].Field)
	require.NotEqual(t, shell[0].Side, shell[1].Side)
	require.Contains(t, p.text(t, 6, "fit.norm-touring"), "A touring sole, ISO 9523, in an alpine binding for ISO 5355 A, ISO 23223 A")
	require.Equal(t, "Brake 85 mm is narrower than the waist 92 mm: needs a brake of 92 to 112 mm.", p.text(t, 6, "fit.brake-narrow"))
	require.Contains(t, p.text(t, 6, "release.blank-cell"), "The chart has no value in row D, column 311 to 330 mm")
	require.Contains(t, p.text(t, 6, "bore.thin"), "Under the hole at the heel piece stay 1.4 mm (ski 10.4 mm, hole 9 mm)")
	require.Equal(t, "Heel right reads 3; computed 3.5: set it and read it again.", p.text(t, 24, "release-value.differs"))
}

func TestSixTrapsEndInAStop(t *testing.T) {
	p := playSheet(t, "six_traps.json")
	require.Equal(t, workflow.Open, p.Job.State)
	view := p.desk.View(p.Job)
	require.True(t, p.Stopped(view))
	require.Equal(t, []workflow.StepID{ReleaseTest}, p.Refused)
	require.Equal(t, ReleaseValue, view.Here)
	held := slices.DeleteFunc(slices.Clone(view.Findings), func(f workflow.Finding) bool { return !f.Holds() })
	require.Len(t, held, 1, "the other five are corrected")
	require.Equal(t, "release-value.differs", held[0].Code)
	require.Equal(t, workflow.Right, held[0].Side)
	require.Equal(t, "The job is held at release value: Heel right reads 3; computed 3.5: set it and read it again.",
		p.Events[24].Refusal.Held)
	sv, _ := view.Step(HandOver)
	require.NotEmpty(t, sv.Held)
}
