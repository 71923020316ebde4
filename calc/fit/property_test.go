package fit_test

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"drillstop/calc"
	"drillstop/calc/fit"
	"drillstop/calc/quantity"
)

var severity = map[calc.Level]int{calc.Note: 1, calc.Caution: 2, calc.Stop: 3}

func worst(found []calc.Finding) int {
	most := 0
	for _, f := range found {
		most = max(most, severity[f.Level])
	}
	return most
}

func anyFloat() *rapid.Generator[float64] {
	return rapid.OneOf(rapid.Float64(), rapid.Float64Range(-10, 500), rapid.SampledFrom([]float64{nan, inf, -inf, 0}))
}

func anyLength(t *rapid.T, name string) quantity.Millimetre {
	return quantity.Millimetre(anyFloat().Draw(t, name))
}

func anyBoot(t *rapid.T, side string) fit.Boot {
	return fit.Boot{
		Norm:    rapid.SampledFrom(append(fit.KnownNorms(), "", "ISO 1")).Draw(t, side+" norm"),
		Sole:    anyLength(t, side+" sole"),
		Shell:   anyFloat().Draw(t, side+" shell"),
		Inserts: rapid.Bool().Draw(t, side+" inserts"),
		WornToe: anyLength(t, side+" wear"),
		Damaged: rapid.Bool().Draw(t, side+" damaged"),
	}
}

// No number makes a check panic, no finding lacks its code, sentence or
// source, and a value that is no number never passes.
func TestChecksTakeAnything(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := fit.Binding{
			Kind:     rapid.SampledFrom(append(fit.Kinds(), "", "rope")).Draw(t, "kind"),
			Norms:    rapid.SliceOfN(rapid.SampledFrom(fit.KnownNorms()), 0, 3).Draw(t, "norms"),
			ScaleMin: anyFloat().Draw(t, "scale min"), ScaleMax: anyFloat().Draw(t, "scale max"),
			SoleMin: anyLength(t, "sole min"), SoleMax: anyLength(t, "sole max"),
			TrackMin: anyLength(t, "track min"), TrackMax: anyLength(t, "track max"),
			Brake: anyLength(t, "brake"),
		}
		left, right := anyBoot(t, "left"), anyBoot(t, "right")
		waist, value := anyLength(t, "waist"), anyFloat().Draw(t, "value")
		found := fit.Check(b, left, right, waist)
		onScale := fit.Scale(value, b, "toe")
		for _, f := range append(found, onScale...) {
			require.NotEmpty(t, f.Code)
			require.NotEmpty(t, f.Text)
			require.NotEmpty(t, f.Source)
			require.False(t, f.Never && f.Level != calc.Stop, "%v", f)
		}
		if waist != waist || b.Brake != b.Brake || left.Sole != left.Sole || right.WornToe != right.WornToe {
			require.Equal(t, severity[calc.Stop], worst(found), "a missing number passed")
		}
		if value != value {
			require.Equal(t, severity[calc.Stop], worst(onScale), "a missing value passed")
		}
	})
}

// A narrower brake below the waist, or a wider one beyond it, is never judged
// milder.
func TestBrakeGrowsWorseBothWays(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		waist := rapid.Float64Range(55, 140).Draw(t, "waist")
		near := rapid.Float64Range(0, 60).Draw(t, "near")
		far := rapid.Float64Range(near, 60).Draw(t, "far")
		wider := func(by float64) int {
			return worst(fit.Brake(fit.Binding{Brake: quantity.Millimetre(waist + by)}, quantity.Millimetre(waist)))
		}
		require.LessOrEqual(t, wider(near), wider(far))
		if near > 1e-6 {
			require.Equal(t, severity[calc.Stop], worst(fit.Brake(fit.Binding{Brake: quantity.Millimetre(max(1, waist-near))}, quantity.Millimetre(waist))))
		}
	})
}

// Further from the middle of its scale a value is never judged milder.
func TestScaleGrowsWorseOutwards(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := fit.Binding{ScaleMin: rapid.Float64Range(0, 6).Draw(t, "min")}
		b.ScaleMax = b.ScaleMin + rapid.Float64Range(1, 12).Draw(t, "span")
		middle := (b.ScaleMin + b.ScaleMax) / 2
		near := rapid.Float64Range(0, 20).Draw(t, "near")
		far := rapid.Float64Range(near, 20).Draw(t, "far")
		require.LessOrEqual(t, worst(fit.Scale(middle+near, b, "toe")), worst(fit.Scale(middle+far, b, "toe")))
		require.LessOrEqual(t, worst(fit.Scale(middle-near, b, "toe")), worst(fit.Scale(middle-far, b, "toe")))
	})
}

// A wear of the toe is never judged milder for being deeper.
func TestWearGrowsWorse(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		less := rapid.Float64Range(0, 30).Draw(t, "less")
		more := rapid.Float64Range(less, 30).Draw(t, "more")
		require.LessOrEqual(t, worst(fit.Wear(fit.Boot{WornToe: quantity.Millimetre(less)})), worst(fit.Wear(fit.Boot{WornToe: quantity.Millimetre(more)})))
	})
}

func BenchmarkCheck(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		fit.Check(hybrid, boot, boot, 95)
	}
}
