package draw_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"drillstop/tui/draw"
	"drillstop/workflow"
)

func TestWindows(t *testing.T) {
	for name, p := range map[string]workflow.WindowPicture{
		"window_turned": {Title: "forward pressure", Found: [2]string{"too little", "in window"}, Left: [2]string{"in window", "in window"}},
		"window_out": {
			Title: "forward pressure", Found: [2]string{"too much", "too much"}, Left: [2]string{"too much", ""},
			Advice: [2]string{"", "turn 0.75 turns out, away from the toe"},
		},
		"window_unread": {Title: "forward pressure"},
	} {
		golden(t, name, func(width int) []string { return draw.Window(p, width, draw.Ink{}) })
	}
}

// The mark of the indicator stands in its part, at every width.
func TestAnIndicatorStandsInItsPart(t *testing.T) {
	for width := 38; width <= 150; width++ {
		for _, reading := range []string{"too little", "in window", "too much"} {
			p := workflow.WindowPicture{Title: "forward pressure", Left: [2]string{reading, ""}}
			line := draw.Window(p, width, draw.Ink{})[2]
			mark, from, to := strings.IndexRune(line, '^'), strings.IndexRune(line, '['), strings.IndexRune(line, ']')
			want := map[string]bool{"too little": mark > 7 && mark < from, "in window": mark > from && mark < to, "too much": mark > to}[reading]
			require.True(t, want, "%s at %d: %s", reading, width, line)
			require.Equal(t, reading != "in window", strings.Contains(line, "#"), line)
		}
	}
}

func TestNoWindowIsWiderThanItsRoom(t *testing.T) {
	reading := rapid.OneOf(rapid.SampledFrom([]string{"", "too little", "in window", "too much"}), rapid.String())
	rapid.Check(t, func(t *rapid.T) {
		p := workflow.WindowPicture{
			Title: rapid.String().Draw(t, "title"),
			Found: [2]string{reading.Draw(t, "found left"), reading.Draw(t, "found right")},
			Left:  [2]string{reading.Draw(t, "left left"), reading.Draw(t, "left right")}, Advice: [2]string{reading.Draw(t, "advice"), ""},
		}
		width := rapid.IntRange(-3, 150).Draw(t, "width")
		lines := draw.Window(p, width, draw.Ink{})
		require.Equal(t, width < 1, len(lines) == 0)
		exact(t, lines, width)
	})
}

// A reading of another kind of indicator is told as it is.
func TestAStrangeReadingIsTold(t *testing.T) {
	p := workflow.WindowPicture{Title: "gap", Left: [2]string{"as the maker says", ""}}
	assert.Contains(t, draw.Window(p, 80, draw.Ink{})[2], "as the maker says")
}
