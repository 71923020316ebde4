package layout_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"drillstop/calc/layout"
)

// tenths draws a length in steps of a tenth of a millimetre, so that equal
// places and touching circles come up.
func tenths(t *rapid.T, name string, low, high int) mm {
	return mm(rapid.IntRange(low*10, high*10).Draw(t, name)) / 10
}

// anyPattern draws a pattern that passes Check: toe and heel as in the fixture,
// perhaps at other anchors, and perhaps a plate on the mark.
func anyPattern(t *rapid.T) *layout.Pattern {
	p := alpine()
	p.Mirrored = rapid.Bool().Draw(t, "mirrored")
	for i := range p.Pieces {
		for j := range p.Pieces[i].Holes {
			h := &p.Pieces[i].Holes[j]
			h.X += tenths(t, "dx", -4, 4)
			h.Y += tenths(t, "dy", -4, 4)
		}
	}
	if rapid.Bool().Draw(t, "track on the mark") {
		heel := &p.Pieces[1]
		heel.Anchor, heel.TrackSole, heel.TrackFore = layout.MountMark, 320, 25
		heel.From, heel.To = -250, -95
		for j := range heel.Holes {
			heel.Holes[j].X -= 160
		}
	}
	if rapid.Bool().Draw(t, "plate") {
		p.Pieces = append(p.Pieces, layout.Piece{
			Kind: layout.Plate, Anchor: layout.MountMark, From: 40, To: 180, SoleMin: 250, SoleMax: 380,
			Holes: []layout.PatternHole{hole(1, tenths(t, "px", 90, 170), tenths(t, "py", -30, 30))},
		})
	}
	return p
}

func anySki(t *rapid.T, holes []layout.Hole) layout.Ski {
	var ski layout.Ski
	for range rapid.IntRange(0, 8).Draw(t, "old holes") {
		near := rapid.SampledFrom(holes).Draw(t, "near")
		ski.Old = append(ski.Old, layout.OldHole{
			X: near.X + tenths(t, "ox", -25, 25), Y: near.Y + tenths(t, "oy", -3, 3),
			Diameter: rapid.SampledFrom([]mm{3.5, 4.1, 4.3, 6}).Draw(t, "wide"),
		})
	}
	switch rapid.IntRange(0, 2).Draw(t, "width") {
	case 1:
		ski.Width = layout.Waist(tenths(t, "waist", 56, 70))
	case 2:
		ski.Width = layout.Profile([]layout.WidthAt{
			{X: -215, Width: tenths(t, "w1", 50, 90)}, {X: -150, Width: tenths(t, "w2", 50, 90)},
			{X: 120, Width: tenths(t, "w3", 50, 90)}, {X: 185, Width: tenths(t, "w4", 50, 90)},
		})
	}
	ski.Correction = tenths(t, "correction", -2, 2)
	return ski
}

func anySpec(t *rapid.T) *layout.Spec {
	s := &layout.Spec{Pattern: anyPattern(t), Rules: layout.DefaultRules()}
	s.Mount.Sole = tenths(t, "sole", 300, 340)
	plan, err := s.Plan()
	require.NoError(t, err)
	s.Left, s.Right = anySki(t, plan.Holes), anySki(t, plan.Holes)
	s.Mount.Shift = tenths(t, "shift", -20, 20)
	return s
}

// TestTheFinderAgreesWithBruteForce lays out every tenth of a millimetre of
// the window, one by one, and compares it with the intervals, both ways.
func TestTheFinderAgreesWithBruteForce(t *testing.T) {
	t.Parallel()
	seen := map[bool]int{}
	rapid.Check(t, func(t *rapid.T) {
		s := anySpec(t)
		found, err := s.Shifts(layout.DefaultWindow())
		require.NoError(t, err)
		for i := -200; i <= 200; i++ {
			s.Mount.Shift = mm(i) / 10
			plan, err := s.Plan()
			require.NoError(t, err)
			require.Equal(t, plan.Clear(), found.Has(s.Mount.Shift), "shift %s: %v, clear %v", s.Mount.Shift, plan.Clashes, found.Clear)
			seen[plan.Clear()]++
		}
	})
	assert.Greater(t, seen[true], 100, "the cases must hold clear shifts")
	assert.Greater(t, seen[false], 100, "and others")
}

func TestEveryOfferIsClear(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		s := anySpec(t)
		wish := s.Mount.Shift
		found, err := s.Shifts(layout.DefaultWindow())
		require.NoError(t, err)
		offers := found.Offers(wish)
		for i, offer := range offers {
			s.Mount.Shift = offer
			plan, err := s.Plan()
			require.NoError(t, err)
			assert.True(t, plan.Clear(), "offer %v: %v", offer, plan.Clashes)
			if i > 0 {
				assert.LessOrEqual(t, math.Abs(float64(offers[i-1]-wish)), math.Abs(float64(offer-wish))+1e-6)
			}
		}
		if found.Has(wish) {
			assert.Equal(t, wish, offers[0], "a wish that clears wins")
		}
		if len(found.Clear) == 0 {
			assertCovers(t, found)
		}
	})
}

// assertCovers asks of the blockers that each tenth of the window lies in one.
func assertCovers(t *rapid.T, found layout.Shifts) {
	for i := -200; i <= 200; i++ {
		at, covered := mm(i)/10, false
		for _, b := range found.Blockers {
			covered = covered || at > b.From-1e-6 && at < b.To+1e-6
		}
		assert.True(t, covered, "%s is in none of %v", at, found.Blockers)
	}
}

func TestDistancesSurviveMirroringAndShifting(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		p := alpine() // everything moves with the boot
		for i := range p.Pieces {
			for j := range p.Pieces[i].Holes {
				p.Pieces[i].Holes[j].Y += tenths(t, "dy", -4, 4)
			}
		}
		sole := tenths(t, "sole", 280, 360)
		plain := layout.Spec{Pattern: p, Mount: layout.Mount{Sole: sole}, Rules: layout.DefaultRules()}
		before, err := plain.Plan()
		require.NoError(t, err)
		other := *p
		other.Mirrored = true
		moved := layout.Spec{Pattern: &other, Mount: layout.Mount{Sole: sole, Shift: tenths(t, "shift", -50, 50)}, Rules: layout.DefaultRules()}
		after, err := moved.Plan()
		require.NoError(t, err)
		for _, side := range layout.Sides() {
			a, b := before.On(side), after.On(side)
			for i := range a {
				for j := range i {
					assert.InDelta(t, apart(a[i], a[j]), apart(b[i], b[j]), 1e-9)
				}
			}
		}
	})
}

func apart(a, b layout.Hole) float64 {
	return math.Hypot(float64(a.X-b.X), float64(a.Y-b.Y))
}

func TestAMountOnItsOwnOldHolesUsesEveryOneAgain(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		p := anyPattern(t)
		p.Pieces = p.Pieces[:2]
		mount := layout.Mount{Sole: tenths(t, "sole", 312, 328), Shift: tenths(t, "shift", -3, 3)}
		s := layout.Spec{Pattern: p, Mount: mount, Rules: layout.DefaultRules()}
		for _, side := range layout.Sides() {
			holes, err := layout.OldHoles(p, mount, layout.Bit{}, side, true)
			require.NoError(t, err)
			s.Ski(side).Old = holes
		}
		plan, err := s.Plan()
		require.NoError(t, err)
		assert.Empty(t, plan.Clashes)
		for _, h := range plan.Holes {
			assert.Equal(t, layout.Reused, h.Fate)
		}
	})
}

func TestNothingPanicsOnAnyNumber(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		f := func(name string) mm { return mm(rapid.Float64().Draw(t, name)) }
		s := spec()
		s.Mount = layout.Mount{Sole: f("sole"), HeelFor: f("heel"), Shift: f("shift")}
		s.Bit = layout.Bit{Diameter: f("bit"), Depth: f("depth")}
		s.Rules = layout.Rules{Apart: f("apart"), Same: f("same"), Wider: f("wider"), Edge: f("edge")}
		s.Left = layout.Ski{Old: []layout.OldHole{old(f("x"), f("y"), f("d"))}, Width: layout.Waist(f("waist"))}
		if _, err := s.Plan(); err != nil {
			assert.NotEmpty(t, err.Error())
		}
		if _, err := s.Shifts(layout.Interval{From: f("from"), To: f("to")}); err != nil {
			assert.NotEmpty(t, err.Error())
		}
	})
}
