package steps

import (
	"github.com/stretchr/testify/require"

	"drillstop/calc/layout"
	"drillstop/calc/quantity"
	"drillstop/workflow"
)

// testPatterns are two invented patterns. That of "Orlo 10 holes", with a sole
// of 318 mm on the mark, on either ski:
//
//	toe, from the boot toe at 159:   1 (124, 0) locks   2 (189, 18)   3 (189, -18)   4 (94, 0)
//	heel, from the boot heel at -159: 5 (-111, 16)   6 (-211, -16)   7 (-111, -16)   8 (-211, 16)
//
// "Orlo 12 holes" is the same with a toe hole less, none of them locking, and a
// heel that does not slide.
func testPatterns() []*layout.Pattern {
	hole := func(order int, x, y quantity.Millimetre, locking bool) layout.PatternHole {
		return layout.PatternHole{
			Order: order, X: x, Y: y, Diameter: 4.1, Depth: 9, Bite: 7.5, Class: layout.Marked, Locking: locking,
		}
	}
	toe := layout.Piece{
		Kind: layout.Toe, Anchor: layout.BootToe, From: -80, To: 50, SoleMin: 260, SoleMax: 380,
		Holes: []layout.PatternHole{hole(1, -35, 0, true), hole(2, 30, 18, false), hole(3, 30, -18, false), hole(4, -65, 0, false)},
	}
	heel := layout.Piece{
		Kind: layout.Heel, Anchor: layout.BootHeel, From: -75, To: 62, SoleMin: 255, SoleMax: 385, TrackFore: 12, TrackAft: 10,
		Holes: []layout.PatternHole{hole(1, 48, 16, false), hole(2, -52, -16, false), hole(3, 48, -16, false), hole(4, -52, 16, false)},
	}
	ten := &layout.Pattern{Name: "Orlo 10 holes", Pieces: []layout.Piece{toe, heel}}
	toe.Holes = []layout.PatternHole{hole(1, 30, 18, false), hole(2, 30, -18, false), hole(3, -65, 0, false)}
	heel.TrackFore, heel.TrackAft = 0, 0
	twelve := &layout.Pattern{Name: "Orlo 12 holes", Invented: true, Pieces: []layout.Piece{toe, heel}}
	return []*layout.Pattern{ten, twelve}
}

// withPattern opens a mount whose binding names a pattern, up to the layout.
func withPattern(t require.TestingT, oldHoles ...string) *bench {
	b := newJob(t, workflow.ReMount)
	if len(oldHoles) > 0 {
		b.upTo(Skis).change(Skis, "old_holes", "yes")
	}
	b.upTo(Binding).change(Binding, "pattern", "orlo 10")
	if len(oldHoles) > 0 {
		b.upTo(OldHoles).change(OldHoles, oldHoles...)
	}
	return b.upTo(MountPoint)
}

func mmOf(v int) quantity.Millimetre { return quantity.Millimetre(v) }

// alpinePattern is the invented alpine pattern that comes with the program, for
// sheets that name it. With a sole of 318 mm on the mark its holes are
//
//	toe: 1 (191, 0)   2 (135, 19)   3 (135, -19)
//	heel: 4 (-111, 16)   5 (-211, -16)   6 (-111, -16)   7 (-211, 16)
func alpinePattern() *layout.Pattern {
	hole := func(order int, x, y quantity.Millimetre) layout.PatternHole {
		return layout.PatternHole{Order: order, X: x, Y: y, Diameter: 4.1, Depth: 9, Bite: 7.5, Class: layout.Marked}
	}
	return &layout.Pattern{
		Name: "Orlo 10 alpine (invented)", Invented: true,
		Pieces: []layout.Piece{
			{
				Kind: layout.Toe, Anchor: layout.BootToe, From: -70, To: 45, SoleMin: 260, SoleMax: 380,
				Holes: []layout.PatternHole{hole(1, 32, 0), hole(2, -24, 19), hole(3, -24, -19)},
			},
			{
				Kind: layout.Heel, Anchor: layout.BootHeel, From: -75, To: 62, SoleMin: 255, SoleMax: 385, TrackFore: 12, TrackAft: 10,
				Holes: []layout.PatternHole{hole(1, 48, 16), hole(2, -52, -16), hole(3, 48, -16), hole(4, -52, 16)},
			},
		},
	}
}
