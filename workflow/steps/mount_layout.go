package steps

import (
	"drillstop/calc/layout"
	"drillstop/calc/quantity"
	"drillstop/workflow"
)

// specOf is a mount on the skis of the job, with these answers about their old
// holes; false while there is no pattern, or the mount is not known. Origin is
// the place that the mount point is measured from: the ski's mark, or half the
// chord where it has none.
func specOf(shop workflow.Shop, job workflow.Job, mount layout.Mount, oldHoles workflow.Answers) (layout.Spec, bool) {
	p, ok := patternOf(shop, job)
	if !ok {
		return layout.Spec{}, false
	}
	// What cannot be laid out of a former mount holds the job where it was named.
	left, right, _ := oldHolesOf(shop, job, oldHoles)
	width := layout.Width{}
	if waist := millimetres(job, Skis, "waist", workflow.Both); waist != 0 {
		width = layout.Waist(waist)
	}
	spec := layout.Spec{
		Pattern: p, Mount: mount, Bit: plannedBit(job), Rules: shop.Distances(),
		Left: layout.Ski{Old: left, Width: width}, Right: layout.Ski{Old: right, Width: width},
	}
	return spec, spec.Check() == nil
}

// mountOf is the mount that answers of the mount point describe. Where they say
// no shift yet, the boot stands on the mark.
func mountOf(job workflow.Job, a workflow.Answers) layout.Mount {
	offset, _ := a.Number("offset", workflow.Both, quantity.MM)
	return layout.Mount{Sole: millimetres(job, Boots, "sole", workflow.Left), Shift: quantity.Millimetre(offset)}
}

// mountSpec is the layout of the job's mount point.
func mountSpec(shop workflow.Shop, job workflow.Job) (layout.Spec, bool) {
	return specOf(shop, job, mountOf(job, job.Answers(MountPoint)), job.Answers(OldHoles))
}

// drilledSpec is the layout that is drilled: that of the mount point, for the
// sole length that the template is set to.
func drilledSpec(shop workflow.Shop, job workflow.Job) (layout.Spec, bool) {
	if _, ok := job.Answered(MountPoint); !ok {
		return layout.Spec{}, false
	}
	mount := mountOf(job, job.Answers(MountPoint))
	if set := millimetres(job, Template, "sole_set", workflow.Both); set != 0 {
		mount.Sole = set
	}
	return specOf(shop, job, mount, job.Answers(OldHoles))
}

// drilledPlan is where the holes of drilledSpec fall.
func drilledPlan(shop workflow.Shop, job workflow.Job) (layout.Plan, bool) {
	spec, ok := drilledSpec(shop, job)
	if !ok {
		return layout.Plan{}, false
	}
	plan, err := spec.Plan()
	return plan, err == nil
}

// drillMap is the picture before and while drilling.
func drillMap(shop workflow.Shop, job workflow.Job, _ workflow.Answers) (layout.Spec, bool) {
	return drilledSpec(shop, job)
}

// plannedBit is the hole that the job's bore plan wants: the ski's marking, or
// what its construction asks for.
func plannedBit(job workflow.Job) layout.Bit {
	plan, err := borePlan(job, workflow.Left)
	if err != nil {
		return markedBit(job)
	}
	return layout.Bit{Diameter: plan.Diameter, Depth: plan.Depth}
}

// markedBit is the hole that the ski is marked with; none where it is not.
func markedBit(job workflow.Job) layout.Bit {
	marked := boreSki(job, workflow.Left).Marked
	if marked == nil {
		return layout.Bit{}
	}
	return layout.Bit{Diameter: marked.Diameter, Depth: marked.Depth}
}
