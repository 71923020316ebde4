package steps

import (
	"drillstop/calc"
	"drillstop/calc/fit"
	"drillstop/calc/quantity"
	"drillstop/workflow"
)

// How boots, skis and bindings are found.
const (
	conditionGood    = "good"
	conditionWorn    = "worn"
	conditionDamaged = "damaged"
)

var conditions = []workflow.Option{{Value: conditionGood}, {Value: conditionWorn}, {Value: conditionDamaged}}

func bootsStep() workflow.Step {
	return workflow.Step{
		ID: Boots, Phase: workflow.Intake, Title: "boots",
		Why: "The sole is half of the release mechanism: its norm says which bindings can let it go, and its length is the lever through which a twist reaches the leg. " +
			"The same skier on a shorter sole needs a higher value for the same moment. " +
			"The shell size on the cuff is not the sole length; the three digits at the heel are, and left and right are read apart because boots get swapped.",
		Cautions: []string{
			"A cracked, soft or badly worn sole releases by chance: no value and no test makes up for it.",
		},
		Fields: bootsFields(),
		Check:  checkBoots,
	}
}

func bootsFields() []workflow.Field {
	return []workflow.Field{
		{
			ID: "norm", Label: "Sole norm", Kind: workflow.Choice, Options: normOptions(),
			Hint: "moulded or printed on the sole or shell",
		},
		{
			ID: "sole", Label: "Boot sole length", Kind: workflow.Number, Unit: quantity.MM, Min: 150, Max: 400,
			PerSki: true, Read: readSole, Hint: "three digits, usually at the heel",
		},
		{
			ID: "shell", Label: "Shell size, mondopoint", Kind: workflow.Number, Min: 15, Max: 35,
			Optional: true, Hint: "25.5; to check the sole length against",
		},
		{
			ID: "midsole", Label: "Midsole mark found", Kind: workflow.Seen, PerSki: true,
			Hint: "a line at the side of the sole",
		},
		{ID: "inserts", Label: "Touring inserts", Kind: workflow.Choice, Options: workflow.YesNo, Hint: "metal, at toe and heel"},
		{
			ID: "condition", Label: "Condition of the soles", Kind: workflow.Choice, Options: conditions,
			Hint: "of the worse boot",
		},
		{
			ID: "wear", Label: "Toe wear", Kind: workflow.Number, Unit: quantity.MM, Min: 0, Max: 15,
			Optional: true, Hint: "of the worse boot, against a new sole",
		},
	}
}

func normOptions() []workflow.Option {
	names := map[fit.Norm]string{
		fit.NormAlpineAdult: "alpine, adult",
		fit.NormAlpineChild: "alpine, child",
		fit.NormTouring:     "touring",
		fit.NormWalkAdult:   "alpine with walking sole, adult",
		fit.NormWalkChild:   "alpine with walking sole, child",
	}
	options := make([]workflow.Option, 0, len(names))
	for _, norm := range fit.KnownNorms() {
		options = append(options, workflow.Option{Value: string(norm), Label: string(norm) + ", " + names[norm]})
	}
	return options
}

func checkBoots(_ workflow.Shop, job workflow.Job) []workflow.Finding {
	left, right := bootOf(job, workflow.Left), bootOf(job, workflow.Right)
	found := bySide("boot", fit.ShellSize(left.Sole, left.Shell), fit.ShellSize(right.Sole, right.Shell))
	found = append(found, workflow.On(workflow.Both, fit.Wear(left))...)
	if job.Is(Boots, "condition", workflow.Both, conditionWorn) && left.WornToe == 0 {
		found = append(found, workflow.On(workflow.Both, []calc.Finding{calc.Cautionf("boots.worn", commonPractice,
			"The soles are worn: measure the toe wear, and look at the gliding surface under toe and heel.")})...)
	}
	return found
}
