package steps

import (
	"math"

	"drillstop/calc"
	"drillstop/calc/quantity"
	"drillstop/workflow"
)

// slack keeps a value that stands exactly on a limit from falling beyond it by
// the last bit of a subtraction.
const slack = 1e-9

// templateTolerance is how far the template may be set from the sole length of
// each boot, in mm: as the binding itself, and so that a pair 1 mm apart can be
// mounted. Our own limit.
const templateTolerance = soleSetTolerance

func templateStep() workflow.Step {
	return workflow.Step{
		ID: Template, Phase: workflow.Layout, Title: "template in place", Kinds: mounts,
		Why: "The template puts every hole where the binding expects it, and it knows only the sole length it was set to. " +
			"Set for another boot, the heel piece ends beside its track and no adjustment reaches it. " +
			"Centre it across the ski as well: a binding 1 mm off the middle edges unlike its pair.",
		Cautions: []string{
			"A template that shifts under the drill gives oval holes: clamp it, and pull at it before you start.",
		},
		Fields: []workflow.Field{
			{
				ID: "sole_set", Label: "Template set to", Kind: workflow.Number, Unit: quantity.MM, Min: 150, Max: 400, Read: readSole,
				Hint: "read it off the template", Suggest: suggestSole,
			},
			{ID: "centred", Label: "Centred across the ski", Kind: workflow.Seen, PerSki: true, Hint: "the same rest to both edges"},
			{ID: "clamped", Label: "Clamped, does not shift", Kind: workflow.Seen, PerSki: true, Hint: "pull at it"},
		},
		Needs: []workflow.StepID{MountPoint},
		Rests: []workflow.Rest{
			{On: Boots, Fields: []workflow.FieldID{"sole"}, Because: "the boot sole length changed after the template was set"},
			{On: Binding, Fields: []workflow.FieldID{"name", "kind", "pattern"}, Because: "the binding or its hole pattern changed after its template was set"},
			onThisPair("the template was clamped"),
			{On: MountPoint, Redone: true, Because: "the mount point was laid out again after the template was clamped"},
		},
		Check: checkTemplate,
	}
}

// suggestSole is what the template should read: the boot sole length.
func suggestSole(_ workflow.Shop, job workflow.Job, _ workflow.Side) string {
	return job.Text(Boots, "sole", workflow.Left)
}

func checkTemplate(_ workflow.Shop, job workflow.Job) []workflow.Finding {
	set, ok := job.Number(Template, "sole_set", workflow.Both, quantity.MM)
	if !ok {
		return nil
	}
	return bySide("ski", templateAgainst(job, set, workflow.Left), templateAgainst(job, set, workflow.Right))
}

func templateAgainst(job workflow.Job, set float64, side workflow.Side) []calc.Finding {
	sole, ok := job.Number(Boots, "sole", side, quantity.MM)
	if !ok || math.Abs(set-sole) <= templateTolerance+slack {
		return nil
	}
	return []calc.Finding{never(calc.Stopf("template.sole", ourRule,
		"The template is set to %s, the boot sole is %s long: set it within %s of both boots before the first hole.",
		quantity.Print(set, quantity.MM), quantity.Print(sole, quantity.MM), quantity.Print(templateTolerance, quantity.MM)))}
}
