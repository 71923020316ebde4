package layout

import (
	"fmt"

	"drillstop/calc"
)

// ClashKind says what stands against a layout.
type ClashKind string

// The clashes.
const (
	NearOldHole ClashKind = "old-hole"    // a new hole too near to an old one
	WideOldHole ClashKind = "wide-hole"   // the same place as an old hole that is too wide
	NearHole    ClashKind = "hole"        // too near to a hole of another piece
	NearEdge    ClashKind = "edge"        // too near to the edge of the ski
	NoWidth     ClashKind = "width"       // where the width of the ski is not known
	OffTemplate ClashKind = "sole-range"  // a sole that the piece's template does not take
	OffTrack    ClashKind = "track-range" // a piece that would stand beyond its track
	Overlap     ClashKind = "overlap"     // toe and heel piece lie on each other
)

// Clash is one thing that stands against a layout. Holes are named by their
// number N and old holes by their place in the list, from 1; what is not part
// of the clash is zero.
type Clash struct {
	Kind     ClashKind
	Side     Side // Both for what holds for the pair
	Piece    PieceKind
	Hole     int
	Other    int // the old hole or the other new hole
	Distance mm  // as it is: between centres, to the edge; beyond or over each other
	Needs    mm  // the least distance the rules ask for
	sentence string
}

// Finding says the clash in a sentence. Every clash is a stop; one that cannot
// hold a boot at all may not be waived.
func (c Clash) Finding() calc.Finding {
	f := calc.Stopf("layout."+string(c.Kind), c.source(), "%s", c.text())
	f.Never = c.Kind == OffTrack || c.Kind == Overlap
	return f
}

func (c Clash) source() string {
	switch c.Kind {
	case NearOldHole, NearHole:
		return practice
	case WideOldHole, NearEdge, NoWidth:
		return ourRule
	case OffTemplate, OffTrack, Overlap:
	}
	return geometry
}

func (c Clash) text() string {
	switch c.Kind {
	case NearOldHole:
		return fmt.Sprintf("Hole %d %s lies %s from old hole %d (needs %s).", c.Hole, c.Side, apartFrom(c.Distance, c.Needs), c.Other, short(c.Needs))
	case WideOldHole:
		return fmt.Sprintf("Hole %d %s falls on old hole %d, which is %s wide: at most %s holds the screw.", c.Hole, c.Side, c.Other, apartFrom(c.Distance, c.Needs), short(c.Needs))
	case NearHole:
		return fmt.Sprintf("Holes %d and %d %s, of two pieces, lie %s apart (needs %s).", c.Hole, c.Other, c.Side, apartFrom(c.Distance, c.Needs), short(c.Needs))
	case NearEdge:
		if c.Distance < 0 {
			return fmt.Sprintf("Hole %d %s lies %s beside the ski.", c.Hole, c.Side, short(-c.Distance))
		}
		return fmt.Sprintf("Hole %d %s lies %s from the edge (needs %s).", c.Hole, c.Side, apartFrom(c.Distance, c.Needs), short(c.Needs))
	case NoWidth:
		return fmt.Sprintf("Hole %d %s lies beyond the measured width of the ski: measure the width there.", c.Hole, c.Side)
	case OffTemplate, OffTrack, Overlap:
	}
	return c.sentence
}

// pieceClashes are those of the pieces themselves, the same on both skis.
func (s *Spec) pieceClashes(mount Mount) []Clash {
	var found []Clash
	for i := range s.Pattern.Pieces {
		found = s.offTemplate(found, &s.Pattern.Pieces[i], mount)
	}
	for _, kind := range [2]PieceKind{Toe, Heel} {
		piece := s.Pattern.Piece(kind)
		if t := travel(piece, mount); t.Fore < -slack || t.Back < -slack {
			found = append(found, offTrack(piece, mount, t))
		}
	}
	if gap := s.gap(mount); gap < -slack {
		found = append(found, Clash{
			Kind: Overlap, Piece: Toe, Distance: -gap,
			sentence: fmt.Sprintf("Toe and heel piece overlap by %s with a sole of %s.", short(-gap), mount.heelFor()),
		})
	}
	return found
}

// offTemplate asks whether the template of a piece takes the sole it is set to.
func (s *Spec) offTemplate(found []Clash, piece *Piece, mount Mount) []Clash {
	sole := mount.Sole
	if piece.Anchor == BootHeel {
		sole = mount.heelFor()
	}
	beyond := max(piece.SoleMin-sole, sole-piece.SoleMax)
	if beyond <= slack {
		return found
	}
	return append(found, Clash{
		Kind: OffTemplate, Piece: piece.Kind, Distance: beyond,
		sentence: fmt.Sprintf("A sole of %s is beyond the %s: its template takes %s to %s.", sole, piece.Kind, piece.SoleMin, piece.SoleMax),
	})
}

func offTrack(piece *Piece, mount Mount, t Travel) Clash {
	c := Clash{Kind: OffTrack, Piece: piece.Kind}
	end := "rear"
	c.Distance = -t.Back
	if t.Fore < 0 {
		end, c.Distance = "front", -t.Fore
	}
	if !piece.slides() {
		c.sentence = fmt.Sprintf("The %s stands %s off a sole of %s, and it does not slide.", piece.Kind, short(c.Distance), mount.Sole)
		return c
	}
	c.sentence = fmt.Sprintf("The %s would stand %s beyond the %s end of its track with a sole of %s.", piece.Kind, short(c.Distance), end, mount.Sole)
	return c
}

// gap is the length of ski between the bodies of toe and heel piece; negative
// where they lie on each other.
func (s *Spec) gap(mount Mount) mm {
	toe, heel := s.Pattern.Piece(Toe), s.Pattern.Piece(Heel)
	return mount.anchor(toe.Anchor) + toe.From - mount.anchor(heel.Anchor) - heel.To
}

// fits says whether a screw holds in an old hole that is used again.
func (r Rules) fits(h *Hole, o *OldHole) bool { return o.Diameter <= h.Diameter+r.Wider+slack }
