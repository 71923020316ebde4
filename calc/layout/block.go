package layout

import "math"

// blocks collects the stretches at which something stands against the layout.
func (s *Spec) blocks(window Interval) []Block {
	onMark := s.Mount
	onMark.Shift = 0
	n := s.Pattern.holes()
	list := blockList{rules: s.Rules, window: window}
	list.pieces(s, onMark)
	holes := make([]Hole, 0, 2*n)
	for i, side := range Sides() {
		holes = s.holes(holes, side, onMark)
		list.ski(s.Ski(side), holes[i*n:])
	}
	return list.blocks
}

// blockList grows stretch by stretch; those outside the window are left out.
type blockList struct {
	rules  Rules
	window Interval
	blocks []Block
}

func (l *blockList) add(from, to mm, c Clash) {
	if from < to && from <= l.window.To && to >= l.window.From {
		l.blocks = append(l.blocks, Block{From: from, To: to, Clash: c})
	}
}

// needs adds the shifts at which a + b*s is below zero, for b of -1, 0 or 1.
func (l *blockList) needs(a, b mm, c Clash) {
	never, always := mm(math.Inf(-1)), mm(math.Inf(1))
	switch {
	case b > 0:
		l.add(never, -a, c)
	case b < 0:
		l.add(a, always, c)
	case a < -slack:
		l.add(never, always, c)
	}
}

// pieces adds what the pieces themselves stand against.
func (l *blockList) pieces(s *Spec, onMark Mount) {
	for i := range s.Pattern.Pieces {
		for _, c := range s.offTemplate(nil, &s.Pattern.Pieces[i], onMark) {
			l.needs(-1, 0, c)
		}
	}
	toe, heel := s.Pattern.Piece(Toe), s.Pattern.Piece(Heel)
	for _, piece := range [2]*Piece{toe, heel} {
		// A piece that stays behind on the mark must slide after the boot.
		slides := mm(0)
		if piece.Anchor == MountMark {
			slides = 1
		}
		left := travel(piece, onMark)
		c := Clash{Kind: OffTrack, Piece: piece.Kind}
		l.needs(left.Fore, -slides, c)
		l.needs(left.Back, slides, c)
	}
	l.needs(s.gap(onMark), moves(toe)-moves(heel), Clash{Kind: Overlap, Piece: Toe})
}

// moves is how far a piece moves when the mount point moves by 1.
func moves(p *Piece) mm {
	if p.Anchor == MountMark {
		return 0
	}
	return 1
}

// ski adds what the holes of one ski stand against, for holes with the boot on
// the mark.
func (l *blockList) ski(ski *Ski, holes []Hole) {
	for i := range holes {
		h := &holes[i]
		l.edge(ski.Width, h)
		for j := range ski.Old {
			l.old(h, j, &ski.Old[j])
		}
		for j := range i {
			l.own(h, &holes[j])
		}
	}
}

func (h *Hole) clash(kind ClashKind, other int, needs mm) Clash {
	return Clash{Kind: kind, Side: h.Side, Piece: h.Piece, Hole: h.N, Other: other, Needs: needs}
}

func (l *blockList) old(h *Hole, j int, o *OldHole) {
	u, v := h.X-o.X, h.Y-o.Y
	if abs(v) >= l.rules.Apart {
		return
	}
	c := h.clash(NearOldHole, j+1, l.rules.Apart)
	again := l.rules.fits(h, o)
	if !again && abs(v) <= l.rules.Same+slack {
		c = h.clash(WideOldHole, j+1, h.Diameter+l.rules.Wider)
	}
	if h.stays {
		apart := distance(u, v)
		if apart < l.rules.Apart-slack && (apart > l.rules.Same+slack || !again) {
			l.needs(-1, 0, c)
		}
		return
	}
	outer := half(l.rules.Apart, v)
	if !again || abs(v) > l.rules.Same+slack {
		l.add(-u-outer, -u+outer, c)
		return
	}
	inner := half(l.rules.Same, v)
	l.add(-u-outer, -u-inner, c)
	l.add(-u+inner, -u+outer, c)
}

func (l *blockList) own(h, earlier *Hole) {
	if h.piece == earlier.piece {
		return
	}
	c := h.clash(NearHole, earlier.N, l.rules.Apart)
	u, v := h.X-earlier.X, h.Y-earlier.Y
	if h.stays == earlier.stays {
		if distance(u, v) < l.rules.Apart-slack {
			l.needs(-1, 0, c)
		}
		return
	}
	if h.stays {
		u = -u // it is the earlier one that moves
	}
	if abs(v) < l.rules.Apart {
		outer := half(l.rules.Apart, v)
		l.add(-u-outer, -u+outer, c)
	}
}

// half is half the length of the chord that a circle cuts out of a line that
// passes its centre at a distance; 0 if it passes beside.
func half(radius, beside mm) mm {
	return mm(math.Sqrt(max(0, float64((radius-beside)*(radius+beside)))))
}

// edge adds the shifts at which a hole comes too near to the edge, and those at
// which it leaves the places where the ski was measured.
func (l *blockList) edge(w Width, h *Hole) {
	if !w.Known() {
		return
	}
	needs := abs(h.Y) + l.rules.Edge
	tooNear, unknown := h.clash(NearEdge, 0, l.rules.Edge), h.clash(NoWidth, 0, 0)
	switch {
	case w.profile == nil:
		l.needs(w.waist/2-needs, 0, tooNear)
	case h.stays:
		width, ok := w.At(h.X)
		if !ok {
			l.needs(-1, 0, unknown)
			return
		}
		l.needs(width/2-needs, 0, tooNear)
	default:
		last := w.profile[len(w.profile)-1]
		l.add(mm(math.Inf(-1)), w.profile[0].X-h.X, unknown)
		l.add(last.X-h.X, mm(math.Inf(1)), unknown)
		l.narrow(w.profile, 2*needs, h.X, tooNear)
	}
}

// narrow adds the stretches in which a profile is narrower than a hole at x
// needs. A stretch that begins or ends with the profile runs on, so that no
// point is left between it and what was not measured.
func (l *blockList) narrow(profile []WidthAt, needs, x mm, c Clash) {
	from := mm(math.Inf(-1))
	for i := 1; i < len(profile); i++ {
		a, b := profile[i-1], profile[i]
		if (a.Width < needs) == (b.Width < needs) {
			continue
		}
		crossing := a.X + (needs-a.Width)*(b.X-a.X)/(b.Width-a.Width)
		if b.Width < needs {
			from = crossing
			continue
		}
		l.add(from-x, crossing-x, c)
	}
	if profile[len(profile)-1].Width < needs {
		l.add(from-x, mm(math.Inf(1)), c)
	}
}
