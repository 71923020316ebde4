package steps

import (
	"fmt"
	"slices"
	"strings"

	"drillstop/calc"
	"drillstop/calc/layout"
	"drillstop/calc/quantity"
	"drillstop/workflow"
)

// checkLayout says what stands against the holes of the binding's pattern, and
// what to do about it; nothing where no pattern was named.
func checkLayout(shop workflow.Shop, job workflow.Job) []workflow.Finding {
	if _, ok := patternOf(shop, job); !ok {
		return nil // the binding says so where a pattern is gone
	}
	spec, ok := mountSpec(shop, job)
	if !ok {
		return noLayout(&spec)
	}
	plan, err := spec.Plan()
	if err != nil {
		return []workflow.Finding{workflow.FromFault(workflow.Both, ourRule, err)}
	}
	window := shiftWindow(spec.Mount.Shift)
	shifts, err := spec.Shifts(window)
	if err != nil {
		return []workflow.Finding{workflow.FromFault(workflow.Both, ourRule, err)}
	}
	found := clashFindings(plan, shifts)
	found = append(found, workflow.On(workflow.Both, checkOrigin(job))...)
	found = append(found, workflow.On(workflow.Both, blocked(shifts))...)
	found = append(found, workflow.On(workflow.Both, checkSoleOfLayout(job))...)
	return workflow.OnceForBoth(append(found, workflow.On(workflow.Both, plan.Findings()[len(plan.Clashes):])...))
}

// noLayout says why a layout cannot be made at all.
func noLayout(spec *layout.Spec) []workflow.Finding {
	if err := spec.Check(); err != nil {
		return []workflow.Finding{workflow.FromFault(workflow.Both, ourRule, err)}
	}
	return nil
}

// shiftWindow is where a clear shift is looked for: the usual window, and as
// far as the mount point was moved already.
func shiftWindow(shift quantity.Millimetre) layout.Interval {
	window := layout.DefaultWindow()
	return layout.Interval{From: min(window.From, shift), To: max(window.To, shift)}
}

// clashFindings says each kind of clash once for each ski: the worst of its
// holes with its numbers, the others by name. The shift stands in it, because a
// waiver is good for one place only, and with it the nearest that clears.
func clashFindings(plan layout.Plan, shifts layout.Shifts) []workflow.Finding {
	var found []workflow.Finding
	for at, c := range plan.Clashes {
		alike := func(o layout.Clash) bool { return o.Kind == c.Kind && o.Side == c.Side && c.Hole != 0 }
		if slices.IndexFunc(plan.Clashes, alike) >= 0 && slices.IndexFunc(plan.Clashes, alike) < at {
			continue
		}
		worst, others := c, []int(nil)
		for _, o := range plan.Clashes {
			if alike(o) && lacks(o) > lacks(worst) {
				worst = o
			}
		}
		for _, o := range plan.Clashes {
			if alike(o) && o.Hole != worst.Hole && !slices.Contains(others, o.Hole) {
				others = append(others, o.Hole)
			}
		}
		f := worst.Finding()
		f.Text += andOthers(others) + clearAt(shifts, plan.Mount.Shift)
		found = append(found, workflow.On(workflow.Side(c.Side), []calc.Finding{f})...)
	}
	return found
}

// lacks is by how much a clash misses what the rules ask for.
func lacks(c layout.Clash) quantity.Millimetre {
	if c.Kind == layout.WideOldHole {
		return c.Distance - c.Needs
	}
	return c.Needs - c.Distance
}

func andOthers(holes []int) string {
	if len(holes) == 0 {
		return ""
	}
	slices.Sort(holes)
	words := make([]string, len(holes))
	for i, n := range holes {
		words[i] = fmt.Sprint(n)
	}
	if len(words) == 1 {
		return " So does hole " + words[0] + "."
	}
	return " So do holes " + strings.Join(words[:len(words)-1], ", ") + " and " + words[len(words)-1] + "."
}

// clearAt names the shifts nearest to the present one that clear, one in each
// direction; "" where there is none.
func clearAt(shifts layout.Shifts, at quantity.Millimetre) string {
	near := nearestClear(shifts, at)
	if near == "" {
		return ""
	}
	return fmt.Sprintf(" Shift %s; nearest clear: %s.", layout.ShiftText(at), near)
}

func nearestClear(shifts layout.Shifts, at quantity.Millimetre) string {
	first, ok := shifts.Nearest(at)
	if !ok {
		return ""
	}
	text := layout.ShiftText(first)
	other, ok := shifts.Forward(at)
	if first > at {
		other, ok = shifts.Back(at)
	}
	if !ok || shifts.Has(at) {
		return text
	}
	return text + ", or " + layout.ShiftText(other)
}

// blocked says what blocks, where no shift clears.
func blocked(shifts layout.Shifts) []calc.Finding {
	if len(shifts.Clear) > 0 {
		return nil
	}
	texts := make([]string, len(shifts.Blockers))
	for i, b := range shifts.Blockers {
		texts[i] = strings.TrimSuffix(b.Finding(shifts.Window).Text, ".")
	}
	return []calc.Finding{calc.Cautionf("layout.blocked", ourRule, "No shift of %s clears. %s.", shifts.Window, strings.Join(texts, "; "))}
}

// checkOrigin asks that old holes and the mount point are measured from one
// place.
func checkOrigin(job workflow.Job) []calc.Finding {
	if !hasOldHoles(job) || !job.Is(MountPoint, "reference", workflow.Both, referenceChord) {
		return nil
	}
	for _, side := range workflow.Sides {
		if job.Is(Skis, "marks", side, workflow.Yes) {
			return []calc.Finding{calc.Stopf("layout.origin", ourRule,
				"The mount point is measured from half the chord, the old holes from the mark of the ski: measure both from the mark.")}
		}
	}
	return []calc.Finding{calc.Cautionf("layout.origin", ourRule,
		"The ski has no mark: see that its old holes are measured from half the chord, as the mount point is.")}
}

// checkSoleOfLayout speaks up where two boots of a pair differ: holes are laid
// out for one sole length.
func checkSoleOfLayout(job workflow.Job) []calc.Finding {
	left, right := millimetres(job, Boots, "sole", workflow.Left), millimetres(job, Boots, "sole", workflow.Right)
	if left == right {
		return nil
	}
	return []calc.Finding{calc.Cautionf("layout.soles", ourRule,
		"The boot soles are %s and %s long: the holes of both skis are laid out for %s.", left, right, left)}
}

// checkMarks compares the mount points of the pair: by how much each boot would
// sit off, and what to do. Beyond what checkTails allows it leaves that stop
// the word.
func checkMarks(job workflow.Job) []calc.Finding {
	left, right := millimetres(job, MountPoint, "tail", workflow.Left), millimetres(job, MountPoint, "tail", workflow.Right)
	found := checkTails(job)
	if len(found) == 0 || left == 0 || right == 0 {
		return found
	}
	marks, err := layout.PairMarks(left, right)
	if err != nil {
		return found
	}
	for i := range found {
		found[i].Text += fmt.Sprintf(" As it is, the left boot would sit %s of the middle of both, the right %s.",
			layout.ShiftText(marks.LeftOff), layout.ShiftText(marks.RightOff))
		if found[i].Level == calc.Caution {
			found[i].Text += fmt.Sprintf(" If it stays so, mount the left ski %s of its mark, the right %s.",
				layout.ShiftText(marks.Left), layout.ShiftText(marks.Right))
		}
	}
	return found
}
