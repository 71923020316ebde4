package bore_test

import (
	"encoding/csv"
	"errors"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"drillstop/calc"
	"drillstop/calc/bore"
	"drillstop/calc/quantity"
)

var (
	nan = math.NaN()
	inf = math.Inf(1)

	severity = map[calc.Level]int{calc.Note: 1, calc.Caution: 2, calc.Stop: 3}
)

// records reads a file of check values, its heading taken off. Every record
// must name its source.
func records(t testing.TB, name string) [][]string {
	t.Helper()
	file, err := os.Open("../../testdata/bore/" + name)
	require.NoError(t, err)
	defer func() { require.NoError(t, file.Close()) }()
	all, err := csv.NewReader(file).ReadAll()
	require.NoError(t, err)
	require.Greater(t, len(all), 1)
	require.Equal(t, "source", all[0][len(all[0])-1])
	for _, record := range all[1:] {
		require.NotEmpty(t, record[len(record)-1], "no source: %v", record)
	}
	return all[1:]
}

func millimetres(t testing.TB, text string) quantity.Millimetre {
	t.Helper()
	value, err := strconv.ParseFloat(text, 64)
	require.NoError(t, err)
	return quantity.Millimetre(value)
}

func codes(found []calc.Finding) []string {
	all := []string{}
	for _, f := range found {
		all = append(all, f.Code)
	}
	return all
}

// worst weighs findings: none 0, note 1, caution 2, stop 3, never waived 4.
func worst(found []calc.Finding) int {
	most := 0
	for _, f := range found {
		weight := severity[f.Level]
		if f.Never {
			weight = 4
		}
		most = max(most, weight)
	}
	return most
}

func fault(t require.TestingT, err error) *calc.Fault {
	var f *calc.Fault
	require.True(t, errors.As(err, &f), "not a fault: %v", err)
	require.NotEmpty(t, f.Sentence)
	return f
}

// sketch is the ski and the screws of the step in the sketches: marked 3.5 x
// 9.0, 14.2 mm at the toe, 13.6 mm at the heel, screws that bite 7.5 mm.
func sketch(t testing.TB) bore.Plan {
	t.Helper()
	plan, err := bore.For(bore.Ski{
		Marked: &bore.Hole{Diameter: 3.5, Depth: 9}, Construction: bore.NoMetal, ThicknessToe: 14.2, ThicknessHeel: 13.6,
	}, bore.Screws{BiteToe: 7.5, BiteHeel: 7.5})
	require.NoError(t, err)
	return plan
}

func TestSketch(t *testing.T) {
	plan := sketch(t)
	require.Equal(t, bore.Hole{Diameter: 3.5, Depth: 9}, plan.Hole)
	require.True(t, plan.FromMarking)
	require.False(t, plan.Tap)
	require.Equal(t, "Marked on the topsheet 3.5 x 9.0 mm, and the marking wins.", plan.Why)
	require.Equal(t, bore.Place{Screw: 7.5, Bite: 7.5, Thickness: 14.2, Under: 5.2, Measured: true}, plan.Toe)
	require.Equal(t, bore.Place{Screw: 7.5, Bite: 7.5, Thickness: 13.6, Under: 4.6, Measured: true}, plan.Heel)
	require.Empty(t, plan.Findings)
	under, known := plan.LeastUnder()
	require.True(t, known)
	require.Equal(t, quantity.Millimetre(4.6), under)
}

func TestPublishedHoles(t *testing.T) {
	for _, record := range records(t, "holes.csv") {
		ski := bore.Ski{Construction: bore.Construction(record[2]), ThicknessToe: 20, ThicknessHeel: 20}
		if record[0] != "" {
			ski.Marked = &bore.Hole{Diameter: millimetres(t, record[0]), Depth: millimetres(t, record[1])}
		}
		plan, err := bore.For(ski, bore.Screws{BiteToe: 6.5, BiteHeel: 6.5})
		require.NoError(t, err, record)
		require.Equal(t, bore.Hole{Diameter: millimetres(t, record[3]), Depth: millimetres(t, record[4])}, plan.Hole, record)
		require.Equal(t, record[5] == "yes", plan.Tap, record)
		require.Equal(t, record[0] != "", plan.FromMarking, record)
		require.Equal(t, record[6], strings.Join(codes(plan.Findings), ";"), record)
		require.Equal(t, plan.Tap, strings.Contains(plan.Why, "then tap"), record)
		require.NotEmpty(t, plan.Source, record)
	}
}

// The laboratory drills 4.1 x 9 and lets the screw go in 8 +-0.2 mm (ISO
// 6005:1991); its screw is 5.31 to 5.46 mm across (ISO 10045:2017). Our plan
// for metal must take that screw without a finding, and every hole must be
// narrower than it.
func TestLaboratoryScrew(t *testing.T) {
	const narrowestScrew, penetration = 5.31, 8.2
	for _, c := range bore.Constructions() {
		plan, err := bore.For(bore.Ski{Construction: c, ThicknessToe: 20, ThicknessHeel: 20}, bore.Screws{BiteToe: penetration, BiteHeel: penetration})
		require.NoError(t, err)
		require.Less(t, float64(plan.Diameter), narrowestScrew)
		if c == bore.Metal {
			require.Equal(t, bore.Hole{Diameter: 4.1, Depth: 9}, plan.Hole)
			require.Empty(t, plan.Findings)
		}
	}
}

func TestPlaces(t *testing.T) {
	for _, c := range []struct {
		name             string
		thickness, screw quantity.Millimetre
		want             []string
		weight           int
	}{
		{"as it should be", 14, 7.5, []string{}, 0},
		{"8.5 in 9 is the most", 14, 8.5, []string{}, 0},
		{"meets the bottom", 14, 8.6, []string{"bore.bottoms", "bore.bottoms"}, 3},
		{"6 bite enough (common practice)", 14, 6, []string{}, 0},
		{"too short (common practice)", 14, 5.9, []string{"bore.bite-short", "bore.bite-short"}, 3},
		{"4 bite is a supervisor's word (our rule)", 14, 4, []string{"bore.bite-short", "bore.bite-short"}, 3},
		{"3.9 bite holds nothing (our rule)", 14, 3.9, []string{"bore.bite-short", "bore.bite-short"}, 4},
		{"1 left is a supervisor's word (our rule)", 10, 7.5, []string{"bore.thin", "bore.thin"}, 3},
		{"0.9 left is nobody's (our rule)", 9.9, 7.5, []string{"bore.thin", "bore.thin"}, 4},
		{"3 left", 12, 7.5, []string{}, 0},
		{"2.9 left", 11.9, 7.5, []string{"bore.thin", "bore.thin"}, 2},
		{"2 left", 11, 7.5, []string{"bore.thin", "bore.thin"}, 2},
		{"1.9 left", 10.9, 7.5, []string{"bore.thin", "bore.thin"}, 3},
		{"through", 9, 7.5, []string{"bore.through", "bore.through"}, 4},
		{"screw through", 9.5, 9.6, []string{"bore.bottoms", "bore.through", "bore.bottoms", "bore.through"}, 4},
		{"not measured", 0, 7.5, []string{"bore.not-measured", "bore.not-measured"}, 2},
	} {
		plan, err := bore.For(bore.Ski{Construction: bore.NoMetal, ThicknessToe: c.thickness, ThicknessHeel: c.thickness}, bore.Screws{BiteToe: c.screw, BiteHeel: c.screw})
		require.NoError(t, err, c.name)
		require.Equal(t, c.want, codes(plan.Findings), c.name)
		require.Equal(t, c.weight, worst(plan.Findings), c.name)
	}
	plan, err := bore.For(bore.Ski{Construction: bore.NoMetal, ThicknessToe: 20, ThicknessHeel: 10.5}, bore.Screws{BiteToe: 10, BiteHeel: 7.5})
	require.NoError(t, err)
	require.Equal(t, quantity.Millimetre(9), plan.Toe.Bite, "no more can bite than the hole is deep")
	require.Equal(t, quantity.Millimetre(10), plan.Toe.Screw)
	require.Equal(t, []string{"bore.bottoms", "bore.thin"}, codes(plan.Findings))
	require.Equal(t, "The toe screws reach 10 mm into a hole of 9 mm: they meet its bottom and lift the plate; take screws of at most 8.5 mm.", plan.Findings[0].Text)
	require.Equal(t, "Under the hole at the heel piece stay 1.5 mm (ski 10.5 mm, hole 9 mm): at least 2 mm must stay; measure again, or ask the ski's maker for a shallower hole.", plan.Findings[1].Text)
}

func TestLeastUnder(t *testing.T) {
	for _, c := range []struct {
		toe, heel, want quantity.Millimetre
		known           bool
	}{{14, 13, 4, true}, {13, 14, 4, true}, {14, 0, 5, true}, {0, 14, 5, true}, {0, 0, 0, false}} {
		plan, err := bore.For(bore.Ski{Construction: bore.NoMetal, ThicknessToe: c.toe, ThicknessHeel: c.heel}, bore.Screws{BiteToe: 7, BiteHeel: 7})
		require.NoError(t, err)
		under, known := plan.LeastUnder()
		require.Equal(t, c.want, under)
		require.Equal(t, c.known, known)
	}
}

func TestFaults(t *testing.T) {
	good := bore.Ski{Construction: bore.NoMetal, ThicknessToe: 14, ThicknessHeel: 14}
	with := func(change func(*bore.Ski)) bore.Ski {
		s := good
		change(&s)
		return s
	}
	marked := func(diameter, depth quantity.Millimetre) bore.Ski {
		return with(func(s *bore.Ski) { s.Marked = &bore.Hole{Diameter: diameter, Depth: depth} })
	}
	screws := bore.Screws{BiteToe: 7.5, BiteHeel: 7.5}
	for _, c := range []struct {
		ski         bore.Ski
		screws      bore.Screws
		code, field string
	}{
		{bore.Ski{}, screws, "bore.construction", "construction"},
		{bore.Ski{Construction: "paper"}, screws, "bore.construction", "construction"},
		{marked(1.9, 9), screws, "bore.unusable", "marked"},
		{marked(8.1, 9), screws, "bore.unusable", "marked"},
		{marked(3.5, 2.9), screws, "bore.unusable", "marked"},
		{marked(3.5, 15.1), screws, "bore.unusable", "marked"},
		{marked(quantity.Millimetre(nan), 9), screws, "bore.unusable", "marked"},
		{marked(3.5, quantity.Millimetre(inf)), screws, "bore.unusable", "marked"},
		{with(func(s *bore.Ski) { s.ThicknessToe = 3.9 }), screws, "bore.unusable", "thickness_toe"},
		{with(func(s *bore.Ski) { s.ThicknessToe = 60.1 }), screws, "bore.unusable", "thickness_toe"},
		{with(func(s *bore.Ski) { s.ThicknessHeel = -1 }), screws, "bore.unusable", "thickness_heel"},
		{with(func(s *bore.Ski) { s.ThicknessHeel = quantity.Millimetre(nan) }), screws, "bore.unusable", "thickness_heel"},
		{good, bore.Screws{BiteToe: 2.9, BiteHeel: 7.5}, "bore.unusable", "bite_toe"},
		{good, bore.Screws{BiteToe: 7.5, BiteHeel: 15.1}, "bore.unusable", "bite_heel"},
		{good, bore.Screws{BiteToe: 7.5}, "bore.unusable", "bite_heel"},
	} {
		plan, err := bore.For(c.ski, c.screws)
		f := fault(t, err)
		require.Equal(t, c.code, f.Code, "%+v", c)
		require.Equal(t, c.field, f.Field, "%+v", c)
		require.Equal(t, bore.Plan{}, plan, "no plan beside a fault")
	}
	_, err := bore.For(marked(35, 9), screws)
	require.EqualError(t, err, "Marked hole diameter 35 mm cannot be: it lies between 2 mm and 8 mm, measure again.")
}

func TestMarking(t *testing.T) {
	for want, hole := range map[string]bore.Hole{
		"3.5 x 9.0 mm": {Diameter: 3.5, Depth: 9}, "4.1 x 9.5 mm": {Diameter: 4.1, Depth: 9.5}, "3.55 x 9.25 mm": {Diameter: 3.55, Depth: 9.25},
	} {
		require.Equal(t, want, hole.Marking())
	}
}
