package layout_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"drillstop/calc"
	"drillstop/calc/layout"
	"drillstop/calc/quantity"
)

type mm = quantity.Millimetre

// hole is a hole of an invented pattern, 4.1 x 9 mm with 8 mm of bite.
func hole(order int, x, y mm) layout.PatternHole {
	return layout.PatternHole{X: x, Y: y, Diameter: 4.1, Depth: 9, Bite: 8, Class: layout.Marked, Order: order}
}

// alpine is an invented pattern with numbers that are easy to reckon with: a
// toe with three holes, a heel with four and a track of 10 mm either way.
func alpine() *layout.Pattern {
	return &layout.Pattern{
		Name: "reckoning", Invented: true,
		Pieces: []layout.Piece{
			{
				Kind: layout.Toe, Anchor: layout.BootToe, From: -60, To: 20, SoleMin: 260, SoleMax: 380,
				Holes: []layout.PatternHole{hole(1, 10, 0), hole(2, -30, 20), hole(3, -30, -20)},
			},
			{
				Kind: layout.Heel, Anchor: layout.BootHeel, From: -70, To: 60, SoleMin: 250, SoleMax: 380, TrackFore: 10, TrackAft: 10,
				Holes: []layout.PatternHole{hole(1, 30, 15), hole(2, 30, -15), hole(3, -40, 15), hole(4, -40, -15)},
			},
		},
	}
}

func spec() *layout.Spec {
	return &layout.Spec{Pattern: alpine(), Mount: layout.Mount{Sole: 320}, Rules: layout.DefaultRules()}
}

func planned(t *testing.T, s *layout.Spec) layout.Plan {
	t.Helper()
	plan, err := s.Plan()
	require.NoError(t, err)
	return plan
}

func shifts(t *testing.T, s *layout.Spec) layout.Shifts {
	t.Helper()
	found, err := s.Shifts(layout.DefaultWindow())
	require.NoError(t, err)
	return found
}

func old(x, y, diameter mm) layout.OldHole { return layout.OldHole{X: x, Y: y, Diameter: diameter} }

func faultOf(t *testing.T, err error) *calc.Fault {
	t.Helper()
	var fault *calc.Fault
	require.ErrorAs(t, err, &fault)
	return fault
}

func kinds(clashes []layout.Clash) []layout.ClashKind {
	var found []layout.ClashKind
	for _, c := range clashes {
		found = append(found, c.Kind)
	}
	return found
}

func texts(findings []calc.Finding) []string {
	var said []string
	for _, f := range findings {
		said = append(said, f.Text)
	}
	return said
}
