package layout

import "drillstop/calc/quantity"

// Mount is where the boot sits on the ski.
type Mount struct {
	Sole mm // boot sole length
	// HeelFor is the sole length that the heel piece is drilled for, so that
	// its track also serves another boot; 0 = Sole.
	HeelFor mm
	// Shift is how far the boot's midsole lies in front of the ski's mount
	// mark; negative is back.
	Shift mm
}

// farthestShift bounds the mount point; our own limit, no source.
const farthestShift mm = 200

// heelFor is the sole length that the heel piece is drilled for.
func (m Mount) heelFor() mm {
	if m.HeelFor == 0 {
		return m.Sole
	}
	return m.HeelFor
}

// BootToe is the front end of the boot.
func (m Mount) BootToe() quantity.Millimetre { return m.Shift + m.Sole/2 }

// BootHeel is the rear end of the boot.
func (m Mount) BootHeel() quantity.Millimetre { return m.Shift - m.Sole/2 }

// anchor is the place of an anchor on the ski. The heel piece is set out from
// the boot's toe with the sole length that it is drilled for.
func (m Mount) anchor(a Anchor) mm {
	switch a {
	case BootToe:
		return m.BootToe()
	case BootHeel:
		return m.BootToe() - m.heelFor()
	case BootMidsole:
		return m.Shift
	case MountMark:
	}
	return 0
}

// check returns a *calc.Fault of code "layout.mount".
func (m Mount) check(p *Pattern) error {
	for _, v := range []struct {
		field, name string
		value       mm
		low, high   mm
	}{
		{"sole", "sole length", m.Sole, shortestSole, longestSole},
		{"heel_for", "sole length that the heel is drilled for", m.heelFor(), shortestSole, longestSole},
		{"shift", "shift", m.Shift, -farthestShift, farthestShift},
	} {
		if !inRange(v.value, v.low, v.high) {
			return refuse("layout.mount", v.field, "The %s is %s: %s to %s is possible.", v.name, v.value, v.low, v.high)
		}
	}
	if heel := p.Piece(Heel); m.heelFor() != m.Sole && heel.Anchor != BootHeel {
		return refuse("layout.mount", "heel_for", "The heel of %s is anchored at the %s: it cannot be drilled for a sole of its own.", p.Name, heel.Anchor)
	}
	return nil
}

// Bit is the hole that a ski is marked with, diameter and depth; 0, 0 = the ski
// is not marked.
type Bit struct{ Diameter, Depth mm }

func (b Bit) check() error {
	if b == (Bit{}) {
		return nil
	}
	if !inRange(b.Diameter, narrowestBit, widestBit) || !inRange(b.Depth, shallowest, deepest) {
		return refuse("layout.bit", "bit", "A hole of %s x %s is none: %s to %s wide and %s to %s deep is possible.",
			b.Diameter, b.Depth, narrowestBit, widestBit, shallowest, deepest)
	}
	return nil
}

// Spec is everything that a layout is made of.
type Spec struct {
	Pattern     *Pattern
	Mount       Mount
	Bit         Bit // marked on the ski
	Left, Right Ski
	Rules       Rules
}

// Check says whether a layout can be made; the first thing wrong is returned as
// a *calc.Fault whose code begins with "layout.". What can be made and must not
// be drilled is no fault but a clash.
func (s *Spec) Check() error {
	if s.Pattern == nil {
		return refuse(codePattern, "pattern", "There is no hole pattern to lay out.")
	}
	if err := s.Pattern.Check(); err != nil {
		return err
	}
	if err := s.Mount.check(s.Pattern); err != nil {
		return err
	}
	if err := s.Bit.check(); err != nil {
		return err
	}
	if err := s.Rules.Check(); err != nil {
		return err
	}
	if err := s.Left.check(Left); err != nil {
		return err
	}
	return s.Right.check(Right)
}

// Ski returns the ski of a side, the right one for anything but Left.
func (s *Spec) Ski(side Side) *Ski {
	if side == Left {
		return &s.Left
	}
	return &s.Right
}

// Fate is what becomes of a hole of the pattern.
type Fate string

// The fates.
const (
	New      Fate = "new"
	Reused   Fate = "re-used"
	Clashing Fate = "clash"
)

// Hole is one hole of the mount, in ski coordinates.
type Hole struct {
	Side      Side
	Piece     PieceKind
	N         int // number in the screw order of the ski, from 1
	X, Y      mm
	Diameter  mm // of the bit
	Depth     mm
	Bite      mm
	Locking   bool
	Fate      Fate
	Reuses    int // number of the old hole that is used again, from 1; 0 = none
	piece     int // index in the pattern
	stays     bool
	clashWith bool
}

// holes sets the holes of one ski out, in the order of their numbers: the
// pieces as the pattern lists them, in each its locking screws first. It
// appends to the given slice.
func (s *Spec) holes(to []Hole, side Side, mount Mount) []Hole {
	flip := mm(1)
	if side == Left && s.Pattern.Mirrored {
		flip = -1
	}
	correction := s.Ski(side).Correction
	base := len(to)
	to = to[:base+s.Pattern.holes()]
	first := 0
	for i := range s.Pattern.Pieces {
		piece := &s.Pattern.Pieces[i]
		at := mount.anchor(piece.Anchor) + correction
		for j := range piece.Holes {
			h := &piece.Holes[j]
			hole := Hole{
				Side: side, Piece: piece.Kind, N: first + h.Order, X: at + h.X, Y: flip * h.Y,
				Diameter: h.Diameter, Depth: h.Depth, Bite: h.Bite, Locking: h.Locking,
				Fate: New, piece: i, stays: piece.Anchor == MountMark,
			}
			if h.Class == Marked && s.Bit != (Bit{}) {
				hole.Diameter, hole.Depth = s.Bit.Diameter, s.Bit.Depth
			}
			to[base+hole.N-1] = hole
		}
		first += len(piece.Holes)
	}
	return to
}
