package layout

import (
	"drillstop/calc/quantity"
)

// Chord lengths of skis, straight from tail to tip in mm; our own limits.
const shortestChord, longestChord mm = 600, 2300

// MountPoint is a place on the ski where the boot's midsole can lie.
type MountPoint struct {
	FromTail   mm // along the chord
	FromCentre mm // in front of the middle of the chord; negative is back
}

// FromCentre is the mount point that lies a length in front of the middle of
// the chord, negative for back. A chord outside 600 to 2300 mm, or a point in
// the first or last tenth of it, is a *calc.Fault of code "layout.mount-point".
func FromCentre(chord, offset mm) (MountPoint, error) {
	if err := checkChord(chord); err != nil {
		return MountPoint{}, err
	}
	return mountPoint(chord, chord/2+offset)
}

// FromTail is the mount point that lies a length from the tail: a mark that was
// measured. It fails as FromCentre does.
func FromTail(chord, mark mm) (MountPoint, error) {
	if err := checkChord(chord); err != nil {
		return MountPoint{}, err
	}
	return mountPoint(chord, mark)
}

// Moved is the mount point moved forward by a shift, negative for back, on a
// ski of a chord length. It fails as FromCentre does.
func (m MountPoint) Moved(chord, shift mm) (MountPoint, error) {
	return FromTail(chord, m.FromTail+shift)
}

// String says the point in mm from the tail and in cm from the middle: "812 mm
// from the tail, 7.8 cm back of the middle".
func (m MountPoint) String() string {
	text := quantity.Print(float64(tidy(m.FromTail)), quantity.MM) + " from the tail, "
	off := quantity.Print(float64(tidy(abs(m.FromCentre)/10)), quantity.CM)
	switch {
	case m.FromCentre < 0:
		return text + off + " back of the middle"
	case m.FromCentre > 0:
		return text + off + " in front of the middle"
	}
	return text + "in the middle"
}

func checkChord(chord mm) error {
	if !inRange(chord, shortestChord, longestChord) {
		return refuse("layout.mount-point", "chord", "A ski of %s is none: %s to %s is possible.", chord, shortestChord, longestChord)
	}
	return nil
}

func mountPoint(chord, fromTail mm) (MountPoint, error) {
	if !inRange(fromTail, chord/10, chord*9/10) {
		return MountPoint{}, refuse("layout.mount-point", "mark",
			"A mount point %s from the tail of a ski of %s lies at its end: %s to %s is possible.", tidy(fromTail), chord, tidy(chord/10), tidy(chord*9/10))
	}
	return MountPoint{FromTail: fromTail, FromCentre: fromTail - chord/2}, nil
}
