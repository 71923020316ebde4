package layout_test

import (
	"testing"

	"drillstop/calc/layout"
)

// crowded is a mount on a pair of skis with 30 old holes each.
func crowded() *layout.Spec {
	s := spec()
	for _, side := range layout.Sides() {
		ski := s.Ski(side)
		ski.Width = layout.Waist(98)
		for i := range 30 {
			ski.Old = append(ski.Old, old(mm(-230+15*i), mm(i%5*9-18), 4.1))
		}
	}
	return s
}

// BenchmarkLayouts lays out 10,000 mounts on pairs with 30 old holes on each
// ski, and finds the clear shifts of each.
func BenchmarkLayouts(b *testing.B) {
	s := crowded()
	b.ReportAllocs()
	for b.Loop() {
		for i := range 10000 {
			s.Mount.Shift = mm(i%400)/10 - 20
			if _, err := s.Plan(); err != nil {
				b.Fatal(err)
			}
			if _, err := s.Shifts(layout.DefaultWindow()); err != nil {
				b.Fatal(err)
			}
		}
	}
}

// BenchmarkPlan is one layout without the shifts.
func BenchmarkPlan(b *testing.B) {
	s := crowded()
	b.ReportAllocs()
	for b.Loop() {
		if _, err := s.Plan(); err != nil {
			b.Fatal(err)
		}
	}
}
