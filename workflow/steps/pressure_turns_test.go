package steps

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"drillstop/calc/quantity"
	"drillstop/workflow"
)

func TestTravelIsAskedWhereTheCardKnowsIt(t *testing.T) {
	b := newJob(t, workflow.Adjustment).upTo(ForwardPressure)
	s, _ := b.list.Step(ForwardPressure)
	off, _ := s.Field("off")
	assert.False(t, off.Asked(b.job))
	b.change(Binding, "mm_per_turn", "1.2")
	assert.True(t, off.Asked(b.job))
}

func TestTurnsAreSaid(t *testing.T) {
	b := newJob(t, workflow.Adjustment).upTo(Binding).change(Binding, "mm_per_turn", "1.2").upTo(ForwardPressure).
		change(ForwardPressure, "found.left", tooLittle, "off.left", "-2", "turns.left", "", "indicator.left", tooLittle)
	assert.Equal(t, "Left ski: forward pressure is too little: move the heel piece towards the toe, about 1.75 turns (+, adds pressure), "+
		"until the indicator stands in its window, and read it again.", b.finding("forward-pressure.window").Text)
	b.change(ForwardPressure, "turns.left", "1")
	assert.Equal(t, "Left ski: forward pressure is too little: move the heel piece towards the toe "+
		"until the indicator stands in its window, and read it again.", b.finding("forward-pressure.window").Text, "off is as found, before it was turned")
}

func TestPressureAgainstItself(t *testing.T) {
	for _, c := range []struct {
		found, off string
		refused    bool
	}{
		{tooLittle, "-1", false}, {tooMuch, "1", false}, {inWindow, "0.5", false}, {inWindow, "-0.5", false},
		{tooLittle, "1", true}, {tooMuch, "-1", true}, {tooLittle, "0", true},
	} {
		b := newJob(t, workflow.Adjustment).upTo(Binding).change(Binding, "mm_per_turn", "1").upTo(ForwardPressure)
		typed := []string{"found.right", c.found, "off.right", c.off}
		if !c.refused {
			b.change(ForwardPressure, typed...)
			continue
		}
		r := b.refused(ForwardPressure, typed...)
		require.Equal(t, "forward-pressure.off", r.Fields[0].Fault.Code)
		require.Equal(t, workflow.Right, r.Fields[0].Side)
	}
}

func TestTurnedTheWrongWay(t *testing.T) {
	for _, c := range []struct {
		found, turns string
		want         []string
	}{
		{tooLittle, "1", []string{}}, {tooMuch, "-1", []string{}}, {inWindow, "1", []string{}},
		{tooLittle, "-1", []string{"caution forward-pressure.way"}}, {tooMuch, "0.5", []string{"caution forward-pressure.way"}},
	} {
		b := newJob(t, workflow.Adjustment).upTo(ForwardPressure).change(ForwardPressure, "found.left", c.found, "turns.left", c.turns)
		assert.Equal(t, c.want, b.codes(ForwardPressure), "%s %s", c.found, c.turns)
	}
}

// What was found off and left right was moved, whatever turns are written down.
func TestFoundAndLeftApartIsMoved(t *testing.T) {
	b := newJob(t, workflow.Adjustment).through(ReleaseTest).change(ForwardPressure, "found.left", tooMuch)
	assert.Equal(t, "forward pressure was changed after the release test", b.stale(ReleaseTest))
}

// Suggested turns bring the heel piece to within half of what a hand can tell.
func TestSuggestedTurnsArrive(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		travel := float64(rapid.IntRange(1, 50).Draw(t, "travel in tenths")) / 10
		off := float64(rapid.IntRange(-200, 200).Draw(t, "off in tenths")) / 10
		b := newJob(t, workflow.Adjustment).upTo(Binding).change(Binding, "mm_per_turn", quantity.Print(travel, quantity.MM))
		turns, _ := turnsFor(b.job, workflow.Answers{"off.left": quantity.Print(off, quantity.MM)}, workflow.Left)
		require.LessOrEqual(t, math.Abs(off+turns*travel), turnShown/2*travel+1e-9)
	})
}
