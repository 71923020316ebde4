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

// coarsest is the part of a value that its mark may lie below it before the hand
// pauses. Our own limit: what a skier may ask for (ISO 8061:2004, 4.3.4).
const coarsest = 0.15

func fitRests() []workflow.Rest {
	return []workflow.Rest{
		{On: Skier, Fields: skierFacts, Because: "the skier's mass, height, age, type or requests changed after the fit was checked"},
		{On: Boots, Fields: []workflow.FieldID{"name", "shell", "norm", "sole", "inserts"}, Because: "the boot, its norm, sole length or inserts changed after the fit was checked"},
		onThisPair("the fit was checked"),
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
	found = append(found, workflow.On(workflow.Both, slices.Concat(
		pairNorm(binding, left, right), fit.SoleLength(binding, left, right), checkWalk(job)))...)
	found = append(found, workflow.On(workflow.Both, fit.Brake(binding, millimetres(job, Skis, "waist", workflow.Both)))...)
	if _, err := skierAlone(shop, job); err == nil { // else it holds the job where the skier was taken in
		found = append(found, bySide("boot", valueFindings(shop, job, workflow.Left), valueFindings(shop, job, workflow.Right))...)
	}
	if isMount(job) {
		found = append(found, bySide("ski", boreFindings(job, workflow.Left), boreFindings(job, workflow.Right))...)
	}
	return found
}

// pairNorm is what fit.Check says of the two boots being of one norm.
func pairNorm(binding fit.Binding, left, right fit.Boot) []calc.Finding {
	return slices.DeleteFunc(fit.Check(binding, left, right, 0), func(f calc.Finding) bool { return f.Code != "fit.pair-norm" })
}

// checkWalk says beforehand where touring mode is not tried.
func checkWalk(job workflow.Job) []calc.Finding {
	if kindOf(job) != fit.KindHybrid || tours(job) {
		return nil
	}
	return []calc.Finding{calc.Notef("fit.no-touring", commonPractice,
		"The boot has no touring inserts: this boot skis in the hybrid binding, but cannot tour.")}
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
	for _, f := range value.Findings {
		if f.Code == "release.rows-apart" || slices.Contains(ofOwnRisk, f.Code) {
			found = append(found, f)
		}
	}
	if value.Toe == value.Heel {
		return append(found, onScale(job, value.Toe, "toe and heel")...)
	}
	return slices.Concat(found, onScale(job, value.Toe, "toe"), onScale(job, value.Heel, "heel"))
}

// onScale says whether the scale reaches a value, and whether it has a mark near
// enough below it.
func onScale(job workflow.Job, value float64, what string) []calc.Finding {
	found := fit.Scale(value, bindingOf(job), what)
	mark := markFor(job, value)
	if slices.ContainsFunc(found, func(f calc.Finding) bool { return f.Level == calc.Stop }) || mark >= value*(1-coarsest)-slack {
		return found
	}
	return append(found, calc.Cautionf("fit.scale-coarse", ourRule,
		"Value %s (%s) falls between two marks, and the nearest not above is %s, %.0f %% lower: a binding with finer marks sets it closer.",
		plainNumber(value), what, plainNumber(mark), 100*(value-mark)/value))
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
