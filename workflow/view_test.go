package workflow_test

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"drillstop/workflow"
)

// marks are the marks of the steps in one word, as the ski shows them.
func (b *bench) marks() string {
	out := ""
	for _, sv := range b.view().Steps {
		out += string(rune(sv.Mark))
	}
	return out
}

func TestMarksFromAnEmptyBenchToHandOver(t *testing.T) {
	b := newBench(t, workflow.Adjustment)
	see := func(want string, here workflow.StepID) {
		t.Helper()
		assert.Equal(t, want, b.marks())
		assert.Equal(t, here, b.view().Here)
	}
	see(">·-···", measure)
	b.answer(measure, "length", "18")
	see("=>-···", look)
	b.answer(look)
	see("==->··", set)
	b.answer(press, "ok", "yes")
	see("==->=·", set)
	b.answer(set, "at.left", "5", "at.right", "5")
	see("==-=~·", press)
	b.answer(press, "ok", "yes")
	see("==-==>", closing)
	b.answer(measure, "length", "31")
	see("!=-~=·", set)
	b.answer(measure, "length", "45")
	see("#=-~=·", measure)
	b.answer(measure, "length", "18").answer(set, "at.left", "5", "at.right", "5").answer(closing, "name", "IF")
	see("=====", "") // a closed job shows the steps that applied
}

func TestPhasesSumUpTheirSteps(t *testing.T) {
	b := newBench(t, workflow.Adjustment).answer(measure, "length", "31")
	v := b.view()
	require.Len(t, v.Phases, len(workflow.Phases))
	assert.Equal(t, workflow.PhaseView{Phase: workflow.Intake, Mark: workflow.MarkHere, Done: 1, Of: 2}, v.Phases[0])
	assert.Equal(t, workflow.PhaseView{Phase: workflow.Layout, Mark: workflow.MarkApart}, v.Phases[1])
	assert.Equal(t, workflow.PhaseView{Phase: workflow.Drilling, Mark: workflow.MarkApart}, v.Phases[2])
	assert.Equal(t, workflow.MarkAhead, v.Phases[4].Mark)
	b.answer(look)
	assert.Equal(t, workflow.MarkCaution, b.view().Phases[0].Mark)
	assert.Equal(t, 2, b.view().Phases[0].Done)
}

func TestSummaryNamesWhatMattersMost(t *testing.T) {
	describe := func(workflow.Job) (string, string, string) { return "Ida Fjelde", "Tarn 98", "Orlo 10" }
	b := newBench(t, workflow.Adjustment).full()
	sum := func() workflow.Summary { return b.list.Summarise(workflow.Shop{}, b.job, atTime(9), describe) }

	s := sum()
	assert.Equal(t, "Ida Fjelde", s.Skier)
	assert.Equal(t, "closing", s.Here)
	assert.Equal(t, workflow.MarkKept, s.Mark)
	assert.Empty(t, s.Worst)

	b.answer(measure, "length", "31")
	s = sum()
	assert.Equal(t, 1, s.Cautions)
	assert.Equal(t, 1, s.Stales)
	assert.Equal(t, workflow.MarkStale, s.Mark)
	assert.Equal(t, "set: "+setRests, s.Worst)

	b.answer(measure, "length", "45")
	s = sum()
	assert.Equal(t, 1, s.Stops)
	assert.Equal(t, workflow.MarkStop, s.Mark)
	assert.Equal(t, "Length 45 is more than 40.", s.Worst)
}

func TestMarkSurvivesJSON(t *testing.T) {
	for _, m := range []workflow.Mark{
		workflow.MarkAhead, workflow.MarkHere, workflow.MarkKept, workflow.MarkStale,
		workflow.MarkCaution, workflow.MarkStop, workflow.MarkWaived, workflow.MarkApart,
	} {
		text, err := json.Marshal(m)
		require.NoError(t, err)
		var back workflow.Mark
		require.NoError(t, json.Unmarshal(text, &back))
		assert.Equal(t, m, back)
		assert.NotEqual(t, "unknown", m.Word())
	}
	var m workflow.Mark
	assert.Error(t, json.Unmarshal([]byte(`"?"`), &m))
	assert.Error(t, json.Unmarshal([]byte(`""`), &m))
	assert.Error(t, json.Unmarshal([]byte(`"=="`), &m))
}

func TestTicketNumbers(t *testing.T) {
	for typed, want := range map[string]workflow.Ticket{"T-0417": 417, "t0417": 417, " 417 ": 417, "T-12345": 12345} {
		got, err := workflow.ParseTicket(typed)
		require.NoError(t, err, typed)
		assert.Equal(t, want, got)
		again, err := workflow.ParseTicket(got.String())
		require.NoError(t, err)
		assert.Equal(t, got, again)
	}
	for _, typed := range []string{"", "T-", "0", "-1", "T--4", "four", "4.5", "99999999999"} {
		_, err := workflow.ParseTicket(typed)
		assert.Error(t, err, typed)
	}
}
