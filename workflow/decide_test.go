package workflow_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"drillstop/calc"
	"drillstop/workflow"
)

func TestAnswerIsKeptInCanonicalText(t *testing.T) {
	b := newBench(t, workflow.Adjustment)
	e, err := b.try(measure, "length", " 35,0\r\n", "words", "a\x00b")
	require.NoError(t, err)
	assert.Equal(t, workflow.Answers{"length": "35", "words": "a b"}, e.Answers)
	assert.Equal(t, []workflow.Figure{{Name: "length", Label: "length", Value: "35"}}, e.Figures)
	require.Len(t, e.Findings, 1)
	assert.Equal(t, measure, e.Findings[0].Step, "the finding says where it was found")
	assert.Equal(t, 2, e.Seq)
	assert.Equal(t, "MB", e.By)
	assert.Equal(t, atTime(4), e.At)
	assert.False(t, e.Finishes)
}

func TestRefusals(t *testing.T) {
	tests := []struct {
		name  string
		kv    []string
		field workflow.FieldID
		code  string
		says  string
	}{
		{"nothing", nil, "length", "field.empty", "Length: not answered yet."},
		{"no number", []string{"length", "long"}, "length", "quantity.number", `"long"`},
		{"below", []string{"length", "9"}, "length", "field.range", "Length 9 is outside 10 to 100."},
		{"above", []string{"length", "101"}, "length", "field.range", "outside 10 to 100"},
		{"unknown field", []string{"length", "18", "colour", "red"}, "colour", "field.unknown", "length, words"},
		{"field of another side", []string{"length", "18", "length.left", "18"}, "length.left", "field.unknown", "length.left"},
		{"compared with each other", []string{"length", "13"}, "words", "words.13", "13 needs its reason."},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			_, err := newBench(t, workflow.Adjustment).try(measure, tt.kv...)
			var refusal *workflow.Refusal
			require.ErrorAs(t, err, &refusal)
			require.Len(t, refusal.Fields, 1)
			f := refusal.Fields[0]
			assert.Equal(t, tt.field, f.Field)
			assert.Equal(t, tt.code, f.Fault.Code)
			assert.Contains(t, f.Fault.Sentence, tt.says)
			assert.Equal(t, f.Fault.Sentence, err.Error())
		})
	}
}

func TestRefusalNamesTheSide(t *testing.T) {
	b := newBench(t, workflow.Adjustment).answer(measure, "length", "18").answer(look)
	_, err := b.try(set, "at.left", "5", "at.right", "500")
	var refusal *workflow.Refusal
	require.ErrorAs(t, err, &refusal)
	require.Len(t, refusal.Fields, 1)
	assert.Equal(t, workflow.Right, refusal.Fields[0].Side)
}

func TestUnknownStep(t *testing.T) {
	_, err := newBench(t, workflow.Adjustment).try("paint")
	var fault *calc.Fault
	require.ErrorAs(t, err, &fault)
	assert.Equal(t, "step.unknown", fault.Code)
}

// What an earlier answer decides: a field that is not asked is not needed, and
// refused when it is answered in spite of that.
func TestFieldIsAskedByAnEarlierAnswer(t *testing.T) {
	b := newBench(t, workflow.Adjustment).answer(measure, "length", "18").answer(look)
	_, err := b.try(set, "at.left", "5", "at.right", "5", "far", "yes")
	assert.ErrorContains(t, err, `"far"`)
	b.answer(measure, "length", "26")
	_, err = b.try(set, "at.left", "5", "at.right", "5")
	assert.ErrorContains(t, err, "Far: choose yes, no.")
	b.answer(set, "at.left", "5", "at.right", "5", "far", "n")
	assert.True(t, b.job.Is(set, "far", workflow.Both, "no"))
}

func TestHeld(t *testing.T) {
	t.Run("until what it needs is answered", func(t *testing.T) {
		b := newBench(t, workflow.Adjustment)
		_, err := b.try(set, "at.left", "5", "at.right", "5")
		assert.EqualError(t, err, "First look must be answered.")
	})
	t.Run("needs that do not apply are ignored", func(t *testing.T) {
		b := newBench(t, workflow.Adjustment).answer(measure, "length", "18").answer(look)
		assert.Empty(t, b.step(set).Held)
		_, err := b.try(drill, "done", "yes")
		assert.EqualError(t, err, "This step does not apply to this job.")
	})
	t.Run("needs that apply are not", func(t *testing.T) {
		b := newBench(t, workflow.NewMount).answer(measure, "length", "18").answer(look)
		assert.Equal(t, "First drill must be answered.", b.step(set).Held)
	})
	t.Run("by a stop, behind it only", func(t *testing.T) {
		b := newBench(t, workflow.Adjustment).answer(measure, "length", "18").answer(look).answer(measure, "length", "45")
		assert.Empty(t, b.step(measure).Held, "the cause can be removed")
		assert.Equal(t, "The job is held at measure: Length 45 is more than 40.", b.step(set).Held)
		assert.Equal(t, measure, b.view().Here)
		b.answer(measure, "length", "18")
		assert.Empty(t, b.step(set).Held)
	})
	t.Run("by the first of two stops", func(t *testing.T) {
		b := newBench(t, workflow.Adjustment).answer(measure, "length", "50")
		assert.Len(t, b.view().Findings, 2)
		assert.Equal(t, "The job is held at measure: Length 50 is more than 40.", b.step(set).Held)
	})
	t.Run("by a stop of a step without fields before it is confirmed", func(t *testing.T) {
		b := newBench(t, workflow.Adjustment).answer(measure, "length", "20")
		sv := b.step(look)
		assert.Equal(t, workflow.MarkStop, sv.Mark)
		require.Len(t, sv.Findings, 1)
		assert.Equal(t, workflow.Left, sv.Findings[0].Side)
		assert.Contains(t, b.step(press).Held, "20 is seen to be wrong.")
	})
	t.Run("until what became stale is answered again", func(t *testing.T) {
		b := newBench(t, workflow.Adjustment).full().answer(measure, "length", "19")
		assert.Equal(t, "First set must be answered again.", b.step(closing).Held)
	})
}

func TestStale(t *testing.T) {
	b := newBench(t, workflow.Adjustment).full()
	b.answer(measure, "length", "18", "words", "other words")
	assert.True(t, b.job.Fresh(set), "the words do not matter to it")

	b.answer(measure, "length", "19", "words", "other words")
	assert.Equal(t, workflow.MarkStale, b.step(set).Mark)
	assert.Equal(t, setRests, b.step(set).Stale)
	assert.Equal(t, set, b.view().Here)
	assert.Equal(t, []workflow.StaleMark{{Step: set, Because: setRests}}, b.all[len(b.all)-1].Stale)
	assert.Equal(t, "5", b.job.Text(set, "at", workflow.Left), "what became stale is not lost")

	b.answer(measure, "length", "18")
	assert.Equal(t, workflow.MarkStale, b.step(set).Mark, "changing back does not undo the look that is due")

	b.answer(set, "at.left", "5", "at.right", "6")
	assert.True(t, b.job.Fresh(set))
	assert.True(t, b.job.Fresh(press), "set the same: not disturbed")
	b.answer(set, "at.left", "4", "at.right", "6")
	assert.True(t, b.job.Fresh(press), "set lower: not disturbed")
	b.answer(set, "at.left", "5", "at.right", "6")
	assert.Equal(t, pressRests, b.step(press).Stale)
}

func TestStaleNamesOnlyAnsweredSteps(t *testing.T) {
	b := newBench(t, workflow.Adjustment).answer(measure, "length", "18").answer(measure, "length", "19")
	assert.Empty(t, b.all[len(b.all)-1].Stale)
}

func TestChanged(t *testing.T) {
	before := typed("a", "1", "b.left", "2", "b.right", "3")
	tests := []struct {
		name   string
		after  workflow.Answers
		fields []workflow.FieldID
		want   bool
	}{
		{"nothing", before, nil, false},
		{"any field", typed("a", "2", "b.left", "2", "b.right", "3"), nil, true},
		{"another field", typed("a", "2", "b.left", "2", "b.right", "3"), []workflow.FieldID{"b"}, false},
		{"one side", typed("a", "1", "b.left", "2", "b.right", "4"), []workflow.FieldID{"b"}, true},
		{"taken away", typed("a", "1", "b.left", "2"), []workflow.FieldID{"b"}, true},
		{"added", typed("a", "1", "b.left", "2", "b.right", "3", "c", "9"), []workflow.FieldID{"c"}, true},
		{"a name that begins alike", typed("a", "1", "b.left", "2", "b.right", "3", "ab", "9"), []workflow.FieldID{"a"}, false},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			assert.Equal(t, tt.want, workflow.Changed(before, tt.after, tt.fields...))
		})
	}
}

func TestPreviewWritesNothing(t *testing.T) {
	b := newBench(t, workflow.Adjustment)
	found, ok := b.list.Preview(workflow.Shop{}, b.job, measure, typed("length", "45"))
	assert.True(t, ok)
	require.Len(t, found, 1)
	assert.Equal(t, "length.long", found[0].Code)
	assert.Empty(t, b.job.Steps())
	for _, length := range []string{"?", ""} {
		_, ok = b.list.Preview(workflow.Shop{}, b.job, measure, typed("length", length))
		assert.False(t, ok, "a check does not judge what nobody has said")
	}
	_, ok = b.list.Preview(workflow.Shop{}, b.job, "paint", nil)
	assert.False(t, ok)
}

func TestHandOver(t *testing.T) {
	b := newBench(t, workflow.Adjustment).full()
	b.answer(closing, "name", "nobody")
	assert.Equal(t, workflow.Open, b.job.State, "a stop at the last step leaves the job open")
	b.answer(closing, "name", "Ida Fjelde")
	assert.Equal(t, workflow.Finished, b.job.State)
	assert.Equal(t, atTime(4), b.job.EndedAt)
	_, err := b.try(measure, "length", "18")
	assert.EqualError(t, err, "The job is handed over; a new job can take it up.")
}

// What was found stays what was found, whatever the rules say later.
func TestFinishedJobKeepsItsFindings(t *testing.T) {
	b := newBench(t, workflow.Adjustment).full()
	b.answer(measure, "length", "35").answer(look).answer(set, "at.left", "5", "at.right", "5", "far", "no")
	b.answer(closing, "name", "Ida Fjelde")
	require.Equal(t, workflow.Finished, b.job.State)

	steps := smallSteps()
	steps[0].Check = func(workflow.Shop, workflow.Job) []workflow.Finding {
		return []workflow.Finding{{Level: calc.Stop, Code: "new.rule", Text: "A rule of later years."}}
	}
	later, err := workflow.NewChecklist(steps...)
	require.NoError(t, err)
	found := later.Findings(workflow.Shop{}, b.job)
	require.Len(t, found, 1)
	assert.Equal(t, "length.near", found[0].Code)
}
