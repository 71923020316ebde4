package quantity

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"drillstop/calc"
)

func TestParseSole(t *testing.T) {
	for typed, want := range map[string]Millimetre{
		"318": 318, "318 mm": 318, "31.8 cm": 318, "31,8cm": 318, "310.5": 310.5,
		"275": 275, // may be a shell size in mm: seen where the shell is known
		"150": 150, "400": 400, "0.318 m": 318,
	} {
		got, err := ParseSole(typed)
		require.NoError(t, err, "%q", typed)
		assert.Equal(t, want, got, "%q", typed)
	}
	for typed, code := range map[string]string{
		"27.5": "quantity.shell-size", "27,5": "quantity.shell-size", "27": "quantity.shell-size", "15": "quantity.shell-size",
		"35": "quantity.shell-size", "27.5 mp": "quantity.shell-size", "MP 27.5": "quantity.shell-size", "275mp": "quantity.shell-size",
		"3 mondo": "quantity.shell-size", "31.8": "quantity.shell-size", "14.9": "quantity.sole-range", "36": "quantity.sole-range", "149.9": "quantity.sole-range",
		"400.5": "quantity.sole-range", "27.5 mm": "quantity.sole-range", "3180": "quantity.sole-range", "-318": "quantity.sole-range",
		"mp": "quantity.empty", "": "quantity.empty", "318 kg": "quantity.unit",
	} {
		_, err := ParseSole(typed)
		t.Run(typed, func(t *testing.T) { requireFault(t, err, code) })
	}
}

// Sole length is about 10 x mondopoint + 25 to + 55 mm (derived, from memory).
func TestShellSizeNamesItsSoles(t *testing.T) {
	const sentence = "27.5 is a shell size; the sole length is the three-digit number in mm at the heel, roughly 300 to 330 for this shell."
	for _, typed := range []string{"27.5", "27,5 ", "27.5 mp", "275 MP", "mondopoint 27.5"} {
		_, err := ParseSole(typed)
		require.EqualError(t, err, sentence, "%q", typed)
	}
}

func TestParseHole(t *testing.T) {
	for typed, want := range map[string][2]Millimetre{
		"3.5 x 9": {3.5, 9}, "3.5x9.0": {3.5, 9}, "3,5\u00d79,0 mm": {3.5, 9}, "4.1/9": {4.1, 9}, "4.1 X 9": {4.1, 9},
		"\u00d83.5 x 9": {3.5, 9}, "3.5mm x 9mm": {3.5, 9}, "3.6*7\r": {3.6, 7},
	} {
		diameter, depth, err := ParseHole(typed)
		require.NoError(t, err, "%q", typed)
		assert.Equal(t, want, [2]Millimetre{diameter, depth}, "%q", typed)
	}
	for typed, code := range map[string]string{
		"": "quantity.empty", "\u00d8": "quantity.empty", "3.5": "quantity.hole", "3.5 9": "quantity.hole", "3.5 x 9 x 2": "quantity.hole",
		"3.5xx9": "quantity.hole", "3.5 x": "quantity.empty", "x 9": "quantity.empty", "3.5 x nine": "quantity.number", "9 x 3.5": "quantity.hole-range",
		"35 x 9": "quantity.hole-range", "3.5 x 90": "quantity.hole-range", "3.5 x 4": "quantity.hole-range", "6 x 5.5": "quantity.hole-range",
		"3.5 kg x 9 kg": "quantity.unit", "3.5 mm x 9": "quantity.list-unit", "3.5 x 9 10": "quantity.two-numbers", "0x10": "quantity.hole-range",
	} {
		_, _, err := ParseHole(typed)
		t.Run(typed, func(t *testing.T) { requireFault(t, err, code) })
	}
}

func TestPrintedHoleReadsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		diameter := Millimetre(rapid.Float64Range(narrowestHole, 5).Draw(t, "diameter"))
		depth := Millimetre(rapid.Float64Range(5.01, deepestHole).Draw(t, "depth"))
		gotDiameter, gotDepth, err := ParseHole(PrintHole(diameter, depth))
		require.NoError(t, err)
		require.Equal(t, diameter, gotDiameter)
		require.Equal(t, depth, gotDepth)
	})
}

func FuzzParseHole(f *testing.F) {
	for _, seed := range []string{"3.5 x 9", "3,5\u00d79,0 mm", "4.1/9", "x", "3.5xx9", "\u00d83.5 x 9", "0x10", "\xffx9"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, typed string) {
		diameter, depth, err := ParseHole(typed)
		if err != nil {
			var fault *calc.Fault
			require.ErrorAs(t, err, &fault)
			return
		}
		require.Greater(t, depth, diameter)
		gotDiameter, gotDepth, err := ParseHole(PrintHole(diameter, depth))
		require.NoError(t, err)
		require.Equal(t, diameter, gotDiameter)
		require.Equal(t, depth, gotDepth)
	})
}
