package draw_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"drillstop/tui/draw"
	"drillstop/workflow"
)

func TestAPictureIsWhatItHolds(t *testing.T) {
	scale := workflow.ScalePicture{Title: "toe", Low: 4, High: 12, Step: 0.5, Computed: 8}
	bands := workflow.BandsPicture{Title: "twist", Rows: twistRows, At: 2}
	window := workflow.WindowPicture{Title: "forward pressure"}
	for _, c := range []struct {
		picture workflow.Picture
		lines   []string
		title   string
		legends []string
	}{
		{workflow.Picture{}, nil, "", nil},
		{workflow.Picture{Scale: &scale}, draw.Scale(scale, 80, draw.Ink{}), "toe", []string{draw.ScaleLegend}},
		{workflow.Picture{Bands: &bands}, draw.Bands(bands, 80, draw.Ink{}), "twist", []string{draw.BandsLegend}},
		{workflow.Picture{Window: &window}, draw.Window(window, 80, draw.Ink{}), "forward pressure", []string{draw.WindowLegend}},
	} {
		assert.Equal(t, c.lines, draw.Picture(c.picture, 80, draw.Ink{}))
		assert.Equal(t, c.title, draw.PictureTitle(c.picture))
		assert.Equal(t, c.legends, draw.Legends([]workflow.Picture{c.picture, c.picture}))
	}
	for _, legend := range []string{draw.ScaleLegend, draw.BandsLegend, draw.WindowLegend} {
		exact(t, []string{legend}, len(legend))
		assert.LessOrEqual(t, len(legend), 77)
	}
}
