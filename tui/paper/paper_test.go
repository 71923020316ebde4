package paper_test

import (
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"drillstop/calc"
	"drillstop/calc/quantity"
	"drillstop/tui/paper"
	"drillstop/workflow"
)

var update = flag.Bool("update", false, "write the golden sheets anew")

// golden compares a sheet with the one kept in testdata.
func golden(t *testing.T, name, got string) {
	t.Helper()
	path := filepath.Join("../../testdata/golden/ticket", name)
	if *update {
		require.NoError(t, os.WriteFile(path, []byte(got), 0o600))
	}
	want, err := os.ReadFile(path)
	require.NoError(t, err)
	assert.Equal(t, string(want), got)
}

// bench answers an invented job of four steps, a minute after another.
type bench struct {
	t       *testing.T
	list    *workflow.Checklist
	shop    workflow.Shop
	by      workflow.Person
	job     workflow.Job
	entries []workflow.Entry
}

func newBench(t *testing.T, kind workflow.Kind) *bench {
	t.Helper()
	list, err := workflow.NewChecklist(skier(), boots(), pressure(), handOver())
	require.NoError(t, err)
	b := &bench{
		t: t, list: list, by: workflow.Person{Name: "Mari Brekke", Supervisor: true},
		shop: workflow.Shop{Name: "Nordhang workshop", Now: time.Date(2026, 11, 25, 8, 6, 0, 0, time.UTC)},
	}
	e := workflow.Begin(kind, "2026-11-26", b.stamp())
	e.Ticket = 417
	b.apply(e, nil)
	return b
}

func (b *bench) stamp() workflow.Stamp {
	b.shop.Now = b.shop.Now.Add(time.Minute)
	return workflow.Stamp{By: b.by, At: b.shop.Now}
}

func (b *bench) apply(e workflow.Entry, err error) {
	b.t.Helper()
	require.NoError(b.t, err)
	b.job, err = b.job.Apply(e)
	require.NoError(b.t, err)
	b.entries = append(b.entries, e)
}

func (b *bench) answer(step workflow.StepID, typed workflow.Answers) {
	b.t.Helper()
	e, err := b.list.Answer(b.shop, b.job, step, typed, b.stamp())
	b.apply(e, err)
}

func (b *bench) ticket() string {
	return paper.Ticket{Shop: b.shop.Name, View: b.list.View(b.shop, b.job), Entries: b.entries}.Text()
}

func skier() workflow.Step {
	return workflow.Step{ID: "skier", Phase: workflow.Intake, Title: "skier", Fields: []workflow.Field{
		{ID: "name", Label: "Name", Kind: workflow.Text},
		{ID: "mass", Label: "Mass", Kind: workflow.Number, Unit: quantity.KG},
		{ID: "request", Label: "What the skier asks of the release value, in the skier's own words", Kind: workflow.Text, Optional: true},
	}}
}

func boots() workflow.Step {
	return workflow.Step{
		ID: "boots", Phase: workflow.Intake, Title: "boots",
		Fields: []workflow.Field{
			{ID: "norm", Label: "Sole norm", Kind: workflow.Text},
			{ID: "sole", Label: "Boot sole length", Kind: workflow.Number, Unit: quantity.MM, PerSki: true},
			{ID: "wear", Label: "Toe wear", Kind: workflow.Number, Unit: quantity.MM, PerSki: true, Optional: true},
		},
		Check: func(_ workflow.Shop, job workflow.Job) []workflow.Finding {
			wear, worn := job.Number("boots", "wear", workflow.Right, quantity.MM)
			if !worn {
				return nil
			}
			return []workflow.Finding{{
				Side: workflow.Right, Level: calc.Stop, Code: "worn", Source: "invented for a test",
				Text: "Toe wear " + quantity.Print(wear, quantity.MM) + " is more than this test allows, and the sentence about it is long enough for a second line.",
			}}
		},
	}
}

func pressure() workflow.Step {
	return workflow.Step{
		ID: "pressure", Phase: workflow.Adjusting, Title: "forward pressure", Needs: []workflow.StepID{"boots"},
		Fields: []workflow.Field{{ID: "indicator", Label: "Indicator, boot in", Kind: workflow.Text, PerSki: true}},
		Rests:  []workflow.Rest{{On: "boots", Because: "the boots were changed after forward pressure was read"}},
		Figures: func(workflow.Shop, workflow.Job) []workflow.Figure {
			return []workflow.Figure{{Name: "window", Label: "window", Value: "0.5 mm", Path: "as marked on the binding"}}
		},
		Check: func(_ workflow.Shop, job workflow.Job) []workflow.Finding {
			if job.Is("pressure", "indicator", workflow.Left, "in window") {
				return nil
			}
			return []workflow.Finding{{Level: calc.Caution, Code: "edge", Text: "The indicator stands at the edge of its window."}}
		},
	}
}

func handOver() workflow.Step {
	return workflow.Step{
		ID: "hand-over", Phase: workflow.HandOver, Title: "hand-over", Closes: true,
		Needs:  []workflow.StepID{"skier", "boots", "pressure"},
		Fields: []workflow.Field{{ID: "told", Label: "Told: the values", Kind: workflow.Seen}},
	}
}

var (
	ida    = workflow.Answers{"name": "Ida Fjelde", "mass": "72"}
	shod   = workflow.Answers{"norm": "ISO 9523", "sole.left": "318", "sole.right": "318"}
	inside = workflow.Answers{"indicator.left": "in window", "indicator.right": "in window"}
)

func TestTicketOfAHandedOverJob(t *testing.T) {
	t.Parallel()
	b := newBench(t, workflow.NewMount)
	b.answer("skier", workflow.Answers{"name": "Ida Fjelde", "mass": "70"})
	b.answer("skier", workflow.Answers{"name": "Ida Fjelde", "mass": "72", "request": "lower at the toe, since the left knee was operated on last winter"})
	b.answer("boots", workflow.Answers{"norm": "ISO 9523", "sole.left": "318", "sole.right": "318", "wear.right": "6"})
	found := b.list.Findings(b.shop, b.job)
	require.Len(t, found, 1)
	e, err := b.list.Waive(b.shop, b.job, found[0], "The skier has new boots on order.", b.stamp())
	b.apply(e, err)
	b.answer("pressure", workflow.Answers{"indicator.left": "at the edge", "indicator.right": "in window"})
	b.answer("hand-over", workflow.Answers{"told": "yes"})
	require.Equal(t, workflow.Finished, b.job.State)
	golden(t, "handed_over.txt", b.ticket())
}

func TestTicketOfAJobInHand(t *testing.T) {
	t.Parallel()
	b := newBench(t, workflow.Adjustment)
	b.answer("skier", ida)
	b.answer("boots", shod)
	b.answer("pressure", inside)
	b.answer("boots", workflow.Answers{"norm": "ISO 9523", "sole.left": "318", "sole.right": "317", "wear.right": "6"})
	golden(t, "in_hand.txt", b.ticket())
}

func TestTicketOfAVoidJob(t *testing.T) {
	t.Parallel()
	b := newBench(t, workflow.ReMount)
	b.answer("skier", workflow.Answers{"name": "Åse Østby-Fjelde", "mass": "61.5"})
	e, err := b.list.Void(workflow.Shop{}, b.job, "The base is cut through.", b.stamp())
	b.apply(e, err)
	golden(t, "void.txt", b.ticket())
}

func TestTicketOfANewJob(t *testing.T) {
	t.Parallel()
	golden(t, "new.txt", newBench(t, workflow.Rental).ticket())
}

func TestTicketShowsTimesWhereTheShopIs(t *testing.T) {
	t.Parallel()
	b := newBench(t, workflow.NewMount)
	sheet := paper.Ticket{Shop: "Nordhang workshop", View: b.list.View(b.shop, b.job), Entries: b.entries}
	assert.Contains(t, sheet.Text(), "Opened 2026-11-25 08:07 by")
	sheet.Zone = time.FixedZone("there", 3*60*60)
	assert.Contains(t, sheet.Text(), "Opened 2026-11-25 11:07 by")
}

func TestTicketSaysWhatACorrectedAnswerWas(t *testing.T) {
	t.Parallel()
	b := newBench(t, workflow.NewMount)
	b.answer("skier", workflow.Answers{"name": "Ida Fjelde", "mass": "70"})
	b.answer("skier", workflow.Answers{"name": "Ida Fjelde", "mass": "72", "request": "lower"})
	b.answer("skier", workflow.Answers{"name": "Ida Fjelde", "mass": "72"})
	sheet := b.ticket()
	assert.Contains(t, sheet, "skier again, mass 70 kg -> 72 kg,\n"+strings.Repeat(" ", 42)+"request lower\n")
	assert.Contains(t, sheet, "skier again, request was lower\n")
}

func TestPlayedSheet(t *testing.T) {
	t.Parallel()
	b := newBench(t, workflow.NewMount)
	b.answer("skier", ida)
	b.answer("boots", shod)
	b.answer("pressure", inside)
	b.answer("boots", workflow.Answers{"norm": "ISO 9523", "sole.left": "318", "sole.right": "317", "wear.right": "6"})
	view := b.list.View(b.shop, b.job)
	at, _ := view.Step("boots")
	golden(t, "played.txt", paper.Played{View: view, Play: workflow.Play{
		Job: b.job,
		Events: []workflow.Event{
			{Line: 1, Step: "skier", Refusal: &workflow.Refusal{Step: "skier", Fields: []workflow.FieldFault{{
				Field: "sole", Side: workflow.Left, Fault: calc.Faultf("test", "27.5 is a shell size; the sole length is the three-digit number at the heel."),
			}}}},
			{Line: 2, Step: "skier", Kept: true},
			{Line: 3, Step: "hand-over", Refusal: &workflow.Refusal{Step: "hand-over", Held: "First boots must be answered."}},
			{Line: 4, Step: "boots", Kept: true, Findings: at.Findings, Stale: []workflow.StepID{"pressure"}},
			{Line: 5, Step: "gone", Refusal: &workflow.Refusal{Held: "There is no such step."}},
		},
		Refused: []workflow.StepID{"hand-over"},
	}}.Text())
}
