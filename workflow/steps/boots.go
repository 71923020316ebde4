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
	return lasting([]workflow.Field{
		{ID: "name", Label: "Boot", Kind: workflow.Text, Hint: "model and size, as printed on it"},
		{
			ID: "norm", Label: "Sole norm", Kind: workflow.Choice, Options: normOptions(),
			PerSki: true, Hint: "moulded or printed on the sole or shell",
		},
		{
			ID: "sole", Label: "Boot sole length", Kind: workflow.Number, Unit: quantity.MM, Min: 150, Max: 400,
			PerSki: true, Read: readSole, Hint: "three digits, usually at the heel",
		},
		{
			ID: "shell", Label: "Shell size, mondopoint", Kind: workflow.Number, Min: 15, Max: 35,
			Optional: true, Hint: "25.5; to check the sole length against",
		},
		mountsOnly(workflow.Field{
			ID: "midsole", Label: "Midsole mark", Kind: workflow.Choice, Options: workflow.YesNo, PerSki: true,
			Hint: "a line at the side of the sole",
		}),
		{ID: "inserts", Label: "Touring inserts", Kind: workflow.Choice, Options: workflow.YesNo, Hint: "metal, at toe and heel"},
		{
			ID: "condition", Label: "Condition of the soles", Kind: workflow.Choice, Options: conditions,
			PerSki: true, Hint: "toe, heel, and what holds them together",
		},
		{
			ID: "wear", Label: "Toe wear", Kind: workflow.Number, Unit: quantity.MM, Min: 0, Max: 15,
			PerSki: true, Optional: true, Hint: "against a new sole",
		},
		{
			ID: "washed", Label: "Soles washed and dry", Kind: workflow.Seen, PerSki: true, When: sought(contaminatedBoot),
			Hint: "once dirt or grease was suspected",
		},
	}, "sole", "midsole", "condition", "wear", "washed")
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
	found = append(found, solesSinceLast(job)...)
	found = append(found, bySide("boot", fit.Wear(left), fit.Wear(right))...)
	found = append(found, bySide("boot", checkWorn(job, workflow.Left), checkWorn(job, workflow.Right))...)
	return append(found, bySide("boot", checkMidsole(job, workflow.Left), checkMidsole(job, workflow.Right))...)
}

func checkWorn(job workflow.Job, side workflow.Side) []calc.Finding {
	if !job.Is(Boots, "condition", side, conditionWorn) || bootOf(job, side).WornToe != 0 {
		return nil
	}
	return []calc.Finding{calc.Cautionf("boots.worn", commonPractice,
		"The sole is worn: measure the toe wear, and look at the gliding surface under toe and heel.")}
}

func checkMidsole(job workflow.Job, side workflow.Side) []calc.Finding {
	if !job.Is(Boots, "midsole", side, workflow.No) {
		return nil
	}
	return []calc.Finding{calc.Cautionf("boots.midsole", commonPractice,
		"No midsole mark: halve the sole length %s, mark the middle yourself, and measure it from both ends.", bootOf(job, side).Sole)}
}
