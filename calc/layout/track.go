package layout

// Travel is how far a piece can still slide on its track; a negative length is
// how far it stands beyond the end.
type Travel struct{ Fore, Back mm }

// travel is what a boot leaves a toe or heel piece of its track.
//
// The piece must stand at its end of the boot. On zero it stands where it would
// stand for the sole of the track's zero, seen from its anchor.
func travel(piece *Piece, mount Mount) Travel {
	end := mount.BootToe()
	if piece.Kind == Heel {
		end = mount.BootHeel()
	}
	forward := end - zero(piece, mount)
	return Travel{Fore: piece.TrackFore - forward, Back: piece.TrackAft + forward}
}

// zero is the end of a boot that the piece holds with its slider on the zero of
// the track.
func zero(piece *Piece, mount Mount) mm {
	at := mount.anchor(piece.Anchor)
	if piece.atItsEnd() {
		return at
	}
	sole := piece.TrackSole
	if !piece.slides() {
		sole = piece.SoleMin // the only one it takes
	}
	boot := Mount{Sole: sole}
	if piece.Kind == Heel {
		return at + boot.BootHeel() - boot.anchor(piece.Anchor)
	}
	return at + boot.BootToe() - boot.anchor(piece.Anchor)
}

// boots are the sole lengths that the mount takes without a new hole: the toe
// slides between its ends, the heel between its own, and both templates know
// the sole. The interval is empty (From above To) if there is none.
func (s *Spec) boots() Interval {
	toe, heel := s.Pattern.Piece(Toe), s.Pattern.Piece(Heel)
	apart := zero(toe, s.Mount) - zero(heel, s.Mount)
	shortest, longest := s.Pattern.Soles()
	return Interval{
		From: max(apart-toe.TrackAft-heel.TrackFore, shortest),
		To:   min(apart+toe.TrackFore+heel.TrackAft, longest),
	}
}

// Shared says how one mount serves two boots.
type Shared struct {
	// HeelFor are the sole lengths that the heel piece can be drilled for, and
	// Best the one among them that leaves the heel the same travel at both
	// ends, or as near to it as the template allows. 0, if the pieces are not
	// set out by the sole.
	HeelFor Interval
	Best    mm
	// SecondOff is how far the second boot's midsole lies in front of the mark
	// when the first one's lies on it; negative is back.
	SecondOff mm
	// Share is the shift of the mount, set out for the first boot, at which
	// both midsoles lie equally far off the mark.
	Share mm
}

// Serve says where the heel piece has to be drilled so that one mount takes two
// boots, the mount being set out for the first. It fails with a *calc.Fault of
// code "layout.two-boots" if none does, or as Spec.Check does.
//
// A heel drilled for H slides back for longer soles and forward for shorter
// ones. For the longer sole a and the shorter b that means
//
//	a - aft  <=  H  <=  b + fore
func Serve(p *Pattern, first, second mm) (Shared, error) {
	for _, sole := range []mm{first, second} {
		spec := Spec{Pattern: p, Mount: Mount{Sole: sole}, Rules: DefaultRules()}
		if err := spec.Check(); err != nil {
			return Shared{}, err
		}
	}
	shorter, longer := min(first, second), max(first, second)
	if shortest, longest := p.Soles(); shorter < shortest || longer > longest {
		return Shared{}, refuse("layout.two-boots", "sole", "%s takes soles of %s to %s, not both %s and %s.", p.Name, shortest, longest, first, second)
	}
	shared := Shared{SecondOff: (first - second) / 2, Share: (second - first) / 4}
	toe, heel := p.Piece(Toe), p.Piece(Heel)
	if heel.Anchor != BootHeel || !toe.atItsEnd() {
		return shared, serveOnTracks(p, first, second)
	}
	shared.HeelFor = Interval{max(longer-heel.TrackAft, heel.SoleMin), min(shorter+heel.TrackFore, heel.SoleMax)}
	if shared.HeelFor.From > shared.HeelFor.To {
		return Shared{}, tooFarApart(p.Name, first, second, heel.TrackFore+heel.TrackAft)
	}
	even := (shorter + longer + heel.TrackFore - heel.TrackAft) / 2
	shared.Best = min(max(even, shared.HeelFor.From), shared.HeelFor.To)
	return shared, nil
}

// serveOnTracks asks whether pieces that are not set out by the sole take both
// boots where they are.
func serveOnTracks(p *Pattern, first, second mm) error {
	spec := Spec{Pattern: p, Mount: Mount{Sole: first}}
	boots := spec.boots()
	if boots.Contains(first) && boots.Contains(second) {
		return nil
	}
	return tooFarApart(p.Name, first, second, max(0, boots.To-boots.From))
}

func tooFarApart(name string, first, second, reach mm) error {
	return refuse("layout.two-boots", "sole", "Soles of %s and %s are %s apart: one mount of %s serves at most %s.",
		first, second, tidy(abs(first-second)), name, reach)
}
