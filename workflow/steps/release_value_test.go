package steps

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"drillstop/calc"
	"drillstop/workflow"
)

func TestReleaseValue(t *testing.T) {
	for _, c := range []struct {
		name  string
		typed []string
		want  []string
	}{
		{"as computed", nil, []string{}},
		{"one scale lower", []string{"heel_set.right", "5.5"}, []string{"stop release-value.differs"}},
		{"one scale higher", []string{"toe_set.left", "6.5"}, []string{"stop release-value.differs"}},
		{"between two marks", []string{"toe_set.left", "5.9"}, []string{"stop release-value.differs"}},
		{"three scales", []string{"toe_set", "7", "heel_set.left", "7"},
			[]string{"stop release-value.differs", "stop release-value.differs", "stop release-value.differs"}},
		{"above the scale", []string{"heel_set.left", "10.5"}, []string{"stop release-value.off-scale", "caution release-value.above-ten"}},
		{"below the scale", []string{"heel_set.left", "2.5"}, []string{"stop release-value.off-scale"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			b := newJob(t, workflow.Adjustment).upTo(ReleaseValue).change(ReleaseValue, c.typed...)
			require.Equal(t, c.want, b.codes(ReleaseValue))
			require.Equal(t, len(c.want) == 0, b.held(ReleaseTest) == "")
		})
	}
}

func TestReleaseValueNamesTheScale(t *testing.T) {
	b := newJob(t, workflow.Adjustment).upTo(ReleaseValue).change(ReleaseValue, "heel_set.right", "5.5")
	f := b.finding("release-value.differs")
	require.Equal(t, workflow.Right, f.Side)
	require.Equal(t, "Heel right reads 5.5; computed 6: set it and read it again.", f.Text)
	require.NotEmpty(t, f.Source)
	require.False(t, f.Never)
	b.waive("release-value.differs", "the heel spring is at its end; the test decides")
	require.Empty(t, b.held(ReleaseTest))

	b.change(ReleaseValue, "heel_set.right", "11")
	f = b.finding("release-value.off-scale")
	require.True(t, f.Never)
	require.Equal(t, "Heel right reads 11, and the scale of this binding goes from 3 to 10: computed 6; set it and read it again.", f.Text)
}

// A scale is set to the mark not above the computed value. Row D with a sole of
// 265 mm has 1.5 (from memory), row C 1.25 (common practice).
func TestReleaseValueOnACoarseScale(t *testing.T) {
	light := func() *bench {
		return newJob(t, workflow.Adjustment).
			change(Skier, "mass", "19 kg", "height", "118 cm", "age", "11", "type", "I").
			change(Boots, "norm", "ISO 5355 C", "sole", "265", "shell", "22.5").
			change(Skis).
			change(Binding, "norms", "ISO 5355 C", "scale_min", "0.5", "scale_max", "3", "sole_min", "220").
			change(Binding, "track_min", "220")
	}
	for step, c := range map[string]struct{ mark, wrong string }{
		"0.5": {"1", "1.5"}, "0.25": {"1.25", "1"}, "0.1": {"1.2", "1.25"}, "1": {"1", "1.25"},
	} {
		b := light().change(Binding, "indicator_step", step).upTo(SoleLength).change(SoleLength, "set", "265").upTo(ReleaseValue)
		sv, _ := b.list.Step(ReleaseValue)
		require.Equal(t, c.mark, sv.Fields[0].Suggest(b.shop, b.job, workflow.Left), "step %s", step)
		b.change(ReleaseValue, "toe_set", c.mark, "heel_set", c.mark)
		require.Empty(t, b.codes(ReleaseValue), "step %s", step)
		b.change(ReleaseValue, "toe_set.left", c.wrong)
		require.Equal(t, []string{"stop release-value.differs"}, b.codes(ReleaseValue), "step %s", step)
	}
	b := light().upTo(SoleLength).change(SoleLength, "set", "265").upTo(ReleaseValue)
	b.change(ReleaseValue, "toe_set", "1.5", "heel_set", "1")
	require.Equal(t, "Toe left reads 1.5; computed 1.25, and the nearest mark not above is 1: set it and read it again.",
		b.finding("release-value.differs").Text)
	require.Equal(t, "toe 1  heel 1", figure(t, b, ReleaseValue, "set_to").Value)
}

// The worked example of a press article, not of a standard: 40 years, 70 kg,
// 175 cm, sole 305 mm, type III -> 8.
func TestReleaseValueFigures(t *testing.T) {
	b := newJob(t, workflow.Adjustment).
		change(Skier, "mass", "70", "height", "175", "age", "40", "type", "III").
		change(Boots, "sole", "305", "shell", "26.5").
		change(Skis).change(Binding, "scale_min", "4", "scale_max", "12").
		upTo(SoleLength).change(SoleLength, "set", "305").
		upTo(ReleaseValue).change(ReleaseValue, "toe_set", "8", "heel_set", "8")
	value := figure(t, b, ReleaseValue, "release_value")
	require.Equal(t, "toe 8  heel 8", value.Value)
	require.Equal(t, "mass 70 kg -> K, height 175 cm -> K, type III -> M, sole 305 mm -> 8", value.Path)
	require.Equal(t, "58 Nm", figure(t, b, ReleaseValue, "twist_reference").Value)
	require.Equal(t, "229 Nm", figure(t, b, ReleaseValue, "forward_lean_reference").Value)
	chart := figure(t, b, ReleaseValue, "chart")
	require.Equal(t, b.shop.Chart.Identity().Edition, chart.Value)
	require.Contains(t, chart.Record, b.shop.Chart.Identity().Checksum)
	require.Equal(t, []string{"caution release.type-iii"}, b.codes(ReleaseValue), "what the chart says of the value is said here")
}

func TestReleaseValueFollowsRequestsAndEachBoot(t *testing.T) {
	b := newJob(t, workflow.Adjustment).change(Skier, "request_heel", "lower", "request_reason", "careful style").
		change(Boots, "sole.left", "329", "sole.right", "333").
		upTo(SoleLength).change(SoleLength, "set.left", "329", "set.right", "333").upTo(ReleaseValue)
	b.change(ReleaseValue, "toe_set.left", "6", "toe_set.right", "5.5", "heel_set.left", "5", "heel_set.right", "4.5")
	require.Empty(t, b.codes(ReleaseValue))
	require.Equal(t, "left toe 6  heel 5; right toe 5.5  heel 4.5", figure(t, b, ReleaseValue, "release_value").Value)
	require.Equal(t, "165 Nm", figure(t, b, ReleaseValue, "forward_lean_reference").Value, "row K, the heel's")
	require.Equal(t, "50 Nm", figure(t, b, ReleaseValue, "twist_reference").Value, "row L, the toe's")
}

// A value that does not exist is a stop that nobody may waive, wherever the job
// has come to.
func TestReleaseValueThatDoesNotExist(t *testing.T) {
	b := newJob(t, workflow.Adjustment).through(ReleaseValue)
	b.change(Boots, "sole", "265").change(Skier, "type", "III", "mass", "96", "height", "196")
	f := finding(b, ReleaseValue, "release.blank-cell")
	require.NotNil(t, f)
	require.True(t, f.Never)
	require.Equal(t, calc.Stop, f.Level)
	require.NotEmpty(t, f.Source)
	_, err := b.list.Waive(b.shop, b.job, *f, "please", b.stamp())
	require.ErrorIs(t, err, workflow.ErrNotWaivable)
}

func TestAboveTen(t *testing.T) {
	b := newJob(t, workflow.Adjustment).change(Skier, "mass", "100", "height", "200", "type", "III").
		change(Boots).change(Skis).change(Binding, "scale_min", "5", "scale_max", "15").upTo(ReleaseValue).
		change(ReleaseValue, "toe_set", "10", "heel_set", "10")
	require.NotContains(t, b.codes(ReleaseValue), "caution release.above-ten", "10 is not above 10")
	b.change(Boots, "sole", "305", "shell", "26.5").upTo(SoleLength).change(SoleLength, "set", "305").upTo(ReleaseValue).
		change(ReleaseValue, "toe_set", "11", "heel_set", "11")
	require.Equal(t, []string{"caution release.type-iii", "caution release.above-ten"}, b.codes(ReleaseValue))
}

func TestReleaseValueRests(t *testing.T) {
	for _, c := range []struct {
		name  string
		act   func(*bench)
		stale bool
	}{
		{"the skier as before", func(b *bench) { b.change(Skier) }, false},
		{"another telephone", func(b *bench) { b.change(Skier, "contact", "42") }, false},
		{"heavier", func(b *bench) { b.change(Skier, "mass", "73") }, true},
		{"taller", func(b *bench) { b.change(Skier, "height", "176") }, true},
		{"older", func(b *bench) { b.change(Skier, "age", "35") }, true},
		{"another type", func(b *bench) { b.change(Skier, "type", "I") }, true},
		{"a request", func(b *bench) { b.change(Skier, "request_toe", "lower", "request_reason", "careful") }, true},
		{"another sole", func(b *bench) { b.change(Boots, "sole.left", "319") }, true},
		{"another shell", func(b *bench) { b.change(Boots, "shell", "28") }, false},
		{"another scale", func(b *bench) { b.change(Binding, "scale_max", "11") }, true},
		{"another step", func(b *bench) { b.change(Binding, "indicator_step", "0.25") }, true},
		{"another brake", func(b *bench) { b.change(Binding, "brake", "110") }, false},
		{"toe height does not change a value", func(b *bench) { b.change(ToeHeight, "found", "slides") }, false},
	} {
		t.Run(c.name, func(t *testing.T) {
			b := newJob(t, workflow.Adjustment).through(ReleaseValue)
			c.act(b)
			require.Equal(t, c.stale, b.stale(ReleaseValue) != "", b.stale(ReleaseValue))
		})
	}
}

// A mark is on the scale's steps, not above the value, and less than one step
// below it.
func TestMarkIsTheNearestNotAbove(t *testing.T) {
	b := newJob(t, workflow.Adjustment).through(Binding)
	rapid.Check(t, func(r *rapid.T) {
		step := rapid.SampledFrom([]string{"0.1", "0.25", "0.5", "1"}).Draw(r, "step")
		job := b.change(Binding, "indicator_step", step).job
		value := rapid.Float64Range(3, 10).Draw(r, "value")
		mark := markFor(job, value)
		require.LessOrEqual(r, mark, value+1e-6)
		require.Greater(r, mark, value-indicatorStep(job)-1e-6)
	})
}

// A mark is its own mark, however it was computed: 8.7 is 86.99999999999999
// times 0.1 to a machine.
func TestMarkOfAMarkIsItself(t *testing.T) {
	for _, step := range []struct {
		typed string
		per   float64 // marks in 1
	}{{"0.1", 10}, {"0.2", 5}, {"0.25", 4}, {"0.5", 2}, {"1", 1}} {
		job := newJob(t, workflow.Adjustment).through(Binding).change(Binding, "indicator_step", step.typed).job
		for n := int(3 * step.per); n <= int(10*step.per); n++ {
			value := float64(n) / step.per
			require.InDelta(t, value, markFor(job, value), 1e-9)
		}
	}
}

// The lowest value of a scale is a mark even where the steps do not meet it.
func TestLowestMark(t *testing.T) {
	job := newJob(t, workflow.Adjustment).through(Binding).change(Binding, "scale_min", "2.5", "indicator_step", "1").job
	require.InDelta(t, 2.5, markFor(job, 2.75), 1e-9)
	require.InDelta(t, 2.5, markFor(job, 2.5), 1e-9)
	require.InDelta(t, 3, markFor(job, 3.5), 1e-9)
	require.InDelta(t, 2, markFor(job, 2.4), 1e-9, "off the scale stays off the scale")
}

// What the fit check says of the scale and of the skier's numbers is not said
// again, but for a value that the binding cannot be set to.
func TestReleaseValueSaysNothingTwice(t *testing.T) {
	b := newJob(t, workflow.Adjustment).upTo(Binding).change(Binding, "scale_max", "6.2").through(ReleaseValue)
	require.Equal(t, []string{"caution fit.scale-end"}, b.codes(Fit))
	require.Empty(t, b.codes(ReleaseValue))
	b.change(Binding, "scale_max", "5.5")
	require.Equal(t, []string{"stop fit.scale-off", "stop fit.scale-off", "stop fit.scale-off", "stop fit.scale-off"},
		b.codes(ReleaseValue), "both pieces, both skis")
	require.Contains(t, finding(b, ReleaseValue, "fit.scale-off").Text, "(toe left)")

	b = newJob(t, workflow.Adjustment).change(Skier, "mass", "96", "height", "160").upTo(ReleaseValue)
	b.change(ReleaseValue, "toe_set", "5", "heel_set", "5")
	require.NotNil(t, finding(b, Fit, "release.rows-apart"))
	require.Nil(t, finding(b, ReleaseValue, "release.rows-apart"))
	require.NotNil(t, finding(b, ReleaseValue, "release.height-lighter"))
}

func figure(t *testing.T, b *bench, step workflow.StepID, name string) workflow.Figure {
	t.Helper()
	a, ok := b.job.Answered(step)
	require.True(t, ok)
	for _, f := range a.Figures {
		if f.Name == name {
			return f
		}
	}
	require.Failf(t, "no such figure", "%s among %v", name, a.Figures)
	return workflow.Figure{}
}

// finding returns the finding of one step with that code; nil if there is none.
func finding(b *bench, step workflow.StepID, code string) *workflow.Finding {
	for _, f := range b.list.Findings(b.shop, b.job) {
		if f.Step == step && f.Code == code {
			return &f
		}
	}
	return nil
}
