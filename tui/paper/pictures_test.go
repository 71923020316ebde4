package paper_test

import (
	"io"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"drillstop/tui/paper"
	"drillstop/workflow"
)

// pictured are one picture of each kind, beside the steps of the test bench.
func pictured() []paper.StepPicture {
	return []paper.StepPicture{
		{Step: "boots", Picture: workflow.Picture{Scale: &workflow.ScalePicture{
			Title: "toe", Low: 4, High: 12, Step: 0.5, Computed: 6, Set: [2]float64{6, 5.5}, Corrected: [2]float64{0, 6.5},
		}}},
		{Step: "boots", Picture: workflow.Picture{Bands: &workflow.BandsPicture{
			Title: "twist to the left", Rows: []float64{37, 43, 50, 58, 67}, At: 2,
			Readings: [2][]float64{{49, 51, 52}, {38, 39, 37.5}}, Middle: [2]float64{51, 38},
			Mark: [2]workflow.Mark{workflow.MarkKept, workflow.MarkStop},
		}}},
		{Step: "boots", Picture: workflow.Picture{Window: &workflow.WindowPicture{
			Title: "forward pressure", Found: [2]string{workflow.WindowMuch, workflow.WindowIn}, Left: [2]string{workflow.WindowIn, workflow.WindowIn},
			Advice: [2]string{"0.5 turns out", ""},
		}}},
	}
}

func drilled() *paper.Layout {
	midsole := -4.5
	hole := func(n int, x, y float64) paper.LayoutHole {
		return paper.LayoutHole{N: n, X: x, Y: y, Diameter: 4.1, Depth: 9}
	}
	return &paper.Layout{Pattern: "forty (invented)", Skis: []paper.LayoutSki{
		{Side: workflow.Left, Waist: 98, Midsole: &midsole, Holes: []paper.LayoutHole{hole(1, 134.5, 20), hole(2, 134.5, -20)}, Old: []paper.LayoutHole{hole(1, 110, 20)}},
		{Side: workflow.Right, Waist: 98, Midsole: &midsole, Holes: []paper.LayoutHole{hole(1, 134.5, 20), hole(2, -165.5, -20)}},
	}}
}

func TestPicturesSayTheirNumbers(t *testing.T) {
	t.Parallel()
	b := atTheCounter(t, "Ida Fjelde")
	ticket := b.paper()
	ticket.Pictures, ticket.Layout = pictured(), drilled()
	for _, sheet := range []paper.Sheet{paper.A4, paper.A5} {
		all := ""
		for _, page := range read(t, filed(t, func(w io.Writer) error { return ticket.PDF(w, sheet) })) {
			all += page
		}
		for _, want := range []string{
			"computed 6", "left set 6", "right set 5.5", "right corrected 6.5",
			"twist to the left, Nm", "left = 51\n", "right # 38\n", "37 43 50 58 67\n",
			"found too much, now in window", "left: 0.5 turns out",
		} {
			assert.Contains(t, all, want, string(sheet))
		}
	}
}

func TestPicturesOfAnyNumbersAreDrawnOrLeftOut(t *testing.T) {
	t.Parallel()
	b := atTheCounter(t, "Ida Fjelde")
	number := rapid.OneOf(rapid.Float64(), rapid.Float64Range(-20, 400), rapid.SampledFrom([]float64{0, math.NaN(), math.Inf(1), math.Inf(-1)}))
	rapid.Check(t, func(r *rapid.T) {
		some := func() float64 { return number.Draw(r, "number") }
		ticket := b.paper()
		ticket.Pictures = []paper.StepPicture{
			{Step: "boots", Picture: workflow.Picture{Scale: &workflow.ScalePicture{
				Low: some(), High: some(), Step: some(), Computed: some(), Set: [2]float64{some(), some()}, Corrected: [2]float64{some(), some()},
			}}},
			{Step: "boots", Picture: workflow.Picture{Bands: &workflow.BandsPicture{
				Rows: rapid.SliceOfN(number, 0, 5).Draw(r, "rows"), At: rapid.IntRange(-1, 5).Draw(r, "at"),
				Readings: [2][]float64{rapid.SliceOfN(number, 0, 4).Draw(r, "readings"), nil}, Middle: [2]float64{some(), some()},
			}}},
			{Step: "boots", Picture: workflow.Picture{Window: &workflow.WindowPicture{Left: [2]string{"askew", ""}}}},
			{Step: "boots"},
		}
		require.NoError(r, ticket.PDF(io.Discard, paper.A5))
	})
}
