package steps

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"drillstop/calc"
	"drillstop/calc/layout"
	"drillstop/workflow"
)

func TestHoleListIsRead(t *testing.T) {
	for typed, want := range map[string]string{
		"-124.5 18 4.1 9 plugged":               "-124.5 18 4.1 9 plugged",
		"-124,5 18 4,1":                         "-124.5 18 4.1 open",
		"10, 18, 4.1, 9, p; 10, -18, 4.1, o":    "10 18 4.1 9 plugged; 10 -18 4.1 open",
		"  1 2 3 ;4 5 6 0 OPEN; ":               "1 2 3 open; 4 5 6 open",
		"12.4 cm 1.8 cm 4.1 mm 9 mm":            "", // a unit apart from its number could belong to either side
		"12.4cm 18mm 4.1 mm 9 mm open":          "124 18 4.1 9 open",
		"+10 -0 4.1 9 plug":                     "10 0 4.1 9 plugged",
		"-500 -60 15 30 plugged":                "-500 -60 15 30 plugged",
		"0.1 0.2 4.1 8.95 open; 0.1 0.3 4.1 pl": "0.1 0.2 4.1 8.95 open; 0.1 0.3 4.1 plugged",
	} {
		got, err := readHoleList(workflow.Shop{}, typed)
		if want == "" {
			assert.Error(t, err, "%q", typed)
			continue
		}
		require.NoError(t, err, "%q", typed)
		assert.Equal(t, want, got, "%q", typed)
		again, err := readHoleList(workflow.Shop{}, got)
		require.NoError(t, err)
		assert.Equal(t, got, again)
	}
}

// Each sentence names the hole, the number and what would be right.
func TestHoleListIsRefused(t *testing.T) {
	many := ""
	for range mostOldHoles {
		many += "1 2 3 4;"
	}
	for _, c := range []struct{ typed, code, says string }{
		{";;", "holes.count", `There is no hole in ";;": of each hole write x, y, diameter, if known the depth, then plugged or open.`},
		{"1 2 4 open; 1 2", "holes.count", "Hole 2 has 2 numbers: write x, y, diameter, if known the depth, then plugged or open, and a semicolon between two holes."},
		{"1 2 4 9 1 2 4 9", "holes.count", "Hole 1 has 8 numbers"},
		{"plugged", "holes.count", "Hole 1 has 0 numbers"},
		{"1 2 4; 1 x 4", "holes.number", `Hole 2: "x" is no length in mm`},
		{"1 2kg 4", "holes.number", `Hole 1: "2kg" is no length in mm`},
		{"1 2 4 open 5 6 4", "holes.number", `Hole 1: something follows "open"; put a semicolon between two holes.`},
		{"1 412 4", "layout.old-hole", "The y of old hole 1 is 412 mm: -100 mm to 100 mm is possible."},
		{"1 2 4; 1 3 41", "layout.old-hole", "The diameter of old hole 2 is 41 mm: 1 mm to 15 mm is possible."},
		{"1 2 4; 1 3 4 31", "layout.old-hole", "The depth of old hole 2 is 31 mm"},
		{"1 2 4; 1 3 4 -1", "layout.old-hole", "The depth of old hole 2 is -1 mm"},
		{"1501 2 4", "layout.old-hole", "The x of old hole 1 is 1501 mm"},
		{"1 2 4; 3 4 4; 1 2 5 plugged", "holes.twice", "Hole 3 lies where hole 1 lies: write each hole down once."},
		{many, "holes.twice", "Hole 2 lies where hole 1 lies"},
		{"NaN 2 4", "holes.number", `"NaN"`},
	} {
		_, err := parseHoleList(c.typed)
		var fault *calc.Fault
		require.ErrorAs(t, err, &fault, "%q", c.typed)
		assert.Equal(t, c.code, fault.Code, "%q", c.typed)
		assert.Contains(t, fault.Sentence, c.says, "%q", c.typed)
	}
	var holes []layout.OldHole
	for i := range mostOldHoles + 1 {
		holes = append(holes, layout.OldHole{X: mmOf(i), Y: 1, Diameter: 4})
	}
	_, err := parseHoleList(printHoleList(holes))
	assert.ErrorContains(t, err, "These are 101 holes: at most 100")
	kept, err := parseHoleList(printHoleList(holes[:mostOldHoles]))
	require.NoError(t, err)
	assert.Equal(t, holes[:mostOldHoles], kept)
}

// Whatever is typed: no panic, and what is kept reads back to the same holes.
func FuzzHoleList(f *testing.F) {
	for _, seed := range []string{
		"", "-124.5 18 4.1 9 plugged; -124.5 -18 4.1", "1,5 2 3", "1 2 3 mm open", ";", "1 2 3 4 5", "-0 -0 3", "1e5 2 3", "\xff", "1 2 3 . p",
	} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, typed string) {
		holes, err := parseHoleList(typed)
		if err != nil {
			var fault *calc.Fault
			require.ErrorAs(t, err, &fault)
			require.NotEmpty(t, fault.Sentence)
			return
		}
		require.NotEmpty(t, holes)
		text := printHoleList(holes)
		again, err := parseHoleList(text)
		require.NoError(t, err, "%q", text)
		require.Equal(t, holes, again)
		require.Equal(t, text, printHoleList(again))
		for i := range holes {
			require.NoError(t, holes[i].Check(i+1, layout.Both))
		}
	})
}
