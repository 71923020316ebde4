package quantity

import (
	"errors"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"drillstop/calc"
)

// requireFault asserts that err is a Fault of that code with a whole sentence.
func requireFault(t require.TestingT, err error, code string) {
	var fault *calc.Fault
	require.Truef(t, errors.As(err, &fault), "want fault %s, got %v", code, err)
	require.Equal(t, code, fault.Code, fault.Sentence)
	require.Truef(t, strings.HasSuffix(fault.Sentence, "."), "not a sentence: %s", fault.Sentence)
}

func TestParse(t *testing.T) {
	for _, c := range []struct {
		typed string
		want  Unit
		value float64
	}{
		{"318", MM, 318},
		{"318 mm", MM, 318},
		{" 318mm\r", MM, 318},
		{"\u00a0318\u202fmm\u00a0", MM, 318},
		{"\ufeff318", MM, 318},
		{"31.8 cm", MM, 318},
		{"31,8CM", MM, 318},
		{"0.57 m", CM, 57}, // 0.57*100 is not 57 in float64: exact arithmetic
		{"-5 mm", MM, -5},
		{"\u22125 mm", MM, -5},
		{"+5", MM, 5},
		{"-0", MM, 0},
		{".5", MM, 0.5},
		{"0318", MM, 318},
		{"1 in", MM, 25.4},              // international yard and pound agreement, 1959
		{"1 ft", MM, 304.8},             // same
		{"1 lb", KG, 0.45359237},        // same
		{"1 st", KG, 6.35029318},        // 14 lb
		{"165 lb", KG, 74.84274105},     // same
		{"11 st 4 lb", KG, 71.66759446}, // 158 lb
		{"11st4", KG, 71.66759446},      // same
		{"72000 g", KG, 72},             //
		{"5'10\"", CM, 177.8},           // 70 in
		{"5' 10", CM, 177.8},            //
		{"5\u203210\u2033", CM, 177.8},  // primes
		{"5\u201910\u201d", CM, 177.8},  // typographic quotes
		{"5'10''", CM, 177.8},           //
		{"5 ft. 10 in.", CM, 177.8},     //
		{"5ft.10", CM, 177.8},           //
		{"5 feet 10.5 inches", CM, 179.07},
		{"6'", CM, 182.88},
		{"1 m 75", CM, 175},
		{"1m75", CM, 175},
		{"1 m 5 cm", CM, 105},
		{"50", NM, 50},
		{"50 Nm", NM, 50},
		{"50 N m", NM, 50},
		{"50 N\u00b7m", NM, 50},
		{"50NM", NM, 50},
		{"5 daNm", NM, 50},
		{"100 ft-lb", NM, 135.58179483314004}, // derived: 0.3048 x 0.45359237 x 9.80665
		{"100 lb ft", NM, 135.58179483314004},
		{"12 in-lb", NM, 1.3558179483314004},
		{"34 years", Years, 34},
		{"34y", Years, 34},
		{"45\u00b0", Degree, 45},
		{"0.5 turns", Degree, 180},
		{"90 deg", Turn, 0.25},
		{"6", Plain, 6},
		{"-1", Plain, -1},
	} {
		got, err := Parse(c.typed, c.want)
		require.NoError(t, err, "%q", c.typed)
		assert.Equal(t, c.value, got, "%q", c.typed)
	}
}

func TestParseRefuses(t *testing.T) {
	for _, c := range []struct {
		typed string
		want  Unit
		code  string
	}{
		{"", MM, "quantity.empty"},
		{" \r\n\u00a0", MM, "quantity.empty"},
		{"mm", MM, "quantity.number"},
		{"abc", MM, "quantity.number"},
		{"NaN", MM, "quantity.number"},
		{"Inf", MM, "quantity.number"},
		{"-Inf", MM, "quantity.number"},
		{"--5", MM, "quantity.number"},
		{"5.", MM, "quantity.number"},
		{"1,234.5", MM, "quantity.number"},
		{"1.234.5", MM, "quantity.number"},
		{"\xff\xfe", MM, "quantity.number"},
		{"1e3", MM, "quantity.unit"},
		{"0x10", MM, "quantity.unit"},
		{"1_000", MM, "quantity.unit"},
		{"5-10", MM, "quantity.unit"},
		{"318 mmm", MM, "quantity.unit"},
		{"318 mm!", MM, "quantity.unit"},
		{"318 \xff", MM, "quantity.unit"},
		{"72 kg", MM, "quantity.unit"},
		{"72 cm", KG, "quantity.unit"},
		{"6 mm", Plain, "quantity.unit"},
		{"5 %", Plain, "quantity.unit"},
		{"5", Unit("parsec"), "quantity.unit"},
		{"50 -Nm", NM, "quantity.unit"},
		{"1 75", CM, "quantity.two-numbers"},
		{"72 kg 5", KG, "quantity.two-numbers"},
		{"5 ft 10 in 3", CM, "quantity.two-numbers"},
		{"1 m 5", CM, "quantity.two-numbers"},
		{"1 m .5", CM, "quantity.two-numbers"},
		{"1'234", MM, "quantity.two-parts"}, // no grouping, and no 234 inches
		{"5.5 ft 3 in", CM, "quantity.two-parts"},
		{"-5 ft 3 in", CM, "quantity.two-parts"},
		{"5 ft -3 in", CM, "quantity.two-parts"},
		{"11 st 14 lb", KG, "quantity.two-parts"},
		{"5'10", KG, "quantity.unit"},
		{"-72 kg", KG, "quantity.negative"},
		{"-50", NM, "quantity.negative"},
		{"-3", Years, "quantity.negative"},
		{"1000000001", MM, "quantity.range"},
		{"0.0000000001", MM, "quantity.range"},
		{strings.Repeat("1", 65), MM, "quantity.long"},
	} {
		_, err := Parse(c.typed, c.want)
		t.Run(c.typed, func(t *testing.T) { requireFault(t, err, c.code) })
	}
}

func TestPrint(t *testing.T) {
	assert.Equal(t, "318 mm", Millimetre(318).String())
	assert.Equal(t, "177.8 cm", Centimetre(177.8).String())
	assert.Equal(t, "72 kg", Kilogram(72).String())
	assert.Equal(t, "50 Nm", NewtonMetre(50).String())
	assert.Equal(t, "1 year", Print(1, Years))
	assert.Equal(t, "34 years", Print(34, Years))
	assert.Equal(t, "1 turn", Print(1, Turn))
	assert.Equal(t, "0.25 turns", Print(0.25, Turn))
	assert.Equal(t, "0", Print(math.Copysign(0, -1), Plain))
	assert.Equal(t, "100000000 mm", Print(1e8, MM))
	assert.Equal(t, "49, 51.5, 52 Nm", PrintList([]float64{49, 51.5, 52}, NM))
	assert.Equal(t, "1 year", PrintList([]float64{1}, Years))
	assert.Equal(t, "1, 1 years", PrintList([]float64{1, 1}, Years))
	assert.Empty(t, PrintList(nil, NM))
	for _, v := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		_, err := Parse(Print(v, MM), MM)
		requireFault(t, err, "quantity.number")
	}
}

func units() []Unit { return []Unit{MM, CM, KG, NM, Years, Degree, Turn, Plain} }

// drawValue is any value that Print and Parse promise to carry.
func drawValue(t *rapid.T, unit Unit) float64 {
	v := rapid.OneOf(
		rapid.Float64Range(smallest, largest),
		rapid.Float64Range(smallest, 1),
		rapid.Map(rapid.IntRange(0, 5000), func(n int) float64 { return float64(n) / 10 }),
	).Draw(t, "value")
	if unit != KG && unit != NM && unit != Years && rapid.Bool().Draw(t, "negative") {
		return -v
	}
	return v
}

func TestPrintedReadsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		unit := rapid.SampledFrom(units()).Draw(t, "unit")
		v := drawValue(t, unit)
		got, err := Parse(Print(v, unit), unit)
		require.NoError(t, err)
		require.Equal(t, v, got)
	})
}

func FuzzParse(f *testing.F) {
	for _, seed := range []string{"318", "31,8 cm", "5'10\"", "11 st 4 lb", "1m75", "-5 mm", "1e3", "NaN", "49 51", "\xff", "5ft.10", "0.5 turns"} {
		f.Add(seed, uint8(0))
	}
	f.Fuzz(func(t *testing.T, typed string, pick uint8) {
		unit := units()[int(pick)%len(units())]
		v, err := Parse(typed, unit)
		if err != nil {
			var fault *calc.Fault
			require.ErrorAs(t, err, &fault)
			return
		}
		again, err := Parse(Print(v, unit), unit)
		require.NoError(t, err)
		require.Equal(t, v, again)
	})
}
