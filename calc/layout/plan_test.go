package layout_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"drillstop/calc/layout"
)

type point struct {
	n    int
	x, y mm
}

func points(holes []layout.Hole) []point {
	var out []point
	for _, h := range holes {
		out = append(out, point{h.N, h.X, h.Y})
	}
	return out
}

func TestHolesOfAMountReckonedByHand(t *testing.T) {
	t.Parallel()
	s := spec()
	s.Mount.Shift = 4
	s.Bit = layout.Bit{Diameter: 3.6, Depth: 8.5}
	plan := planned(t, s)
	// Sole 320 mm, midsole 4 mm in front of the mark:
	//   boot toe  = 4 + 160 = 164     boot heel = 164 - 320 = -156
	//   toe:  164+10 = 174    164-30 = 134
	//   heel: -156+30 = -126  -156-40 = -196
	want := []point{{1, 174, 0}, {2, 134, 20}, {3, 134, -20}, {4, -126, 15}, {5, -126, -15}, {6, -196, 15}, {7, -196, -15}}
	assert.Equal(t, want, points(plan.On(layout.Left)))
	assert.Equal(t, want, points(plan.On(layout.Right)))
	assert.Equal(t, mm(3.6), plan.Holes[0].Diameter, "the marking on the ski wins")
	assert.Equal(t, mm(8.5), plan.Holes[0].Depth)
	assert.True(t, plan.Clear())
}

func TestHeelDrilledForAnotherSole(t *testing.T) {
	t.Parallel()
	s := spec()
	s.Mount.HeelFor = 314
	plan := planned(t, s)
	// The toe stays at 160. The heel is set out from it: 160 - 314 = -154, its
	// front holes at -154 + 30 = -124. The boot ends at -160, 6 mm behind the
	// zero of the track: 10 + 6 = 16 forward, 10 - 6 = 4 back are left.
	// The track takes 314 - 10 = 304 to 314 + 10 = 324 mm.
	assert.Equal(t, mm(-124), plan.On(layout.Left)[3].X)
	assert.Equal(t, layout.Travel{Fore: 16, Back: 4}, plan.Heel)
	assert.Equal(t, layout.Interval{From: 304, To: 324}, plan.Boots)
	assert.True(t, plan.Clear())
}

func TestAFixedHoleKeepsItsOwnBit(t *testing.T) {
	t.Parallel()
	s := spec()
	s.Pattern.Pieces[0].Holes[0].Class = layout.Fixed
	s.Pattern.Pieces[0].Holes[0].Diameter = 6
	s.Bit = layout.Bit{Diameter: 3.6, Depth: 8}
	left := planned(t, s).On(layout.Left)
	assert.Equal(t, mm(6), left[0].Diameter)
	assert.Equal(t, mm(9), left[0].Depth)
	assert.Equal(t, mm(3.6), left[1].Diameter)
}

func TestMirroredPatternsChangeTheSideOnTheLeftSkiAlone(t *testing.T) {
	t.Parallel()
	s := spec()
	s.Pattern.Mirrored = true
	plan := planned(t, s)
	assert.Equal(t, mm(20), plan.On(layout.Right)[1].Y)
	assert.Equal(t, mm(-20), plan.On(layout.Left)[1].Y)
	assert.Equal(t, plan.On(layout.Right)[1].X, plan.On(layout.Left)[1].X)
}

func TestLockingScrewsComeFirst(t *testing.T) {
	t.Parallel()
	s := spec()
	toe := s.Pattern.Pieces[0].Holes
	toe[0].Order, toe[1].Order, toe[2].Order = 2, 1, 3
	toe[1].Locking = true
	left := planned(t, s).On(layout.Left)
	assert.Equal(t, point{1, 130, 20}, points(left)[0])
	assert.True(t, left[0].Locking)
	assert.Equal(t, point{2, 170, 0}, points(left)[1])
}

func TestAnchors(t *testing.T) {
	t.Parallel()
	s := spec()
	s.Mount.Shift = 5
	s.Pattern.Pieces = append(s.Pattern.Pieces,
		layout.Piece{Kind: layout.Plate, Anchor: layout.MountMark, From: -20, To: 20, SoleMin: 250, SoleMax: 380, Holes: []layout.PatternHole{hole(1, 7, 30)}},
		layout.Piece{Kind: layout.Brake, Anchor: layout.BootMidsole, From: -60, To: 20, SoleMin: 250, SoleMax: 380, Holes: []layout.PatternHole{hole(1, -50, 0)}},
	)
	s.Right.Correction = -1.5
	plan := planned(t, s)
	// The plate stays on the mark, 0 + 7; the brake follows the midsole,
	// 5 - 50. On the right ski everything lies 1.5 mm further back.
	assert.Equal(t, []point{{8, 7, 30}, {9, -45, 0}}, points(plan.On(layout.Left))[7:])
	assert.Equal(t, []point{{8, 5.5, 30}, {9, -46.5, 0}}, points(plan.On(layout.Right))[7:])
}

func TestClashesWithOldHoles(t *testing.T) {
	t.Parallel()
	// With the boot on the mark hole 1 lies at (170, 0) and is 4.1 mm wide.
	for name, c := range map[string]struct {
		hole layout.OldHole
		want []layout.ClashKind
		fate layout.Fate
	}{
		"3-4-5: 5 mm":                  {old(173, 4, 4.1), []layout.ClashKind{layout.NearOldHole}, layout.Clashing},
		"6-8-10: 10 mm clears":         {old(176, 8, 4.1), nil, layout.New},
		"just inside of 10 mm":         {old(175.999, 8, 4.1), []layout.ClashKind{layout.NearOldHole}, layout.Clashing},
		"0.3-0.4-0.5: used again":      {old(170.3, 0.4, 4.1), nil, layout.Reused},
		"just beside of the same":      {old(170.3, 0.401, 4.1), []layout.ClashKind{layout.NearOldHole}, layout.Clashing},
		"a narrower one is used again": {old(170, 0, 3.5), nil, layout.Reused},
		"0.2 mm wider is used again":   {old(170, 0, 4.3), nil, layout.Reused},
		"a wider one holds no screw":   {old(170, 0, 4.4), []layout.ClashKind{layout.WideOldHole}, layout.Clashing},
		"far off":                      {old(-50, 0, 6), nil, layout.New},
	} {
		s := spec()
		s.Right.Old = []layout.OldHole{old(-50, 30, 5), c.hole}
		plan := planned(t, s)
		assert.Equal(t, c.want, kinds(plan.Clashes), name)
		assert.Equal(t, c.fate, plan.On(layout.Right)[0].Fate, name)
		assert.Equal(t, layout.New, plan.On(layout.Left)[0].Fate, "%s: the other ski has no old holes", name)
		if c.want != nil {
			assert.Equal(t, 2, plan.Clashes[0].Other, name)
			assert.Equal(t, layout.Right, plan.Clashes[0].Side, name)
		}
		if c.fate == layout.Reused {
			assert.Equal(t, 2, plan.On(layout.Right)[0].Reuses, name)
		}
	}
}

func TestTheShopSetsTheLeastDistance(t *testing.T) {
	t.Parallel()
	s := spec()
	s.Left.Old = []layout.OldHole{old(173, 4, 4.1)} // 5 mm from hole 1
	s.Rules.Apart = 5
	assert.True(t, planned(t, s).Clear())
	s.Rules.Apart = 5.1
	assert.Len(t, planned(t, s).Clashes, 1)
}

func TestEdgesOfTheSki(t *testing.T) {
	t.Parallel()
	s := spec()
	// The outer holes of the toe lie 20 mm beside the centre line: a waist of
	// 2 x (20 + 8) = 56 mm is just enough.
	s.Left.Width, s.Right.Width = layout.Waist(56), layout.Waist(55.98)
	plan := planned(t, s)
	assert.Equal(t, []layout.ClashKind{layout.NearEdge, layout.NearEdge}, kinds(plan.Clashes))
	assert.InDelta(t, 7.99, float64(plan.Clashes[0].Distance), 1e-9)
	assert.Equal(t, "Hole 2 right lies 7.99 mm from the edge (needs 8.0 mm).", plan.Clashes[0].Finding().Text)

	// From -200 to 130 the profile narrows from 120 to 54 mm, 0.2 mm per mm; at
	// the toe's outer holes, 130, it is 54: 27 - 20 = 7 mm to the edge. The
	// front hole, 170, was not measured.
	s = spec()
	s.Left.Width = layout.Profile([]layout.WidthAt{{X: -200, Width: 120}, {X: 130, Width: 54}})
	plan = planned(t, s)
	assert.Equal(t, []layout.ClashKind{layout.NoWidth, layout.NearEdge, layout.NearEdge}, kinds(plan.Clashes))
	assert.InDelta(t, 7, float64(plan.Clashes[1].Distance), 1e-9)
}

func TestShortAndLongSoles(t *testing.T) {
	t.Parallel()
	for name, c := range map[string]struct {
		sole mm
		want []layout.ClashKind
	}{
		"template's shortest": {260, nil},
		"below the toe's":     {259.9, []layout.ClashKind{layout.OffTemplate}},
		"below both":          {240, []layout.ClashKind{layout.OffTemplate, layout.OffTemplate}},
		"beyond both":         {381, []layout.ClashKind{layout.OffTemplate, layout.OffTemplate}},
	} {
		s := spec()
		s.Mount.Sole = c.sole
		assert.Equal(t, c.want, kinds(planned(t, s).Clashes), name)
	}
}

func TestToeAndHeelOverlapOnAShortSole(t *testing.T) {
	t.Parallel()
	s := spec()
	for i := range s.Pattern.Pieces {
		s.Pattern.Pieces[i].SoleMin = 150
	}
	// The bodies reach 60 mm back from the toe and 60 mm forward from the heel:
	// a sole of 120 mm is where they touch. With bodies of 100 mm each it is
	// 200 mm; at 190 mm they lie 10 mm on each other.
	s.Pattern.Pieces[0].From, s.Pattern.Pieces[1].To = -100, 100
	s.Mount.Sole = 200
	assert.Empty(t, planned(t, s).Clashes)
	s.Mount.Sole = 190
	plan := planned(t, s)
	require.Equal(t, []layout.ClashKind{layout.Overlap}, kinds(plan.Clashes))
	assert.Equal(t, "Toe and heel piece overlap by 10.0 mm with a sole of 190 mm.", plan.Clashes[0].Finding().Text)
	assert.True(t, plan.Clashes[0].Finding().Never)
}

func TestHolesOfTwoPiecesKeepTheirDistance(t *testing.T) {
	t.Parallel()
	s := spec()
	// Hole 6, the heel's third, lies at -160 - 40 = -200, 15 mm right. A brake
	// hole at -194, 7 mm right lies 6 mm and 8 mm off: 10 mm clears, and
	// 1 mm more to the right it does not: sqrt(36 + 49) = 9.22 mm.
	brake := layout.Piece{Kind: layout.Brake, Anchor: layout.BootHeel, From: -50, To: 0, SoleMin: 250, SoleMax: 380, Holes: []layout.PatternHole{hole(1, -34, 7)}}
	s.Pattern.Pieces = append(s.Pattern.Pieces, brake)
	assert.Empty(t, planned(t, s).Clashes)
	s.Pattern.Pieces[2].Holes[0].Y = 8
	plan := planned(t, s)
	require.Equal(t, []layout.ClashKind{layout.NearHole, layout.NearHole}, kinds(plan.Clashes))
	assert.Equal(t, "Holes 8 and 6 left, of two pieces, lie 9.2 mm apart (needs 10.0 mm).", plan.Clashes[0].Finding().Text)
	assert.Equal(t, layout.Clashing, plan.On(layout.Left)[5].Fate)
}

func TestFindingsSayWhatIsToBeDone(t *testing.T) {
	t.Parallel()
	s := spec()
	s.Left.Width = layout.Waist(98)
	s.Left.Old = []layout.OldHole{old(170, 0, 4.1), old(0, 0, 4.1), old(20, 0, 4.1), {X: 40, Diameter: 4, Plugged: true}}
	s.Right.Old = []layout.OldHole{old(173, 4, 4.1)}
	plan := planned(t, s)
	assert.Equal(t, []string{
		"Hole 1 right lies 5.0 mm from old hole 1 (needs 10.0 mm).",
		"2 old holes on the left ski are open and not used again: plug them before drilling.",
		"1 old hole on the left ski is used again: look at the wood in it before it holds a screw.",
		"The width of the right ski is not known: the distance of its holes to the edge was not checked.",
		"1 old hole on the right ski is open and not used again: plug it before drilling.",
	}, texts(plan.Findings()))
}

func TestWhatCannotBeLaidOut(t *testing.T) {
	t.Parallel()
	nan := mm(math.NaN())
	for want, change := range map[string]func(*layout.Spec){
		"There is no hole pattern to lay out.":                                                               func(s *layout.Spec) { s.Pattern = nil },
		"The sole length is 27.5 mm: 150 mm to 400 mm is possible.":                                          func(s *layout.Spec) { s.Mount.Sole = 27.5 },
		"The sole length is NaN mm: 150 mm to 400 mm is possible.":                                           func(s *layout.Spec) { s.Mount.Sole = nan },
		"The shift is 201 mm: -200 mm to 200 mm is possible.":                                                func(s *layout.Spec) { s.Mount.Shift = 201 },
		"The sole length that the heel is drilled for is 31 mm: 150 mm to 400 mm is possible.":               func(s *layout.Spec) { s.Mount.HeelFor = 31 },
		"A hole of 1 mm x 9 mm is none: 2 mm to 12 mm wide and 3 mm to 20 mm deep is possible.":              func(s *layout.Spec) { s.Bit = layout.Bit{Diameter: 1, Depth: 9} },
		"The rule \"apart\" is 0 mm: 1 mm to 50 mm is possible.":                                             func(s *layout.Spec) { s.Rules = layout.Rules{} },
		"Holes 3 mm apart cannot be the same if they must lie 2 mm apart.":                                   func(s *layout.Spec) { s.Rules.Apart, s.Rules.Same = 2, 3 },
		"The diameter of old hole 1 on the left ski is 0 mm: 1 mm to 15 mm is possible.":                     func(s *layout.Spec) { s.Left.Old = []layout.OldHole{{}} },
		"The x of old hole 2 on the right ski is NaN mm: -1500 mm to 1500 mm is possible.":                   func(s *layout.Spec) { s.Right.Old = []layout.OldHole{old(1, 1, 4), old(nan, 0, 4)} },
		"A waist of 9.8 mm on the left ski is none: 40 mm to 200 mm is possible.":                            func(s *layout.Spec) { s.Left.Width = layout.Waist(9.8) },
		"A width profile needs two places or more on the right ski, and has 1.":                              func(s *layout.Spec) { s.Right.Width = layout.Profile([]layout.WidthAt{{X: 0, Width: 90}}) },
		"The right ski is corrected by 31 mm: at most 30 mm either way is possible.":                         func(s *layout.Spec) { s.Right.Correction = 31 },
		"The place 0 mm of the width profile on the left ski does not lie in front of the one before it.":    func(s *layout.Spec) { s.Left.Width = layout.Profile([]layout.WidthAt{{0, 90}, {0, 91}}) },
		"A width of 20 mm on the left ski is none: 40 mm to 200 mm is possible.":                             func(s *layout.Spec) { s.Left.Width = layout.Profile([]layout.WidthAt{{0, 90}, {5, 20}}) },
		"The heel of reckoning is anchored at the boot midsole: it cannot be drilled for a sole of its own.": func(s *layout.Spec) { midsoleHeel(s); s.Mount.HeelFor = 300 },
		"The left ski has 201 old holes: at most 200 are possible.":                                          func(s *layout.Spec) { s.Left.Old = make([]layout.OldHole, 201) },
	} {
		s := spec()
		change(s)
		_, err := s.Plan()
		assert.Equal(t, want, faultOf(t, err).Sentence)
		_, err = s.Shifts(layout.DefaultWindow())
		assert.Equal(t, want, faultOf(t, err).Sentence)
	}
}

func midsoleHeel(s *layout.Spec) {
	s.Pattern.Pieces[1].Anchor, s.Pattern.Pieces[1].TrackSole = layout.BootMidsole, 320
}
