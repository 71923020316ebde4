package layout

import (
	"fmt"
	"math"
	"slices"
	"strconv"

	"drillstop/calc"
	"drillstop/calc/quantity"
)

// Interval is a closed stretch, in mm.
type Interval struct{ From, To mm }

// Contains says whether a value lies in the interval, ends included.
func (i Interval) Contains(v mm) bool { return inRange(v, i.From-slack, i.To+slack) }

// String prints the interval as "-4.5 to 3.0 mm".
func (i Interval) String() string {
	return strconv.FormatFloat(float64(i.From), 'f', 1, 64) + " to " + short(i.To)
}

// DefaultWindow is how far a mount point is usually moved at most: 20 mm back
// to 20 mm forward (our rule, no source).
func DefaultWindow() Interval { return Interval{-20, 20} }

// Block is a stretch of shifts, without its ends, at which one pair stands
// against the layout. Its clash has no distance, since that changes along the
// stretch; an end may be infinite.
type Block struct {
	From, To mm
	Clash    Clash
}

// Finding says which pair blocks, and where within the window.
func (b Block) Finding(window Interval) calc.Finding {
	from, to := max(b.From, window.From), min(b.To, window.To)
	return calc.Stopf("layout.blocked", b.Clash.source(), "From %s to %s: %s.", ShiftText(from), ShiftText(to), b.pair())
}

func (b Block) pair() string {
	c := b.Clash
	switch c.Kind {
	case NearOldHole:
		return fmt.Sprintf("hole %d %s lies too near to old hole %d", c.Hole, c.Side, c.Other)
	case WideOldHole:
		return fmt.Sprintf("hole %d %s lies too near to old hole %d, which is too wide to be used again", c.Hole, c.Side, c.Other)
	case NearHole:
		return fmt.Sprintf("holes %d and %d %s, of two pieces, lie too near", c.Hole, c.Other, c.Side)
	case NearEdge:
		return fmt.Sprintf("hole %d %s lies too near to the edge", c.Hole, c.Side)
	case NoWidth:
		return fmt.Sprintf("hole %d %s lies beyond the measured width of the ski", c.Hole, c.Side)
	case OffTemplate:
		return fmt.Sprintf("the sole is beyond the template of the %s", c.Piece)
	case OffTrack:
		return fmt.Sprintf("the %s stands beyond its track", c.Piece)
	case Overlap:
	}
	return "toe and heel piece overlap"
}

// Shifts are all shifts of a window at which everything clears.
type Shifts struct {
	Window Interval
	Clear  []Interval // from the rear to the front; an end may be one point
	// Blockers is empty if a shift clears. Otherwise it is a shortest list of
	// stretches that together leave no shift of the window: a single one if
	// one pair blocks everything.
	Blockers []Block
}

// Shifts finds all shifts of the mount point within a window at which nothing
// stands against the layout. The shift of the mount itself does not count.
//
// For a hole that moves with the mount point and lies u in front of an old hole
// and v beside it, the distance at shift s is sqrt((u+s)^2 + v^2). It is less
// than the least distance d for
//
//	-u - sqrt(d^2-v^2)  <  s  <  -u + sqrt(d^2-v^2)
//
// and within it, with the tolerance of re-use instead of d, lies the stretch at
// which the old hole is used again. Edges, tracks and overlaps are linear in s.
//
// It fails as Check does, and with code "layout.window" for a window that is
// empty or reaches beyond 200 mm.
func (s *Spec) Shifts(window Interval) (Shifts, error) {
	if err := s.Check(); err != nil {
		return Shifts{}, err
	}
	if !inRange(window.From, -farthestShift, window.To) || !inRange(window.To, window.From, farthestShift) {
		return Shifts{}, refuse("layout.window", "window", "The window for the shift runs from %s to %s: it must lie within %s to %s.",
			window.From, window.To, -farthestShift, farthestShift)
	}
	blocks := s.blocks(window)
	slices.SortFunc(blocks, func(a, b Block) int {
		switch {
		case a.From < b.From:
			return -1
		case a.From > b.From:
			return 1
		}
		return 0
	})
	found := Shifts{Window: window, Clear: between(blocks, window)}
	if len(found.Clear) == 0 {
		found.Blockers = cover(blocks, window)
	}
	return found, nil
}

// between is what sorted open stretches leave of a window.
func between(blocks []Block, window Interval) []Interval {
	var free []Interval
	at := window.From
	for _, b := range blocks {
		if b.From > window.To {
			break
		}
		if b.From >= at {
			free = append(free, Interval{at, b.From})
		}
		at = max(at, b.To)
	}
	if at <= window.To {
		free = append(free, Interval{at, window.To})
	}
	return free
}

// cover picks a shortest list out of sorted stretches that leave nothing of a
// window: at each point the stretch that reaches farthest.
func cover(blocks []Block, window Interval) []Block {
	var chosen []Block
	at, i := window.From, 0
	for at <= window.To && i < len(blocks) {
		best := -1
		for ; i < len(blocks) && blocks[i].From < at; i++ {
			if best < 0 || blocks[i].To > blocks[best].To {
				best = i
			}
		}
		if best < 0 || blocks[best].To <= at {
			return chosen
		}
		chosen = append(chosen, blocks[best])
		at = blocks[best].To
	}
	return chosen
}

// Has says whether a shift clears.
func (s Shifts) Has(shift mm) bool {
	return slices.ContainsFunc(s.Clear, func(i Interval) bool { return i.Contains(shift) })
}

// Offers returns for each clear stretch the shift that lies nearest to the
// wish, the nearest first; of two equally near ones the one nearer to the mark,
// then the one further back. A wish that clears is the first. Other shifts are
// rounded to the tenth of a millimetre that still clears, where there is one.
func (s Shifts) Offers(wish quantity.Millimetre) []quantity.Millimetre {
	offers := make([]mm, len(s.Clear))
	for i, free := range s.Clear {
		offers[i] = free.nearest(wish)
	}
	slices.SortStableFunc(offers, func(a, b mm) int {
		if da, db := abs(a-wish), abs(b-wish); abs(da-db) > slack {
			return sign(da - db)
		}
		return sign(abs(a) - abs(b))
	})
	return offers
}

// Nearest is the first of the Offers, false if nothing clears.
func (s Shifts) Nearest(wish quantity.Millimetre) (quantity.Millimetre, bool) {
	if offers := s.Offers(wish); len(offers) > 0 {
		return offers[0], true
	}
	return 0, false
}

// Forward is the nearest clear shift in front of a shift that does not clear,
// or the begin of the next clear stretch; false if there is none.
func (s Shifts) Forward(from quantity.Millimetre) (quantity.Millimetre, bool) {
	for _, free := range s.Clear {
		if free.From > from+slack {
			return free.nearest(from), true
		}
	}
	return 0, false
}

// Back is the nearest clear shift behind a shift that does not clear, or the
// end of the next clear stretch; false if there is none.
func (s Shifts) Back(from quantity.Millimetre) (quantity.Millimetre, bool) {
	for _, free := range slices.Backward(s.Clear) {
		if free.To < from-slack {
			return free.nearest(from), true
		}
	}
	return 0, false
}

// nearest is the point of the interval nearest to a wish, rounded into the
// interval to a tenth of a millimetre if it holds one and the wish lies beside.
func (i Interval) nearest(wish mm) mm {
	const perMm = 10
	up := mm(math.Ceil(float64(i.From)*perMm-slack) / perMm)
	down := mm(math.Floor(float64(i.To)*perMm+slack) / perMm)
	switch {
	case i.Contains(wish):
		return wish
	case wish < i.From && up <= i.To+slack:
		return up + 0 // a zero without a sign
	case wish < i.From:
		return i.From
	case down >= i.From-slack:
		return down + 0
	}
	return i.To
}

// ShiftText says a shift as "4.5 mm back", "12.0 mm forward" or "0 mm": to a
// tenth of a millimetre, and to a hundredth where it is no whole tenth.
func ShiftText(shift mm) string {
	text, way := short(abs(shift)), " forward"
	if tenths := float64(shift) * 10; math.Abs(tenths-math.Round(tenths)) > 1e-6 {
		text = strconv.FormatFloat(math.Abs(float64(shift)), 'f', 2, 64) + " mm"
	}
	switch {
	case shift == 0:
		return "0 mm"
	case shift < 0:
		way = " back"
	}
	return text + way
}

func abs(v mm) mm { return max(v, -v) }

func sign(v mm) int {
	switch {
	case v < -slack:
		return -1
	case v > slack:
		return 1
	}
	return 0
}
