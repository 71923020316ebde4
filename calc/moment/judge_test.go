package moment_test

import (
	"errors"
	"math"
	"slices"
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
	require.EqualError(t, err, "Readings in twist: 2; exactly 3 are needed, their middle value counts.")
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
	require.Contains(t, high[0].Text, "may fail to release when it must")
	require.Contains(t, high[0].Text, "do not hand over")
	require.False(t, high[0].Never)

	worst := judge(t, moment.ForwardLean, "L", "300 300 300").Findings
	require.Len(t, worst, 1)
	require.True(t, worst[0].Never, "a binding to be taken out of service cannot be waived")
	require.Contains(t, worst[0].Text, "take the binding out of service")

	// What rests on memory says so.
	require.NotContains(t, low[0].Source, "from memory", "class I")
	require.Contains(t, high[0].Source, "class II: limits from memory")
	require.Contains(t, worst[0].Source, "limits from memory")

	// In the lightest row the Nm make the class milder than the per cent.
	light := judge(t, moment.Twist, "A", "8.1 8.1 8.1").Findings
	require.Len(t, light, 1)
	require.False(t, light[0].Never)
	require.Equal(t, "In twist 8.1 Nm is 62 % above the reference 5 Nm (1.03 rows), the binding may fail to release when it must: in-use range, class I by 3.1 Nm, correct the setting and test again.", light[0].Text)

	one := judge(t, moment.Twist, "L", "58 58 58").Findings
	require.Contains(t, one[0].Text, "(1 row)")

	for _, f := range [][]calc.Finding{low, high, worst} {
		require.NotEmpty(t, f[0].Source)
	}
}

// Spread: more than 15 % of the middle and more than 3 Nm is a caution, more
// than 30 % and 6 Nm a stop that may be waived. Our rule.
func TestSpread(t *testing.T) {
	for _, c := range []struct {
		code, typed string
		level       calc.Level
	}{
		{"L", "47 50 54.5", ""}, // 7.5 of 50 is 15 %
		{"L", "47 50 54.6", calc.Caution},
		{"A", "4 5 7", ""}, // 60 %, but not above 3 Nm
		{"A", "4 5 7.1", calc.Caution},
		{"L", "44 50 59", calc.Caution}, // 15 of 50 is 30 %
		{"L", "44 50 59.1", calc.Stop},
		{"A", "2 5 8", calc.Caution}, // 120 %, but not above 6 Nm
		{"A", "2 5 8.1", calc.Stop},
	} {
		v := judge(t, moment.Twist, c.code, c.typed)
		i := slices.IndexFunc(v.Findings, func(f calc.Finding) bool { return f.Code == "moment.spread" })
		require.Equal(t, c.level != "", i >= 0, c.typed)
		if i >= 0 {
			require.Equal(t, c.level, v.Findings[i].Level, c.typed)
			require.Equal(t, "our rule", v.Findings[i].Source)
			require.False(t, v.Findings[i].Never)
		}
	}
	v := judge(t, moment.Twist, "L", "52.3 49.1 50")
	require.Equal(t, quantity.NewtonMetre(3.2), v.Spread, "printed as 3.2 Nm, not as 3.1999999999999957 Nm")
	require.Equal(t, "The three readings in twist lie 15.1 Nm apart, 30.2 % of their middle value 50 Nm: more than 30 % and 6 Nm, so their middle value is chance; clean boot and binding, exercise the binding each way and test again.",
		judge(t, moment.Twist, "L", "44 50 59.1").Findings[0].Text)
}

// A single reading in class III is named, our rule; the class's limits are from
// memory.
func TestSingleReadingInClassThree(t *testing.T) {
	for _, c := range []struct {
		dir         moment.Direction
		code, typed string
		want        []string // what the findings say of single readings
	}{
		{moment.Twist, "L", "50 90 50", []string{"90 Nm is 80 % above the reference 50 Nm"}},
		{moment.Twist, "L", "50 72.5 50", nil}, // 45 %
		{moment.Twist, "L", "20 50 90", []string{"20 Nm is 60 % below the reference 50 Nm", "90 Nm is 80 % above the reference 50 Nm"}},
		{moment.Twist, "L", "50 90 90", nil}, // the middle value says it
		{moment.Twist, "A", "5 5 14", nil},   // 9 Nm
		{moment.Twist, "A", "5 5 14.1", []string{"14.1 Nm is 182 % above the reference 5 Nm"}},
		{moment.ForwardLean, "A", "18 18 26.2", []string{"26.2 Nm is 45.6 % above the reference 18 Nm"}},
	} {
		var said []string
		for _, f := range judge(t, c.dir, c.code, c.typed).Findings {
			if f.Code != "moment.reading-far" {
				continue
			}
			require.Equal(t, calc.Caution, f.Level)
			require.Contains(t, f.Source, "our rule")
			require.Contains(t, f.Source, "from memory")
			said = append(said, f.Text)
		}
		require.Len(t, said, len(c.want), c.typed)
		for i, want := range c.want {
			require.Contains(t, said[i], want)
		}
	}
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
		requireIncomparable(t, moment.Symmetry(middle, right), "moment.symmetry-unknown")
	}
}

// Left and right twist of one ski are held to the limits of two skis. Our rule.
func TestAsymmetry(t *testing.T) {
	middle := judge(t, moment.Twist, "L", "50 50 50")
	require.Empty(t, moment.Asymmetry(middle, judge(t, moment.Twist, "L", "57.5 57.5 57.5")))
	found := moment.Asymmetry(middle, judge(t, moment.Twist, "L", "57.6 57.6 57.6"))
	require.Len(t, found, 1)
	require.Equal(t, "moment.asymmetry", found[0].Code)
	require.Equal(t, calc.Caution, found[0].Level)
	require.Equal(t, "our rule", found[0].Source)
	require.Equal(t, "In twist this ski releases to the left at 50 Nm, to the right at 57.6 Nm: they should lie within 15 % or 3 Nm of each other; see that the boot stands straight in the toe piece, and look for dirt and wear on one side.", found[0].Text)

	lean := judge(t, moment.ForwardLean, "L", "194 194 194")
	requireIncomparable(t, moment.Asymmetry(middle, moment.Verdict{}), "moment.asymmetry-unknown")
	requireIncomparable(t, moment.Asymmetry(middle, lean), "moment.asymmetry-unknown")
	requireIncomparable(t, moment.Asymmetry(lean, lean), "moment.asymmetry-unknown")
}

func requireIncomparable(t *testing.T, found []calc.Finding, code string) {
	t.Helper()
	require.Len(t, found, 1)
	require.Equal(t, code, found[0].Code)
	require.Equal(t, calc.Stop, found[0].Level)
	require.True(t, found[0].Never)
}
