package layout

import (
	"drillstop/calc"
)

// How far the marks of a pair may differ; our own rules, no source. A rule in
// the workshop reads to half a millimetre, twice.
const (
	marksAlike  mm = 1
	marksNoPair mm = 5
)

// Marks are the mount marks of a pair, compared.
type Marks struct {
	Difference mm // left less right
	// LeftOff and RightOff are how far each ski's boot sits in front of the
	// middle of both marks, if each is mounted on its own mark.
	LeftOff, RightOff mm
	// Left and Right are the corrections (Ski.Correction) with which both
	// boots sit alike, each moved by half.
	Left, Right mm
	Findings    []calc.Finding
}

// Limits of a mark's distance from the tail in mm; our own, no source.
const nearestMark, farthestMark mm = 200, 1500

// PairMarks compares the mount marks of both skis, each measured from the tail
// along the topsheet. A distance outside 200 to 1500 mm is a *calc.Fault of
// code "layout.mark".
func PairMarks(left, right mm) (Marks, error) {
	for _, m := range []struct {
		side Side
		at   mm
	}{{Left, left}, {Right, right}} {
		if !inRange(m.at, nearestMark, farthestMark) {
			return Marks{}, refuse("layout.mark", string(m.side), "The mount mark of the %s ski lies %s from the tail: %s to %s is possible.", m.side, m.at, nearestMark, farthestMark)
		}
	}
	off := (left - right) / 2
	marks := Marks{Difference: left - right, LeftOff: off, RightOff: -off, Left: -off, Right: off}
	apart := abs(marks.Difference)
	switch {
	case apart <= marksAlike+slack:
	case apart <= marksNoPair+slack:
		marks.Findings = append(marks.Findings, calc.Cautionf("layout.marks", ourRule,
			"The mount marks differ by %s, so the %s boot would sit that far in front of the other. Measure both again from the tail; if it stays, mount the left ski %s of its mark and the right ski %s.",
			short(apart), front(marks.Difference), ShiftText(marks.Left), ShiftText(marks.Right)))
	default:
		marks.Findings = append(marks.Findings, calc.Stopf("layout.marks", ourRule,
			"The mount marks differ by %s (at most %s): measure both again from the tail, and see whether the two skis are a pair.", short(apart), short(marksNoPair)))
	}
	return marks, nil
}

func front(difference mm) Side {
	if difference > 0 {
		return Left
	}
	return Right
}
