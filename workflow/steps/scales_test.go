package steps

import (
	"testing"

	"github.com/stretchr/testify/require"

	"drillstop/workflow"
)

// Row D with a sole of 265 mm has 1.5 (from memory), row C 1.25 (common
// practice): 19 kg, under the 22 kg below which nothing raises the value.
func lightJob(t *testing.T) *bench {
	return newJob(t, workflow.Adjustment).
		change(Skier, "mass", "19 kg", "height", "118 cm", "age", "11", "type", "I").
		change(Boots, "norm", "ISO 5355 C", "sole", "265", "shell", "22.5").change(Skis).
		change(Binding, "norms", "ISO 5355 C", "scale_min", "0.5", "scale_max", "3", "sole_min", "220", "track_min", "220", "indicator_step", "0.25").
		upTo(SoleLength).change(SoleLength, "set", "265").upTo(ReleaseValue)
}

// Lower, or up to 15 % higher, may be waived; more, and anything higher for the
// lightest skiers, may not.
func TestWhoMayWaiveAScale(t *testing.T) {
	for _, c := range []struct {
		name  string
		b     *bench
		reads string
		never bool
	}{
		{"lower", newJob(t, workflow.Adjustment).upTo(ReleaseValue), "4", false},
		{"15 % higher", newJob(t, workflow.Adjustment).upTo(ReleaseValue), "6.9", false},
		{"more than 15 % higher", newJob(t, workflow.Adjustment).upTo(ReleaseValue), "7", true},
		{"twice as high", newJob(t, workflow.Adjustment).upTo(ReleaseValue), "10", true},
		{"lower, light skier", lightJob(t), "1", false},
		{"8 % higher, light skier", lightJob(t), "1.35", true},
	} {
		t.Run(c.name, func(t *testing.T) {
			mark := "6"
			if c.b.job.Is(Skier, "mass", workflow.Both, "19 kg") {
				mark = "1.25"
			}
			c.b.change(ReleaseValue, "toe_set", mark, "heel_set", mark).change(ReleaseValue, "toe_set.left", c.reads)
			f := c.b.finding("release-value.differs")
			require.NotNil(t, f)
			require.Equal(t, c.never, f.Never)
		})
	}
}

// A scale whose marks are too far apart for a light skier is named before the
// binding is on the ski.
func TestACoarseScaleIsNamed(t *testing.T) {
	b := lightJob(t).change(Binding, "indicator_step", "1")
	require.Contains(t, b.codes(Fit), "caution fit.scale-coarse")
	require.Equal(t, "Value 1.25 (toe and heel) falls between two marks, and the nearest not above is 1, 20 % lower: a binding with finer marks sets it closer.",
		finding(b, Fit, "fit.scale-coarse").Text)
	require.NotContains(t, lightJob(t).change(Binding, "indicator_step", "0.1").codes(Fit), "caution fit.scale-coarse")
}
