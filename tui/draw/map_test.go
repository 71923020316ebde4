package draw_test

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"drillstop/calc/layout"
	"drillstop/calc/quantity"
	"drillstop/tui/draw"
)

var update = flag.Bool("update", false, "write the golden maps anew")

type mm = quantity.Millimetre

// piece is an invented piece with holes at x, y, in their screw order.
func piece(kind layout.PieceKind, anchor layout.Anchor, from, to, shortest, longest mm, at ...[2]mm) layout.Piece {
	p := layout.Piece{Kind: kind, Anchor: anchor, From: from, To: to, SoleMin: shortest, SoleMax: longest}
	for i, xy := range at {
		p.Holes = append(p.Holes, layout.PatternHole{X: xy[0], Y: xy[1], Diameter: 4.1, Depth: 9, Bite: 8, Class: layout.Marked, Order: i + 1})
	}
	return p
}

func hybrid() *layout.Pattern {
	heel := piece(layout.Heel, layout.BootHeel, -80, 70, 250, 370, [2]mm{55, 21}, [2]mm{-60, -21}, [2]mm{55, -21}, [2]mm{-60, 21})
	heel.TrackFore, heel.TrackAft = 15, 15
	return &layout.Pattern{Name: "hybrid", Invented: true, Pieces: []layout.Piece{
		piece(layout.Toe, layout.BootToe, -88, 52, 255, 370, [2]mm{-18, 0}, [2]mm{40, 17}, [2]mm{-74, -17}, [2]mm{40, -17}, [2]mm{-74, 17}),
		heel,
	}}
}

func junior() *layout.Pattern {
	return &layout.Pattern{Name: "junior", Invented: true, Pieces: []layout.Piece{
		piece(layout.Toe, layout.BootToe, -55, 38, 200, 300, [2]mm{26, 14}, [2]mm{-40, -14}, [2]mm{26, -14}, [2]mm{-40, 14}),
		piece(layout.Heel, layout.BootHeel, -60, 45, 200, 300, [2]mm{30, 14}, [2]mm{-42, -14}, [2]mm{30, -14}, [2]mm{-42, 14}),
	}}
}

func mount(p *layout.Pattern, sole, shift, waist mm) *layout.Spec {
	s := &layout.Spec{Pattern: p, Mount: layout.Mount{Sole: sole, Shift: shift}, Rules: layout.DefaultRules()}
	s.Left.Width, s.Right.Width = layout.Waist(waist), layout.Waist(waist)
	return s
}

// remount is a mount whose left ski had the same pattern 7 mm further back,
// plugged, and whose right ski uses its holes again but for one that is too
// wide, beside an open hole that is in nobody's way.
func remount(t *testing.T) *layout.Spec {
	s := mount(hybrid(), 318, 0, 98)
	var err error
	s.Left.Old, err = layout.OldHoles(s.Pattern, layout.Mount{Sole: 318, Shift: -7}, layout.Bit{}, layout.Left, true)
	require.NoError(t, err)
	s.Left.Old = append(s.Left.Old, layout.OldHole{X: 30, Y: 12, Diameter: 4.1, Plugged: true})
	s.Right.Old, err = layout.OldHoles(s.Pattern, s.Mount, layout.Bit{}, layout.Right, false)
	require.NoError(t, err)
	s.Right.Old[1].Diameter = 6
	s.Right.Old = append(s.Right.Old, layout.OldHole{X: 30, Y: 12, Diameter: 4.1})
	return s
}

func mapped(t *testing.T, s *layout.Spec, width, height int) draw.Map {
	plan, err := s.Plan()
	require.NoError(t, err)
	m := draw.MapOf(s, plan)
	m.Width, m.Height = width, height
	return m
}

func TestMapsOfHoles(t *testing.T) {
	for name, s := range map[string]*layout.Spec{
		"clean":      mount(hybrid(), 318, 0, 98),
		"remount":    remount(t),
		"wide_ski":   mount(hybrid(), 328, -12.5, 122),
		"short_boot": mount(junior(), 214, 5, 66),
	} {
		for _, size := range [][2]int{{80, 14}, {80, 24}, {120, 32}} {
			lines := mapped(t, s, size[0], size[1]).Lines()
			require.NotEmpty(t, lines)
			require.LessOrEqual(t, len(lines), size[1])
			path := filepath.Join("../../testdata/golden/map", fmt.Sprintf("%s-%dx%d.txt", name, size[0], size[1]))
			got := strings.Join(lines, "\n") + "\n"
			if *update {
				require.NoError(t, os.MkdirAll(filepath.Dir(path), 0o750))
				require.NoError(t, os.WriteFile(path, []byte(got), 0o600))
			}
			want, err := os.ReadFile(path)
			require.NoError(t, err)
			assert.Equal(t, string(want), got, path)
		}
	}
}

func TestAMapIsToScale(t *testing.T) {
	// One character is 2 mm wide and 4 mm high: 94 columns for 188 mm, and room
	// of 15 columns around them. The edges lie 50 mm beside the centre line, 12
	// or 13 rows; two holes 100 mm apart stand 50 columns apart.
	m := draw.Map{
		Skis: []draw.MapSki{{
			Name: "left", Heel: -80, Toe: 80, Breadth: func(float64) float64 { return 96 },
			Holes: []draw.MapHole{{X: -49, Y: 20, Mark: draw.MapNew, N: 1}, {X: 51, Y: -20, Mark: draw.MapAgain, N: 2}},
		}},
		From: -94, To: 94, Width: 94 + 15, Height: 40,
	}
	lines := m.Lines()
	require.Len(t, lines, 1+25+1)
	centre := 1 + 12
	first, second := strings.IndexRune(lines[centre+5], 'o'), strings.IndexRune(lines[centre-5], '@')
	require.Positive(t, first)
	assert.Equal(t, 50, second-first)
	assert.Equal(t, "o1", lines[centre+5][first:first+2], "its number stands beside it")
	assert.Contains(t, lines[0], "10 mm |----|", "five columns are 10 mm")
}

func TestTheSkiersRightIsBelow(t *testing.T) {
	m := mapped(t, remount(t), 100, 12)
	m.Skis = m.Skis[:1]
	m.Skis[0].Holes = []draw.MapHole{{X: 0, Y: 30, Mark: draw.MapNew}}
	lines := m.Lines()
	for i, line := range lines[1 : len(lines)-1] {
		if strings.Contains(line, "o") {
			assert.Greater(t, i, (len(lines)-2)/2)
		}
	}
}

func TestOneSkiIsDrawnWhereTwoDoNotFit(t *testing.T) {
	m := mapped(t, remount(t), 80, 13)
	assert.Contains(t, m.Lines()[0], "left ")
	m.Here = 1
	assert.Contains(t, m.Lines()[0], "right ")
	m.Height = 40
	both := strings.Join(m.Lines(), "\n")
	assert.Contains(t, both, "left ")
	assert.Contains(t, both, "right ")
}

func TestMarksAreToldApartWithoutColour(t *testing.T) {
	seen := map[draw.MapMark]bool{}
	marks := []draw.MapMark{draw.MapNew, draw.MapAgain, draw.MapOld, draw.MapPlugged, draw.MapClash, draw.MapInWay}
	for _, mark := range marks {
		assert.False(t, seen[mark])
		seen[mark] = true
		assert.Contains(t, draw.Legend, string(rune(mark))+" ")
	}
	assert.LessOrEqual(t, len(draw.Legend)+2, 80)
}

func TestInkColoursWithoutMovingAnything(t *testing.T) {
	plain := mapped(t, remount(t), 120, 32)
	inked := plain
	wrap := func(tag string) func(string) string {
		return func(s string) string { return "<" + tag + ">" + s + "</" + tag + ">" }
	}
	inked.Ink = draw.MapInk{New: wrap("n"), Again: wrap("a"), Old: wrap("o"), Clash: wrap("c"), Mark: wrap("m"), Frame: wrap("f")}
	got := strings.Join(inked.Lines(), "\n")
	assert.Contains(t, got, "<c>#</c>")
	assert.Contains(t, got, "<a>@</a>")
	for _, tag := range []string{"n", "a", "o", "c", "m", "f"} {
		got = strings.NewReplacer("<"+tag+">", "", "</"+tag+">", "").Replace(got)
	}
	assert.Equal(t, strings.Join(plain.Lines(), "\n"), got)
}

func TestAMapKeepsToItsRoom(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		coord := rapid.Float64Range(-400, 400)
		m := draw.Map{
			Width: rapid.IntRange(0, 200).Draw(t, "width"), Height: rapid.IntRange(0, 60).Draw(t, "height"),
			From: coord.Draw(t, "from"), To: coord.Draw(t, "to"), Here: rapid.IntRange(-3, 3).Draw(t, "here"),
		}
		for range rapid.IntRange(0, 2).Draw(t, "skis") {
			ski := draw.MapSki{Name: "left", Says: "says", Heel: coord.Draw(t, "heel"), Toe: coord.Draw(t, "toe"), Shift: coord.Draw(t, "shift")}
			if rapid.Bool().Draw(t, "known") {
				wide := rapid.Float64Range(40, 200).Draw(t, "wide")
				ski.Breadth = func(float64) float64 { return wide }
			}
			for n := range rapid.IntRange(0, 12).Draw(t, "holes") {
				ski.Holes = append(ski.Holes, draw.MapHole{X: coord.Draw(t, "x"), Y: coord.Draw(t, "y"), Mark: draw.MapNew, N: n})
			}
			m.Skis = append(m.Skis, ski)
		}
		lines := m.Lines()
		assert.LessOrEqual(t, len(lines), max(m.Height, 0))
		for _, line := range lines {
			assert.LessOrEqual(t, utf8.RuneCountInString(line), m.Width)
		}
	})
}
