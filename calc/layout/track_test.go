package layout_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"drillstop/calc/layout"
)

func TestTravelAndBootsReckonedByHand(t *testing.T) {
	t.Parallel()
	plan := planned(t, spec())
	// Drilled for 320: the heel stands on the zero of a track of 10 either way,
	// so 310 to 330 mm fit. The toe does not slide.
	assert.Equal(t, layout.Travel{Fore: 10, Back: 10}, plan.Heel)
	assert.Equal(t, layout.Travel{}, plan.Toe)
	assert.Equal(t, layout.Interval{From: 310, To: 330}, plan.Boots)

	// Drilled for 375 it would reach 385; the templates end at 380.
	s := spec()
	s.Mount.Sole = 375
	assert.Equal(t, layout.Interval{From: 365, To: 380}, planned(t, s).Boots)
}

func TestABootBeyondTheTrack(t *testing.T) {
	t.Parallel()
	s := spec()
	for drilled, want := range map[mm]string{
		331: "The heel would stand 1.0 mm beyond the front end of its track with a sole of 320 mm.",
		307: "The heel would stand 3.0 mm beyond the rear end of its track with a sole of 320 mm.",
	} {
		s.Mount.HeelFor = drilled
		plan := planned(t, s)
		require.Equal(t, []layout.ClashKind{layout.OffTrack}, kinds(plan.Clashes))
		f := plan.Clashes[0].Finding()
		assert.True(t, f.Never, "a boot that the binding does not hold")
		assert.Equal(t, want, f.Text)
	}
}

func TestAHeelWithoutATrackTakesOneSole(t *testing.T) {
	t.Parallel()
	s := spec()
	s.Pattern.Pieces[1].TrackFore, s.Pattern.Pieces[1].TrackAft = 0, 0
	assert.Empty(t, planned(t, s).Clashes)
	assert.Equal(t, layout.Interval{From: 320, To: 320}, planned(t, s).Boots)
	s.Mount.HeelFor = 322
	plan := planned(t, s)
	require.Len(t, plan.Clashes, 1)
	assert.Equal(t, "The heel stands 2.0 mm off a sole of 320 mm, and it does not slide.", plan.Clashes[0].Finding().Text)
}

func TestOneMountForTwoBoots(t *testing.T) {
	t.Parallel()
	// 326 - 10 = 316 <= H <= 310 + 10 = 320, in the middle 318. With the first
	// boot on the mark the toe lies at 163, the second midsole at 163 - 155 = 8;
	// 4 mm further back both lie 4 mm off.
	got, err := layout.Serve(alpine(), 326, 310)
	require.NoError(t, err)
	assert.Equal(t, layout.Shared{HeelFor: layout.Interval{From: 316, To: 320}, Best: 318, SecondOff: 8, Share: -4}, got)

	// The other way round only the midsoles change.
	got, err = layout.Serve(alpine(), 310, 326)
	require.NoError(t, err)
	assert.Equal(t, layout.Shared{HeelFor: layout.Interval{From: 316, To: 320}, Best: 318, SecondOff: -8, Share: 4}, got)

	// Both boots must then be taken by what was said.
	s := spec()
	for _, sole := range []mm{310, 326} {
		s.Mount = layout.Mount{Sole: sole, HeelFor: 318}
		assert.Empty(t, planned(t, s).Clashes)
	}

	// 380 - 10 = 370 to 376 + 10 = 386, and no template beyond 380: the middle
	// of the track, 378, lies within.
	got, err = layout.Serve(alpine(), 380, 376)
	require.NoError(t, err)
	assert.Equal(t, layout.Interval{From: 370, To: 380}, got.HeelFor)
	assert.Equal(t, mm(378), got.Best)
}

func TestTwoBootsThatNoMountServes(t *testing.T) {
	t.Parallel()
	_, err := layout.Serve(alpine(), 300, 321)
	assert.Equal(t, "Soles of 300 mm and 321 mm are 21 mm apart: one mount of reckoning serves at most 20 mm.", faultOf(t, err).Sentence)
	_, err = layout.Serve(alpine(), 300, 255)
	assert.Equal(t, "reckoning takes soles of 260 mm to 380 mm, not both 300 mm and 255 mm.", faultOf(t, err).Sentence)
	_, err = layout.Serve(alpine(), 300, 31)
	assert.Equal(t, "layout.mount", faultOf(t, err).Code)
}

func TestTwoBootsOnTracksThatAreNotSetOutByTheSole(t *testing.T) {
	t.Parallel()
	p := alpine()
	for i := range p.Pieces {
		piece := &p.Pieces[i]
		piece.Anchor, piece.TrackSole, piece.TrackFore, piece.TrackAft = layout.BootMidsole, 320, 15, 15
	}
	// Each slides 15 mm either way: 320 - 30 to 320 + 30.
	got, err := layout.Serve(p, 300, 340)
	require.NoError(t, err)
	assert.Equal(t, mm(0), got.Best, "nothing is set out by the sole")
	_, err = layout.Serve(p, 300, 351)
	assert.Equal(t, "Soles of 300 mm and 351 mm are 51 mm apart: one mount of reckoning serves at most 60 mm.", faultOf(t, err).Sentence)
}
