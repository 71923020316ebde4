package layout_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"drillstop/calc"
	"drillstop/calc/layout"
)

// sameIntervals compares to a millionth of a millimetre.
func sameIntervals(t *testing.T, want, got []layout.Interval, name string) {
	t.Helper()
	require.Len(t, got, len(want), "%s: %v", name, got)
	for i := range want {
		assert.InDelta(t, float64(want[i].From), float64(got[i].From), 1e-6, name)
		assert.InDelta(t, float64(want[i].To), float64(got[i].To), 1e-6, name)
	}
}

func TestClearShiftsReckonedByHand(t *testing.T) {
	t.Parallel()
	// Hole 1 lies at 170 with the boot on the mark.
	for name, c := range map[string]struct {
		old  []layout.OldHole
		want []layout.Interval
	}{
		"nothing in the way": {nil, []layout.Interval{{-20, 20}}},
		// v = 6: half a chord of sqrt(100-36) = 8 around s = 175-170 = 5.
		"6-8-10": {[]layout.OldHole{old(175, 6, 4)}, []layout.Interval{{-20, -3}, {13, 20}}},
		// In line: 10 either way around s = 4, and from 3.5 to 4.5 the same hole.
		"used again in between": {[]layout.OldHole{old(174, 0, 4.1)}, []layout.Interval{{-20, -6}, {3.5, 4.5}, {14, 20}}},
		"too wide to be used":   {[]layout.OldHole{old(174, 0, 6)}, []layout.Interval{{-20, -6}, {14, 20}}},
		// v = 0.3: the same hole within sqrt(0.25-0.09) = 0.4, else sqrt(100-0.09).
		"beside, used again": {[]layout.OldHole{old(174, 0.3, 4.1)}, []layout.Interval{
			{-20, mm(4 - math.Sqrt(99.91))}, {3.6, 4.4}, {mm(4 + math.Sqrt(99.91)), 20}}},
		// Exactly 10 beside: a tangent stands against nothing.
		"tangent": {[]layout.OldHole{old(174, -10, 4)}, []layout.Interval{{-20, 20}}},
		// Blocked from -14 to 6 and from 6 to 26: 6 alone clears, 10 mm from both.
		"one point":         {[]layout.OldHole{old(166, 0, 6), old(186, 0, 6)}, []layout.Interval{{-20, -14}, {6, 6}}},
		"beyond the window": {[]layout.OldHole{old(201, 0, 6)}, []layout.Interval{{-20, 20}}},
	} {
		s := spec()
		s.Mount.Shift = 11 // a wish says nothing about what clears
		s.Left.Old = c.old
		sameIntervals(t, c.want, shifts(t, s).Clear, name)
	}
}

func TestShiftsWithAProfile(t *testing.T) {
	t.Parallel()
	s := spec()
	// The toe's outer holes lie at 130, 20 mm beside the centre line, and need a
	// width of 56. The profile is 60 at 100 and 50 at 200: 56 at 140, so 10 mm
	// forward at most. Behind 100 it narrows to 54 at 70: 56 at 80, which would
	// be 50 mm back.
	// The front hole, 170, leaves what was measured, 200, at 30 mm forward; the
	// heel's rear holes, at -200, leave it at -205 only.
	s.Left.Width = layout.Profile([]layout.WidthAt{{X: -205, Width: 90}, {X: 0, Width: 70}, {X: 100, Width: 60}, {X: 200, Width: 50}})
	got, err := s.Shifts(layout.Interval{From: -20, To: 40})
	require.NoError(t, err)
	sameIntervals(t, []layout.Interval{{-5, 10}}, got.Clear, "profile")
}

func TestAPieceOnTheMarkStaysBehind(t *testing.T) {
	t.Parallel()
	s := spec()
	s.Pattern.Pieces = append(s.Pattern.Pieces, layout.Piece{
		Kind: layout.Plate, Anchor: layout.MountMark, From: 90, To: 130, SoleMin: 250, SoleMax: 380,
		Holes: []layout.PatternHole{hole(1, 118, 14)},
	})
	// Hole 2 of the toe, at 130 and 20 right, passes the plate's hole at 118
	// and 14 right: 6 beside, so 8 either way around s = -12: -20 to -4.
	sameIntervals(t, []layout.Interval{{-20, -20}, {-4, 20}}, shifts(t, s).Clear, "plate")
}

func TestATrackOnTheMarkLimitsTheShift(t *testing.T) {
	t.Parallel()
	s := spec()
	for i := range s.Pattern.Pieces {
		p := &s.Pattern.Pieces[i]
		p.Anchor, p.TrackSole, p.TrackFore, p.TrackAft = layout.MountMark, 320, 12, 8
		p.From, p.To = -250, 250
		for j := range p.Holes {
			p.Holes[j].X += map[layout.PieceKind]mm{layout.Toe: 160, layout.Heel: -160}[p.Kind]
		}
	}
	s.Pattern.Pieces[0].From, s.Pattern.Pieces[1].To = 100, -100
	// Both slide 12 forward and 8 back with the boot. For a sole of 324 the toe
	// stands 2 mm forward already and the heel 2 mm back: -6 to 10.
	sameIntervals(t, []layout.Interval{{-8, 12}}, shifts(t, s).Clear, "at zero")
	s.Mount.Sole = 324
	sameIntervals(t, []layout.Interval{{-6, 10}}, shifts(t, s).Clear, "longer sole")
	plan := planned(t, s)
	assert.Equal(t, layout.Travel{Fore: 10, Back: 10}, plan.Toe)
	assert.Equal(t, layout.Travel{Fore: 14, Back: 6}, plan.Heel)
	assert.Equal(t, layout.Interval{From: 300, To: 340}, plan.Boots, "320 less 8 and 12, and as much more")
}

func TestTheWishWinsWhenItClears(t *testing.T) {
	t.Parallel()
	s := spec()
	s.Left.Old = []layout.OldHole{old(177, 0, 6)} // blocked between -3 and 17
	found := shifts(t, s)
	for wish, want := range map[mm]mm{0: -3, 6: -3, 8: 17, -7.25: -7.25, -3: -3, 19: 19, 20: 20} {
		got, ok := found.Nearest(wish)
		assert.True(t, ok)
		assert.Equal(t, want, got, "wish %s", wish)
	}
	assert.Equal(t, []mm{-3, 17}, found.Offers(7), "of two equally near ones the one nearer to the mark")
	forward, _ := found.Forward(0)
	back, _ := found.Back(0)
	assert.Equal(t, []mm{17, -3}, []mm{forward, back})
	_, ok := found.Forward(18)
	assert.False(t, ok)
	back, ok = found.Back(18)
	assert.True(t, ok)
	assert.Equal(t, mm(-3), back)
}

func TestOffersAreRoundedToTheClearSide(t *testing.T) {
	t.Parallel()
	s := spec()
	// v = 5: half a chord of sqrt(75) = 8.6603 around 0.
	s.Left.Old = []layout.OldHole{old(170, 5, 4)}
	found := shifts(t, s)
	assert.Equal(t, []mm{-8.7, 8.7}, found.Offers(0))
	for _, offer := range found.Offers(0) {
		s.Mount.Shift = offer
		assert.True(t, planned(t, s).Clear())
	}
}

func TestOnePairThatBlocksEverything(t *testing.T) {
	t.Parallel()
	s := spec()
	s.Rules.Apart = 30
	s.Rules.Edge = 5
	s.Right.Old = []layout.OldHole{old(300, 0, 4), old(170, 0, 6)}
	found := shifts(t, s)
	assert.Empty(t, found.Clear)
	require.Len(t, found.Blockers, 1)
	assert.Equal(t, "From 20.0 mm back to 20.0 mm forward: hole 1 right lies too near to old hole 2, which is too wide to be used again.",
		found.Blockers[0].Finding(found.Window).Text)
	_, ok := found.Nearest(0)
	assert.False(t, ok)
}

func TestSeveralPairsThatBlockEverything(t *testing.T) {
	t.Parallel()
	s := spec()
	// Hole 1 is blocked around -15, 0 and 15, 10 mm either way.
	s.Left.Old = []layout.OldHole{old(170, 0, 6), old(155, 0, 6), old(185, 0, 6), old(171, 0, 6)}
	found := shifts(t, s)
	require.Len(t, found.Blockers, 3)
	assert.Equal(t, []string{
		"From 20.0 mm back to 5.0 mm back: hole 1 left lies too near to old hole 2, which is too wide to be used again.",
		"From 9.0 mm back to 11.0 mm forward: hole 1 left lies too near to old hole 4, which is too wide to be used again.",
		"From 5.0 mm forward to 20.0 mm forward: hole 1 left lies too near to old hole 3, which is too wide to be used again.",
	}, texts(findingsOf(found)))
}

func TestASoleThatDoesNotFitBlocksEveryShift(t *testing.T) {
	t.Parallel()
	s := spec()
	s.Mount.Sole = 390
	found := shifts(t, s)
	assert.Empty(t, found.Clear)
	require.Len(t, found.Blockers, 1)
	assert.Equal(t, layout.OffTemplate, found.Blockers[0].Clash.Kind)
	assert.Equal(t, "From 20.0 mm back to 20.0 mm forward: the sole is beyond the template of the toe.", texts(findingsOf(found))[0])
}

func TestWindows(t *testing.T) {
	t.Parallel()
	s := spec()
	for _, w := range []layout.Interval{{5, -5}, {-201, 0}, {0, 201}, {mm(math.NaN()), 3}, {0, mm(math.Inf(1))}} {
		_, err := s.Shifts(w)
		assert.Equal(t, "layout.window", faultOf(t, err).Code)
	}
	found, err := s.Shifts(layout.Interval{From: 3, To: 3})
	require.NoError(t, err)
	assert.Equal(t, []layout.Interval{{3, 3}}, found.Clear)
}

func TestShiftText(t *testing.T) {
	t.Parallel()
	assert.Equal(t, "0 mm", layout.ShiftText(0))
	assert.Equal(t, "4.5 mm back", layout.ShiftText(-4.5))
	assert.Equal(t, "12.0 mm forward", layout.ShiftText(12))
	assert.Equal(t, "1.25 mm back", layout.ShiftText(-1.25))
}

func findingsOf(found layout.Shifts) []calc.Finding {
	var out []calc.Finding
	for _, b := range found.Blockers {
		out = append(out, b.Finding(found.Window))
	}
	return out
}

func TestAToeThatMovesAgainstAHeelOnTheMark(t *testing.T) {
	t.Parallel()
	s := spec()
	heel := &s.Pattern.Pieces[1]
	heel.Anchor, heel.TrackSole, heel.TrackFore, heel.TrackAft = layout.MountMark, 320, 30, 30
	heel.From, heel.To = -250, 95
	for j := range heel.Holes {
		heel.Holes[j].X -= 160
	}
	// The toe's body begins at 160 - 60 = 100, the heel's ends at 95: 5 mm back
	// at most.
	sameIntervals(t, []layout.Interval{{-5, 20}}, shifts(t, s).Clear, "overlap")
}

func TestAStretchWithoutATenthIsOfferedAsItIs(t *testing.T) {
	t.Parallel()
	s := spec()
	// 10 mm from both: 6.03 alone.
	s.Left.Old = []layout.OldHole{old(166.03, 0, 6), old(186.03, 0, 6)}
	found := shifts(t, s)
	for _, wish := range []mm{0, 12} {
		offers := found.Offers(wish)
		require.Len(t, offers, 2)
		at := map[bool]mm{true: offers[0], false: offers[1]}[offers[0] > 0]
		assert.InDelta(t, 6.03, float64(at), 1e-9)
		s.Mount.Shift = at
		assert.True(t, planned(t, s).Clear())
	}
}
