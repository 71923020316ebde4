package steps

import (
	"fmt"
	"math"
	"slices"

	"drillstop/calc"
	"drillstop/calc/quantity"
	"drillstop/calc/release"
	"drillstop/workflow"
)

// aboveTen is the value above which a scale must stand out.
// Source: ISO 13992:2014.
const aboveTen = 10.0

// checksumShown is how much of a chart's checksum is shown; the record has all
// of it.
const checksumShown = 12

const markSource = "the nearest mark not above the computed value: " + ourRule

// piece is one of the two pieces of a binding that have a release scale.
type piece struct {
	name  string           // "toe"
	title string           // "Toe"
	set   workflow.FieldID // where its scale is read back
	to    workflow.FieldID // where it is read back once it was corrected
	value func(release.Result) float64
}

// scales are the release scales of one ski, in the order in which they are
// read.
func scales() []piece {
	return []piece{
		{"toe", "Toe", "toe_set", "toe_to", func(r release.Result) float64 { return r.Toe }},
		{"heel", "Heel", "heel_set", "heel_to", func(r release.Result) float64 { return r.Heel }},
	}
}

// releaseValueStep shows the computed values and asks for what the four scales
// read once they are set.
func releaseValueStep() workflow.Step {
	step := workflow.Step{
		ID: ReleaseValue, Phase: workflow.Adjusting, Title: "release value",
		Why: "The value says at what moment the binding lets go of this skier in this boot: it follows from mass, height, " +
			"age, the type that the skier stated, and the sole length, by the chart alone. Four scales are set, toe and " +
			"heel on both skis, and each is read back as it stands; typing the computed value without looking is how a " +
			"ski goes out set for somebody else.",
		Cautions: []string{
			"Too high breaks a leg, too low throws the skier off: never set by feel, and never by what the skier wishes alone.",
			"A blank cell of the chart has no value. Do not take the neighbour's.",
			"Where the binding maker's present chart says something else, it comes first.",
		},
		Needs: []workflow.StepID{Fit, ForwardPressure, ToeHeight},
		Rests: []workflow.Rest{
			{On: Skier, Fields: skierFacts, Because: "the skier's mass, height, age, type or requests changed after the release value was set"},
			onThisPair("the scales were set"),
			{On: Boots, Fields: []workflow.FieldID{"sole"}, Because: "the boot sole length changed after the release value was set"},
			{
				On: Binding, Fields: []workflow.FieldID{"name", "serial", "used", "scale_min", "scale_max", "indicator_step"},
				Because: "the binding or its scale changed after the release value was set",
			},
		},
		Figures: releaseFigures,
		Picture: func(shop workflow.Shop, job workflow.Job, typed workflow.Answers) []workflow.Picture {
			return scalePictures(shop, job, func(p piece, side workflow.Side) (set, corrected float64) {
				set, _ = typed.Number(p.set, side, quantity.Plain)
				return set, 0
			})
		},
		Check: checkReleaseValue,
	}
	for _, p := range scales() {
		step.Fields = append(step.Fields, workflow.Field{
			ID: p.set, Label: p.title + " scale reads", Hint: "read it back, do not copy the value", Kind: workflow.Number,
			Unit: quantity.Plain, Min: 0.5, Max: 20, PerSki: true, ReadBack: true,
			Suggest: func(shop workflow.Shop, job workflow.Job, side workflow.Side) string {
				return suggestMark(shop, job, side, p)
			},
		})
	}
	return step
}

func suggestMark(shop workflow.Shop, job workflow.Job, side workflow.Side, p piece) string {
	r, err := releaseFor(shop, job, side)
	if err != nil {
		return ""
	}
	return plainNumber(markFor(job, p.value(r)))
}

// markFor is where a scale is set for a computed value: the nearest mark that
// is not above it. Marks are the multiples of the binding's marked step, and
// the scale's own lowest value. A binding without a step takes the value itself.
func markFor(job workflow.Job, value float64) float64 {
	step, low := indicatorStep(job), bindingOf(job).ScaleMin
	if step <= 0 {
		return value
	}
	const perUnit = 1e6 // takes the last bits of a multiplication away
	mark := math.Round(math.Floor(value/step+slack)*step*perUnit) / perUnit
	if mark < low && value >= low {
		return low
	}
	return mark
}

func plainNumber(v float64) string { return quantity.Print(v, quantity.Plain) }

func checkReleaseValue(shop workflow.Shop, job workflow.Job) []workflow.Finding {
	found := bySide("ski", chartSays(shop, job, workflow.Left), chartSays(shop, job, workflow.Right))
	found = append(found, checkChart(shop, job)...)
	found = append(found, valueSinceLast(shop, job)...)
	return append(found, onEach(func(side workflow.Side) []calc.Finding { return checkScales(shop, job, side) })...)
}

// chartSays is what the chart refuses, or what it wants said with its value.
// Numbers that hardly belong to one person are asked after before.
func chartSays(shop workflow.Shop, job workflow.Job, side workflow.Side) []calc.Finding {
	r, err := releaseFor(shop, job, side)
	if err != nil {
		return []calc.Finding{refused(chartEdition(shop), err)}
	}
	return slices.DeleteFunc(slices.Clone(r.Findings), func(f calc.Finding) bool {
		return f.Code == "release.rows-apart" || slices.Contains(ofOwnRisk, f.Code) || slices.Contains(ofSkierAlone, f.Code)
	})
}

// releaseFigures are the computed values as they stand on the screen, with the
// chart they came from; none while the chart has no value.
func releaseFigures(shop workflow.Shop, job workflow.Job) []workflow.Figure {
	left, errLeft := releaseFor(shop, job, workflow.Left)
	right, errRight := releaseFor(shop, job, workflow.Right)
	if errLeft != nil || errRight != nil {
		return nil
	}
	figures := valueFigures(shop, job)
	marks := func(r release.Result) string { return toeAndHeel(markFor(job, r.Toe), markFor(job, r.Heel)) }
	if marks(left) != valuesText(left) || marks(right) != valuesText(right) {
		figures = append(figures, workflow.Figure{
			Name: "set_to", Label: "set to the marks", Value: forSkis(marks(left), marks(right)), Path: markSource,
		})
	}
	figures = append(figures, referenceFigures(left, right)...)
	return append(figures, chartFigure(left.Chart))
}

// chartFigure names the chart by which the values were found.
func chartFigure(chart release.Identity) workflow.Figure {
	return workflow.Figure{
		Name: "chart", Label: "chart", Value: chart.Edition, Path: chart.Checksum[:checksumShown],
		Record: chart.Source + "; SHA-256 " + chart.Checksum,
	}
}

// checkChart compares the chart in force with the one that the scales were set
// by: a value of one chart is not tested against another.
func checkChart(shop workflow.Shop, job workflow.Job) []workflow.Finding {
	set, ok := job.Answered(ReleaseValue)
	at := slices.IndexFunc(set.Figures, func(f workflow.Figure) bool { return f.Name == "chart" })
	if !ok || at < 0 || shop.Chart == nil {
		return nil
	}
	now := chartFigure(shop.Chart.Identity())
	if set.Figures[at].Record == now.Record {
		return nil
	}
	return workflow.On(workflow.Both, []calc.Finding{calc.Stopf("release-value.other-chart", ourRule,
		"The scales were set by the chart %s (%s), and %s (%s) is in force now: answer release value again.",
		set.Figures[at].Value, set.Figures[at].Path, now.Value, now.Path)})
}

// referenceFigures are the moments that a release test is judged against.
func referenceFigures(left, right release.Result) []workflow.Figure {
	return []workflow.Figure{
		{
			Name: "twist_reference", Label: "twist, reference",
			Value: forSkis(left.Twist.String(), right.Twist.String()), Path: forSkis("row "+left.ToeCode, "row "+right.ToeCode),
		},
		{
			Name: "forward_lean_reference", Label: "forward lean, reference",
			Value: forSkis(left.ForwardLean.String(), right.ForwardLean.String()), Path: forSkis("row "+left.HeelCode, "row "+right.HeelCode),
		},
	}
}

func valuesText(r release.Result) string { return toeAndHeel(r.Toe, r.Heel) }

func toeAndHeel(toe, heel float64) string {
	return fmt.Sprintf("toe %s  heel %s", plainNumber(toe), plainNumber(heel))
}

// forSkis says once what holds for both skis, and apart what does not.
func forSkis(left, right string) string {
	if left == right {
		return left
	}
	return "left " + left + "; right " + right
}
