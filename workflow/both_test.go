package workflow_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"drillstop/calc"
	"drillstop/workflow"
)

// Sentences that differ by the ski alone become one; a number that differs, or
// another code, keeps them two.
func TestOnceForBoth(t *testing.T) {
	t.Parallel()
	found := workflow.OnceForBoth([]workflow.Finding{
		{Side: "left", Level: calc.Stop, Code: "a", Text: "Hole 1 left lies 6.0 mm from old hole 2."},
		{Side: "left", Level: calc.Stop, Code: "a", Text: "Hole 3 left lies 6.0 mm from old hole 4."},
		{Side: "right", Level: calc.Stop, Code: "a", Text: "Hole 1 right lies 6.0 mm from old hole 2."},
		{Side: "right", Level: calc.Stop, Code: "a", Text: "Hole 3 right lies 6.1 mm from old hole 4."},
		{Level: calc.Caution, Code: "b", Text: "2 old holes on the left ski are open."},
		{Level: calc.Caution, Code: "b", Text: "2 old holes on the right ski are open."},
		{Level: calc.Caution, Code: "c", Text: "The width of the left ski is not known."},
		{Level: calc.Caution, Code: "d", Text: "The width of the right ski is not known."},
	})
	assert.Equal(t, []workflow.Finding{
		{Level: calc.Stop, Code: "a", Text: "Hole 1 of both skis lies 6.0 mm from old hole 2."},
		{Side: "left", Level: calc.Stop, Code: "a", Text: "Hole 3 left lies 6.0 mm from old hole 4."},
		{Side: "right", Level: calc.Stop, Code: "a", Text: "Hole 3 right lies 6.1 mm from old hole 4."},
		{Level: calc.Caution, Code: "b", Text: "2 old holes on each ski are open."},
		{Level: calc.Caution, Code: "c", Text: "The width of the left ski is not known."},
		{Level: calc.Caution, Code: "d", Text: "The width of the right ski is not known."},
	}, found)
}
