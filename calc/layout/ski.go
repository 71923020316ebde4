package layout

import (
	"math"

	"drillstop/calc/quantity"
)

// Side is one ski of the pair, as the skier stands on them; "" is both.
type Side string

// The sides.
const (
	Both  Side = ""
	Left  Side = "left"
	Right Side = "right"
)

// Sides lists the two skis, left first.
func Sides() [2]Side { return [2]Side{Left, Right} }

// OldHole is a hole that a ski has already, in ski coordinates.
type OldHole struct {
	X, Y     mm
	Diameter mm // 1 to 15 mm
	Depth    mm // 0 = not known
	Plugged  bool
}

// Ski is what the layout must know of one ski.
type Ski struct {
	Old   []OldHole
	Width Width
	// Correction moves everything on this ski forward: where the marks of the
	// pair differ (PairMarks), the boots can still sit alike.
	Correction mm
}

// Limits of old holes and skis; our own, no source.
const (
	mostOld                                = 200
	farthestOld                         mm = 1500
	narrowestOld, widestOld, deepestOld mm = 1, 15, 30
	widestSki, narrowestSki             mm = 200, 40
	farthestCorrection                  mm = 30
)

// check returns a *calc.Fault of code "layout.old-hole" or "layout.width".
func (s *Ski) check(side Side) error {
	if len(s.Old) > mostOld {
		return refuse("layout.old-hole", "old", "The %s ski has %d old holes: at most %d are possible.", side, len(s.Old), mostOld)
	}
	if !inRange(s.Correction, -farthestCorrection, farthestCorrection) {
		return refuse("layout.correction", "correction", "The %s ski is corrected by %s: at most %s either way is possible.", side, s.Correction, farthestCorrection)
	}
	for i := range s.Old {
		if err := s.Old[i].Check(i+1, side); err != nil {
			return err
		}
	}
	return s.Width.check(side)
}

// Check says whether the hole can be one; a *calc.Fault of code
// "layout.old-hole" names what cannot be, with the hole's number n and side for
// the sentence: x within 1500 mm, y within 100 mm, diameter 1 to 15 mm, depth
// 0 (not known) to 30 mm.
func (o *OldHole) Check(n int, side Side) error {
	for _, v := range []struct {
		field     string
		value     mm
		low, high mm
	}{
		{"x", o.X, -farthestOld, farthestOld},
		{"y", o.Y, -widestSki / 2, widestSki / 2},
		{"diameter", o.Diameter, narrowestOld, widestOld},
		{"depth", o.Depth, 0, deepestOld},
	} {
		if !inRange(v.value, v.low, v.high) {
			return refuse("layout.old-hole", v.field, "The %s of old hole %d%s is %s: %s to %s is possible.", v.field, n, onThe(side), v.value, v.low, v.high)
		}
	}
	return nil
}

func onThe(side Side) string {
	if side == Both {
		return ""
	}
	return " on the " + string(side) + " ski"
}

// WidthAt is the width of a ski at a place of its length.
type WidthAt struct{ X, Width mm }

// Width is how wide a ski is: not known (the zero value), its waist, or a
// profile.
type Width struct {
	waist   mm
	profile []WidthAt
}

// Waist is a ski that is nowhere narrower than its waist. It must be 40 to
// 200 mm.
func Waist(waist mm) Width { return Width{waist: waist} }

// Profile is a ski measured at two places or more, from tail to tip, and
// straight between them. Where it was not measured its width is not known.
// Widths must be 40 to 200 mm.
func Profile(points []WidthAt) Width { return Width{profile: points} }

// Known says whether anything is known of the width.
func (w Width) Known() bool { return w.waist != 0 || w.profile != nil }

// Narrowest is the least width that is known, 0 if none is.
func (w Width) Narrowest() quantity.Millimetre {
	least := w.waist
	for i, p := range w.profile {
		if i == 0 || p.Width < least {
			least = p.Width
		}
	}
	return least
}

// At returns the width at a place, false where it is not known.
func (w Width) At(x quantity.Millimetre) (quantity.Millimetre, bool) {
	if w.profile == nil {
		return w.waist, w.waist != 0
	}
	for i := 1; i < len(w.profile); i++ {
		a, b := w.profile[i-1], w.profile[i]
		if x >= a.X-slack && x <= b.X+slack {
			return a.Width + (b.Width-a.Width)*(x-a.X)/(b.X-a.X), true
		}
	}
	return 0, false
}

func (w Width) check(side Side) error {
	if !w.Known() {
		return nil
	}
	if w.profile == nil {
		if !inRange(w.waist, narrowestSki, widestSki) {
			return refuse("layout.width", "waist", "A waist of %s%s is none: %s to %s is possible.", w.waist, onThe(side), narrowestSki, widestSki)
		}
		return nil
	}
	if len(w.profile) < 2 {
		return refuse("layout.width", "profile", "A width profile needs two places or more%s, and has %d.", onThe(side), len(w.profile))
	}
	before := mm(math.Inf(-1))
	for _, p := range w.profile {
		switch {
		case !inRange(p.X, -farthestOld, farthestOld) || p.X <= before:
			return refuse("layout.width", "profile", "The place %s of the width profile%s does not lie in front of the one before it.", p.X, onThe(side))
		case !inRange(p.Width, narrowestSki, widestSki):
			return refuse("layout.width", "profile", "A width of %s%s is none: %s to %s is possible.", p.Width, onThe(side), narrowestSki, widestSki)
		}
		before = p.X
	}
	return nil
}
