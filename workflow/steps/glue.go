package steps

import (
	"drillstop/calc"
	"drillstop/calc/quantity"
	"drillstop/workflow"
)

const glueSource = "wood glue in every hole before the screw: " + commonPractice

// glueStep asks for the glue and for the number of holes that got it.
func glueStep() workflow.Step {
	return workflow.Step{
		ID: Glue, Phase: workflow.Mounting, Title: "glue",
		Why: "Glue in a hole does three things: it keeps meltwater out of the core, it lets the screw turn in without " +
			"tearing the thread, and it fills what the thread leaves open. A dry hole looks the same from above and rots " +
			"from within, and its screw lets go years later. Count the holes as the glue goes in: the one left out is " +
			"always under the plate by the time somebody asks.",
		Cautions: []string{
			"Epoxy and solvent glues give off vapour and irritate the skin: gloves, an open window, eyes away from the nozzle.",
			"Take the glue that the binding maker names now; some rule out epoxy, because a screw set in it does not come out again.",
		},
		Kinds: mounts,
		Fields: []workflow.Field{
			{
				ID: "kind", Label: "Kind of glue", Hint: "as the binding maker's instructions say",
				Kind: workflow.Choice, Options: []workflow.Option{
					{Value: "wood glue"}, {Value: "epoxy"}, {Value: "as the maker says", Label: "another, as the maker says"},
				},
			},
			holeCount("holes", "Holes glued", "counted as the glue goes in", mostHoles),
		},
		Needs: []workflow.StepID{Clean},
		Rests: []workflow.Rest{
			{On: Holes, Fields: []workflow.FieldID{"drilled", "depth"}, Redone: true, Because: "holes were drilled again after they were glued"},
			{On: Clean, Redone: true, Because: "holes were cleaned or tapped again after they were glued"},
			onThisPair("the holes were glued"),
		},
		Check: func(shop workflow.Shop, job workflow.Job) []workflow.Finding {
			return onEach(func(side workflow.Side) []calc.Finding { return checkGlue(shop, job, side) })
		},
	}
}

func checkGlue(shop workflow.Shop, job workflow.Job, side workflow.Side) []calc.Finding {
	glued, ok := job.Number(Glue, "holes", side, quantity.Plain)
	fill, again, known := holesToFill(shop, job, side)
	if !ok || !known || glued == fill {
		return nil
	}
	return []calc.Finding{calc.Stopf("glue.count", glueSource,
		"%s: %.0f holes glued, %.0f drilled%s: every hole gets glue before its screw.", skiWord(side), glued, fill-again, andAgain(again))}
}
