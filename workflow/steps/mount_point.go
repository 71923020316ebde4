package steps

import (
	"math"

	"drillstop/calc"
	"drillstop/calc/layout"
	"drillstop/calc/quantity"
	"drillstop/workflow"
)

// What the mount point is measured from.
const (
	referenceMark  = "mark"
	referenceChord = "chord centre"
)

// Limits of the layout, in mm. Our own.
const (
	tailsApartCaution = 1.0 // how far the two skis may differ before the hand pauses
	tailsApartStop    = 3.0 // and before the job is held
	offsetUsual       = 20.0
)

// Where on a ski a mount point lies, as a part of its length from the tail. Our
// own, generous; park skis stand near a half, old ones near 0.4.
const (
	mountPointFirst = 0.35
	mountPointLast  = 0.60
)

func mountPointStep() workflow.Step {
	return workflow.Step{
		ID: MountPoint, Phase: workflow.Layout, Title: "mount point", Kinds: mounts,
		Why: "Where the boot stands decides how the ski turns, and after the first hole it is settled for good. " +
			"Both skis are measured from the tail because the printed marks of a pair do not always agree, and a skier feels 3 mm between left and right. " +
			"Three marks must fall into one line: the middle of the boot sole, the centre of the template and the mark of the ski.",
		Cautions: []string{
			"Lay the skis base to base and compare before anything is drilled: a wrong mount point is a ruined pair.",
		},
		Fields: []workflow.Field{
			{
				ID: "reference", Label: "Measured from", Kind: workflow.Choice, Hint: "the ski's mark, else half the chord",
				Options: []workflow.Option{{Value: referenceMark, Label: "mark on the ski"}, {Value: referenceChord}},
			},
			{
				ID: "offset", Label: "Moved, + towards the tip", Kind: workflow.Number, Unit: quantity.MM, Min: -60, Max: 60,
				Hint: "mm, or cm with its unit; 0 is on the reference",
			},
			{
				ID: "chord", Label: "Chord, tail to tip", Kind: workflow.Number, Unit: quantity.MM, Min: 600, Max: 2300, PerSki: true,
				Optional: true, Hint: "straight line; where half the chord counts",
			},
			{
				ID: "tail", Label: "From tail to mount point", Kind: workflow.Number, Unit: quantity.MM, Min: 200, Max: 1400, PerSki: true,
				Hint: "along the base, tape pulled straight",
			},
			{
				ID: "aligned", Label: "Three marks in one line", Kind: workflow.Seen, PerSki: true,
				Hint: "boot midsole, template centre, ski mark",
			},
		},
		Needs: []workflow.StepID{Fit, OldHoles},
		Rests: []workflow.Rest{
			{On: Boots, Fields: []workflow.FieldID{"sole", "midsole"}, Because: "the boot sole or its midsole mark changed after the mount point was laid out"},
			onThisPair("the mount point was laid out"),
			{
				On: Skis, Fields: []workflow.FieldID{"marks", "waist", "old_holes"},
				Because: "the mark of the ski, its waist or its old holes changed after the mount point was laid out",
			},
			{
				On: Binding, Fields: []workflow.FieldID{"name", "kind", "pattern"},
				Because: "the binding or its hole pattern changed after the mount point was laid out",
			},
			{On: OldHoles, Redone: true, Because: "the old holes were written down anew after the mount point was laid out"},
		},
		Figures: mountFigures,
		Check:   checkMountPoint,
		Map: func(shop workflow.Shop, job workflow.Job, a workflow.Answers) (layout.Spec, bool) {
			return specOf(shop, job, mountOf(job, a), job.Answers(OldHoles))
		},
	}
}

func checkMountPoint(shop workflow.Shop, job workflow.Job) []workflow.Finding {
	tails := checkTails
	if _, ok := patternOf(shop, job); ok {
		tails = checkMarks
	}
	found := append(checkLayout(shop, job), workflow.On(workflow.Both, tails(job))...)
	found = append(found, workflow.On(workflow.Both, checkOffset(job))...)
	return append(found, onEach(func(side workflow.Side) []calc.Finding { return checkMountSide(job, side) })...)
}

// checkTails compares the two skis.
func checkTails(job workflow.Job) []calc.Finding {
	left, right := millimetres(job, MountPoint, "tail", workflow.Left), millimetres(job, MountPoint, "tail", workflow.Right)
	switch apart := math.Abs(float64(left - right)); {
	case apart > tailsApartStop+slack:
		return []calc.Finding{calc.Stopf("mount-point.unlike", ourRule,
			"The mount points lie %s from the tail on the left ski, %s on the right: they may differ by %.0f mm at most; measure both again.",
			left, right, tailsApartStop)}
	case apart > tailsApartCaution+slack:
		return []calc.Finding{calc.Cautionf("mount-point.apart", ourRule,
			"The mount points lie %s from the tail on the left ski, %s on the right: better within %.0f mm.", left, right, tailsApartCaution)}
	}
	return nil
}

func checkOffset(job workflow.Job) []calc.Finding {
	offset := millimetres(job, MountPoint, "offset", workflow.Both)
	if math.Abs(float64(offset)) <= offsetUsual+slack {
		return nil
	}
	return []calc.Finding{calc.Cautionf("mount-point.offset", ourRule,
		"The mount point is moved by %s, more than %.0f mm: ask the skier once more, and note why.", offset, offsetUsual)}
}

func checkMountSide(job workflow.Job, side workflow.Side) []calc.Finding {
	found := checkChord(job, side)
	if job.Is(MountPoint, "reference", workflow.Both, referenceMark) && job.Is(Skis, "marks", side, workflow.No) {
		found = append(found, calc.Stopf("mount-point.no-mark", ourRule,
			"%s: measured from a mark, but none was seen on this ski: measure from half the chord, or find the mark.", skiWord(side)))
	}
	tail := millimetres(job, MountPoint, "tail", side)
	length, ok := job.Number(Skis, "length", workflow.Both, quantity.MM)
	if !ok || tail == 0 {
		return found
	}
	low, high := length*mountPointFirst, length*mountPointLast
	switch at := float64(tail); {
	case at >= length:
		found = append(found, calc.Stopf("mount-point.beyond", ourRule,
			"%s: %s from the tail lies beyond the tip of a ski of %s: measure again; %.0f to %.0f mm is likely.",
			skiWord(side), tail, quantity.Print(length, quantity.MM), low, high))
	case at < low-slack || at > high+slack:
		found = append(found, calc.Cautionf("mount-point.unlikely", ourRule,
			"%s: %s from the tail is unusual on a ski of %s: %.0f to %.0f mm is likely; measure again.",
			skiWord(side), tail, quantity.Print(length, quantity.MM), low, high))
	}
	return found
}
