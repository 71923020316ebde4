package steps

import "drillstop/workflow"

// brakeStep sees the brake and the heel piece onto the ski.
func brakeStep() workflow.Step {
	return workflow.Step{
		ID: Brake, Phase: workflow.Mounting, Title: "brake and heel track",
		Why: "Most brakes are held by the heel piece and cannot be put on once it sits on its track. A brake that rubs on " +
			"the edge stays up, and a released ski then runs down the slope on its own: others get hurt by it, not the " +
			"skier. The heel piece has to travel and lock on its track, or no forward pressure can be set later.",
		Cautions: []string{
			"The brake arms are sprung: keep fingers and face out of their sweep when you press the pad down.",
		},
		Kinds: mounts,
		Fields: []workflow.Field{
			{ID: "fitted", Label: "Brake on heel piece", Hint: "before the heel piece goes on its track", Kind: workflow.Seen, PerSki: true, When: hasBrake},
			{ID: "moves", Label: "Brake swings, retracts", Hint: "press the pad: arms clear edges, come back", Kind: workflow.Seen, PerSki: true, When: hasBrake},
			{ID: "track", Label: "Heel piece moves, locks", Hint: "along its track, locks in every notch tried", Kind: workflow.Seen, PerSki: true},
		},
		Needs: []workflow.StepID{Screws},
		Rests: []workflow.Rest{
			{On: Screws, Fields: []workflow.FieldID{"driven", "stripped", "way_out"}, Redone: true, Because: "screws were driven again after brake and heel piece went on"},
			onThisPair("brake and heel piece went on"),
			{On: Binding, Fields: []workflow.FieldID{"name", "serial", "used", "brake"}, Because: "the binding or its brake changed after it was fitted"},
			{On: Skis, Fields: []workflow.FieldID{"waist"}, Because: "the waist of the ski changed after the brake was seen to clear it"},
		},
	}
}

// refitted is for what rests on brake and heel piece: a step of things that are
// only seen reads the same each time, and answering it again means that they
// were off the ski.
func refitted(before, _ workflow.Answers) bool { return before != nil }
