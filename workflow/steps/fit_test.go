package steps

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"drillstop/calc"
	"drillstop/workflow"
)

// change is one answer that is unlike the usual.
type change struct {
	step  workflow.StepID
	typed []string
}

// fitBench takes everything in as usual but for the changes. It answers each
// step whatever the others say, as long as nothing holds it.
func fitBench(t *testing.T, kind workflow.Kind, changes ...change) *bench {
	b := newJob(t, kind)
	for _, step := range []workflow.StepID{Skier, Boots, Skis, Binding} {
		var typed []string
		for _, c := range changes {
			if c.step == step {
				typed = c.typed
			}
		}
		b.change(step, typed...)
	}
	return b
}

func TestFit(t *testing.T) {
	tests := []struct {
		name    string
		kind    workflow.Kind
		changes []change
		want    []string
	}{
		{"usual", workflow.NewMount, nil, []string{}},
		{"brake narrower than the waist", workflow.NewMount, []change{{Binding, []string{"brake", "95"}}}, []string{"stop fit.brake-narrow"}},
		{"brake as wide as the waist", workflow.NewMount, []change{{Binding, []string{"brake", "98"}}}, []string{}},
		{"brake 21 mm wider", workflow.NewMount, []change{{Binding, []string{"brake", "119"}}}, []string{"caution fit.brake-wide"}},
		{"no brake", workflow.NewMount, []change{{Binding, []string{"brake", ""}}}, []string{"stop fit.brake-none"}},
		{"no brake on pins", workflow.Adjustment, []change{{Binding, []string{"kind", "pin", "brake", ""}}, {Boots, []string{"inserts", "yes"}}}, []string{"caution fit.brake-none"}},
		{"boots of two norms", workflow.Adjustment, []change{
			{Boots, []string{"norm.right", "ISO 23223 A"}}, {Binding, []string{"norms", "ISO 5355 A, ISO 23223 A"}},
		}, []string{"caution fit.pair-norm"}},
		{"one boot of another norm than the binding takes", workflow.Adjustment, []change{{Boots, []string{"norm.right", "ISO 23223 A"}}},
			[]string{"stop fit.norm", "caution fit.pair-norm"}},
		{"hybrid without inserts", workflow.Adjustment, []change{{Binding, []string{"kind", "hybrid"}}}, []string{}},
		{"a mark 7 % below", workflow.Adjustment, []change{{Binding, []string{"indicator_step", "0.8"}}}, []string{}},
		{"touring sole in an alpine binding", workflow.NewMount, []change{{Boots, []string{"norm", "ISO 9523"}}}, []string{"stop fit.norm-touring"}},
		{"child's sole in an adult's binding", workflow.Rental, []change{{Boots, []string{"norm", "ISO 5355 C"}}}, []string{"stop fit.norm"}},
		{"pins without inserts", workflow.Adjustment, []change{{Binding, []string{"kind", "pin"}}}, []string{"stop fit.inserts-missing"}},
		{"pins with inserts", workflow.Adjustment, []change{{Binding, []string{"kind", "pin"}}, {Boots, []string{"inserts", "yes"}}}, []string{}},
		{"sole longer than the template", workflow.NewMount, []change{{Binding, []string{"sole_max", "317"}}}, []string{"stop fit.sole-range"}},
		{"sole longer than the track", workflow.Adjustment, []change{{Binding, []string{"track_max", "317"}}}, []string{"stop fit.sole-range"}},
		{"boots of two lengths", workflow.Adjustment, []change{{Boots, []string{"sole.left", "316"}}}, []string{"caution fit.pair-sole"}},
		{"value off the scale", workflow.Adjustment, []change{{Binding, []string{"scale_min", "6.5", "scale_max", "12"}}}, []string{"stop fit.scale-off"}},
		{"value at the very end", workflow.Adjustment, []change{{Binding, []string{"scale_min", "6", "scale_max", "12"}}}, []string{"caution fit.scale-end"}},
		// Blank cells of the chart: row H in the column up to 250 mm, rows P and Q.
		{"blank cell", workflow.Adjustment, []change{
			{Skier, []string{"mass", "45", "height", "150", "age", "14", "type", "I"}},
			{Boots, []string{"sole", "245", "shell", "21"}}, {Binding, []string{"sole_min", "230", "track_min", "230"}},
		}, []string{"stop release.blank-cell"}},
		{"mass and height of two people", workflow.Adjustment, []change{{Skier, []string{"mass", "96", "height", "160", "age", "30", "type", "II"}}}, []string{"caution release.rows-apart"}},
		{"ski too thin", workflow.NewMount, []change{{Skis, []string{"thickness_heel", "10.9"}}}, []string{"stop bore.thin"}},
		{"ski thin enough to pause", workflow.NewMount, []change{{Skis, []string{"thickness_heel", "11.9"}}}, []string{"caution bore.thin"}},
		{"hole through the base", workflow.ReMount, []change{{Skis, []string{"thickness_toe", "9"}}}, []string{"stop bore.through"}},
		{"screw to the bottom", workflow.NewMount, []change{{Binding, []string{"bite_toe", "8.6"}}}, []string{"stop bore.bottoms"}},
		{"screw bites too little", workflow.NewMount, []change{{Binding, []string{"bite_heel", "5.9"}}}, []string{"stop bore.bite-short"}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			b := fitBench(t, tt.kind, tt.changes...)
			assert.Equal(t, tt.want, b.codes(Fit), "before it is confirmed")
			b.change(Fit)
			assert.Equal(t, tt.want, b.codes(Fit), "and after")
			for _, f := range b.list.Findings(b.shop, b.job) {
				assert.NotEmpty(t, f.Source, "%s", f.Code)
			}
		})
	}
}

// The traps that must be named before a hole is drilled, each with its number,
// its limit and what would be right.
func TestTrapsAreNamedBeforeDrilling(t *testing.T) {
	t.Run("shell size for sole length", func(t *testing.T) {
		b := newJob(t, workflow.NewMount).upTo(Boots)
		assert.Contains(t, b.refused(Boots, "sole", "27.5").Error(), "27.5 is a shell size")
		b.change(Boots, "sole", "275")
		assert.Contains(t, b.finding("fit.shell-for-sole").Text, "275 mm looks like the shell size 27.5")
		assert.Contains(t, b.held(Skis), "held at boots")
	})
	tests := []struct {
		name    string
		changes []change
		code    string
		says    []string
		never   bool
	}{
		{"brake too narrow", []change{{Binding, []string{"brake", "95"}}}, "fit.brake-narrow", []string{"95 mm", "98", "118 mm"}, false},
		{"ski too thin", []change{{Skis, []string{"thickness_heel", "10.5"}}}, "bore.thin", []string{"1.5 mm", "10.5 mm", "9 mm", "2 mm"}, false},
		{"sole norm", []change{{Boots, []string{"norm", "ISO 23223 A"}}}, "fit.norm", []string{"ISO 23223 A", "ISO 5355 A"}, true},
		{"blank chart cell", []change{
			{Skier, []string{"mass", "45", "height", "150", "age", "14", "type", "I"}},
			{Boots, []string{"sole", "245", "shell", "21"}}, {Binding, []string{"sole_min", "230", "track_min", "230"}},
		}, "release.blank-cell", []string{"row H", "250 mm"}, true},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			b := fitBench(t, workflow.NewMount, tt.changes...)
			f := b.finding(tt.code)
			require.NotNil(t, f)
			assert.Equal(t, calc.Stop, f.Level)
			assert.Equal(t, tt.never, f.Never)
			for _, part := range tt.says {
				assert.Contains(t, f.Text, part)
			}
			b.change(Fit)
			assert.Contains(t, b.held(MountPoint), f.Text)
			if !tt.never {
				assert.Empty(t, b.waive(tt.code, "seen and measured").held(MountPoint))
			}
		})
	}
}

// A fault of the skier stands once, where the skier was taken in.
func TestFitDoesNotRepeatTheSkier(t *testing.T) {
	b := fitBench(t, workflow.Adjustment).change(Fit).change(Skier, "mass", "9", "height", "80", "age", "2")
	assert.Equal(t, []string{"stop release.mass-range"}, b.codes(Skier))
	assert.Empty(t, b.codes(Fit))
}

func TestFitFigures(t *testing.T) {
	b := fitBench(t, workflow.NewMount).change(Fit)
	a, _ := b.job.Answered(Fit)
	require.Len(t, a.Figures, 3)
	assert.Equal(t, "toe 6  heel 6", a.Figures[0].Value)
	assert.Equal(t, "mass 72 kg -> K, height 175 cm -> K, type II -> L, sole 318 mm -> 6", a.Figures[0].Path)
	assert.Equal(t, workflow.Figure{
		Name: "bit", Label: "bit", Value: "3.5 mm", Path: "Marked on the topsheet 3.5 x 9.0 mm, and the marking wins.",
	}, a.Figures[1])
	assert.Equal(t, "9.0 mm", a.Figures[2].Value)
	assert.Equal(t, "under the hole stay 4.6 mm; screws bite 7.5 mm at the toe, 7.5 mm at the heel", a.Figures[2].Path)

	b = fitBench(t, workflow.NewMount, change{Skis, []string{"thickness_toe.left", "13.4"}}).change(Fit)
	a, _ = b.job.Answered(Fit)
	assert.Contains(t, a.Figures[2].Path, "under the hole stay 4.4 mm", "the least of the four places")

	b = fitBench(t, workflow.Adjustment, change{Boots, []string{"sole.left", "310", "sole.right", "311"}}).change(Fit)
	a, _ = b.job.Answered(Fit)
	require.Len(t, a.Figures, 1)
	assert.Equal(t, "left toe 6.5  heel 6.5; right toe 6  heel 6", a.Figures[0].Value)
}

// The worked example of the press: 40 years, 70 kg, 175 cm, sole 305 mm, type
// III -> 8.
func TestWorkedExampleThroughTheSteps(t *testing.T) {
	b := fitBench(t, workflow.NewMount,
		change{Skier, []string{"mass", "70", "height", "175", "age", "40", "type", "III"}},
		change{Boots, []string{"sole", "305", "shell", "26.5"}},
	).change(Fit)
	a, _ := b.job.Answered(Fit)
	assert.Equal(t, "toe 8  heel 8", a.Figures[0].Value)
}

func TestFitMakesUpForWhatWasTypedAgain(t *testing.T) {
	for _, c := range []struct {
		change
		stale bool
	}{
		{change{Skier, []string{"contact", "by mail"}}, false},
		{change{Skier, []string{"mass", "73"}}, true},
		{change{Skier, []string{"height", "176"}}, true},
		{change{Skier, []string{"age", "35"}}, true},
		{change{Skier, []string{"type", "I"}}, true},
		{change{Skier, []string{"request_heel", "lower", "request_reason", "careful"}}, true},
		{change{Boots, []string{"shell", ""}}, true},
		{change{Boots, []string{"name", "Kamp 90 / 27"}}, true},
		{change{Boots, []string{"wear", "1"}}, false},
		{change{Boots, []string{"sole.right", "319"}}, true},
		{change{Boots, []string{"inserts", "yes"}}, true},
		{change{Skis, []string{"serial", "77"}}, true},
		{change{Skis, []string{"name", "Tarn 99"}}, true},
		{change{Skis, []string{"marks", "no"}}, false},
		{change{Skis, []string{"waist", "99"}}, true},
		{change{Skis, []string{"marked", ""}}, true},
		{change{Skis, []string{"thickness_heel.left", "13.5"}}, true},
		{change{Binding, []string{"serial", "77"}}, false},
		{change{Binding, []string{"brake", "104"}}, true},
		{change{Binding, []string{"norms", "ISO 5355 A, ISO 9523"}}, true},
		{change{Binding, []string{"bite_heel", "7"}}, true},
	} {
		b := newJob(t, workflow.NewMount).through(Fit).change(c.step, c.typed...)
		assert.Equal(t, c.stale, b.stale(Fit) != "", "%s %q", c.step, c.typed)
	}
}
