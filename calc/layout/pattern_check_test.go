package layout_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"drillstop/calc/layout"
)

func TestPatternsThatCannotBeUsed(t *testing.T) {
	t.Parallel()
	nan := mm(math.NaN())
	for _, c := range []struct {
		field, want string
		change      func(*layout.Pattern)
	}{
		{"name", "The pattern has no name.", func(p *layout.Pattern) { p.Name = " " }},
		{"name", "The name of the pattern has 61 letters: at most 60 are possible.", func(p *layout.Pattern) { p.Name = strings.Repeat("x", 61) }},
		{"name", "The name of the pattern holds a character that cannot be printed.", func(p *layout.Pattern) { p.Name = "a\x1b[2J" }},
		{"note", "The note of the pattern has 401 letters: at most 400 are possible.", func(p *layout.Pattern) { p.Note = strings.Repeat("x", 401) }},
		{"piece", "The pattern has no heel piece: it needs a toe and a heel.", func(p *layout.Pattern) { p.Pieces = p.Pieces[:1] }},
		{"piece", "No piece of the pattern has a hole.", func(p *layout.Pattern) { p.Pieces[0].Holes, p.Pieces[1].Holes = nil, nil }},
		{"piece", "Toe and heel take no common sole length: the toe takes 260 mm to 280 mm, the heel 300 mm to 380 mm.",
			func(p *layout.Pattern) { p.Pieces[0].SoleMax, p.Pieces[1].SoleMin = 280, 300 }},
		{"piece[1].kind", `"tow" is not a kind of piece: toe, heel, brake or plate.`, func(p *layout.Pattern) { p.Pieces[0].Kind = "tow" }},
		{"piece[2].kind", "The pattern has two toe pieces: one of each kind is possible.", func(p *layout.Pattern) { p.Pieces[1].Kind = layout.Toe }},
		{"piece[1].anchor", `"boot" is not an anchor: boot toe, boot heel, boot midsole or ski mount mark.`, func(p *layout.Pattern) { p.Pieces[0].Anchor = "boot" }},
		{"piece[1].from", "The toe ends -451 mm from its anchor: -450 mm to 450 mm is possible.", func(p *layout.Pattern) { p.Pieces[0].From = -451 }},
		{"piece[1].to", "The toe ends NaN mm from its anchor: -450 mm to 450 mm is possible.", func(p *layout.Pattern) { p.Pieces[0].To = nan }},
		{"piece[1].to", "The toe ends at -60 mm, which is not in front of its rear end at -60 mm.", func(p *layout.Pattern) { p.Pieces[0].To = -60 }},
		{"piece[2].sole_min", "A sole of 25 mm is none: 150 mm to 400 mm is possible.", func(p *layout.Pattern) { p.Pieces[1].SoleMin = 25 }},
		{"piece[2].sole_max", "A sole of 401 mm is none: 150 mm to 400 mm is possible.", func(p *layout.Pattern) { p.Pieces[1].SoleMax = 401 }},
		{"piece[2].sole_max", "The longest sole, 240 mm, is shorter than the shortest, 250 mm.", func(p *layout.Pattern) { p.Pieces[1].SoleMax = 240 }},
		{"piece[2].track_aft", "A track of -1 mm is none: 0 to 120 mm is possible.", func(p *layout.Pattern) { p.Pieces[1].TrackAft = -1 }},
		{"piece[2].track_fore", "A plate does not hold the boot: only toe and heel slide on a track.", func(p *layout.Pattern) { p.Pieces[1].Kind = layout.Plate }},
		{"piece[2].track_sole", "The heel is anchored at the boot midsole and slides: track_sole, the sole length for which it stands on the zero of its track, must be 150 mm to 400 mm, not 0 mm.",
			func(p *layout.Pattern) { p.Pieces[1].Anchor = layout.BootMidsole }},
		{"piece[2].track_sole", "track_sole says nothing here: the heel does not slide, or stands on zero for the sole it is drilled for.", func(p *layout.Pattern) { p.Pieces[1].TrackSole = 320 }},
		{"piece[1].sole_max", "The toe is anchored at the boot midsole and does not slide: it fits one sole length alone, not 260 mm to 380 mm.", func(p *layout.Pattern) { p.Pieces[0].Anchor = layout.BootMidsole }},
		{"piece[3].hole", "The brake has no hole: leave it out.", func(p *layout.Pattern) {
			p.Pieces = append(p.Pieces, layout.Piece{Kind: layout.Brake, Anchor: layout.BootHeel, From: 0, To: 9, SoleMin: 250, SoleMax: 380})
		}},
		{"piece[1].hole", "The toe has 17 holes: at most 16 are possible.", func(p *layout.Pattern) { p.Pieces[0].Holes = make([]layout.PatternHole, 17) }},
		{"piece[1].hole[2].x", "The x of hole 2 of the toe is 25 mm: -60 mm to 20 mm is possible.", func(p *layout.Pattern) { p.Pieces[0].Holes[1].X = 25 }},
		{"piece[1].hole[2].y", "The y of hole 2 of the toe is 61 mm: -60 mm to 60 mm is possible.", func(p *layout.Pattern) { p.Pieces[0].Holes[1].Y = 61 }},
		{"piece[1].hole[1].diameter", "The diameter of hole 1 of the toe is 41 mm: 2 mm to 12 mm is possible.", func(p *layout.Pattern) { p.Pieces[0].Holes[0].Diameter = 41 }},
		{"piece[1].hole[1].depth", "The depth of hole 1 of the toe is NaN mm: 3 mm to 20 mm is possible.", func(p *layout.Pattern) { p.Pieces[0].Holes[0].Depth = nan }},
		{"piece[1].hole[1].bite", "The bite of hole 1 of the toe is 0 mm: 0.1 mm to 20 mm is possible.", func(p *layout.Pattern) { p.Pieces[0].Holes[0].Bite = 0 }},
		{"piece[1].hole[1].class", `"wood" is not a class of hole: marked (the ski's own marking wins) or fixed.`, func(p *layout.Pattern) { p.Pieces[0].Holes[0].Class = "wood" }},
		// 2 mm apart, and each 4.1 mm wide.
		{"piece[1].hole[3].x", "Holes 2 and 3 of the toe lie 2.0 mm apart and run into each other: at least 4.1 mm is needed.", func(p *layout.Pattern) { p.Pieces[0].Holes[2].Y = 18 }},
		{"piece[1].hole[2].order", "Hole 2 of the toe is number 4 in the screw order: 1 to 3 is possible.", func(p *layout.Pattern) { p.Pieces[0].Holes[1].Order = 4 }},
		{"piece[1].hole[3].order", "Holes 2 and 3 of the toe are both number 2 in the screw order.", func(p *layout.Pattern) { p.Pieces[0].Holes[2].Order = 2 }},
		{"piece[1].hole[3].order", "The locking screw in hole 3 of the toe is number 3 in the screw order: locking screws come first.", func(p *layout.Pattern) { p.Pieces[0].Holes[2].Locking = true }},
	} {
		p := alpine()
		c.change(p)
		fault := faultOf(t, p.Check())
		assert.Equal(t, c.want, fault.Sentence)
		assert.Equal(t, c.field, fault.Field, c.want)
		assert.Equal(t, "layout.pattern", fault.Code)
	}
	assert.NoError(t, alpine().Check())
}

func TestAPieceWithoutHolesSlidesOnAPlate(t *testing.T) {
	t.Parallel()
	p := alpine()
	p.Pieces[0].Holes = nil
	p.Pieces = append(p.Pieces, layout.Piece{
		Kind: layout.Plate, Anchor: layout.BootMidsole, From: -50, To: 50, SoleMin: 250, SoleMax: 380, Holes: []layout.PatternHole{hole(1, 0, 0)},
	})
	assert.NoError(t, p.Check())
}
