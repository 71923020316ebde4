package pattern_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"drillstop/calc"
	"drillstop/calc/layout"
	"drillstop/db/pattern"
)

func TestWidths(t *testing.T) {
	t.Parallel()
	want := layout.Profile([]layout.WidthAt{{X: -300, Width: 104.5}, {X: 0, Width: 98}, {X: 300, Width: 103}})
	for _, typed := range []string{"-300:104.5,0:98,300:103", "-300 : 104,5 mm; 0: 98 ; 300:103", "-30 cm:104.5, 0:9.8cm, 300:103"} {
		got, err := pattern.ParseWidths(typed)
		require.NoError(t, err, typed)
		assert.Equal(t, want, got, typed)
	}
	for _, text := range []string{"x,width\n-300,104.5\n0,98\n300,103\n", "# the right ski\nwidth;x\n104,5;-300\n98;0\n103;300\n"} {
		got, err := pattern.ReadWidths("widths.csv", []byte(text))
		require.NoError(t, err, text)
		assert.Equal(t, want, got, text)
	}
	assert.True(t, pattern.IsWidthsFile("a/b.CSV"))
	assert.False(t, pattern.IsWidthsFile("-300:104.5,0:98"))
}

func TestBadWidths(t *testing.T) {
	t.Parallel()
	for typed, said := range map[string]string{
		"98":              `"98" is no place and width: write -300:104, 0:98, 300:103, or name a file that ends in .csv.`,
		"0:98,":           `"" is no place and width: write -300:104, 0:98, 300:103, or name a file that ends in .csv.`,
		"0:98":            `2 to 200 places of the ski are possible, and "0:98" has 1.`,
		"0:98, 300:wide":  `"wide" does not read as a number: type digits with one decimal point or comma, such as 318 or 31.8.`,
		"0:98, 300:90 kg": `"90 kg" is a mass: expected a length in mm.`,
	} {
		_, err := pattern.ParseWidths(typed)
		var fault *calc.Fault
		require.ErrorAs(t, err, &fault, typed)
		assert.Equal(t, said, fault.Sentence)
	}
	for text, said := range map[string]string{
		"":                       `w.csv: The file is empty: its first line names the columns x, width.`,
		"x\n1\n":                 `w.csv, line 1, width: This column is missing: the columns are x, width.`,
		"x,waist\n":              `w.csv, line 1: "waist" is not a column of widths: they are x, width.`,
		"x,width\n0,98\n":        `w.csv: 2 to 200 places of the ski are possible, and this file has 1.`,
		"x,width\n0,98\n9\n":     `w.csv, line 3: The line has 1 columns: 2 are named. A comma inside of a number needs semicolons between the columns.`,
		"x,width\n0,98\n9,kg\n":  `w.csv, line 3, width: "kg" does not read as a number: type digits with one decimal point or comma, such as 318 or 31.8.`,
		"x,width\n0,98\n9,\"1\n": `w.csv, line 3: This is not CSV: a quote is missing or stands where none belongs.`,
	} {
		_, err := pattern.ReadWidths("w.csv", []byte(text))
		var fault *calc.Fault
		require.ErrorAs(t, err, &fault, text)
		assert.Equal(t, said, fault.Sentence)
	}
}

// FuzzWidths asks of any text: no panic, and a width or a fault.
func FuzzWidths(f *testing.F) {
	f.Add("-300:104.5,0:98,300:103")
	f.Add("x;width\n0;98,5\n300;103\n")
	f.Fuzz(func(t *testing.T, text string) {
		for _, read := range []func() (layout.Width, error){
			func() (layout.Width, error) { return pattern.ParseWidths(text) },
			func() (layout.Width, error) { return pattern.ReadWidths("w.csv", []byte(text)) },
		} {
			width, err := read()
			var fault *calc.Fault
			if err != nil {
				require.ErrorAs(t, err, &fault)
			}
			require.Equal(t, err == nil, width.Known())
		}
	})
}
