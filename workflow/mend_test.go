package workflow_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"drillstop/calc"
	"drillstop/calc/quantity"
	"drillstop/workflow"
)

const mend workflow.StepID = "mend"

// mendingSteps are the small steps, where 90 and more at the left stops the
// press, and mend is there to remove that: it sends back to measure, and makes
// press stale.
func mendingSteps() []workflow.Step {
	steps := smallSteps()
	press := &steps[4]
	press.Fields = append(press.Fields, workflow.Field{
		ID: "force", Label: "Force", Kind: workflow.Number, Min: 1, Max: 100,
		Unless: func(a workflow.Answers) bool { return a.Is("ok", workflow.Both, workflow.Yes) },
	})
	press.Fields[0].Optional = true
	press.Check = func(_ workflow.Shop, job workflow.Job) []workflow.Finding {
		if v, _ := job.Number(press.ID, "force", workflow.Both, quantity.Plain); v > 50 {
			return []workflow.Finding{{Level: calc.Stop, Code: "press.force", Text: "Too much force."}}
		}
		return nil
	}
	press.Rests = append(press.Rests, workflow.Rest{On: mend, Because: "it was mended after it was pressed"})
	mending := workflow.Step{
		ID: mend, Phase: workflow.Testing, Title: "mend", Mends: press.ID,
		Applies: func(job workflow.Job) bool {
			_, ok := job.Answered(press.ID)
			return ok
		},
		Fields: []workflow.Field{{ID: "back", Label: "Back to", Kind: workflow.Text}},
		Stales: func(_ workflow.Shop, job workflow.Job, a workflow.Answers) []workflow.StaleMark {
			if !job.Is(mend, "back", workflow.Both, a.Text("back", workflow.Both)) {
				return nil // the job is seen with the answer
			}
			return []workflow.StaleMark{
				{Step: workflow.StepID(a.Text("back", workflow.Both)), Because: "it is looked at again"},
				{Step: press.ID, Because: "said by its rests already"},
				{Step: mend, Because: "not itself"},
			}
		},
	}
	return append(steps[:5:5], mending, steps[5])
}

func mendingBench(t *testing.T) *bench {
	t.Helper()
	b := newBench(t, workflow.Adjustment)
	list, err := workflow.NewChecklist(mendingSteps()...)
	require.NoError(t, err)
	b.list = list
	b.answer(measure, "length", "18")
	b.answer(look)
	b.answer(set, "at.left", "5", "at.right", "5")
	b.answer(press, "force", "60")
	return b
}

func (b *bench) here() workflow.StepID { return b.view().Here }

func TestTheHandMendsBeforeItTestsAgain(t *testing.T) {
	b := mendingBench(t)
	assert.Equal(t, mend, b.here())
	e, err := b.try(mend, "back", "measure")
	require.NoError(t, err)
	assert.Equal(t, []workflow.StaleMark{
		{Step: press, Because: "it was mended after it was pressed"}, {Step: measure, Because: "it is looked at again"},
	}, e.Stale, "each step once, and only what was answered")
	b.apply(e)
	assert.Equal(t, measure, b.here())
	b.answer(measure, "length", "18")
	assert.Equal(t, press, b.here(), "it is mended: now it is pressed again")
	b.answer(press, "force", "40")
	assert.Equal(t, closing, b.here())
}

func TestStalesMarksNothingThatWasNotAnswered(t *testing.T) {
	b := mendingBench(t)
	e, err := b.try(mend, "back", "drill")
	require.NoError(t, err)
	assert.Equal(t, []workflow.StaleMark{{Step: press, Because: "it was mended after it was pressed"}}, e.Stale)
}

// A stop that is stale is no place to mend: what it speaks of may be gone.
func TestNobodyMendsWhatIsStale(t *testing.T) {
	b := mendingBench(t)
	b.answer(set, "at.left", "6", "at.right", "6")
	assert.NotEmpty(t, b.step(press).Stale)
	assert.Equal(t, press, b.here())
}

func TestMendsIsDeclaredBothWays(t *testing.T) {
	steps := mendingSteps()
	steps[4].Rests = nil
	_, err := workflow.NewChecklist(steps...)
	require.ErrorContains(t, err, `mends "press", which does not rest on it`)
	steps = mendingSteps()
	steps[5].Mends = "nothing"
	_, err = workflow.NewChecklist(steps...)
	require.Error(t, err)
}

// An answer remembers those before it, and keeps them as they were.
func TestAnswersRememberTheOnesBefore(t *testing.T) {
	b := newBench(t, workflow.Adjustment)
	for _, length := range []string{"18", "19", "21"} {
		b.answer(measure, "length", length)
	}
	var seen []string
	now, _ := b.job.Answered(measure)
	for a := &now; a != nil; a = a.Before {
		seen = append(seen, a.Answers.Text("length", workflow.Both))
	}
	assert.Equal(t, []string{"21", "19", "18"}, seen)
}

// A field is needed unless what stands before it says otherwise.
func TestUnless(t *testing.T) {
	b := mendingBench(t)
	_, err := b.try(press)
	var refusal *workflow.Refusal
	require.ErrorAs(t, err, &refusal)
	require.Len(t, refusal.Fields, 1)
	assert.Equal(t, workflow.FieldID("force"), refusal.Fields[0].Field)
	_, err = b.try(press, "ok", "yes")
	require.NoError(t, err)
	_, err = b.try(press, "ok", "yes", "force", "12")
	require.NoError(t, err)
	for _, s := range b.list.Blank(workflow.Adjustment).Steps {
		for _, about := range s.About {
			if about.Field == "force" {
				assert.True(t, about.Sometimes)
			}
		}
	}
}

func TestPicturesOfAStep(t *testing.T) {
	steps := smallSteps()
	steps[0].Picture = func(_ workflow.Shop, _ workflow.Job, a workflow.Answers) []workflow.Picture {
		return []workflow.Picture{{Window: &workflow.WindowPicture{Title: a.Text("length", workflow.Both) + a.Text("words", workflow.Both)}}}
	}
	list, err := workflow.NewChecklist(steps...)
	require.NoError(t, err)
	o := deskOptions(t, newMemory(), technician)
	o.Checklist = list
	desk := workflow.NewDesk(o)
	job, err := desk.NewJob(t.Context(), workflow.Adjustment, "")
	require.NoError(t, err)
	pictures := desk.Picture(job, measure, typed("length", "900", "words", "half"))
	require.Len(t, pictures, 1)
	assert.Equal(t, "half", pictures[0].Window.Title, "what cannot be read is left out")
	assert.Empty(t, desk.Picture(job, drill, nil), "it does not apply")
	assert.Empty(t, desk.Picture(job, look, nil))
	assert.Empty(t, desk.Picture(job, "nothing", nil))
}

func TestDevicesByName(t *testing.T) {
	shop := workflow.Shop{Devices: []workflow.Device{{Name: "A"}, {Name: "B", High: 400}}}
	d, ok := shop.Device("B")
	require.True(t, ok)
	assert.Equal(t, quantity.NewtonMetre(400), d.High)
	_, ok = shop.Device("b")
	assert.False(t, ok)
}
