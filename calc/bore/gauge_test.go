package bore_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"drillstop/calc"
	"drillstop/calc/bore"
	"drillstop/calc/quantity"
)

func TestPublishedGauges(t *testing.T) {
	plan := sketch(t)
	for _, record := range records(t, "gauged.csv") {
		found := bore.Gauge(plan, millimetres(t, record[0]), millimetres(t, record[1]))
		require.Equal(t, record[4], strings.Join(codes(found), ";"), record)
		weight := severity[calc.Level(record[2])]
		if record[3] == "yes" {
			weight = 4
		}
		require.Equal(t, weight, worst(found), record)
	}
	found := bore.Gauge(plan, 13.6, 9.6)
	require.Equal(t, "The hole is gauged 9.6 mm deep, 0.6 mm more than the planned 9 mm: set the stop again before the next hole; whether this one may stay is for a supervisor to say.", found[0].Text)
	require.Equal(t, "our rule", found[0].Source)
}

// A screw that just fits its planned hole also fits the shallowest hole that
// is accepted without a word.
func TestToleranceAndBottomRoomAgree(t *testing.T) {
	plan, err := bore.For(bore.Ski{Construction: bore.NoMetal, ThicknessToe: 20, ThicknessHeel: 20}, bore.Screws{BiteToe: 6.5, BiteHeel: 8.5})
	require.NoError(t, err)
	require.Empty(t, plan.Findings)
	require.Empty(t, bore.Gauge(plan, 20, 8.7))
	require.Equal(t, []string{"bore.shallow", "bore.bottoms"}, codes(bore.Gauge(plan, 20, 8.6)), "the longer screw counts")
}

// Tolerances of the bit: our rule; 3.5 or 3.6: common practice.
func TestBitFits(t *testing.T) {
	plan := sketch(t)
	for _, c := range []struct {
		measured quantity.Millimetre
		want     []string
		weight   int
	}{
		{3.5, []string{}, 0}, {3.6, []string{}, 0}, {3.4, []string{}, 0},
		{3.7, []string{"bore.bit-wide"}, 2}, {3.3, []string{"bore.bit-narrow"}, 2},
		{4.1, []string{"bore.bit-wide"}, 3}, {3.2, []string{"bore.bit-narrow"}, 3},
		{1.9, []string{"bore.bit-unusable"}, 4}, {35, []string{"bore.bit-unusable"}, 4}, {quantity.Millimetre(nan), []string{"bore.bit-unusable"}, 4},
	} {
		found := bore.BitFits(plan, c.measured)
		require.Equal(t, c.want, codes(found), c.measured)
		require.Equal(t, c.weight, worst(found), c.measured)
	}
	require.Equal(t, "The bit is 4.1 mm, 0.6 mm wider than the hole of 3.5 mm: the thread finds too little to hold; take a bit of 3.5 mm.", bore.BitFits(plan, 4.1)[0].Text)
	require.Equal(t, "The bit is 3.2 mm, 0.3 mm narrower than the hole of 3.5 mm: the screw may jam or split the ski; take a bit of 3.5 mm.", bore.BitFits(plan, 3.2)[0].Text)
}

// Tolerance of the stop: our rule.
func TestStopFits(t *testing.T) {
	plan := sketch(t)
	for _, c := range []struct {
		tried  quantity.Millimetre
		want   []string
		weight int
	}{
		{9, []string{}, 0}, {9.3, []string{}, 0}, {8.7, []string{}, 0},
		{9.4, []string{"bore.stop-deep"}, 3}, {8.6, []string{"bore.stop-shallow"}, 3},
		{13.6, []string{"bore.stop-through"}, 4}, {90, []string{"bore.stop-through"}, 4},
		{0, []string{"bore.depth-unusable"}, 4}, {-9, []string{"bore.depth-unusable"}, 4}, {quantity.Millimetre(nan), []string{"bore.depth-unusable"}, 4},
	} {
		found := bore.StopFits(plan, c.tried)
		require.Equal(t, c.want, codes(found), c.tried)
		require.Equal(t, c.weight, worst(found), c.tried)
	}
	unmeasured, err := bore.For(bore.Ski{Construction: bore.NoMetal}, bore.Screws{BiteToe: 7.5, BiteHeel: 7.5})
	require.NoError(t, err)
	require.Equal(t, []string{"bore.depth-unusable"}, codes(bore.StopFits(unmeasured, 20.1)))
	require.Equal(t, []string{"bore.stop-deep"}, codes(bore.StopFits(unmeasured, 14)))
}

// 10 mm from an old hole, plug with glue: common practice; insert: from memory.
func TestStripped(t *testing.T) {
	ski := bore.Ski{Construction: bore.Metal, ThicknessToe: 14.2}
	plan, err := bore.For(ski, bore.Screws{BiteToe: 7.5, BiteHeel: 7.5})
	require.NoError(t, err)
	found := bore.Stripped(plan, ski)
	require.Equal(t, []string{"bore.stripped-plug", "bore.stripped-insert"}, codes(found))
	require.Equal(t, "A stripped screw holds nothing: an insert as the maker says, or move the whole binding at least 10 mm and begin again at the mount point; glue plugs into the old holes and cut them flush.", found[0].Text)
	require.Equal(t, "A threaded insert goes in the same place by its maker's sheet: it needs a wider hole than 4.1 mm; the ski is 14.2 mm thick at the toe piece, not measured at the heel piece.", found[1].Text)
	require.Equal(t, "from memory", found[1].Source)
}

// Without a plan nothing passes.
func TestNoPlan(t *testing.T) {
	for _, found := range [][]calc.Finding{
		bore.Gauge(bore.Plan{}, 14, 9), bore.BitFits(bore.Plan{}, 3.5), bore.StopFits(bore.Plan{}, 9), bore.Stripped(bore.Plan{}, bore.Ski{}),
	} {
		require.Equal(t, []string{"bore.no-plan"}, codes(found))
		require.Equal(t, 4, worst(found))
	}
}

// From the planned depth on, a deeper hole is never judged milder; a shallower
// one neither. Nor is the same hole in a thinner ski.
func TestGaugeGrowsWorse(t *testing.T) {
	plan := sketch(t)
	rapid.Check(t, func(t *rapid.T) {
		thickness := quantity.Millimetre(rapid.Float64Range(4, 60).Draw(t, "thickness"))
		near := quantity.Millimetre(rapid.Float64Range(0, 60).Draw(t, "near"))
		far := quantity.Millimetre(rapid.Float64Range(float64(near), 60).Draw(t, "far"))
		require.LessOrEqual(t, worst(bore.Gauge(plan, thickness, plan.Depth+near)), worst(bore.Gauge(plan, thickness, plan.Depth+far)))
		require.LessOrEqual(t, worst(bore.StopFits(plan, plan.Depth+near)), worst(bore.StopFits(plan, plan.Depth+far)))
		require.LessOrEqual(t, worst(bore.Gauge(plan, 30, plan.Depth-near)), worst(bore.Gauge(plan, 30, plan.Depth-far)))
		thinner := quantity.Millimetre(rapid.Float64Range(4, float64(thickness)).Draw(t, "thinner"))
		depth := quantity.Millimetre(rapid.Float64Range(0.1, 20).Draw(t, "depth"))
		require.LessOrEqual(t, worst(bore.Gauge(plan, thickness, depth)), worst(bore.Gauge(plan, thinner, depth)))
	})
}

// A hole that reaches the base is never waived, whatever else is said of it.
func TestThroughIsNeverWaived(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		thickness := quantity.Millimetre(rapid.Float64Range(4, 15).Draw(t, "thickness"))
		depth := quantity.Millimetre(rapid.Float64Range(float64(thickness), 15).Draw(t, "depth"))
		plan, err := bore.For(bore.Ski{
			Marked: &bore.Hole{Diameter: 3.5, Depth: depth}, Construction: bore.NoMetal, ThicknessToe: thickness, ThicknessHeel: 60,
		}, bore.Screws{BiteToe: 7.5, BiteHeel: 7.5})
		require.NoError(t, err)
		require.Equal(t, 4, worst(plan.Findings))
		require.Equal(t, 4, worst(bore.Gauge(plan, thickness, depth)))
		require.Equal(t, 4, worst(bore.StopFits(plan, depth)))
	})
}

// No number makes anything panic or pass as if it were one.
func TestTakesAnything(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		length := func(name string) quantity.Millimetre {
			return quantity.Millimetre(rapid.OneOf(rapid.Float64(), rapid.Float64Range(-5, 70), rapid.Float64Range(3, 8), rapid.SampledFrom([]float64{nan, inf, -inf, 0})).Draw(t, name))
		}
		ski := bore.Ski{
			Construction: rapid.SampledFrom(append(bore.Constructions(), "", "paper")).Draw(t, "construction"),
			ThicknessToe: length("toe"), ThicknessHeel: length("heel"),
		}
		if rapid.Bool().Draw(t, "is marked") {
			ski.Marked = &bore.Hole{Diameter: length("diameter"), Depth: length("depth")}
		}
		plan, err := bore.For(ski, bore.Screws{BiteToe: length("bite toe"), BiteHeel: length("bite heel")})
		if err != nil {
			require.NotEmpty(t, fault(t, err).Code)
			require.Equal(t, bore.Plan{}, plan)
			plan = bore.Plan{Hole: bore.Hole{Diameter: length("planned diameter"), Depth: length("planned depth")}}
		}
		thickness, gauged := length("thickness"), length("gauged")
		found := bore.Gauge(plan, thickness, gauged)
		bit, stop := bore.BitFits(plan, gauged), bore.StopFits(plan, gauged)
		for _, all := range [][]calc.Finding{plan.Findings, found, bit, stop, bore.Stripped(plan, ski)} {
			for _, f := range all {
				require.NotEmpty(t, f.Code)
				require.NotEmpty(t, f.Source)
				require.NotContains(t, f.Text, "%!")
				require.False(t, f.Never && f.Level != calc.Stop, "%v", f)
			}
		}
		if gauged != gauged {
			require.Equal(t, []int{4, 4, 4}, []int{worst(found), worst(bit), worst(stop)}, "a missing number passed")
		}
		if thickness != thickness {
			require.Equal(t, 4, worst(found), "a missing thickness passed")
		}
	})
}

func BenchmarkFor(b *testing.B) {
	ski := bore.Ski{Construction: bore.Metal, ThicknessToe: 14.2, ThicknessHeel: 13.6}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := bore.For(ski, bore.Screws{BiteToe: 7.5, BiteHeel: 7.5}); err != nil {
			b.Fatal(err)
		}
	}
}
