package moment_test

import (
	"errors"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"drillstop/calc"
	"drillstop/calc/moment"
	"drillstop/calc/quantity"
)

var (
	nan = math.NaN()
	inf = math.Inf(1)
)

func requireFault(t require.TestingT, err error, code string) {
	var fault *calc.Fault
	require.True(t, errors.As(err, &fault), "not a fault: %v", err)
	require.Equal(t, code, fault.Code)
	require.NotEmpty(t, fault.Sentence)
}

func judge(t testing.TB, dir moment.Direction, code, typed string) moment.Verdict {
	t.Helper()
	v, err := moment.Judge(dir, scaleOf(t, dir, code), readings(t, typed))
	require.NoError(t, err)
	return v
}

func TestParseDirection(t *testing.T) {
	for typed, want := range map[string]moment.Direction{
		"twist": moment.Twist, " Twist ": moment.Twist,
		"forward lean": moment.ForwardLean, "forward-lean": moment.ForwardLean, "FWD": moment.ForwardLean,
	} {
		got, err := moment.ParseDirection(typed)
		require.NoError(t, err)
		require.Equal(t, want, got)
	}
	_, err := moment.ParseDirection("sideways")
	requireFault(t, err, "moment.direction")
	require.EqualError(t, err, `"sideways" is not a direction of release: say twist or forward lean.`)
}

func TestReadingFaults(t *testing.T) {
	for _, c := range []struct {
		dir  moment.Direction
		in   []quantity.NewtonMetre
		code string
	}{
		{moment.Twist, nil, "moment.count"},
		{moment.Twist, []quantity.NewtonMetre{50, 51}, "moment.count"},
		{moment.Twist, []quantity.NewtonMetre{50, 51, 52, 53}, "moment.count"},
		{moment.Twist, []quantity.NewtonMetre{50, 0, 52}, "moment.reading"},
		{moment.Twist, []quantity.NewtonMetre{50, -1, 52}, "moment.reading"},
		{moment.Twist, []quantity.NewtonMetre{0.09, 0.09, 0.09}, "moment.reading"},
		{moment.Twist, []quantity.NewtonMetre{5e-324, 5e-324, 1}, "moment.reading"},
		{moment.Twist, []quantity.NewtonMetre{50, 51, 300.5}, "moment.reading"},
		{moment.Twist, []quantity.NewtonMetre{50, 51, quantity.NewtonMetre(nan)}, "moment.reading"},
		{moment.ForwardLean, []quantity.NewtonMetre{190, 194, 1000.5}, "moment.reading"},
		{moment.ForwardLean, []quantity.NewtonMetre{190, 194, quantity.NewtonMetre(inf)}, "moment.reading"},
		{"", []quantity.NewtonMetre{50, 51, 52}, "moment.direction"},
	} {
		_, err := moment.Judge(c.dir, moment.Scale{Moments: []quantity.NewtonMetre{43, 50, 58}, At: 1}, c.in)
		requireFault(t, err, c.code)
	}
	_, err := moment.Judge(moment.Twist, scaleOf(t, moment.Twist, "L"), []quantity.NewtonMetre{50, 51})
	require.EqualError(t, err, "There are 2 readings in twist: exactly 3 are needed, their middle value counts.")
}

func TestSentence(t *testing.T) {
	for typed, want := range map[string]string{
		"49 51 52":               "51 Nm is 2 % above the reference 50 Nm: inspection range, keep.",
		"50 50 50":               "50 Nm is the reference: inspection range, keep.",
		"38 39 38":               "38 Nm is 24 % below the reference 50 Nm: in-use range, class I, correct.",
		"57.505 57.505 60":       "57.505 Nm is 15.01 % above the reference 50 Nm: inspection range, class I, correct.",
		"70 71 72":               "71 Nm is 42 % above the reference 50 Nm: outside both ranges, class II, seek cause.",
		"20 21 22":               "21 Nm is 58 % below the reference 50 Nm: outside both ranges, class III, take out of service.",
		"57.500001 57.500001 60": "57.500001 Nm is 15.000002 % above the reference 50 Nm: inspection range, class I, correct.",
		"50.01 50.01 50.01":      "50.01 Nm is 0.02 % above the reference 50 Nm: inspection range, keep.",
	} {
		require.Equal(t, want, judge(t, moment.Twist, "L", typed).Sentence())
	}
}

func TestFindings(t *testing.T) {
	require.Empty(t, judge(t, moment.Twist, "L", "49 51 52").Findings)

	low := judge(t, moment.Twist, "L", "38 39 38").Findings
	require.Len(t, low, 1)
	require.Equal(t, "moment.low", low[0].Code)
	require.Equal(t, calc.Stop, low[0].Level)
	require.False(t, low[0].Never)
	require.Equal(t, "In twist 38 Nm is 24 % below the reference 50 Nm (1.8 rows), the binding may release when it must not: in-use range, class I, correct the setting and test again.", low[0].Text)

	high := judge(t, moment.Twist, "L", "69 69 69").Findings
	require.Len(t, high, 1)
	require.Equal(t, "moment.high", high[0].Code)
	require.Contains(t, high[0].Text, "may not release when it must")
	require.Contains(t, high[0].Text, "do not hand over")
	require.False(t, high[0].Never)

	worst := judge(t, moment.ForwardLean, "L", "300 300 300").Findings
	require.Len(t, worst, 1)
	require.True(t, worst[0].Never, "a binding to be taken out of service cannot be waived")
	require.Contains(t, worst[0].Text, "take the binding out of service")

	for _, f := range [][]calc.Finding{low, high, worst} {
		require.NotEmpty(t, f[0].Source)
	}
}

// Spread: more than 15 % of the middle and more than 3 Nm, our rule.
func TestSpread(t *testing.T) {
	for _, c := range []struct {
		code, typed string
		wide        bool
	}{
		{"L", "47 50 54.5", false}, // 7.5 of 50 is 15 %
		{"L", "47 50 54.6", true},
		{"A", "4 5 7", false}, // 60 %, but not above 3 Nm
		{"A", "4 5 7.1", true},
	} {
		v := judge(t, moment.Twist, c.code, c.typed)
		var codes []string
		for _, f := range v.Findings {
			codes = append(codes, f.Code)
		}
		if c.wide {
			require.Contains(t, codes, "moment.spread", c.typed)
			require.Contains(t, v.Findings[len(v.Findings)-1].Source, "our rule")
		} else {
			require.NotContains(t, codes, "moment.spread", c.typed)
		}
	}
	v := judge(t, moment.Twist, "L", "52.3 49.1 50")
	require.Equal(t, quantity.NewtonMetre(3.2), v.Spread, "printed as 3.2 Nm, not as 3.1999999999999957 Nm")
}

func TestSymmetry(t *testing.T) {
	middle := judge(t, moment.Twist, "L", "50 50 50")
	for typed, wide := range map[string]bool{
		"57.5 57.5 57.5": false, "57.6 57.6 57.6": true, "43 43 43": true, "44 44 44": false,
	} {
		other := judge(t, moment.Twist, "L", typed)
		require.Equal(t, wide, len(moment.Symmetry(middle, other)) == 1, typed)
		require.Equal(t, wide, len(moment.Symmetry(other, middle)) == 1, typed)
	}
	light, lighter := judge(t, moment.Twist, "A", "7 7 7"), judge(t, moment.Twist, "A", "4 4 4")
	require.Empty(t, moment.Symmetry(light, lighter), "3 Nm apart is accepted")

	found := moment.Symmetry(middle, judge(t, moment.Twist, "L", "60 60 60"))
	require.Equal(t, calc.Caution, found[0].Level)
	require.Equal(t, "our rule", found[0].Source)
	require.Contains(t, found[0].Text, "left ski releases at 50 Nm, the right at 60 Nm")

	for _, right := range []moment.Verdict{{}, judge(t, moment.ForwardLean, "L", "194 194 194")} {
		found = moment.Symmetry(middle, right)
		require.Len(t, found, 1)
		require.Equal(t, calc.Stop, found[0].Level)
		require.True(t, found[0].Never)
	}
}
