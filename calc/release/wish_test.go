package release

import (
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"drillstop/calc"
	"drillstop/calc/quantity"
)

// Up to 15 % on request: ISO 8061:2004, 4.3.4 to 4.3.6. Rounding down to 0.25 is
// our rule. The cells are from memory, the per cent is arithmetic.
func TestRequestSays(t *testing.T) {
	for _, c := range []struct {
		name      string
		in        Input
		level     calc.Level
		code      string
		path, say string
		toe       float64
		toeCode   string
		twist     quantity.NewtonMetre
	}{
		{
			"held", Input{Mass: 80, Height: 185, Age: 34, Type: TypeI, Sole: 280, Toe: Higher}, calc.Caution, "release.higher-toe",
			"toe higher -> M, 8.5 would be 21 % more; held at 15 % -> 8",
			"Toe higher on the skier's request: 8 is 14 % more than the computed 7; row M with 8.5 would be 21 % more, so it is held at 15 %. The reference is that of row M. The reason belongs on the record.",
			8, "M", 58,
		},
		{
			"exactly 15 %", Input{Mass: 100, Height: 200, Age: 34, Type: TypeII, Sole: 280, Toe: Higher}, calc.Caution, "release.higher-toe",
			"toe higher (O) -> 11.5",
			"Toe one row higher on the skier's request: row O, 11.5, is 15 % more than the computed 10. The reason belongs on the record.",
			11.5, "O", 78,
		},
		{
			"no step within 15 %", Input{Mass: 22, Height: 120, Age: 12, Type: TypeI, Sole: 300, Toe: Higher}, calc.Caution, "release.higher-toe",
			"toe higher -> E, 1.5 would be 20 % more; held at 15 % -> 1.25",
			"Toe higher on the skier's request cannot be granted: row E with 1.5 would be 20 % more, and no step of 0.25 lies within 15 %. The value 1.25 and the reference of row D stay.",
			1.25, "D", 14,
		},
		{
			"lower, more than 15 %", Input{Mass: 72, Height: 175, Age: 34, Type: TypeII, Sole: 318, Toe: Lower}, calc.Note, "release.lower-toe",
			"toe lower (K) -> 5",
			"Toe one row lower on the skier's request: row K, 5, is 17 % less than the computed 6, more than 15 %. The reason belongs on the record.",
			5, "K", 43,
		},
		{
			"lower, less than 15 %", Input{Mass: 100, Height: 200, Age: 34, Type: TypeIII, Sole: 280, Toe: Lower}, calc.Note, "release.lower-toe",
			"toe lower (N) -> 10",
			"Toe one row lower on the skier's request: row N, 10, is 13 % less than the computed 11.5. The reason belongs on the record.",
			10, "N", 67,
		},
	} {
		t.Run(c.name, func(t *testing.T) {
			r, err := loaded(t).Value(c.in)
			require.NoError(t, err)
			assert.True(t, strings.HasSuffix(r.PathText(), ", "+c.path), r.PathText())
			f := finding(t, r, c.code)
			assert.Equal(t, c.level, f.Level)
			assert.Equal(t, c.say, f.Text)
			assert.Contains(t, f.Source, "ISO 8061:2004, 4.3.4 to 4.3.6")
			assert.Equal(t, c.toe, r.Toe)
			assert.Equal(t, c.toeCode, r.ToeCode)
			assert.Equal(t, c.toeCode, r.Path[len(r.Path)-1].Code)
			assert.Equal(t, c.twist, r.Twist)
			assert.Equal(t, r.Value, r.Heel, "the heel was not asked for")
		})
	}
}

// A shop's chart may have values between the steps: one within 15 % is taken as
// it stands, and a request for more never ends below what was computed.
func TestHigherIsNeverLower(t *testing.T) {
	assert.False(t, beyondWish(6.9, 6))
	assert.False(t, beyondWish(1.38, 1.2))
	assert.True(t, beyondWish(6.91, 6))
	for computed, want := range map[float64]float64{0.6: 0.6, 0.75: 0.75, 1.5: 1.5, 1.75: 2, 4.3: 4.75, 5: 5.75, 10: 11.5, 20: 23} {
		assert.Equal(t, want, mostHigher(computed), "computed %g", computed)
	}
}

// Whoever asks, higher is at most 15 % more, never less than computed, and never
// more than the heavier row; lower is exactly the lighter row.
func TestRequestStaysWithinItsLimits(t *testing.T) {
	chart := loaded(t)
	raised := 0
	rapid.Check(t, func(t *rapid.T) {
		in := drawSkier(t)
		in.Toe, in.Heel = Higher, Lower
		r, err := chart.Value(in)
		if err != nil {
			return
		}
		require.LessOrEqual(t, r.Toe, 1.15*r.Value+1e-9)
		require.GreaterOrEqual(t, r.Toe, r.Value)
		at, column := slices.Index(chart.Codes(), r.Code), columnOf(chart, in.Sole)
		require.LessOrEqual(t, r.Toe, chart.rows[at+1].values[column].value)
		require.Equal(t, r.Toe > r.Value, r.ToeCode == chart.rows[at+1].code, "a raised value, and no other, is tested against the heavier row")
		require.Equal(t, chart.rows[max(0, at-1)].values[column].value, r.Heel)
		require.Zero(t, math.Mod(r.Toe, wishStep))
		if r.Toe > r.Value {
			raised++
		}
	})
	assert.Greater(t, raised, 10)
}

func columnOf(chart *Chart, sole quantity.Millimetre) int {
	return slices.IndexFunc(chart.columns, func(b band) bool { return float64(sole) <= b.high })
}

// More than 15 % never reads as 15 %.
func TestPercentText(t *testing.T) {
	for percent, want := range map[float64]string{0: "0 %", 14.6: "15 %", 15: "15 %", 15.04: "15.04 %", 15.2: "15.2 %", 15.6: "16 %", 21.43: "21 %"} {
		assert.Equal(t, want, percentText(percent))
	}
}

// Type III and a higher value together from 22 to 25 kg are asked after (our
// rule); one of the two alone, and heavier skiers, are not.
func TestLightSkierRaisedTwice(t *testing.T) {
	for _, c := range []struct {
		mass quantity.Kilogram
		kind Type
		toe  Wish
		heel Wish
		want bool
	}{
		{22, TypeIII, Higher, AsComputed, true},
		{25.9, TypeIII, AsComputed, Higher, true},
		{22, TypeIII, Higher, Higher, true},
		{22, TypeIII, Lower, AsComputed, false},
		{22, TypeII, Higher, AsComputed, false},
		{26, TypeIII, Higher, AsComputed, false},
	} {
		r, err := loaded(t).Value(Input{Mass: c.mass, Height: 120, Age: 12, Type: c.kind, Sole: 260, Toe: c.toe, Heel: c.heel})
		require.NoError(t, err)
		assert.Equal(t, c.want, slices.Contains(codes(r), "release.light-raised"), "%+v", c)
		if c.want {
			f := finding(t, r, "release.light-raised")
			assert.Equal(t, calc.Caution, f.Level)
			assert.Contains(t, f.Source, "our rule")
		}
	}
}
