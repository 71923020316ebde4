package steps

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"drillstop/workflow"
)

func picturesOf(b *bench, step workflow.StepID, keysAndValues ...string) []workflow.Picture {
	s, _ := b.list.Step(step)
	return s.Picture(b.shop, b.job, b.typed(step, keysAndValues))
}

func TestScalePictures(t *testing.T) {
	b := newJob(t, workflow.Adjustment).upTo(ReleaseValue)
	pictures := picturesOf(b, ReleaseValue, "toe_set.left", "6", "heel_set.right", "5.5")
	require.Len(t, pictures, 2)
	assert.Equal(t, workflow.ScalePicture{Title: "toe", Low: 3, High: 10, Step: 0.5, Computed: 6, Set: [2]float64{6, 0}}, *pictures[0].Scale)
	assert.Equal(t, [2]float64{0, 5.5}, pictures[1].Scale.Set)
	assert.Empty(t, picturesOf(newJob(t, workflow.Adjustment), ReleaseValue), "nothing is known yet")
}

// Boots of two lengths have two values: each ski has a picture of its own.
func TestScalePicturesApart(t *testing.T) {
	b := newJob(t, workflow.Adjustment).upTo(Boots).change(Boots, "sole.left", "329", "sole.right", "333").
		upTo(SoleLength).change(SoleLength, "set.left", "329", "set.right", "333").upTo(ReleaseValue)
	pictures := picturesOf(b, ReleaseValue, "toe_set", "6")
	require.Len(t, pictures, 4)
	assert.Equal(t, "toe, right ski", pictures[1].Scale.Title)
	assert.Equal(t, 5.5, pictures[1].Scale.Computed)
	assert.Equal(t, [2]float64{0, 6}, pictures[1].Scale.Set)
}

func TestCorrectionPictures(t *testing.T) {
	b := tested(t)
	left, right := asPromised(), asPromised()
	left.Binding.Toe.Gain = 0.8
	b.measures(left, right)
	toe := func(typed ...string) workflow.ScalePicture { return *picturesOf(b, Correction, typed...)[0].Scale }
	assert.Equal(t, [2]float64{7.5, 0}, toe().Corrected, "where the readings send it")
	assert.Equal(t, [2]float64{8, 0}, toe("toe_to.left", "8").Corrected, "where it is said to stand")
	assert.Equal(t, [2]float64{6, 6}, toe().Set)
	b.change(Correction, "what.left", setTheScale, "toe_to.left", "7.5", "what.right", keepIt)
	assert.Equal(t, [2]float64{6, 6}, toe("toe_to.left", "7.5").Set, "as it was tested")
	left.State.Toe = 7.5
	b.measures(left, right)
	assert.Equal(t, [2]float64{7.5, 6}, toe().Set)
	assert.Equal(t, [2]float64{}, toe().Corrected)
}

// Rows J to N around row L in twist: 37, 43, 50, 58, 67 Nm, from memory.
func TestBandsPictures(t *testing.T) {
	pictures := picturesOf(tested(t), ReleaseTest, "twist_left.left", "49; 51; 52", "twist_left.right", "60; 61; 60", "forward_lean.left", "400; 400; 400")
	require.Len(t, pictures, 3)
	bands := *pictures[0].Bands
	assert.Equal(t, "twist to the left", bands.Title)
	assert.Equal(t, []float64{37, 43, 50, 58, 67}, bands.Rows)
	assert.Equal(t, 2, bands.At)
	assert.Equal(t, [2][]float64{{49, 51, 52}, {60, 61, 60}}, bands.Readings)
	assert.Equal(t, [2]float64{51, 60}, bands.Middle)
	assert.Equal(t, [2]workflow.Mark{workflow.MarkKept, workflow.MarkCaution}, bands.Mark)
	assert.Equal(t, [2]workflow.Mark{}, pictures[1].Bands.Mark, "not read yet")
	assert.Equal(t, [2]workflow.Mark{workflow.MarkStop, 0}, pictures[2].Bands.Mark)
	assert.Empty(t, picturesOf(tested(t), ReleaseTest, "tested", noDevice))
	assert.Empty(t, picturesOf(newJob(t, workflow.Adjustment), ReleaseTest))
}

// At the end of the chart there are fewer rows to show, and none is made up.
func TestBandsPicturesAtTheEndOfTheChart(t *testing.T) {
	light := lightJob(t).change(ReleaseValue, "toe_set", "1.25", "heel_set", "1.25").change(Skier, "mass", "12", "height", "90", "age", "9")
	bands := *picturesOf(light, ReleaseTest)[0].Bands
	assert.Equal(t, []float64{5, 8, 11}, bands.Rows)
	assert.Equal(t, 0, bands.At)
}

func TestWindowPicture(t *testing.T) {
	b := newJob(t, workflow.Adjustment).upTo(ForwardPressure)
	p := *picturesOf(b, ForwardPressure, "found.left", tooLittle, "found.right", tooMuch, "indicator.right", inWindow)[0].Window
	assert.Equal(t, workflow.WindowPicture{
		Title: "forward pressure", Found: [2]string{tooLittle, tooMuch}, Left: [2]string{"", inWindow}, Advice: [2]string{"add pressure", ""},
	}, p)
	b.change(Binding, "mm_per_turn", "1.2")
	p = *picturesOf(b, ForwardPressure, "found.left", tooLittle, "off.left", "-2", "found.right", tooMuch, "off.right", "0.9")[0].Window
	assert.Equal(t, [2]string{"turn by 1.75 turns (+, adds pressure)", "turn by 0.75 turns (-, takes pressure off)"}, p.Advice)
	pin := newJob(t, workflow.Adjustment).upTo(Binding).change(Binding, "kind", "pin")
	assert.Empty(t, picturesOf(pin, ForwardPressure))
}
