package steps

import "drillstop/workflow"

func cleanStep() workflow.Step {
	return workflow.Step{
		ID: Clean, Phase: workflow.Drilling, Title: "deburr and clean", Kinds: mounts,
		Why: "Drilling pushes the topsheet up around each hole; left there, the plate rests on these rings and every screw works loose. " +
			"A chip at the bottom of a hole stops the screw short, so that it feels tight and holds nothing. " +
			"Where the ski is reinforced, the tap cuts the thread that the screw alone would tear.",
		Cautions: []string{
			"Cut away from the other hand, and blow chips out with your eyes covered: metal chips fly.",
			"Mask on: the dust of fibre and carbon that is brushed and blown out harms the lungs as drilling does.",
		},
		Fields: []workflow.Field{
			{ID: "deburred", Label: "Raised rims cut flush", Kind: workflow.Seen, PerSki: true, Hint: "a straight edge lies flat over each hole"},
			{ID: "cleared", Label: "No chips left in any hole", Kind: workflow.Seen, PerSki: true, Hint: "look into each one"},
			{ID: "tapped", Label: "Every hole tapped", Kind: workflow.Seen, PerSki: true, When: tapNeeded, Hint: "straight, to the bottom"},
		},
		Needs: []workflow.StepID{Holes},
		Rests: []workflow.Rest{
			{On: Holes, Fields: []workflow.FieldID{"drilled", "depth"}, Redone: true, Because: "holes were drilled again after they were cleaned"},
			onThisPair("the holes were cleaned"),
			{On: Skis, Fields: []workflow.FieldID{"construction", "marked"}, Because: "what is known of the ski's core changed after the holes were cleaned"},
		},
	}
}
