package workflow_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"drillstop/workflow"
)

const pressRedone = "it was set again after it was pressed"

// redoneBench is a bench on which pressing rests on setting being left alone as
// well.
func redoneBench(t *testing.T) *bench {
	steps := smallSteps()
	for i := range steps {
		if steps[i].ID == press {
			steps[i].Rests = []workflow.Rest{{On: set, Fields: []workflow.FieldID{"at"}, Redone: true, Because: pressRedone}}
		}
	}
	b := newBench(t, workflow.Adjustment)
	list, err := workflow.NewChecklist(steps...)
	require.NoError(t, err)
	b.list = list
	return b.full()
}

func TestWorkDoneAnewDisturbs(t *testing.T) {
	b := redoneBench(t)
	b.answer(set, "at.left", "5", "at.right", "5")
	assert.True(t, b.job.Fresh(press), "answered the same while it held: nothing was done")

	b.answer(measure, "length", "19")
	assert.True(t, b.job.Fresh(press), "nothing was set yet")
	b.answer(set, "at.left", "5", "at.right", "5")
	assert.Equal(t, pressRedone, b.step(press).Stale, "the same answer, but the work was done anew")

	b.answer(press, "ok", "y").answer(set, "at.left", "5", "at.right", "5")
	assert.True(t, b.job.Fresh(press), "it was not stale any more")
	b.answer(set, "at.left", "6", "at.right", "5")
	assert.Equal(t, pressRedone, b.step(press).Stale, "a plain change disturbs as ever")
}

// What a step was answered again for stays with it: what was done before may
// have left its traces.
func TestRedoneIsRemembered(t *testing.T) {
	b := redoneBench(t)
	assert.Empty(t, mustAnswered(t, b.job, set).Redone)
	b.answer(measure, "length", "19").answer(measure, "length", "20").answer(measure, "length", "21")
	assert.Empty(t, mustAnswered(t, b.job, set).Redone, "stale, and not answered again")
	b.answer(set, "at.left", "5", "at.right", "5")
	assert.Equal(t, []workflow.StepID{measure}, mustAnswered(t, b.job, set).Redone)
	b.answer(set, "at.left", "6", "at.right", "6")
	assert.Equal(t, []workflow.StepID{measure}, mustAnswered(t, b.job, set).Redone, "answering once more does not undo it")
	assert.Empty(t, mustAnswered(t, b.job, press).Redone, "not answered again yet")
	again, err := workflow.Fold(b.all)
	require.NoError(t, err)
	assert.Equal(t, b.job, again)
}
