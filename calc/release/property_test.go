package release

import (
	"errors"
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"drillstop/calc"
	"drillstop/calc/quantity"
)

// drawSkier is anybody whom the default chart has a row for.
func drawSkier(t *rapid.T) Input {
	return Input{
		Mass:   quantity.Kilogram(rapid.Float64Range(10, 130).Draw(t, "mass")),
		Height: quantity.Centimetre(rapid.Float64Range(80, 210).Draw(t, "height")),
		Age:    rapid.IntRange(2, 110).Draw(t, "age"),
		Type:   rapid.SampledFrom([]Type{TypeI, TypeII, TypeIII}).Draw(t, "type"),
		Sole:   quantity.Millimetre(rapid.Float64Range(180, 380).Draw(t, "sole")),
		Toe:    rapid.SampledFrom([]Wish{Lower, AsComputed, Higher, OwnRisk}).Draw(t, "toe"),
		Heel:   rapid.SampledFrom([]Wish{Lower, AsComputed, Higher, OwnRisk}).Draw(t, "heel"),
	}
}

// neverMore asserts that none of the values and moments of less exceeds more's.
// Where either has no value there is nothing to compare, and it returns false.
func neverMore(t *rapid.T, chart *Chart, less, more Input) bool {
	a, err := chart.Value(less)
	if err != nil {
		return false
	}
	b, err := chart.Value(more)
	if err != nil {
		return false
	}
	require.LessOrEqual(t, a.Value, b.Value)
	require.LessOrEqual(t, a.Toe, b.Toe)
	require.LessOrEqual(t, a.Heel, b.Heel)
	require.LessOrEqual(t, a.Twist, b.Twist)
	require.LessOrEqual(t, a.ForwardLean, b.ForwardLean)
	return true
}

func TestValueNeverRises(t *testing.T) {
	chart := loaded(t)
	for name, lessen := range map[string]func(*rapid.T, *Input){
		"with age from 50 on": func(t *rapid.T, in *Input) {
			in.Age = rapid.IntRange(max(50, in.Age), 110).Draw(t, "older")
		},
		"with a lighter skier": func(t *rapid.T, in *Input) {
			in.Mass = quantity.Kilogram(rapid.Float64Range(10, float64(in.Mass)).Draw(t, "lighter"))
		},
		"from III to I": func(t *rapid.T, in *Input) {
			in.Type = Type(rapid.IntRange(1, int(in.Type)).Draw(t, "lower type"))
		},
		"with a longer sole": func(t *rapid.T, in *Input) {
			in.Sole = quantity.Millimetre(rapid.Float64Range(float64(in.Sole), 380).Draw(t, "longer"))
		},
		"with a lower wish": func(t *rapid.T, in *Input) {
			in.Toe = Wish(rapid.IntRange(-1, int(in.Toe)).Draw(t, "lower toe"))
			in.Heel = Wish(rapid.IntRange(-1, int(in.Heel)).Draw(t, "lower heel"))
		},
	} {
		compared := 0
		t.Run(name, rapid.MakeCheck(func(t *rapid.T) {
			more := drawSkier(t)
			if name == "with age from 50 on" && more.Age < 10 {
				more.Age += 10 // below 10 years the correction has its other end
			}
			less := more
			lessen(t, &less)
			if neverMore(t, chart, less, more) {
				compared++
			}
		}))
		assert.Greater(t, compared, 10, name)
	}
}

// Whatever comes in, the answer is a Fault or a value of the chart.
func TestNoInputPanics(t *testing.T) {
	chart := loaded(t)
	known := map[float64]bool{}
	for _, r := range chart.rows {
		for _, v := range r.values {
			known[v.value] = v.set
		}
	}
	anything := rapid.OneOf(rapid.Float64(), rapid.Float64Range(-10, 500),
		rapid.SampledFrom([]float64{math.NaN(), math.Inf(1), math.Inf(-1), 0, 148, 148.5, 250, 250.5, 13, 13.5}))
	rapid.Check(t, func(t *rapid.T) {
		in := Input{
			Mass:   quantity.Kilogram(anything.Draw(t, "mass")),
			Height: quantity.Centimetre(anything.Draw(t, "height")),
			Age:    rapid.OneOf(rapid.Int(), rapid.IntRange(0, 120)).Draw(t, "age"),
			Type:   Type(rapid.OneOf(rapid.Int(), rapid.IntRange(0, 4)).Draw(t, "type")),
			Sole:   quantity.Millimetre(anything.Draw(t, "sole")),
			Toe:    Wish(rapid.OneOf(rapid.Int(), rapid.IntRange(-2, 3)).Draw(t, "toe")),
			Heel:   Wish(rapid.OneOf(rapid.Int(), rapid.IntRange(-2, 3)).Draw(t, "heel")),
		}
		r, err := chart.Value(in)
		if err != nil {
			var f *calc.Fault
			require.ErrorAs(t, err, &f)
			require.NotEmpty(t, f.Field)
			require.Empty(t, r.Path)
			return
		}
		require.True(t, known[r.Value])
		require.True(t, known[r.Toe] || in.Toe == Higher && r.Toe == mostHigher(r.Value), "toe %g", r.Toe)
		require.True(t, known[r.Heel] || in.Heel == Higher && r.Heel == mostHigher(r.Value), "heel %g", r.Heel)
		require.NotEmpty(t, r.PathText())
		require.Equal(t, max(r.Value, r.Toe, r.Heel) > 10, r.AboveTen)
		for _, code := range []string{r.Code, r.ToeCode, r.HeelCode} {
			require.True(t, slices.Contains(chart.Codes(), code))
		}
	})
}

func TestParseType(t *testing.T) {
	for typed, want := range map[string]Type{"I": TypeI, " ii\r": TypeII, "III": TypeIII, "1": TypeI, "2": TypeII, "3": TypeIII, "type II": TypeII, "Type 3": TypeIII} {
		got, err := ParseType(typed)
		require.NoError(t, err, typed)
		assert.Equal(t, want, got)
		again, err := ParseType(got.String())
		require.NoError(t, err)
		assert.Equal(t, got, again)
	}
	for _, typed := range []string{"", "0", "4", "IV", "III+", "I-", "type", "expert, very long words typed here"} {
		_, err := ParseType(typed)
		faultOf(t, err, "release.type", "type")
	}
	assert.Equal(t, "?", Type(0).String())
}

func TestParseWish(t *testing.T) {
	for typed, want := range map[string]Wish{"lower": Lower, " Higher ": Higher, "": AsComputed, "as computed": AsComputed, "own risk": OwnRisk, "Own-Risk": OwnRisk} {
		got, err := ParseWish(typed)
		require.NoError(t, err, typed)
		assert.Equal(t, want, got)
		again, err := ParseWish(got.String())
		require.NoError(t, err)
		assert.Equal(t, got, again)
	}
	_, err := ParseWish("much higher")
	faultOf(t, err, "release.wish", "")
	assert.Equal(t, "?", Wish(3).String())
}

func TestParsersNeverPanic(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		typed := rapid.String().Draw(t, "typed")
		_, typeErr := ParseType(typed)
		_, wishErr := ParseWish(typed)
		_, codeErr := loaded(t).Reference(typed)
		for _, err := range []error{typeErr, wishErr, codeErr} {
			var f *calc.Fault
			require.True(t, err == nil || errors.As(err, &f))
		}
	})
}

func BenchmarkValue(b *testing.B) {
	chart := loaded(b)
	for b.Loop() {
		if _, err := chart.Value(designSkier()); err != nil {
			b.Fatal(err)
		}
	}
}
