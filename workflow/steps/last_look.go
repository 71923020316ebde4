package steps

import "drillstop/workflow"

// lastLookStep looks once more at what goes wrong most often between the test
// and the counter.
func lastLookStep() workflow.Step {
	return workflow.Step{
		ID: LastLook, Phase: workflow.HandOver, Title: "last look",
		Why: "Between the test device and the counter a pair is carried, wiped and stacked, and it is the last time that " +
			"trained eyes see it. Take each ski in the hand and look at the thing, not at the sheet. What is found here " +
			"costs a minute; on the hill it costs a day or a knee.",
		Cautions: []string{
			"Edges are sharp and chips of metal stay on them: wipe along the edge, never across it with a bare hand.",
		},
		Fields: []workflow.Field{
			{ID: "scales", Label: "Scales read as set", Hint: "toe and heel, read aloud", Kind: workflow.Seen, PerSki: true},
			{ID: "heads", Label: "Screws tight, heads flush", Hint: "nothing loose, nothing under the plate", Kind: workflow.Seen, PerSki: true},
			{ID: "brakes", Label: "Brakes come down", Hint: "fast, and clear of the edges", Kind: workflow.Seen, PerSki: true, When: hasBrake},
			{ID: "clean", Label: "Base and edges clean", Hint: "no chips, no glue, no dents through", Kind: workflow.Seen, PerSki: true},
		},
		Figures: setFigures,
		Needs:   []workflow.StepID{ReleaseTest, Recentering, Touring},
		Rests: []workflow.Rest{
			{On: ReleaseValue, Disturbed: answeredAgain, Because: "the scales were set anew after the last look"},
			{On: Correction, Disturbed: scaleCorrected, Because: "a scale was corrected after the last look"},
			{On: ForwardPressure, Disturbed: pressureMoved, Redone: true, Because: "forward pressure was changed after the last look"},
			{On: ToeHeight, Disturbed: toeHeightMoved, Redone: true, Because: "toe height was changed after the last look"},
			{On: SoleLength, Fields: []workflow.FieldID{"set"}, Redone: true, Because: "the sole length was set anew after the last look"},
			{On: Brake, Disturbed: refitted, Because: "brake and heel piece were fitted again after the last look"},
			{On: Screws, Fields: []workflow.FieldID{"driven", "stripped", "way_out"}, Redone: true, Because: "screws were driven after the last look"},
			{On: Holes, Fields: []workflow.FieldID{"drilled", "depth"}, Redone: true, Because: "holes were drilled after the last look"},
			{On: Binding, Fields: []workflow.FieldID{"name", "serial", "used", "kind", "brake"}, Because: "the binding changed after the last look"},
			onThisPair("the last look"),
			{On: Skier, Fields: []workflow.FieldID{"name"}, Because: "the skier changed after the last look"},
			{On: Skis, Fields: []workflow.FieldID{"condition"}, Because: "the condition of the skis changed after the last look"},
			{On: ReleaseTest, Redone: true, Because: "the release test was made again after the last look"},
			{On: Recentering, Redone: true, Because: "recentering was tried again after the last look"},
			{On: Touring, Redone: true, Because: "touring mode was tried again after the last look"},
		},
	}
}
