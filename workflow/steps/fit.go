package steps

import (
	"slices"

	"drillstop/calc"
	"drillstop/calc/fit"
	"drillstop/workflow"
)

func fitStep() workflow.Step {
	return workflow.Step{
		ID: Fit, Phase: workflow.Intake, Title: "fit check",
		Why: "Nothing is asked here: what was taken in is held against itself. " +
			"A boot that this binding cannot let go, a brake that stays on the ski, a chart without a value, a ski too thin for its screws: " +
			"each of them costs a minute now, and a ski or a knee after the first hole.",
		Cautions: []string{
			"A sole norm mixes with a binding only where both makers declare it; that a boot clicks in says nothing.",
		},
		Needs:   []workflow.StepID{Skier, Boots, Skis, Binding},
		Rests:   fitRests(),
		Figures: fitFigures,
		Check:   checkFit,
	}
}

func fitRests() []workflow.Rest {
	return []workflow.Rest{
		{On: Skier, Fields: skierFacts, Because: "the skier's mass, height, age, type or requests changed after the fit was checked"},
		{On: Boots, Fields: []workflow.FieldID{"norm", "sole", "inserts"}, Because: "the boot's norm, sole length or inserts changed after the fit was checked"},
		{
			On: Skis, Fields: []workflow.FieldID{"waist", "construction", "marked", "thickness_toe", "thickness_heel"},
			Because: "the ski's waist, marked hole, construction or thickness changed after the fit was checked",
		},
		{
			On: Binding, Fields: []workflow.FieldID{
				"name", "kind", "norms", "scale_min", "scale_max", "sole_min", "sole_max", "track_min", "track_max",
				"brake", "bite_toe", "bite_heel",
			},
			Because: "the binding, its norms, ranges, brake or screws changed after the fit was checked",
		},
	}
}

// fitFigures are the release value and, where holes are drilled, bit and stop:
// seen now, so that a number that looks wrong is asked after while the skier
// still stands there.
func fitFigures(shop workflow.Shop, job workflow.Job) []workflow.Figure {
	figures := valueFigures(shop, job)
	if isMount(job) {
		figures = append(figures, boreFigures(job)...)
	}
	return figures
}

// valueFigures is the release value with its path, apart for each ski where the
// boots differ; none where the chart has none.
func valueFigures(shop workflow.Shop, job workflow.Job) []workflow.Figure {
	left, errLeft := releaseFor(shop, job, workflow.Left)
	right, errRight := releaseFor(shop, job, workflow.Right)
	if errLeft != nil || errRight != nil {
		return nil
	}
	return []workflow.Figure{{
		Name: "release_value", Label: "release value",
		Value: forSkis(valuesText(left), valuesText(right)), Path: forSkis(left.PathText(), right.PathText()),
	}}
}

func checkFit(shop workflow.Shop, job workflow.Job) []workflow.Finding {
	binding := bindingOf(job)
	left, right := bootOf(job, workflow.Left), bootOf(job, workflow.Right)
	found := bySide("boot", fit.Norms(binding, left), fit.Norms(binding, right))
	found = append(found, workflow.On(workflow.Both, fit.SoleLength(binding, left, right))...)
	found = append(found, workflow.On(workflow.Both, fit.Brake(millimetres(job, Skis, "waist", workflow.Both), binding.Brake))...)
	if skierFault(shop, job) == nil { // else it holds the job where the skier was taken in
		found = append(found, bySide("boot", valueFindings(shop, job, workflow.Left), valueFindings(shop, job, workflow.Right))...)
	}
	if isMount(job) {
		found = append(found, bySide("ski", boreFindings(job, workflow.Left), boreFindings(job, workflow.Right))...)
	}
	return found
}

// valueFindings says whether the chart has a value for this boot, and whether
// the binding's scale reaches it. What else the chart says of the value is said
// where it is set; only numbers that hardly belong to one person are asked after
// while that person is here.
func valueFindings(shop workflow.Shop, job workflow.Job, side workflow.Side) []calc.Finding {
	value, err := releaseFor(shop, job, side)
	if err != nil {
		return []calc.Finding{refused(chartEdition(shop), err)}
	}
	var found []calc.Finding
	if i := slices.IndexFunc(value.Findings, func(f calc.Finding) bool { return f.Code == "release.rows-apart" }); i >= 0 {
		found = append(found, value.Findings[i])
	}
	binding := bindingOf(job)
	if value.Toe == value.Heel {
		return append(found, fit.Scale(value.Toe, binding, "toe and heel")...)
	}
	return append(append(found, fit.Scale(value.Toe, binding, "toe")...), fit.Scale(value.Heel, binding, "heel")...)
}

func boreFindings(job workflow.Job, side workflow.Side) []calc.Finding {
	plan, err := borePlan(job, side)
	if err != nil {
		return []calc.Finding{refused(commonPractice, err)}
	}
	return plan.Findings
}

// refused is the no of a computation as a stop that nobody may waive.
func refused(source string, err error) calc.Finding {
	f := workflow.FromFault(workflow.Both, source, err)
	return calc.Finding{Level: f.Level, Code: f.Code, Text: f.Text, Source: f.Source, Never: f.Never}
}
