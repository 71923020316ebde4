package steps

import (
	"drillstop/calc/quantity"
	"drillstop/workflow"
)

// scalePictures are the toe's and the heel's release scale with what a look at
// each of the four says; or each ski's own where the values differ.
func scalePictures(
	shop workflow.Shop, job workflow.Job, look func(p piece, side workflow.Side) (set, corrected float64),
) []workflow.Picture {
	left, errLeft := releaseFor(shop, job, workflow.Left)
	right, errRight := releaseFor(shop, job, workflow.Right)
	binding := bindingOf(job)
	if errLeft != nil || errRight != nil || binding.ScaleMax <= binding.ScaleMin {
		return nil
	}
	var pictures []workflow.Picture
	for _, p := range scales() {
		draw := func(title string, computed float64, sides ...int) {
			s := &workflow.ScalePicture{
				Title: title, Low: binding.ScaleMin, High: binding.ScaleMax, Step: indicatorStep(job), Computed: computed,
			}
			for _, i := range sides {
				s.Set[i], s.Corrected[i] = look(p, workflow.Sides[i])
			}
			pictures = append(pictures, workflow.Picture{Scale: s})
		}
		if p.value(left) == p.value(right) {
			draw(p.name, p.value(left), 0, 1)
			continue
		}
		draw(p.name+", left ski", p.value(left), 0)
		draw(p.name+", right ski", p.value(right), 1)
	}
	return pictures
}

// correctionPictures show where the scales stood when they were tested, and
// where they are sent or were set.
func correctionPictures(shop workflow.Shop, job workflow.Job, typed workflow.Answers) []workflow.Picture {
	return scalePictures(shop, job, func(p piece, side workflow.Side) (set, corrected float64) {
		set, _ = p.standingBefore(job, side, testedAt(job))
		if to, ok := typed.Number(p.to, side, quantity.Plain); ok {
			return set, to
		}
		if to, asked, err := target(shop, job, side, p); asked && err == nil {
			return set, to
		}
		return set, 0
	})
}
