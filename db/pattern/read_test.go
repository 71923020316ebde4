package pattern_test

import (
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"drillstop/calc"
	"drillstop/calc/layout"
	"drillstop/calc/quantity"
	"drillstop/db/pattern"
)

func TestReadFillsEveryKey(t *testing.T) {
	t.Parallel()
	got, err := pattern.Read("every.toml", []byte(`
name = "Every key"
note = "measured on a jig"
unit = "mm"
invented = true
mirrored = true

[[piece]]
kind = "toe"
anchor = "boot midsole"
from = 80
to = 215.5
sole_min = 250
sole_max = 350
track_fore = 28
track_aft = 27
track_sole = 300

[[piece.hole]]
order = 1
x = 90
y = -20.5
diameter = 3.6
depth = 9
bite = 7.5
class = "fixed"
locking = true

[[piece]]
kind = "heel"
anchor = "boot heel"
from = -75
to = 62
sole_min = 255
sole_max = 385
hole = [{order = 1, x = 48, y = 16, diameter = 4.1, depth = 9, bite = 8, class = "marked"}]
`))
	require.NoError(t, err)
	assert.Equal(t, &layout.Pattern{
		Name: "Every key", Note: "measured on a jig", Invented: true, Mirrored: true,
		Pieces: []layout.Piece{
			{
				Kind: layout.Toe, Anchor: layout.BootMidsole, From: 80, To: 215.5, SoleMin: 250, SoleMax: 350,
				TrackFore: 28, TrackAft: 27, TrackSole: 300,
				Holes: []layout.PatternHole{{X: 90, Y: -20.5, Diameter: 3.6, Depth: 9, Bite: 7.5, Class: layout.Fixed, Order: 1, Locking: true}},
			},
			{
				Kind: layout.Heel, Anchor: layout.BootHeel, From: -75, To: 62, SoleMin: 255, SoleMax: 385,
				Holes: []layout.PatternHole{{X: 48, Y: 16, Diameter: 4.1, Depth: 9, Bite: 8, Class: layout.Marked, Order: 1}},
			},
		},
	}, got)
}

func TestTheInventedPatternsSaySoAndCanBeLaidOut(t *testing.T) {
	t.Parallel()
	list, err := pattern.Invented()
	require.NoError(t, err)
	var names []string
	for _, n := range list {
		names = append(names, n.Name)
		assert.True(t, n.Pattern.Invented, n.Name)
		assert.Contains(t, n.Pattern.Name, "(invented)")
		assert.Contains(t, n.Pattern.Note, "Invented")
		shortest, longest := n.Pattern.Soles()
		for sole := shortest; sole <= longest; sole += 5 {
			s := layout.Spec{Pattern: n.Pattern, Mount: layout.Mount{Sole: sole}, Rules: layout.DefaultRules()}
			s.Left.Width, s.Right.Width = layout.Waist(66), layout.Waist(66)
			plan, err := s.Plan()
			require.NoError(t, err, n.Name)
			assert.Empty(t, plan.Clashes, "%s with a sole of %s", n.Name, sole)
		}
	}
	assert.Equal(t, []string{"alpine", "hybrid", "junior", "pin", "rental"}, names)
}

func TestWhatTheInventedPatternsShow(t *testing.T) {
	t.Parallel()
	alpine := found(t, "alpine")
	assert.Len(t, alpine.Piece(layout.Toe).Holes, 3)
	hybrid := found(t, "hybrid")
	toe := hybrid.Piece(layout.Toe)
	assert.Len(t, toe.Holes, 5)
	assert.Len(t, hybrid.Piece(layout.Heel).Holes, 4)
	assert.True(t, toe.Holes[0].Locking)
	assert.Equal(t, 1, toe.Holes[0].Order)
	assert.Zero(t, toe.Holes[0].Y, "the locking screw stands in the centre")
	assert.True(t, found(t, "pin").Mirrored)
	assert.Equal(t, layout.BootMidsole, found(t, "rental").Piece(layout.Heel).Anchor)
}

func found(t *testing.T, name string) *layout.Pattern {
	t.Helper()
	p, err := pattern.Find(name)
	require.NoError(t, err)
	return p
}

func TestAnUnknownPatternNamesTheKnown(t *testing.T) {
	t.Parallel()
	_, err := pattern.Find("alpin")
	assert.EqualError(t, err, `There is no pattern "alpin": name a pattern file that ends in .toml, or one of the invented ones: alpine, hybrid, junior, pin, rental.`)
}

const oldCSV = "\ufeff# measured at the bench\nSki;X;Y;Depth;Diameter;State\nleft;-124,5;18;9;4,1;plugged\n right ; 130 mm ; -19 ; ; 3.6 ; OPEN\nboth;0;0;7;4.1;open\n"

const oldTOML = `
unit = "mm"

[[hole]]
ski = "left"
x = -124.5
y = 18
depth = 9
diameter = 4.1
state = "plugged"

[[hole]]
ski = "right"
x = 130
y = -19
diameter = 3.6
state = "open"

[[hole]]
ski = "both"
x = 0
y = 0
depth = 7
diameter = 4.1
state = "open"
`

func TestOldHolesInBothFormats(t *testing.T) {
	t.Parallel()
	both := layout.OldHole{Diameter: 4.1, Depth: 7}
	want := pattern.Old{
		Left:  []layout.OldHole{{X: -124.5, Y: 18, Diameter: 4.1, Depth: 9, Plugged: true}, both},
		Right: []layout.OldHole{{X: 130, Y: -19, Diameter: 3.6}, both},
	}
	for file, text := range map[string]string{"old.csv": oldCSV, "OLD.TOML": oldTOML, "comma.csv": strings.NewReplacer(",", ".", ";", ",").Replace(oldCSV)} {
		got, err := pattern.ReadOld(file, []byte(text))
		require.NoError(t, err, file)
		assert.Equal(t, want, got, file)
	}
}

func TestOldHolesOfAnEarlierMount(t *testing.T) {
	t.Parallel()
	old, err := pattern.ReadOld("old.toml", []byte(oldTOML+`
[[earlier]]
pattern = "alpine"
sole = 318
heel_for = 320
shift = -5
ski = "left"
state = "plugged"
`))
	require.NoError(t, err)
	left, right, err := old.Holes(pattern.Find, layout.Bit{})
	require.NoError(t, err)
	assert.Len(t, right, 2)
	require.Len(t, left, 2+7)
	// The toe ends at -5 + 159 = 154: its first hole lies 32 mm in front of it.
	// The heel was set out from there for 320: 154 - 320 + 48 = -118.
	assert.Equal(t, layout.OldHole{X: 186, Diameter: 4.1, Depth: 9, Plugged: true}, left[2])
	assert.Equal(t, quantity.Millimetre(-118), left[5].X)
}

func TestAnEarlierMountThatCannotHaveBeen(t *testing.T) {
	t.Parallel()
	head := "unit = \"mm\"\n\n[[earlier]]\nski = \"both\"\nstate = \"open\"\n"
	for text, want := range map[string]string{
		"pattern = \"alpin\"\nsole = 318\n": `old.toml, line 3, earlier[1]: There is no pattern "alpin": name a pattern file that ends in .toml, or one of the invented ones: alpine, hybrid, junior, pin, rental.`,
		"pattern = \"alpine\"\nsole = 31\n": "old.toml, line 3, earlier[1]: The sole length is 31 mm: 150 mm to 400 mm is possible.",
	} {
		old, err := pattern.ReadOld("old.toml", []byte(head+text))
		require.NoError(t, err)
		_, _, err = old.Holes(pattern.Find, layout.Bit{})
		assert.EqualError(t, err, want)
	}
}

func TestFilesThatAreTooLarge(t *testing.T) {
	t.Parallel()
	large := []byte(strings.Repeat("# nothing\n", 30000))
	_, err := pattern.Read("large.toml", large)
	require.EqualError(t, err, "large.toml: The file has 300000 bytes: at most 262144 are read.")
	_, err = pattern.ReadOld("large.csv", large)
	require.EqualError(t, err, "large.csv: The file has 300000 bytes: at most 262144 are read.")
	many := "ski,x,y,diameter,state\n" + strings.Repeat("both,1,1,4,open\n", 251)
	_, err = pattern.ReadOld("many.csv", []byte(many))
	require.EqualError(t, err, "many.csv: The file holds 502 holes: at most 500 are read.")
}

// FuzzRead asks of any bytes: no panic, and either a pattern that can be used
// or a fault that names the file.
func FuzzRead(f *testing.F) {
	for _, name := range []string{"alpine", "hybrid", "junior", "pin", "rental"} {
		text, err := os.ReadFile("invented/" + name + ".toml")
		require.NoError(f, err)
		f.Add(text)
	}
	f.Add([]byte("piece = [[{x = 1}], 3]\n[a.\"b.c\".d]\n[[piece.hole]]\n"))
	f.Fuzz(func(t *testing.T, text []byte) {
		p, err := pattern.Read("any.toml", text)
		if err == nil {
			require.NoError(t, p.Check())
			return
		}
		require.Nil(t, p)
		saysWhere(t, err, "any.toml")
	})
}

// FuzzReadOld asks the same of old holes.
func FuzzReadOld(f *testing.F) {
	f.Add(oldTOML, true)
	f.Add(oldCSV, false)
	f.Add("ski,x,y,diameter,state\nleft,\"1\n2\",3,4,open\n", false)
	f.Fuzz(func(t *testing.T, text string, asTOML bool) {
		file := "any.csv"
		if asTOML {
			file = "any.toml"
		}
		old, err := pattern.ReadOld(file, []byte(text))
		if err != nil {
			saysWhere(t, err, file)
			return
		}
		for i, h := range append(old.Left, old.Right...) {
			require.NoError(t, h.Check(i, layout.Both))
		}
	})
}

func saysWhere(t *testing.T, err error, file string) {
	t.Helper()
	var fault *calc.Fault
	require.ErrorAs(t, err, &fault)
	require.True(t, strings.HasPrefix(fault.Sentence, file), fault.Sentence)
}
