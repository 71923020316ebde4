package layout

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"drillstop/calc"
	"drillstop/calc/quantity"
)

// What a pattern can hold. Our own limits, no source: generous around every
// binding that fits on a ski.
const (
	mostHoles                    = 16 // of one piece
	farthestX, farthestY      mm = 450, 60
	narrowestBit, widestBit   mm = 2, 12
	shallowest, deepest       mm = 3, 20
	longestScrew              mm = 20
	longestTrack              mm = 120
	longestName, longestNote     = 60, 400
	codePattern                  = "layout.pattern"
	shortestSole, longestSole mm = quantity.MinSole, quantity.MaxSole
)

// Check says whether the pattern can be used; nil if it can. The first thing
// wrong is returned as a *calc.Fault of code "layout.pattern"; its field is the
// way to the value ("piece[2].hole[1].y", counted from 1).
func (p *Pattern) Check() error {
	if err := checkText("name", p.Name, longestName, true); err != nil {
		return err
	}
	if err := checkText("note", p.Note, longestNote, false); err != nil {
		return err
	}
	for i := range p.Pieces {
		if err := p.checkPiece(i); err != nil {
			return err
		}
	}
	for _, kind := range []PieceKind{Toe, Heel} {
		if p.Piece(kind) == nil {
			return wrong("piece", "The pattern has no %s piece: it needs a toe and a heel.", kind)
		}
	}
	if p.holes() == 0 {
		return wrong("piece", "No piece of the pattern has a hole.")
	}
	if shortest, longest := p.Soles(); shortest > longest {
		return wrong("piece", "Toe and heel take no common sole length: the toe takes %s to %s, the heel %s to %s.",
			p.Piece(Toe).SoleMin, p.Piece(Toe).SoleMax, p.Piece(Heel).SoleMin, p.Piece(Heel).SoleMax)
	}
	return nil
}

func (p *Pattern) holes() int {
	n := 0
	for i := range p.Pieces {
		n += len(p.Pieces[i].Holes)
	}
	return n
}

func (p *Pattern) checkPiece(i int) error {
	piece := &p.Pieces[i]
	if !slices.Contains(PieceKinds(), piece.Kind) {
		return wrong(pieceField(i, "kind"), "%q is not a kind of piece: toe, heel, brake or plate.", string(piece.Kind))
	}
	for _, earlier := range p.Pieces[:i] {
		if earlier.Kind == piece.Kind {
			return wrong(pieceField(i, "kind"), "The pattern has two %s pieces: one of each kind is possible.", piece.Kind)
		}
	}
	if !slices.Contains(Anchors(), piece.Anchor) {
		return wrong(pieceField(i, "anchor"), "%q is not an anchor: boot toe, boot heel, boot midsole or ski mount mark.", string(piece.Anchor))
	}
	for _, check := range []func(*Piece, int) error{checkBody, checkSoles, checkTrack, checkHoles} {
		if err := check(piece, i); err != nil {
			return err
		}
	}
	return nil
}

func checkBody(piece *Piece, i int) error {
	for _, end := range []struct {
		key string
		at  mm
	}{{"from", piece.From}, {"to", piece.To}} {
		if !inRange(end.at, -farthestX, farthestX) {
			return wrong(pieceField(i, end.key), "The %s ends %s from its anchor: %s to %s is possible.", piece.Kind, end.at, -farthestX, farthestX)
		}
	}
	if piece.From >= piece.To {
		return wrong(pieceField(i, "to"), "The %s ends at %s, which is not in front of its rear end at %s.", piece.Kind, piece.To, piece.From)
	}
	return nil
}

func checkSoles(piece *Piece, i int) error {
	for _, end := range []struct {
		key  string
		sole mm
	}{{"sole_min", piece.SoleMin}, {"sole_max", piece.SoleMax}} {
		if !inRange(end.sole, shortestSole, longestSole) {
			return wrong(pieceField(i, end.key), "A sole of %s is none: %s to %s is possible.", end.sole, shortestSole, longestSole)
		}
	}
	if piece.SoleMin > piece.SoleMax {
		return wrong(pieceField(i, "sole_max"), "The longest sole, %s, is shorter than the shortest, %s.", piece.SoleMax, piece.SoleMin)
	}
	return nil
}

func checkTrack(piece *Piece, i int) error {
	for _, end := range []struct {
		key    string
		travel mm
	}{{"track_fore", piece.TrackFore}, {"track_aft", piece.TrackAft}} {
		if !inRange(end.travel, 0, longestTrack) {
			return wrong(pieceField(i, end.key), "A track of %s is none: 0 to %s is possible.", end.travel, longestTrack)
		}
	}
	switch {
	case piece.slides() && piece.Kind != Toe && piece.Kind != Heel:
		return wrong(pieceField(i, "track_fore"), "A %s does not hold the boot: only toe and heel slide on a track.", piece.Kind)
	case piece.slides() && !piece.atItsEnd() && !inRange(piece.TrackSole, shortestSole, longestSole):
		return wrong(pieceField(i, "track_sole"),
			"The %s is anchored at the %s and slides: track_sole, the sole length for which it stands on the zero of its track, must be %s to %s, not %s.",
			piece.Kind, piece.Anchor, shortestSole, longestSole, piece.TrackSole)
	case (piece.Kind == Toe || piece.Kind == Heel) && !piece.slides() && !piece.atItsEnd() && piece.SoleMin != piece.SoleMax:
		return wrong(pieceField(i, "sole_max"),
			"The %s is anchored at the %s and does not slide: it fits one sole length alone, not %s to %s.", piece.Kind, piece.Anchor, piece.SoleMin, piece.SoleMax)
	case piece.TrackSole != 0 && (!piece.slides() || piece.atItsEnd()):
		return wrong(pieceField(i, "track_sole"),
			"track_sole says nothing here: the %s does not slide, or stands on zero for the sole it is drilled for.", piece.Kind)
	}
	return nil
}

func checkHoles(piece *Piece, i int) error {
	if len(piece.Holes) > mostHoles {
		return wrong(pieceField(i, "hole"), "The %s has %d holes: at most %d are possible.", piece.Kind, len(piece.Holes), mostHoles)
	}
	if len(piece.Holes) == 0 && (piece.Kind == Brake || piece.Kind == Plate) {
		return wrong(pieceField(i, "hole"), "The %s has no hole: leave it out.", piece.Kind)
	}
	for j := range piece.Holes {
		if err := checkHole(piece, i, j); err != nil {
			return err
		}
	}
	return checkOrder(piece, i)
}

func checkHole(piece *Piece, i, j int) error {
	h := &piece.Holes[j]
	for _, v := range []struct {
		key, name string
		value     mm
		low, high mm
	}{
		{"x", "x", h.X, piece.From, piece.To},
		{"y", "y", h.Y, -farthestY, farthestY},
		{"diameter", "diameter", h.Diameter, narrowestBit, widestBit},
		{"depth", "depth", h.Depth, shallowest, deepest},
		{"bite", "bite", h.Bite, 0.1, longestScrew},
	} {
		if !inRange(v.value, v.low, v.high) {
			return wrong(holeField(i, j, v.key), "The %s of hole %d of the %s is %s: %s to %s is possible.", v.name, j+1, piece.Kind, v.value, v.low, v.high)
		}
	}
	if !slices.Contains(Classes(), h.Class) {
		return wrong(holeField(i, j, "class"), "%q is not a class of hole: marked (the ski's own marking wins) or fixed.", string(h.Class))
	}
	for k, other := range piece.Holes[:j] {
		apart := distance(h.X-other.X, h.Y-other.Y)
		if needs := (h.Diameter + other.Diameter) / 2; apart < needs-slack {
			return wrong(holeField(i, j, "x"), "Holes %d and %d of the %s lie %s apart and run into each other: at least %s is needed.", k+1, j+1, piece.Kind, short(apart), short(needs))
		}
	}
	return nil
}

// checkOrder asks that every screw has its own place in the order and that
// those which lock the piece come first.
func checkOrder(piece *Piece, i int) error {
	lastLocking, firstOther := 0, len(piece.Holes)+1
	for j, h := range piece.Holes {
		if h.Order < 1 || h.Order > len(piece.Holes) {
			return wrong(holeField(i, j, "order"), "Hole %d of the %s is number %d in the screw order: 1 to %d is possible.", j+1, piece.Kind, h.Order, len(piece.Holes))
		}
		for k, other := range piece.Holes[:j] {
			if other.Order == h.Order {
				return wrong(holeField(i, j, "order"), "Holes %d and %d of the %s are both number %d in the screw order.", k+1, j+1, piece.Kind, h.Order)
			}
		}
		if h.Locking {
			lastLocking = max(lastLocking, h.Order)
		} else {
			firstOther = min(firstOther, h.Order)
		}
	}
	for j, h := range piece.Holes {
		if h.Locking && h.Order == lastLocking && lastLocking > firstOther {
			return wrong(holeField(i, j, "order"), "The locking screw in hole %d of the %s is number %d in the screw order: locking screws come first.", j+1, piece.Kind, h.Order)
		}
	}
	return nil
}

func checkText(field, text string, longest int, needed bool) error {
	switch {
	case needed && strings.TrimSpace(text) == "":
		return wrong(field, "The pattern has no %s.", field)
	case len(text) > longest:
		return wrong(field, "The %s of the pattern has %d letters: at most %d are possible.", field, len(text), longest)
	case strings.ContainsFunc(text, func(r rune) bool { return r < ' ' || r == 0x7f || r == '\uFFFD' }):
		return wrong(field, "The %s of the pattern holds a character that cannot be printed.", field)
	}
	return nil
}

func wrong(field, format string, args ...any) error {
	fault := calc.Faultf(codePattern, format, args...)
	fault.Field = field
	return fault
}

func pieceField(i int, key string) string { return fmt.Sprintf("piece[%d].%s", i+1, key) }

func holeField(i, j int, key string) string {
	return fmt.Sprintf("piece[%d].hole[%d].%s", i+1, j+1, key)
}

// inRange is false for what is not a number.
func inRange(v, low, high mm) bool { return v >= low && v <= high }

func distance(dx, dy mm) mm { return mm(math.Hypot(float64(dx), float64(dy))) }
