package quantity

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"drillstop/calc"
)

func TestParseList(t *testing.T) {
	readings := []float64{49, 51, 52}
	halves := []float64{49.5, 51, 52}
	for _, c := range []struct {
		typed string
		n     int
		want  []float64
	}{
		{"49 51 52", 3, readings},
		{"49, 51, 52", 3, readings},
		{"49 , 51 , 52", 3, readings},
		{"49,51,52", 3, readings},
		{"49,51,52", 0, readings},
		{"49;51;52", 3, readings},
		{"49 ; 51; 52\r", 3, readings},
		{"49/51/52", 3, readings},
		{"49 / 51 / 52 Nm", 3, readings},
		{"49, 51, 52 Nm", 3, readings},
		{"49,51,52 Nm", 3, readings},
		{"49 Nm, 51 Nm, 52 nm", 3, readings},
		{"49 Nm 51 Nm 52 Nm", 3, readings},
		{"4.9 5.1 5.2 daNm", 3, readings},
		{"49,5 51,0 52", 3, halves},
		{"49,5;51,0;52", 3, halves},
		{"49,5/51/52", 3, halves},
		{"49.5, 51.0, 52", 3, halves},
		{"49.5,51.0,52", 3, halves},
		{"49.5,51", 2, []float64{49.5, 51}},
		{"49,5", 1, []float64{49.5}},
		{"49", 0, []float64{49}},
		{"49 51", 0, []float64{49, 51}},
	} {
		got, err := ParseList(c.typed, NM, c.n)
		require.NoError(t, err, "%q", c.typed)
		assert.Equal(t, c.want, got, "%q", c.typed)
	}
}

func TestParseListUnitAtTheEndCountsForAll(t *testing.T) {
	got, err := ParseList("19.5, 20 cm", MM, 2)
	require.NoError(t, err)
	assert.Equal(t, []float64{195, 200}, got)
}

func TestParseListRefuses(t *testing.T) {
	for _, c := range []struct {
		typed string
		n     int
		code  string
	}{
		{"", 3, "quantity.empty"},
		{"49 51", 3, "quantity.count"},
		{"49 51 52 53", 3, "quantity.count"},
		{"49,5", 3, "quantity.count"},
		{"49,51,52", 1, "quantity.count"},
		{"49", -1, "quantity.count"},
		{"49,51", 0, "quantity.ambiguous"},
		{"49,51", 2, "quantity.ambiguous"},
		{"49,51, 52", 3, "quantity.ambiguous"},
		{"49,,52", 3, "quantity.empty"},
		{"49;;52", 3, "quantity.empty"},
		{"49, 51, 52,", 3, "quantity.empty"},
		{"49; 51 52", 3, "quantity.two-numbers"},
		{"49 Nm 51 52", 3, "quantity.list-unit"},
		{"49 Nm 51 Nm 52", 3, "quantity.list-unit"},
		{"49 x 52", 2, "quantity.unit"},
		{"49 51 52 kg", 3, "quantity.unit"},
		{"49 -51 52", 3, "quantity.negative"},
		{"49-51-52", 3, "quantity.unit"},
		{"49, none, 52", 3, "quantity.number"},
		{strings.Repeat("1 ", 3000), 0, "quantity.long"},
	} {
		_, err := ParseList(c.typed, NM, c.n)
		t.Run(c.typed, func(t *testing.T) { requireFault(t, err, c.code) })
	}
}

func TestParseListSaysHowMany(t *testing.T) {
	_, err := ParseList("49 51", NM, 3)
	require.EqualError(t, err, `"49 51" holds 2 numbers: exactly 3 needed.`)
}

func TestPrintedListReadsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		unit := rapid.SampledFrom(units()).Draw(t, "unit")
		n := rapid.IntRange(1, 20).Draw(t, "n")
		vs := make([]float64, n)
		for i := range vs {
			vs[i] = drawValue(t, unit)
		}
		for _, count := range []int{0, n} {
			got, err := ParseList(PrintList(vs, unit), unit, count)
			require.NoError(t, err)
			require.Equal(t, vs, got)
		}
	})
}

func FuzzParseList(f *testing.F) {
	for _, seed := range []string{"49 51 52", "49, 51, 52 Nm", "49,51,52", "49,5 51,0", "49;51", "49/51/52", "49,,", "5'10", ",", ";"} {
		f.Add(seed, 0)
		f.Add(seed, 3)
	}
	f.Fuzz(func(t *testing.T, typed string, n int) {
		vs, err := ParseList(typed, NM, n)
		if err != nil {
			var fault *calc.Fault
			require.ErrorAs(t, err, &fault)
			return
		}
		require.NotEmpty(t, vs)
		if n > 0 {
			require.Len(t, vs, n)
		}
		if len(vs) > 60 {
			return // longer than one typed line when printed with all its decimals
		}
		again, err := ParseList(PrintList(vs, NM), NM, len(vs))
		require.NoError(t, err)
		require.Equal(t, vs, again)
	})
}
