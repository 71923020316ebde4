package draw_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"drillstop/calc/moment"
	"drillstop/calc/quantity"
	"drillstop/tui/draw"
	"drillstop/workflow"
)

// Reference moments of twist, rows J to N, from memory.
var twistRows = []float64{37, 43, 50, 58, 67}

func TestBands(t *testing.T) {
	for name, p := range map[string]workflow.BandsPicture{
		"bands_stop": {
			Title: "twist to the left", Rows: twistRows, At: 2,
			Readings: [2][]float64{{49, 51, 52}, {34, 39, 36}}, Middle: [2]float64{51, 36},
			Mark: [2]workflow.Mark{workflow.MarkKept, workflow.MarkStop},
		},
		"bands_half": {
			Title: "forward lean", Rows: []float64{141, 165, 194, 229, 271}, At: 2,
			Readings: [2][]float64{{244.5, 239, 251}, {200}}, Middle: [2]float64{244.5, 0},
			Mark: [2]workflow.Mark{workflow.MarkCaution, workflow.MarkAhead},
		},
		"bands_unread": {Title: "twist to the right", Rows: twistRows, At: 2},
		// The lightest row of the chart: nothing lies below it.
		"bands_edge": {
			Title: "twist to the right", Rows: []float64{5, 8, 11}, At: 0,
			Readings: [2][]float64{{4, 4.5, 5}, {0.5, 1, 30}}, Middle: [2]float64{4.5, 1},
			Mark: [2]workflow.Mark{workflow.MarkKept, workflow.MarkStop},
		},
	} {
		golden(t, name, func(width int) []string { return draw.Bands(p, width, draw.Ink{}) })
	}
}

// A mark stands in the band that calc/moment counts it into, at every width.
func TestAMiddleValueStandsInItsBand(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		at := rapid.IntRange(0, len(twistRows)-1).Draw(t, "at")
		middle := rapid.OneOf(rapid.Float64Range(1, 200), rapid.SampledFrom(twistRows)).Draw(t, "middle")
		width := rapid.IntRange(38, 150).Draw(t, "width")
		scale := moment.Scale{At: at}
		for _, row := range twistRows {
			scale.Moments = append(scale.Moments, quantity.NewtonMetre(row))
		}
		m := quantity.NewtonMetre(middle)
		v, err := moment.Judge(moment.Twist, scale, []quantity.NewtonMetre{m, m, m})
		require.NoError(t, err)

		p := workflow.BandsPicture{Title: "twist", Rows: twistRows, At: at, Middle: [2]float64{middle, 0}}
		lines := draw.Bands(p, width, draw.Ink{})
		bands, mark := lines[2], strings.IndexAny(lines[3], "^<>")
		require.GreaterOrEqual(t, mark, 7)
		first, last := strings.IndexRune(bands, '|'), strings.LastIndex(bands, "|")
		keep := strings.IndexRune(bands, '=') - 1
		until := strings.LastIndex(bands, "=") + 1
		switch v.Range {
		case moment.InspectionRange:
			require.True(t, mark >= keep && mark <= until, lines)
		case moment.InUseRange:
			require.True(t, mark >= first && mark < keep || mark > until && mark <= last, lines)
		case moment.Outside:
			require.True(t, mark < first || mark > last, lines)
		}
	})
}

func TestNoBandsAreWiderThanTheirRoom(t *testing.T) {
	marks := []workflow.Mark{
		0, workflow.MarkAhead, workflow.MarkHere, workflow.MarkKept, workflow.MarkStale, workflow.MarkCaution, workflow.MarkStop, 'é', -1,
	}
	rapid.Check(t, func(t *rapid.T) {
		usual := rapid.Float64Range(5, 400)
		readings := rapid.SliceOfN(odd(usual), 0, 5)
		p := workflow.BandsPicture{
			Title: rapid.String().Draw(t, "title"), Rows: rapid.SliceOfN(odd(usual), 0, 6).Draw(t, "rows"),
			At:       rapid.IntRange(-2, 7).Draw(t, "at"),
			Readings: [2][]float64{readings.Draw(t, "left"), readings.Draw(t, "right")}, Middle: pair(usual, t, "middle"),
			Mark: [2]workflow.Mark{rapid.SampledFrom(marks).Draw(t, "left mark"), rapid.SampledFrom(marks).Draw(t, "right mark")},
		}
		if rapid.Bool().Draw(t, "of the chart") {
			p.Rows = twistRows
		}
		width := rapid.IntRange(-3, 150).Draw(t, "width")
		lines := draw.Bands(p, width, draw.Ink{})
		require.Equal(t, width < 1, len(lines) == 0)
		exact(t, lines, width)
	})
}

// Rows that are no scale are told and not drawn.
func TestBandsWithoutRowsAreTold(t *testing.T) {
	for _, rows := range [][]float64{nil, {50}, {50, 50}, {50, 43}, {0, 43}} {
		p := workflow.BandsPicture{Title: "twist", Rows: rows, Middle: [2]float64{51, 0}, Mark: [2]workflow.Mark{workflow.MarkKept, workflow.MarkAhead}}
		text := strings.Join(draw.Bands(p, 80, draw.Ink{}), "\n")
		assert.Contains(t, text, "51 = kept")
		assert.NotContains(t, text, "|")
	}
}
