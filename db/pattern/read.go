package pattern

import (
	"errors"

	"drillstop/calc"
	"drillstop/calc/layout"
)

// Codes of the faults of this room.
const (
	codePattern = "pattern.file"
	codeOld     = "old-holes.file"
	codeUnknown = "pattern.unknown"
)

// Read reads a hole pattern. The file's name stands in its faults, which are
// *calc.Fault of code "pattern.file": they name the file, the line, the key
// (tables counted from 1) and what would be right.
//
// A pattern file:
//
//	name = "..."          # as the shop calls the binding
//	note = "..."          # optional: where the numbers come from
//	unit = "mm"           # of every length
//	invented = false      # optional: true for patterns that are made up
//	mirrored = false      # optional: the left ski's holes are the right ski's, mirrored
//
//	[[piece]]
//	kind = "toe"          # toe, heel, brake, plate; one of each at most
//	anchor = "boot toe"   # boot toe, boot heel, boot midsole, ski mount mark
//	from = -60            # the body of the piece along the ski, from the anchor,
//	to = 20               #   forward positive
//	sole_min = 260        # the boot sole lengths that its template takes
//	sole_max = 380
//	track_fore = 0        # optional, toe and heel: travel forward and aft
//	track_aft = 0
//	track_sole = 0        # only for a track that is not anchored at its own end
//	                      #   of the boot: the sole for which it stands on zero
//	[[piece.hole]]
//	order = 1             # in the screw order of the piece; locking screws first
//	x = 10                # from the anchor, forward positive
//	y = 0                 # from the centre line of the right ski, its right positive
//	diameter = 4.1        # of the bit
//	depth = 9             # from the topsheet
//	bite = 8              # how far the screw stands out below the piece
//	class = "marked"      # marked: the hole marked on the ski wins; fixed: this one
//	locking = false       # optional: a screw that locks the piece in place
func Read(file string, text []byte) (*layout.Pattern, error) {
	d, top, err := openTOML(file, codePattern, text)
	if err != nil {
		return nil, err
	}
	top.only("name", "note", "unit", "invented", "mirrored", "piece")
	p := &layout.Pattern{Name: top.text("name", "the name of the binding in quotes"), Note: top.maybeText("note")}
	readUnit(top)
	p.Invented, p.Mirrored = top.flag("invented"), top.flag("mirrored")
	for _, piece := range top.tables("piece") {
		p.Pieces = append(p.Pieces, readPiece(piece))
	}
	if d.err != nil {
		return nil, d.err
	}
	if err := p.Check(); err != nil {
		return nil, d.located(err)
	}
	return p, nil
}

func readPiece(t *table) layout.Piece {
	t.only("kind", "anchor", "from", "to", "sole_min", "sole_max", "track_fore", "track_aft", "track_sole", "hole")
	piece := layout.Piece{
		Kind:   layout.PieceKind(t.choice("kind", words(layout.PieceKinds())...)),
		Anchor: layout.Anchor(t.choice("anchor", words(layout.Anchors())...)),
		From:   t.length("from"), To: t.length("to"),
		SoleMin: t.length("sole_min"), SoleMax: t.length("sole_max"),
		TrackFore: t.maybeLength("track_fore"), TrackAft: t.maybeLength("track_aft"), TrackSole: t.maybeLength("track_sole"),
	}
	for _, hole := range t.tables("hole") {
		piece.Holes = append(piece.Holes, readHole(hole))
	}
	return piece
}

func readHole(t *table) layout.PatternHole {
	t.only("order", "x", "y", "diameter", "depth", "bite", "class", "locking")
	return layout.PatternHole{
		Order: t.count("order"), X: t.length("x"), Y: t.length("y"),
		Diameter: t.length("diameter"), Depth: t.length("depth"), Bite: t.length("bite"),
		Class: layout.Class(t.choice("class", words(layout.Classes())...)), Locking: t.flag("locking"),
	}
}

// located puts the place in the file in front of a fault of the pattern.
func (d *document) located(err error) error {
	var fault *calc.Fault
	if !errors.As(err, &fault) {
		return err
	}
	return d.fault(d.line(fault.Field), fault.Field, "%s", fault.Sentence)
}

// words are the values of a kind as texts.
func words[T ~string](values []T) []string {
	out := make([]string, len(values))
	for i, v := range values {
		out[i] = string(v)
	}
	return out
}

// readUnit asks for the unit, so that a file in inches or cm is not read as mm.
func readUnit(t *table) {
	if unit := t.text("unit", `"mm"`); unit != "mm" && t.d.err == nil {
		t.d.wrong("unit", "%q is not the unit of this format: all lengths are in \"mm\".", unit)
	}
}
