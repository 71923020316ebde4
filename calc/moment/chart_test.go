package moment_test

import (
	"encoding/csv"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"drillstop/calc/moment"
	"drillstop/calc/quantity"
)

// records reads a file of check values, its heading taken off. Every record
// must name its source.
func records(t testing.TB, name string) [][]string {
	t.Helper()
	file, err := os.Open("../../testdata/moment/" + name)
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

// scaleOf builds the scale of a row of the chart, given by its letter.
func scaleOf(t testing.TB, dir moment.Direction, code string) moment.Scale {
	t.Helper()
	column := 1
	if dir == moment.ForwardLean {
		column = 2
	}
	var s moment.Scale
	for i, record := range records(t, "reference.csv") {
		s.Moments = append(s.Moments, quantity.NewtonMetre(number(t, record[column])))
		if record[0] == code {
			s.At = i
		}
	}
	require.Equal(t, code, records(t, "reference.csv")[s.At][0])
	return s
}

func number(t testing.TB, text string) float64 {
	t.Helper()
	value, err := strconv.ParseFloat(text, 64)
	require.NoError(t, err)
	return value
}

func readings(t testing.TB, text string) []quantity.NewtonMetre {
	t.Helper()
	var all []quantity.NewtonMetre
	for field := range strings.FieldsSeq(text) {
		all = append(all, quantity.NewtonMetre(number(t, field)))
	}
	return all
}

func TestPublishedVerdicts(t *testing.T) {
	for _, record := range records(t, "verdicts.csv") {
		dir, err := moment.ParseDirection(record[0])
		require.NoError(t, err)
		v, err := moment.Judge(dir, scaleOf(t, dir, record[1]), readings(t, record[2]))
		require.NoError(t, err, record)
		require.Equal(t, quantity.NewtonMetre(number(t, record[3])), v.Middle, record)
		require.InDelta(t, number(t, record[4]), v.DeviationPercent, 1e-6, record)
		require.InDelta(t, number(t, record[5]), v.DeviationRows, 1e-6, record)
		require.Equal(t, moment.Range(record[6]), v.Range, record)
		require.Equal(t, moment.Class(record[7]), v.Class, record)
		require.Equal(t, moment.Action(record[8]), v.Action, record)
	}
}

// A reading that equals another row's reference lies a whole number of rows
// away, all along both columns (moments from memory).
func TestWholeRows(t *testing.T) {
	for _, dir := range []moment.Direction{moment.Twist, moment.ForwardLean} {
		s := scaleOf(t, dir, "A")
		for at := range s.Moments {
			s.At = at
			for other, m := range s.Moments {
				v, err := moment.Judge(dir, s, []quantity.NewtonMetre{m, m, m})
				require.NoError(t, err)
				require.InDelta(t, float64(other-at), v.DeviationRows, 1e-12, "%s row %d read at row %d", dir, at, other)
			}
		}
	}
}

func TestScaleFaults(t *testing.T) {
	three := []quantity.NewtonMetre{50, 50, 50}
	for _, s := range []moment.Scale{
		{},
		{Moments: []quantity.NewtonMetre{50}},
		{Moments: []quantity.NewtonMetre{43, 50}, At: 2},
		{Moments: []quantity.NewtonMetre{43, 50}, At: -1},
		{Moments: []quantity.NewtonMetre{50, 50}},
		{Moments: []quantity.NewtonMetre{50, 43}},
		{Moments: []quantity.NewtonMetre{0, 43}},
		{Moments: []quantity.NewtonMetre{5e-324, 43}},
		{Moments: []quantity.NewtonMetre{43, 1000.5}},
		{Moments: []quantity.NewtonMetre{-5, 43}},
		{Moments: []quantity.NewtonMetre{43, quantity.NewtonMetre(nan)}},
		{Moments: []quantity.NewtonMetre{43, quantity.NewtonMetre(inf)}},
	} {
		_, err := moment.Judge(moment.Twist, s, three)
		requireFault(t, err, "moment.scale")
	}
}

// The scale is the caller's: judging must leave it, and the readings, alone.
func TestInputsAreLeftAlone(t *testing.T) {
	s := scaleOf(t, moment.Twist, "L")
	before, in := slices.Clone(s.Moments), []quantity.NewtonMetre{52, 49, 51}
	_, err := moment.Judge(moment.Twist, s, in)
	require.NoError(t, err)
	require.Equal(t, before, s.Moments)
	require.Equal(t, []quantity.NewtonMetre{52, 49, 51}, in)
}
