package release

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"drillstop/calc"
	"drillstop/calc/quantity"
)

func adult(mass, height float64) Input {
	return Input{Mass: quantity.Kilogram(mass), Height: quantity.Centimetre(height), Age: 30, Type: TypeI, Sole: 300}
}

// 25 % above and 40 % below 100 x (height in m - 1) kg above 1.50 m: our rule.
func TestMassAgainstHeight(t *testing.T) {
	for _, c := range []struct {
		mass, height float64
		want         bool
	}{
		{110, 175, true},
		{158.7, 175, true},  // 72 kg in pounds
		{93.75, 175, false}, // 25 % above 75 kg
		{93.8, 175, true},
		{45, 175, false}, // 40 % below
		{44.9, 175, true},
		{90, 150, false}, // not over 1.50 m
		{90, 150.5, true},
		{40, 148, false},
	} {
		r, err := loaded(t).Value(adult(c.mass, c.height))
		require.NoError(t, err)
		assert.Equal(t, c.want, slices.Contains(codes(r), "release.mass-height"), "%g kg, %g cm", c.mass, c.height)
	}
	r, err := loaded(t).Value(adult(110, 175))
	require.NoError(t, err)
	f := finding(t, r, "release.mass-height")
	assert.Equal(t, calc.Caution, f.Level)
	assert.Equal(t, "110 kg at 175 cm: check the number and its unit (kg or lb).", f.Text)
	assert.Equal(t, "our rule, no source", f.Source)
}

// At 148 cm the mass decides alone, at 149 cm row I is the heaviest: our rule
// asks after the height of whoever would lose a row.
func TestHeightAtTheEdge(t *testing.T) {
	for _, c := range []struct {
		mass, height float64
		want         bool
	}{
		{58, 148, true},  // row J
		{72, 148, true},  // row K
		{57, 148, false}, // row I either way
		{72, 147.5, false},
		{72, 148.5, false},
		{30, 148, false},
	} {
		r, err := loaded(t).Value(adult(c.mass, c.height))
		require.NoError(t, err)
		assert.Equal(t, c.want, slices.Contains(codes(r), "release.height-edge"), "%g kg, %g cm", c.mass, c.height)
	}
	r, err := loaded(t).Value(adult(72, 148))
	require.NoError(t, err)
	f := finding(t, r, "release.height-edge")
	assert.Equal(t, calc.Caution, f.Level)
	assert.Equal(t, "At 148 cm the mass alone decides, row K; a height of 149 cm would give the lighter row I: measure it once more.", f.Text)

	chart, err := load(shopChart) // its first height ends at 166 cm, in row J; K follows at 167 cm
	require.NoError(t, err)
	in := adult(80, 166)
	in.Sole = 240
	r, err = chart.Value(in)
	require.NoError(t, err)
	assert.Contains(t, finding(t, r, "release.height-edge").Text, "a height of 167 cm would give the lighter row K")
}

// The lighter row is ISO 8061:2004, 4.2 where its cap applies: over 1.50 m and
// heavier than 100 x (height in m - 1) kg. Elsewhere it is common practice.
func TestSourceOfTheLighterRow(t *testing.T) {
	for _, c := range []struct {
		mass, height float64
		want         string
	}{
		{90, 170, "ISO 8061:2004, 4.2"},
		{90, 150.5, "ISO 8061:2004, 4.2"},
		{90, 150, "common practice, no source"},
		{90, 149, "common practice, no source"},
		{72, 148.5, "common practice, no source"},
	} {
		r, err := loaded(t).Value(adult(c.mass, c.height))
		require.NoError(t, err)
		assert.Equal(t, c.want, finding(t, r, "release.height-lighter").Source, "%g kg, %g cm", c.mass, c.height)
	}
}
