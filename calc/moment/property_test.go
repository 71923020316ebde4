package moment_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"drillstop/calc/moment"
	"drillstop/calc/quantity"
)

var severity = map[moment.Action]int{moment.Keep: 0, moment.Correct: 1, moment.SeekCause: 2, moment.TakeOut: 3}

// The order in which three readings were taken changes nothing.
func TestOrderOfReadingsDoesNotMatter(t *testing.T) {
	s := scaleOf(t, moment.Twist, "K")
	rapid.Check(t, func(t *rapid.T) {
		in := rapid.SliceOfN(rapid.Float64Range(1, 300), 3, 3).Draw(t, "readings")
		permuted := rapid.Permutation(in).Draw(t, "permuted")
		first, err := moment.Judge(moment.Twist, s, moments(in))
		require.NoError(t, err)
		second, err := moment.Judge(moment.Twist, s, moments(permuted))
		require.NoError(t, err)
		require.Equal(t, first, second)
		var below, above int
		for _, r := range in {
			if r <= float64(first.Middle) {
				below++
			}
			if r >= float64(first.Middle) {
				above++
			}
		}
		require.GreaterOrEqual(t, below, 2, "the middle value has one reading on either side")
		require.GreaterOrEqual(t, above, 2, "the middle value has one reading on either side")
	})
}

// Further from the reference, on the same side, is never judged milder.
func TestFurtherIsNeverMilder(t *testing.T) {
	columns := map[moment.Direction]moment.Scale{
		moment.Twist:       scaleOf(t, moment.Twist, "A"),
		moment.ForwardLean: scaleOf(t, moment.ForwardLean, "A"),
	}
	rapid.Check(t, func(t *rapid.T) {
		dir := rapid.SampledFrom([]moment.Direction{moment.Twist, moment.ForwardLean}).Draw(t, "direction")
		s := columns[dir]
		s.At = rapid.IntRange(0, len(s.Moments)-1).Draw(t, "row")
		reference := float64(s.Moments[s.At])
		near := rapid.Float64Range(0, 1).Draw(t, "near")
		far := rapid.Float64Range(near, 1).Draw(t, "far")
		end := 0.11
		if rapid.Bool().Draw(t, "above") {
			end = 290
			if dir == moment.ForwardLean {
				end = 990
			}
		}
		at := func(share float64) moment.Verdict {
			m := quantity.NewtonMetre(reference + (end-reference)*share)
			v, err := moment.Judge(dir, s, []quantity.NewtonMetre{m, m, m})
			require.NoError(t, err)
			return v
		}
		require.LessOrEqual(t, severity[at(near).Action], severity[at(far).Action])
	})
}

// No small step jumps over an action: between a binding that is kept and one that
// is taken out of service lie a correction and a search.
func TestNoActionIsSkipped(t *testing.T) {
	for dir, perNm := range map[moment.Direction]int{moment.Twist: 50, moment.ForwardLean: 10} {
		s := scaleOf(t, dir, "A")
		for at, reference := range s.Moments {
			s.At = at
			start := int(reference) * perNm
			for _, way := range []int{1, -1} {
				before := severity[moment.Keep]
				for i := start; i > perNm/10 && i < 2*start+10*perNm; i += way {
					m := quantity.NewtonMetre(float64(i) / float64(perNm))
					v, err := moment.Judge(dir, s, []quantity.NewtonMetre{m, m, m})
					require.NoError(t, err)
					require.LessOrEqual(t, severity[v.Action]-before, 1, "%s, row %d, at %s", dir, at, m)
					before = severity[v.Action]
				}
			}
		}
	}
}

// Nothing that can be written as numbers makes Judge panic, and what it
// accepts is a verdict made of numbers.
func TestJudgeTakesAnything(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		float := rapid.OneOf(rapid.Float64(), rapid.Float64Range(-10, 1100), rapid.SampledFrom([]float64{nan, inf, -inf, 0, 5e-324, 0.1, math.Nextafter(0.1, 1), 300, 1000}))
		s := moment.Scale{
			Moments: moments(rapid.SliceOfN(float, 0, 5).Draw(t, "column")),
			At:      rapid.IntRange(-2, 6).Draw(t, "at"),
		}
		if rapid.Bool().Draw(t, "real column") {
			s = moment.Scale{Moments: []quantity.NewtonMetre{5, 8, 11, 14}, At: rapid.IntRange(0, 3).Draw(t, "row")}
		}
		dir := rapid.SampledFrom([]moment.Direction{moment.Twist, moment.ForwardLean, "", "up"}).Draw(t, "direction")
		v, err := moment.Judge(dir, s, moments(rapid.SliceOfN(float, 0, 4).Draw(t, "readings")))
		if err != nil {
			require.Equal(t, moment.Verdict{}, v)
			return
		}
		for _, value := range []float64{v.DeviationPercent, v.DeviationRows, float64(v.DeviationNm), float64(v.Spread)} {
			require.False(t, value != value || value > 1e300 || value < -1e300, "%v", v)
		}
		require.Contains(t, severity, v.Action)
		require.NotEmpty(t, v.Sentence())
		held := len(v.Findings) > 0 && (v.Findings[0].Code == "moment.low" || v.Findings[0].Code == "moment.high")
		require.Equal(t, v.Action != moment.Keep, held)
	})
}

func BenchmarkJudge(b *testing.B) {
	s, in := scaleOf(b, moment.Twist, "L"), readings(b, "49 51 52")
	b.ReportAllocs()
	for b.Loop() {
		if _, err := moment.Judge(moment.Twist, s, in); err != nil {
			b.Fatal(err)
		}
	}
}

func moments(values []float64) []quantity.NewtonMetre {
	all := make([]quantity.NewtonMetre, len(values))
	for i, v := range values {
		all[i] = quantity.NewtonMetre(v)
	}
	return all
}
