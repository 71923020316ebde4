package release

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// All checks of this file are derived: arithmetic on the published chart. They
// hold the chart's numbers, most of which are from memory, against each other.

// rounded to as many decimals as the check was published with.
func rounded(v float64, decimals int) float64 {
	scale := math.Pow10(decimals)
	return math.Round(v*scale) / scale
}

// The cap of ISO 8061:2004, 4.2 (mass at most 100 x (height in m - 1) kg above
// 1.50 m) is the rule of the lighter row: each height limit less 100 is its
// row's mass limit.
func TestMassCapIdentity(t *testing.T) {
	checked := 0
	for _, r := range loaded(t).rows {
		if r.code >= "I" && r.code <= "L" {
			assert.Equal(t, r.mass.high, r.height.high-100, "row %s", r.code)
			checked++
		}
	}
	assert.Equal(t, 4, checked)
}

// With type II the moments per mid-band mass are 0.67 to 0.72 Nm/kg in twist and
// 2.5 to 2.7 Nm/kg in forward lean, to as many decimals as these limits have.
// Row D is at the upper end of both: 0.723 and 2.72.
func TestMomentsPerMass(t *testing.T) {
	chart := loaded(t)
	checked := 0
	for i, r := range chart.rows {
		if r.code > "L" {
			break
		}
		mass := (r.mass.low + r.mass.high) / 2
		twist := rounded(float64(chart.rows[i+1].twist)/mass, 2)
		lean := rounded(float64(chart.rows[i+1].lean)/mass, 1)
		assert.True(t, twist >= 0.67 && twist <= 0.72, "row %s: %g Nm/kg in twist", r.code, twist)
		assert.True(t, lean >= 2.5 && lean <= 2.7, "row %s: %g Nm/kg in forward lean", r.code, lean)
		checked++
	}
	assert.Equal(t, 12, checked)
}

// From row to row the twist moment rises by 3 Nm up to 23 Nm and then by a
// factor of 1.15 to 1.19, to two decimals. Rows I (31/27 = 1.148) and J
// (37/31 = 1.194) lie at its ends.
func TestRowSteps(t *testing.T) {
	column := loaded(t).TwistColumn()
	for i := 1; i < len(column); i++ {
		if column[i] <= 23 {
			assert.Equal(t, 3.0, float64(column[i]-column[i-1]), "up to %s", column[i])
			continue
		}
		factor := rounded(float64(column[i]/column[i-1]), 2)
		assert.True(t, factor >= 1.15 && factor <= 1.19, "up to %s: %g", column[i], factor)
	}
}

// Along a row the value never rises, down a column it never falls.
func TestMonotone(t *testing.T) {
	rows := loaded(t).rows
	pairs := 0
	for i, r := range rows {
		for j, v := range r.values {
			for _, longer := range r.values[j+1:] {
				if v.set && longer.set {
					assert.LessOrEqual(t, longer.value, v.value, "row %s", r.code)
					pairs++
				}
			}
			for _, heavier := range rows[i+1:] {
				if v.set && heavier.values[j].set {
					assert.GreaterOrEqual(t, heavier.values[j].value, v.value, "row %s", r.code)
					pairs++
				}
			}
		}
	}
	assert.Greater(t, pairs, 300)
}

// Mz/(Z x L) runs from 24 to 39 Nm/m with the sole length in the middle of its
// column (20 mm wide at the open ends), to whole numbers, with one exception
// that is left as it is: row N at 291 to 310 mm gives 23.47.
func TestNoClosedFormula(t *testing.T) {
	chart := loaded(t)
	low, high := math.Inf(1), math.Inf(-1)
	for _, r := range chart.rows {
		for j, v := range r.values {
			if !v.set {
				continue
			}
			ratio := float64(r.twist) / (v.value * middle(chart.columns[j]) / 1000)
			if r.code == "N" && j == 3 {
				assert.InDelta(t, 23.47, ratio, 0.005)
				continue
			}
			low, high = min(low, ratio), max(high, ratio)
		}
	}
	require.Equal(t, 24.0, rounded(low, 0))
	require.Equal(t, 39.0, rounded(high, 0))
}

// middle of a column in mm.
func middle(b band) float64 {
	switch {
	case math.IsInf(b.low, -1):
		return b.high - 10
	case math.IsInf(b.high, 1):
		return b.low + 10
	}
	return (b.low + b.high) / 2
}
