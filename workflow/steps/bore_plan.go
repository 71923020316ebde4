package steps

import (
	"fmt"

	"drillstop/calc/bore"
	"drillstop/calc/quantity"
	"drillstop/workflow"
)

// boreSki is the ski on that side as calc/bore wants it.
func boreSki(job workflow.Job, side workflow.Side) bore.Ski {
	ski := bore.Ski{
		Construction:  bore.Construction(job.Text(Skis, "construction", workflow.Both)),
		ThicknessToe:  millimetres(job, Skis, "thickness_toe", side),
		ThicknessHeel: millimetres(job, Skis, "thickness_heel", side),
	}
	if marked := job.Text(Skis, "marked", workflow.Both); marked != "" {
		if diameter, depth, err := quantity.ParseHole(marked); err == nil {
			ski.Marked = &bore.Hole{Diameter: diameter, Depth: depth}
		}
	}
	return ski
}

// borePlan is the plan of the holes in one ski. It fails as bore.For does, and
// with the same faults while ski or binding are not answered.
func borePlan(job workflow.Job, side workflow.Side) (bore.Plan, error) {
	return bore.For(boreSki(job, side), bore.Screws{
		BiteToe:  millimetres(job, Binding, "bite_toe", workflow.Both),
		BiteHeel: millimetres(job, Binding, "bite_heel", workflow.Both),
	})
}

// tapNeeded reports whether a thread is cut before the screw.
func tapNeeded(job workflow.Job) bool {
	plan, err := borePlan(job, workflow.Left)
	return err == nil && plan.Tap
}

// boreFigures are the bit and its stop as they stand on the screen, and what
// they leave: none while there is no plan.
func boreFigures(job workflow.Job) []workflow.Figure {
	left, err := borePlan(job, workflow.Left)
	if err != nil {
		return nil
	}
	right, err := borePlan(job, workflow.Right)
	if err != nil {
		return nil
	}
	return []workflow.Figure{
		{Name: "bit", Label: "bit", Value: fmt.Sprintf("%.1f mm", float64(left.Diameter)), Path: left.Why},
		{Name: "stop", Label: "stop", Value: fmt.Sprintf("%.1f mm", float64(left.Depth)), Path: whatStays(left, right)},
	}
}

// whatStays says what is left under the holes and what the screws find.
func whatStays(left, right bore.Plan) string {
	text := fmt.Sprintf("screws bite %s at the toe, %s at the heel", left.Toe.Bite, left.Heel.Bite)
	leftUnder, leftKnown := left.LeastUnder()
	rightUnder, rightKnown := right.LeastUnder()
	if !leftKnown || !rightKnown {
		return text
	}
	return fmt.Sprintf("under the hole stay %s; %s", min(leftUnder, rightUnder), text)
}
