package steps

import (
	"math"

	"drillstop/calc"
	"drillstop/calc/quantity"
	"drillstop/workflow"
)

// What a folded strip of paper does between the sole and the gliding surface.
const (
	paperSticks  = "stuck"
	paperDrags   = "drags"
	paperSlides  = "slides"
	paperRattles = "rattles"
)

// unlikeGauge is the difference in mm between the two skis' feeler gauges that
// makes the hand pause. Our own limit.
const unlikeGauge = 0.3

// widestGauge is the widest gap in mm in which a folded strip of paper can drag.
// Our own limit.
const widestGauge = 3.0

const toeHeightSource = "paper strip moves with clear resistance: " + commonPractice

// toeHeightStep asks how the sole sits under the toe piece, as found and as
// left.
func toeHeightStep() workflow.Step {
	options := []workflow.Option{
		{Value: paperSticks}, {Value: paperDrags}, {Value: paperSlides}, {Value: paperRattles, Label: "rattles: the boot is loose"},
	}
	return workflow.Step{
		ID: ToeHeight, Phase: workflow.Adjusting, Title: "toe height",
		Why: "Between the sole and the gliding surface there is a gap that decides how the toe lets go. Pinched, the sole " +
			"rubs and the boot twists out late; loose, it rocks and comes out early. A folded strip of paper under the sole " +
			"tells: it must move with a clear drag. Touring and walking soles differ by millimetres, so that every other " +
			"boot is a new setting, and every new setting moves the forward pressure.",
		Cautions: []string{
			"A pinched toe holds the knee: never leave the paper stuck because the scale reads right.",
			"How to set the height, and the gap to leave, is in the binding maker's present instructions; they come first.",
		},
		Fields: []workflow.Field{
			{ID: "found", Label: "Paper, as found", Hint: "fold it twice, boot clicked in", Kind: workflow.Choice, Options: options, PerSki: true, When: toeAdjusts},
			{ID: "set", Label: "Paper, as left", Hint: "after setting; the same if nothing was moved", Kind: workflow.Choice, Options: options, PerSki: true, When: toeAdjusts},
			{
				ID: "gauge", Label: "Feeler gauge", Hint: "gap under the sole, if measured", Kind: workflow.Number, Unit: quantity.MM,
				Min: 0, Max: 10, PerSki: true, Optional: true, When: toeAdjusts,
			},
			{
				ID: "surface", Label: "Gliding surface", Hint: "under the toe of the sole, once it was suspected", Kind: workflow.Choice, PerSki: true,
				Options: []workflow.Option{
					{Value: "clean"}, {Value: "cleaned"}, {Value: "replaced"}, {Value: surfaceWorn, Label: "worn: torn, loose or polished through"},
				},
				When: sought(glidingSurface),
			},
			{ID: "moves", Label: "Sole sits, no rattle", Hint: "press the toe down and sideways by hand", Kind: workflow.Seen, PerSki: true, When: toeDoesNotAdjust},
		},
		Needs: []workflow.StepID{SoleLength},
		Rests: []workflow.Rest{
			{On: SoleLength, Fields: []workflow.FieldID{"set"}, Redone: true, Because: "the sole length was set anew after toe height was set"},
			{On: Boots, Fields: []workflow.FieldID{"name", "shell", "norm", "sole", "condition", "wear"}, Because: "the boot or its sole changed after toe height was set"},
			onThisPair("toe height was set"),
			{On: Binding, Fields: []workflow.FieldID{"name", "serial", "used", "kind", "toe_height"}, Because: "the binding changed after toe height was set"},
		},
		Check: checkToeHeight,
	}
}

func toeDoesNotAdjust(job workflow.Job) bool { return !toeAdjusts(job) }

// toeHeightMoved reports whether an answer says that the toe height is not what
// it was: it was left otherwise than found, or otherwise than it was left
// before, or the gauge reads otherwise. Found and left apart count even if the
// answer before said the same: it was found so once more.
func toeHeightMoved(before, after workflow.Answers) bool {
	for _, side := range workflow.Sides {
		if after.Text("found", side) != after.Text("set", side) {
			return true
		}
		was, now := before.Text("gauge", side), after.Text("gauge", side)
		if was != "" && now != "" && was != now {
			return true
		}
	}
	return before != nil && workflow.Changed(before, after, "set")
}

func checkToeHeight(_ workflow.Shop, job workflow.Job) []workflow.Finding {
	found := onEach(func(side workflow.Side) []calc.Finding {
		return append(checkPaper(job, side), checkSurface(job, side)...)
	})
	return append(found, checkGauges(job)...)
}

func checkPaper(job workflow.Job, side workflow.Side) []calc.Finding {
	way := ""
	switch job.Text(ToeHeight, "set", side) {
	case paperSticks:
		way = "the paper is stuck: raise the toe piece until it"
	case paperSlides:
		way = "the paper slides freely: lower the toe piece until it"
	case paperRattles:
		way = "the boot rattles: lower the toe piece until the paper"
	case paperDrags:
		return append(movedNote(job, side), checkGauge(job, side)...)
	default:
		return nil
	}
	return []calc.Finding{never(calc.Stopf("toe-height.paper", toeHeightSource,
		"%s: %s moves with clear resistance, then read forward pressure again.", skiWord(side), way))}
}

func checkSurface(job workflow.Job, side workflow.Side) []calc.Finding {
	if !job.Is(ToeHeight, "surface", side, surfaceWorn) {
		return nil
	}
	return []calc.Finding{never(calc.Stopf("toe-height.surface", "a worn gliding surface holds the sole: "+commonPractice,
		"%s: the gliding surface is worn: replace it, set the toe height again, and answer this step again.", skiWord(side)))}
}

func movedNote(job workflow.Job, side workflow.Side) []calc.Finding {
	found := job.Text(ToeHeight, "found", side)
	if found == paperDrags {
		return nil
	}
	return []calc.Finding{calc.Notef("toe-height.moved", "forward pressure is read again after any change of toe height: "+commonPractice,
		"%s: toe height was set from %s to %s: forward pressure read before that does not count.", skiWord(side), found, paperDrags)}
}

// checkGauge doubts a strip of paper that drags in a gap it cannot reach across.
func checkGauge(job workflow.Job, side workflow.Side) []calc.Finding {
	gap, ok := job.Number(ToeHeight, "gauge", side, quantity.MM)
	if !ok || gap <= widestGauge+slack {
		return nil
	}
	return []calc.Finding{calc.Cautionf("toe-height.gauge", ourRule,
		"%s: the paper drags, and the gap under the sole is %s: above %s paper does not drag; measure and try again.",
		skiWord(side), quantity.Print(gap, quantity.MM), quantity.Print(widestGauge, quantity.MM))}
}

func checkGauges(job workflow.Job) []workflow.Finding {
	left, okLeft := job.Number(ToeHeight, "gauge", workflow.Left, quantity.MM)
	right, okRight := job.Number(ToeHeight, "gauge", workflow.Right, quantity.MM)
	if !okLeft || !okRight || math.Abs(left-right) <= unlikeGauge+slack {
		return nil
	}
	return workflow.On(workflow.Both, []calc.Finding{calc.Cautionf("toe-height.unlike", ourRule,
		"Under the sole are %s on the left ski, %s on the right: set both alike, within %s of each other.",
		quantity.Print(left, quantity.MM), quantity.Print(right, quantity.MM), quantity.Print(unlikeGauge, quantity.MM))})
}
