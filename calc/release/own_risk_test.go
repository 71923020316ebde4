package release

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"drillstop/calc"
	"drillstop/calc/quantity"
)

// More than a request may raise is set only at the skier's own risk: ISO
// 8061:2004, 4.3.6. Two rows is our rule; the cells are from memory.
func TestOwnRisk(t *testing.T) {
	r, err := loaded(t).Value(Input{Mass: 72, Height: 175, Age: 34, Type: TypeII, Sole: 318, Toe: OwnRisk})
	require.NoError(t, err)
	assert.Equal(t, 8.5, r.Toe) // row N
	assert.Equal(t, 6.0, r.Heel, "the heel was not asked for")
	assert.Equal(t, "N", r.ToeCode)
	assert.Equal(t, quantity.NewtonMetre(67), r.Twist, "tested against the row it was set by")
	f := finding(t, r, "release.own-risk-toe")
	assert.Equal(t, calc.Stop, f.Level)
	assert.False(t, f.Never, "it may be waived, with its reason")
	assert.Equal(t, "Toe two rows higher by the skier's own choice: row N, 8.5, is 42 % more than the computed 6, beyond the 15 % of a request. "+
		"It is set only at the skier's own risk, signed for, and with a waiver.", f.Text)
	assert.Contains(t, r.PathText(), "toe own risk (N) -> 8.5")
}

func TestOwnRiskIsRefused(t *testing.T) {
	light := Input{Mass: 21, Height: 118, Age: 12, Type: TypeI, Sole: 260, Heel: OwnRisk}
	_, err := loaded(t).Value(light)
	faultOf(t, err, "release.light-wish", "heel")
	heavy := Input{Mass: 110, Height: 200, Age: 34, Type: TypeIII, Sole: 318, Toe: OwnRisk}
	_, err = loaded(t).Value(heavy)
	var fault *calc.Fault
	require.ErrorAs(t, err, &fault, "no value outside the chart")
	assert.Equal(t, "release.blank-cell", fault.Code)
}

// Two rows are more than a request gives in every cell of the chart, as the
// finding says.
func TestTwoRowsAreMoreThanARequest(t *testing.T) {
	chart := loaded(t)
	for i := range len(chart.rows) - 2 {
		for column := range chart.columns {
			low, high := chart.rows[i].values[column], chart.rows[i+2].values[column]
			if low.set && high.set {
				assert.Truef(t, beyondWish(high.value, low.value), "%s and %s", chart.rows[i].code, chart.rows[i+2].code)
			}
		}
	}
}
