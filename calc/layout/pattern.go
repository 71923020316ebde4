// Package layout says where every hole of a mount falls on the ski, what it
// clashes with, and which shifts of the mount point clear.
//
// Lengths are in millimetres. On a ski the origin is its mount mark, x runs to
// the tip and y to the skier's right. The hole patterns have an origin of their
// own, the anchor of each piece, and the same directions; they are given for
// the right ski.
//
// Nothing is rounded and nothing is stepped: distances are compared as they
// are, and the clear shifts are the roots of the distances' equations.
package layout

import "drillstop/calc/quantity"

// mm keeps the many lengths of this room readable.
type mm = quantity.Millimetre

// slack keeps a distance that stands exactly on a limit from falling beyond it
// by the last bits of a subtraction or a root. In mm.
const slack = 1e-9

// Sources that several rules share.
const (
	practice = "common practice, no formal source"
	ourRule  = "our rule, no source"
	geometry = "geometry of the pattern"
)

// PieceKind names a piece of a binding that is screwed to the ski. A pattern
// has one toe and one heel, and may have one brake and one plate.
type PieceKind string

// The pieces.
const (
	Toe   PieceKind = "toe"
	Heel  PieceKind = "heel"
	Brake PieceKind = "brake"
	Plate PieceKind = "plate"
)

// PieceKinds lists every kind of piece.
func PieceKinds() []PieceKind { return []PieceKind{Toe, Heel, Brake, Plate} }

// Anchor is the point from which the holes of a piece are measured.
type Anchor string

// The anchors. A piece at the boot or its midsole moves with the mount point;
// a piece at the ski's mount mark does not.
const (
	BootToe     Anchor = "boot toe"
	BootHeel    Anchor = "boot heel"
	BootMidsole Anchor = "boot midsole"
	MountMark   Anchor = "ski mount mark"
)

// Anchors lists every anchor.
func Anchors() []Anchor { return []Anchor{BootToe, BootHeel, BootMidsole, MountMark} }

// Class says which bit a hole takes.
type Class string

// The classes. For a hole of class Marked the hole that is marked on the ski
// wins over the pattern's own diameter and depth (common practice); a hole of
// class Fixed always has its own.
const (
	Marked Class = "marked"
	Fixed  Class = "fixed"
)

// Classes lists every class of hole.
func Classes() []Class { return []Class{Marked, Fixed} }

// PatternHole is one hole of a piece, measured from the anchor of the piece.
type PatternHole struct {
	X, Y     mm
	Diameter mm // of the bit, 2 to 12 mm
	Depth    mm // from the topsheet, 3 to 20 mm
	Bite     mm // how far the screw stands out below the piece, above 0 to 20 mm
	Class    Class
	Order    int  // in which the screws of the piece are set, from 1
	Locking  bool // a screw that locks the piece in place; those come first
}

// Piece is one piece of a binding with its holes.
type Piece struct {
	Kind     PieceKind
	Anchor   Anchor
	From, To mm // the body from its rear to its front end, from the anchor

	// The boot sole lengths that the template and the piece take.
	SoleMin, SoleMax mm

	// How far a toe or heel piece slides on its track from the track's zero,
	// forward and aft; 0, 0 = it does not slide.
	TrackFore, TrackAft mm

	// The sole length for which a sliding piece stands on the zero of its
	// track. Only for a piece that is not anchored at the boot's own end: that
	// one stands on zero for the sole it is drilled for.
	TrackSole mm

	Holes []PatternHole // in any order; PatternHole.Order counts
}

// slides says whether the piece has a track.
func (p *Piece) slides() bool { return p.TrackFore > 0 || p.TrackAft > 0 }

// atItsEnd says whether the piece is anchored at the end of the boot it holds.
func (p *Piece) atItsEnd() bool {
	return p.Kind == Toe && p.Anchor == BootToe || p.Kind == Heel && p.Anchor == BootHeel
}

// Pattern is the hole pattern of one binding.
type Pattern struct {
	Name     string
	Note     string // where the numbers come from
	Invented bool   // made up, for practice and demonstration: never for a real ski
	Mirrored bool   // the left ski's holes are the right ski's mirrored at the centre line
	Pieces   []Piece
}

// Piece returns the piece of a kind, nil if the pattern has none.
func (p *Pattern) Piece(kind PieceKind) *Piece {
	for i := range p.Pieces {
		if p.Pieces[i].Kind == kind {
			return &p.Pieces[i]
		}
	}
	return nil
}

// Soles returns the boot sole lengths that both toe and heel take. A pattern
// that passes Check has a toe and a heel; without them it returns 0, 0.
func (p *Pattern) Soles() (shortest, longest quantity.Millimetre) {
	toe, heel := p.Piece(Toe), p.Piece(Heel)
	if toe == nil || heel == nil {
		return 0, 0
	}
	return max(toe.SoleMin, heel.SoleMin), min(toe.SoleMax, heel.SoleMax)
}
