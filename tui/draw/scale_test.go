package draw_test

import (
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"drillstop/tui/draw"
	"drillstop/workflow"
)

// golden compares a picture with the one on file at every width.
func golden(t *testing.T, name string, picture func(width int) []string) {
	t.Helper()
	for _, width := range []int{40, 80, 120} {
		lines := picture(width)
		exact(t, lines, width)
		path := filepath.Join("../../testdata/golden/picture", name+"-"+strconv.Itoa(width)+".txt")
		got := ""
		for _, line := range lines {
			got += strings.TrimRight(line, " ") + "\n"
		}
		if *update {
			require.NoError(t, os.MkdirAll(filepath.Dir(path), 0o750))
			require.NoError(t, os.WriteFile(path, []byte(got), 0o600))
		}
		want, err := os.ReadFile(path)
		require.NoError(t, err)
		assert.Equal(t, string(want), got, path)
	}
}

// exact holds that every line is exactly width ASCII characters wide.
func exact(t require.TestingT, lines []string, width int) {
	for _, line := range lines {
		require.Equal(t, width, utf8.RuneCountInString(line), line)
		for _, r := range line {
			require.True(t, r >= ' ' && r <= '~', "%q", line)
		}
	}
}

// odd draws numbers, and now and then one that is none, or far out.
func odd(usual *rapid.Generator[float64]) *rapid.Generator[float64] {
	return rapid.OneOf(usual, usual, rapid.Float64(), rapid.SampledFrom([]float64{
		0, math.NaN(), math.Inf(1), math.Inf(-1), -1, 5e-324, math.MaxFloat64, -math.MaxFloat64,
	}))
}

func pair(usual *rapid.Generator[float64], t *rapid.T, name string) [2]float64 {
	return [2]float64{odd(usual).Draw(t, name+", left"), odd(usual).Draw(t, name+", right")}
}

func TestScales(t *testing.T) {
	for name, p := range map[string]workflow.ScalePicture{
		"scale_set":       {Title: "toe", Low: 4, High: 12, Step: 0.5, Computed: 8, Set: [2]float64{8, 8}},
		"scale_differs":   {Title: "heel", Low: 4, High: 12, Step: 0.5, Computed: 6, Set: [2]float64{6, 5.5}},
		"scale_corrected": {Title: "toe", Low: 4, High: 12, Step: 0.5, Computed: 8, Set: [2]float64{8, 8}, Corrected: [2]float64{9, 7.5}},
		"scale_unread":    {Title: "toe", Low: 0.75, High: 4.5, Step: 0.25, Computed: 1.75},
		"scale_off":       {Title: "heel scale", Low: 5, High: 13, Step: 0.5, Computed: 3.5, Set: [2]float64{4.5, 14}},
	} {
		golden(t, name, func(width int) []string { return draw.Scale(p, width, draw.Ink{}) })
	}
}

// At a width of 80 there is room for 41 columns, from the eighth on: on a scale
// from 4 to 12 in half steps a step takes two of them.
func TestAScaleIsToScale(t *testing.T) {
	p := workflow.ScalePicture{Title: "toe", Low: 4, High: 12, Step: 0.5, Computed: 8, Set: [2]float64{6, 11}}
	lines := draw.Scale(p, 80, draw.Ink{})
	require.Len(t, lines, 4)
	assert.Equal(t, 7+16, strings.IndexRune(lines[1], 'V'))
	assert.Equal(t, 7+8, strings.IndexRune(lines[2], '^'))
	assert.Equal(t, 7+28, strings.IndexRune(lines[3], '^'))
	// The middle third runs from 6.67 to 9.33: columns 11 and 21.
	assert.Equal(t, 7+11, strings.IndexRune(lines[1], '['))
	assert.Equal(t, 7+21, strings.IndexRune(lines[1], ']'))
}

// The mark for a computed value is the nearest one at or below it, whatever the
// step; without a step it is the value itself. Our rule.
func TestWhatIsNotAtItsValueIsMarked(t *testing.T) {
	for _, c := range []struct {
		computed, step, set float64
		marked              bool
	}{
		{8, 0.5, 8, false},
		{8, 0.5, 8.5, true},
		{8, 0.5, 7.5, true},
		{8.3, 0.5, 8, false},
		{8.3, 0.5, 8.5, true},
		{8.3, 0.5, 7.5, true},
		{8.3, 0, 8.3, false},
		{8.3, 0, 8.2, true},
		{2.25, 0.1, 2.2, false},
	} {
		p := workflow.ScalePicture{Title: "toe", Low: 1, High: 12, Step: c.step, Computed: c.computed, Set: [2]float64{c.set, c.set}}
		for _, line := range draw.Scale(p, 80, draw.Ink{})[2:] {
			assert.Equal(t, c.marked, strings.Contains(line, "#"), "%+v", c)
			assert.Equal(t, !c.marked, strings.Contains(line, "="), "%+v", c)
		}
	}
}

// A setting that a correction moves, or had moved, is not held against the
// computed value.
func TestACorrectedSettingIsNoStop(t *testing.T) {
	for corrected, says := range map[float64]string{9: "9.5 -> 9", 9.5: "9.5 corrected", 10: "9.5 -> 10", 0: "9.5 # not at its value"} {
		p := workflow.ScalePicture{Title: "toe", Low: 4, High: 12, Step: 0.5, Computed: 8, Set: [2]float64{9.5, 8}, Corrected: [2]float64{corrected, 0}}
		lines := draw.Scale(p, 80, draw.Ink{})
		assert.Contains(t, lines[2], says)
		assert.Equal(t, corrected == 0, strings.Contains(lines[2], "#"), lines[2])
	}
}

func TestNoScaleIsWiderThanItsRoom(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		usual := rapid.Float64Range(0.5, 20)
		p := workflow.ScalePicture{
			Title: rapid.String().Draw(t, "title"),
			Low:   odd(usual).Draw(t, "low"), High: odd(usual).Draw(t, "high"), Step: odd(rapid.Float64Range(0.1, 1)).Draw(t, "step"),
			Computed: odd(usual).Draw(t, "computed"), Set: pair(usual, t, "set"), Corrected: pair(usual, t, "corrected"),
		}
		width := rapid.IntRange(-3, 150).Draw(t, "width")
		lines := draw.Scale(p, width, draw.Ink{})
		require.Equal(t, width < 1, len(lines) == 0)
		exact(t, lines, width)
	})
}

// The ink colours a picture and changes nothing of it.
func TestInkChangesNoCharacter(t *testing.T) {
	braces := func(text string) string { return "{" + text + "}" }
	ink := draw.Ink{Done: braces, Here: braces, Ahead: braces, Stop: braces}
	p := workflow.ScalePicture{Title: "toe", Low: 4, High: 12, Step: 0.5, Computed: 8, Set: [2]float64{6, 8}}
	inked := strings.Join(draw.Scale(p, 80, ink), "\n")
	assert.Equal(t, strings.Join(draw.Scale(p, 80, draw.Ink{}), "\n"), strings.NewReplacer("{", "", "}", "").Replace(inked))
	assert.Contains(t, inked, "{^}")
}
