package layout

import "drillstop/calc"

// Plan is a layout: where every hole falls and what stands against it.
type Plan struct {
	Mount   Mount
	Holes   []Hole // the left ski's first, each ski's by number
	Clashes []Clash
	Toe     Travel   // left on the track of the toe piece
	Heel    Travel   // left on the track of the heel piece
	Boots   Interval // the sole lengths that this mount takes
	open    [2]int   // old holes that are open and not used again, by side
	reused  [2]int
	edges   [2]bool // the distance to the edge was checked
}

// Plan lays the pattern out. It fails as Check does.
func (s *Spec) Plan() (Plan, error) {
	if err := s.Check(); err != nil {
		return Plan{}, err
	}
	toe, heel := s.Pattern.Piece(Toe), s.Pattern.Piece(Heel)
	n := s.Pattern.holes()
	p := Plan{
		Mount: s.Mount, Holes: make([]Hole, 0, 2*n), Clashes: s.pieceClashes(s.Mount),
		Toe: travel(toe, s.Mount), Heel: travel(heel, s.Mount), Boots: s.boots(),
	}
	for i, side := range Sides() {
		p.Holes = s.holes(p.Holes, side, s.Mount)
		p.judge(s, i, p.Holes[i*n:])
	}
	return p, nil
}

// On returns the holes of one ski.
func (p Plan) On(side Side) []Hole {
	half := len(p.Holes) / 2
	if side == Left {
		return p.Holes[:half]
	}
	return p.Holes[half:]
}

// Clear says whether nothing stands against the layout.
func (p Plan) Clear() bool { return len(p.Clashes) == 0 }

// judge finds what stands against the holes of one ski.
func (p *Plan) judge(s *Spec, at int, holes []Hole) {
	side := Sides()[at]
	ski := s.Ski(side)
	p.edges[at] = ski.Width.Known()
	var used [mostOld]bool
	for i := range holes {
		h := &holes[i]
		p.edge(s, ski, h)
		for j := range ski.Old {
			if p.old(s.Rules, h, j, &ski.Old[j]) {
				used[j] = true
			}
		}
		for j := range i {
			p.own(s.Rules, h, &holes[j])
		}
	}
	for i := range holes {
		switch h := &holes[i]; {
		case h.clashWith:
			h.Fate = Clashing
		case h.Reuses > 0:
			h.Fate = Reused
			p.reused[at]++
		}
	}
	for j := range ski.Old {
		if !used[j] && !ski.Old[j].Plugged {
			p.open[at]++
		}
	}
}

// clash keeps a clash of a hole.
func (p *Plan) clash(h *Hole, c Clash) {
	c.Side, c.Piece, c.Hole = h.Side, h.Piece, h.N
	h.clashWith = true
	p.Clashes = append(p.Clashes, c)
}

func (p *Plan) edge(s *Spec, ski *Ski, h *Hole) {
	if !ski.Width.Known() {
		return
	}
	width, ok := ski.Width.At(h.X)
	if !ok {
		p.clash(h, Clash{Kind: NoWidth})
		return
	}
	if left := width/2 - max(h.Y, -h.Y); left < s.Rules.Edge-slack {
		p.clash(h, Clash{Kind: NearEdge, Distance: left, Needs: s.Rules.Edge})
	}
}

// old compares a hole with an old one and says whether it is used again.
func (p *Plan) old(r Rules, h *Hole, j int, o *OldHole) bool {
	dx, dy := h.X-o.X, h.Y-o.Y
	if max(dx, -dx) >= r.Apart || max(dy, -dy) >= r.Apart {
		return false
	}
	switch apart := distance(dx, dy); {
	case apart > r.Same+slack && apart < r.Apart-slack:
		p.clash(h, Clash{Kind: NearOldHole, Other: j + 1, Distance: apart, Needs: r.Apart})
	case apart > r.Same+slack:
	case !r.fits(h, o):
		p.clash(h, Clash{Kind: WideOldHole, Other: j + 1, Distance: o.Diameter, Needs: h.Diameter + r.Wider})
	default:
		h.Reuses = j + 1
		return true
	}
	return false
}

// own compares two holes of this mount. Holes of one piece lie as its maker
// put them.
func (p *Plan) own(r Rules, h, earlier *Hole) {
	if h.piece == earlier.piece {
		return
	}
	if apart := distance(h.X-earlier.X, h.Y-earlier.Y); apart < r.Apart-slack {
		earlier.clashWith = true
		p.clash(h, Clash{Kind: NearHole, Other: earlier.N, Distance: apart, Needs: r.Apart})
	}
}

// Findings says the plan in sentences: a stop for each clash, then what is to
// be known and done.
func (p Plan) Findings() []calc.Finding {
	var found []calc.Finding
	for _, c := range p.Clashes {
		found = append(found, c.Finding())
	}
	for i, side := range Sides() {
		if !p.edges[i] {
			found = append(found, calc.Cautionf("layout.edge-unknown", ourRule,
				"The width of the %s ski is not known: the distance of its holes to the edge was not checked.", side))
		}
		if n := p.open[i]; n > 0 {
			found = append(found, calc.Cautionf("layout.open", practice,
				"%s open and not used again: plug %s before drilling.", oldOn(side, n), itOrThem(n)))
		}
		if n := p.reused[i]; n > 0 {
			found = append(found, calc.Notef("layout.re-used", ourRule,
				"%s used again: look at the wood in %s before it holds a screw.", oldOn(side, n), itOrThem(n)))
		}
	}
	return found
}
