package steps

import (
	"drillstop/calc"
	"drillstop/calc/bore"
	"drillstop/calc/quantity"
	"drillstop/workflow"
)

func bitStep() workflow.Step {
	return workflow.Step{
		ID: Bit, Phase: workflow.Drilling, Title: "bit and stop", Kinds: mounts,
		Why: "A bit a few tenths too wide leaves the thread nothing to hold; one too narrow splits the core. " +
			"The stop is all that stands between the bit and the base, and it has no idea where it was last set. " +
			"So both are measured, not read off the box: the bit with calipers, the stop by a hole in scrap, gauged.",
		Cautions: []string{
			"A stop that slips goes through the base. Try it on scrap first, gauge the hole, and again after ten holes.",
			"Eye protection on before the drill runs, hair and sleeves tied back; clamp the ski, never hold it.",
			"Fibre and carbon dust harms the lungs: mask on, suction running.",
		},
		Fields: []workflow.Field{
			{ID: "bit", Label: "Bit, measured", Kind: workflow.Number, Unit: quantity.MM, Min: 2, Max: 8, Hint: "calipers across the cutting edges"},
			{ID: "stop", Label: "Stop, tried on scrap", Kind: workflow.Number, Unit: quantity.MM, Min: 3, Max: 15, Hint: "gauged depth of the hole it made"},
			{ID: "eyes", Label: "Eye protection on", Kind: workflow.Seen, Hint: "yours, and whoever stands beside you"},
		},
		Needs: []workflow.StepID{Template},
		Rests: []workflow.Rest{
			onThisPair("the stop was tried"),
			{
				On: Skis, Fields: []workflow.FieldID{"construction", "marked", "thickness_toe", "thickness_heel"},
				Because: "the ski's marked hole, construction or thickness changed after the stop was tried",
			},
			{On: Binding, Fields: []workflow.FieldID{"bite_toe", "bite_heel"}, Because: "the length of the screws changed after the stop was tried"},
		},
		Figures: func(_ workflow.Shop, job workflow.Job) []workflow.Figure { return boreFigures(job) },
		Check:   checkBit,
		Map:     drillMap,
	}
}

// checkBit judges bit and stop. Where there is no plan the fit check holds the
// job, and says why.
func checkBit(_ workflow.Shop, job workflow.Job) []workflow.Finding {
	return bySide("ski", bitOn(job, workflow.Left), bitOn(job, workflow.Right))
}

func bitOn(job workflow.Job, side workflow.Side) []calc.Finding {
	plan, err := borePlan(job, side)
	if err != nil {
		return nil
	}
	return append(bore.BitFits(plan, millimetres(job, Bit, "bit", workflow.Both)),
		bore.StopFits(plan, millimetres(job, Bit, "stop", workflow.Both))...)
}
