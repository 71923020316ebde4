package steps

import (
	"math"

	"drillstop/calc"
	"drillstop/calc/layout"
	"drillstop/calc/quantity"
	"drillstop/workflow"
)

// fromChord is the mount point of one ski as its chord and the shift say, where
// it is measured from half the chord; false where the chord was not measured. It
// fails as layout.FromCentre does.
func fromChord(job workflow.Job, side workflow.Side) (layout.MountPoint, bool, error) {
	chord := millimetres(job, MountPoint, "chord", side)
	if chord == 0 || !job.Is(MountPoint, "reference", workflow.Both, referenceChord) {
		return layout.MountPoint{}, false, nil
	}
	point, err := layout.FromCentre(chord, millimetres(job, MountPoint, "offset", workflow.Both))
	return point, err == nil, err
}

// checkChord holds the computed mount point against the measured one.
func checkChord(job workflow.Job, side workflow.Side) []calc.Finding {
	point, ok, err := fromChord(job, side)
	if err != nil {
		return []calc.Finding{refused(ourRule, err)}
	}
	if !ok {
		return nil
	}
	measured := millimetres(job, MountPoint, "tail", side)
	computed := hundredths(point.FromTail)
	apart := math.Abs(float64(measured - point.FromTail))
	switch {
	case measured == 0 || apart <= tailsApartCaution+slack:
		return nil
	case apart <= tailsApartStop+slack:
		return []calc.Finding{calc.Cautionf("mount-point.chord", ourRule,
			"%s: by its chord the mount point lies %s from the tail, measured were %s: measure both again.", skiWord(side), computed, measured)}
	}
	return []calc.Finding{calc.Stopf("mount-point.chord", ourRule,
		"%s: by its chord the mount point lies %s from the tail, measured were %s: they may differ by %.0f mm at most; measure both again.",
		skiWord(side), computed, measured, tailsApartStop)}
}

// chordFigures are the mount points as the chords say.
func chordFigures(job workflow.Job) []workflow.Figure {
	left, okLeft, _ := fromChord(job, workflow.Left)
	right, okRight, _ := fromChord(job, workflow.Right)
	if !okLeft || !okRight {
		return nil
	}
	return []workflow.Figure{{
		Name: "mount_from_tail", Label: "by the chord",
		Value: forSkis(hundredths(left.FromTail).String(), hundredths(right.FromTail).String()),
		Path:  forSkis(left.String(), right.String()),
	}}
}

// centimetresToo is a shift in both units that the hand measures it with.
func centimetresToo(shift quantity.Millimetre) string {
	text := layout.ShiftText(shift)
	if shift == 0 {
		return text
	}
	return text + " (" + quantity.Print(math.Abs(float64(hundredths(shift/10))), quantity.CM) + ")"
}
