package workflow_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"drillstop/workflow"
)

func TestDeclarationsAreCheckedAgainstEachOther(t *testing.T) {
	tests := []struct {
		name  string
		spoil func([]workflow.Step) []workflow.Step
		says  string
	}{
		{"an id twice", func(s []workflow.Step) []workflow.Step { s[1].ID = measure; return s }, "empty or taken"},
		{"no id", func(s []workflow.Step) []workflow.Step { s[1].ID = ""; return s }, "empty or taken"},
		{"an unknown phase", func(s []workflow.Step) []workflow.Step { s[0].Phase = "painting"; return s }, "painting"},
		{"phases out of order", func(s []workflow.Step) []workflow.Step { s[2].Phase = workflow.HandOver; return s }, "comes before"},
		{"a need that comes later", func(s []workflow.Step) []workflow.Step { s[1].Needs = []workflow.StepID{press}; return s }, "needs"},
		{"a need of itself", func(s []workflow.Step) []workflow.Step { s[1].Needs = []workflow.StepID{look}; return s }, "needs"},
		{"a rest on no step", func(s []workflow.Step) []workflow.Step { s[3].Rests[0].On = "paint"; return s }, "rests on"},
		{"a rest on itself", func(s []workflow.Step) []workflow.Step { s[3].Rests[0].On = set; return s }, "rests on"},
		{"a rest without a reason", func(s []workflow.Step) []workflow.Step { s[3].Rests[0].Because = ""; return s }, "no reason"},
		{"a rest on no field", func(s []workflow.Step) []workflow.Step { s[3].Rests[0].Fields[0] = "width"; return s }, "no such field"},
		{"nothing closes", func(s []workflow.Step) []workflow.Step { s[5].Closes = false; return s }, "closes"},
		{"closes too early", func(s []workflow.Step) []workflow.Step { s[0].Closes = true; return s }, "closes"},
		{"a field twice", func(s []workflow.Step) []workflow.Step { s[0].Fields[1].ID = "length"; return s }, "twice"},
		{"a field without a label", func(s []workflow.Step) []workflow.Step { s[0].Fields[1].Label = ""; return s }, "lacks"},
		{"options without a choice", func(s []workflow.Step) []workflow.Step { s[0].Fields[1].Options = workflow.YesNo; return s }, "do not agree"},
		{"a choice without options", func(s []workflow.Step) []workflow.Step { s[0].Fields[1].Kind = workflow.Choice; return s }, "do not agree"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			_, err := workflow.NewChecklist(tt.spoil(smallSteps())...)
			assert.ErrorContains(t, err, tt.says)
		})
	}
	_, err := workflow.NewChecklist(smallSteps()...)
	assert.NoError(t, err)
}

func TestChecklistHandsOutCopies(t *testing.T) {
	b := newBench(t, workflow.Adjustment)
	b.list.Steps()[0].ID = "painted"
	_, ok := b.list.Step(measure)
	require.True(t, ok)
	assert.Equal(t, measure, b.list.Steps()[0].ID)
}
