package steps

import (
	"drillstop/calc"
	"drillstop/calc/fit"
	"drillstop/calc/quantity"
	"drillstop/workflow"
)

func bindingStep() workflow.Step {
	return workflow.Step{
		ID: Binding, Phase: workflow.Intake, Title: "binding", CardOf: workflow.BindingCard,
		Why: "The binding decides what is possible at all: which soles it can let go, which values its scale reaches, how long a sole its track takes. " +
			"Its screws and their bite say how deep a hole must be, before a bit is touched. " +
			"A card of the shop's library fills these in; compare each with the binding in your hand, because makers change a model and keep its name.",
		Cautions: []string{
			"The maker's present instructions come before this program wherever they say something else.",
		},
		Fields: bindingFields(),
		Verify: verifyBinding,
		Check:  checkBinding,
	}
}

func bindingFields() []workflow.Field {
	return lasting([]workflow.Field{
		{ID: "name", Label: "Binding", Kind: workflow.Text, Hint: "model, as printed on it"},
		{ID: "serial", Label: "Serial number", OfPair: true, Kind: workflow.Text, Optional: true, Hint: "scan or type"},
		{ID: "kind", Label: "Kind of binding", Kind: workflow.Choice, Options: bindingKinds(), Hint: "how it holds the boot"},
		{
			ID: "norms", Label: "Sole norms it takes", Kind: workflow.Text, Read: readNorms,
			Hint: "as its maker declares: ISO 5355 A, ISO 9523",
		},
		{ID: "scale_min", Label: "Lowest mark of the scale", Kind: workflow.Number, Min: 0.5, Max: 20, Hint: "printed beside the window"},
		{ID: "scale_max", Label: "Highest mark of the scale", Kind: workflow.Number, Min: 0.5, Max: 20, Hint: "printed beside the window"},
		{ID: "indicator_step", Label: "From mark to mark", Kind: workflow.Number, Min: 0.1, Max: 1, Hint: "0.5 where half values are marked"},
		{ID: "sole_min", Label: "Shortest sole, template", Kind: workflow.Number, Unit: quantity.MM, Min: 150, Max: 400, Hint: "printed on the template"},
		{ID: "sole_max", Label: "Longest sole, template", Kind: workflow.Number, Unit: quantity.MM, Min: 150, Max: 400, Hint: "printed on the template"},
		{
			ID: "track_min", Label: "Shortest sole, heel track", Kind: workflow.Number, Unit: quantity.MM, Min: 150, Max: 400,
			Optional: true, Hint: "where the heel piece stands on a track",
		},
		{
			ID: "track_max", Label: "Longest sole, heel track", Kind: workflow.Number, Unit: quantity.MM, Min: 150, Max: 400,
			Optional: true, Hint: "where the heel piece stands on a track",
		},
		{
			ID: "brake", Label: "Brake width", Kind: workflow.Number, Unit: quantity.MM, Min: 60, Max: 150,
			Optional: true, Hint: "between the arms; empty: no brake",
		},
		{ID: "toe_height", Label: "Toe height", Kind: workflow.Choice, Options: toeHeights(), Hint: "how the toe piece meets the sole"},
		{
			ID: "mm_per_turn", Label: "Heel piece per turn", Kind: workflow.Number, Unit: quantity.MM, Min: 0.1, Max: 5,
			Optional: true, Hint: "travel in one turn of its length screw",
		},
		whole(workflow.Field{ID: "risers", Label: "Heel risers for climbing", Min: 0, Max: 6, Optional: true, Hint: "positions above flat"}),
		{
			ID: "used", Label: "New or used", OfPair: true, Kind: workflow.Choice,
			Options: []workflow.Option{{Value: "new"}, {Value: "used"}}, Hint: "used: has been on a ski before",
		},
		mountsOnly(whole(workflow.Field{ID: "screws_toe", Label: "Screws, toe piece", Min: 2, Max: 10, Hint: "of one ski, with the centre screw"})),
		mountsOnly(whole(workflow.Field{ID: "screws_heel", Label: "Screws, heel piece", Min: 2, Max: 10, Hint: "of one ski"})),
		mountsOnly(workflow.Field{
			ID: "bite_toe", Label: "Screw below plate, toe", Kind: workflow.Number, Unit: quantity.MM, Min: 3, Max: 15,
			Hint: "how far it stands out below the base plate",
		}),
		mountsOnly(workflow.Field{
			ID: "bite_heel", Label: "Screw below plate, heel", Kind: workflow.Number, Unit: quantity.MM, Min: 3, Max: 15,
			Hint: "how far it stands out below the base plate",
		}),
		mountsOnly(workflow.Field{
			ID: "locking_screw", Label: "Centre screw under the toe", Kind: workflow.Choice, Options: workflow.YesNo,
			Hint: "hidden once the toe piece slides on",
		}),
		{
			ID: "looked_over", Label: "Toe and heel, by hand", OfPair: true, Kind: workflow.Choice, When: sought(wornBinding),
			Options: []workflow.Option{{Value: lookedSound}, {Value: lookedWorn, Label: "worn: play, cracks, a tired spring"}},
			Hint:    "after a release test that led here",
		},
		patternField("pattern", "Hole pattern", "a name of the shop's library; empty: none"),
	}, "used", "looked_over")
}

// mountsOnly asks a field only where holes are drilled.
func mountsOnly(f workflow.Field) workflow.Field {
	f.Kinds = mounts
	return f
}

func bindingKinds() []workflow.Option {
	names := map[fit.Kind]string{
		fit.KindAlpine: "alpine, no touring",
		fit.KindHybrid: "hybrid, pins to walk and alpine to ski",
		fit.KindPin:    "pin, holds the boot by its inserts",
		fit.KindFrame:  "frame, the whole plate lifts",
		fit.KindTrack:  "system track, on the ski's own plate",
	}
	options := make([]workflow.Option, 0, len(names))
	for _, kind := range fit.Kinds() {
		options = append(options, workflow.Option{Value: string(kind), Label: names[kind]})
	}
	return options
}

func toeHeights() []workflow.Option {
	return []workflow.Option{
		{Value: toeFixed, Label: "fixed, one sole height"},
		{Value: toeAutomatic, Label: "automatic, finds the height itself"},
		{Value: toeAdjustable, Label: "adjustable, set by hand"},
	}
}

// verifyBinding compares the ends of each range with each other.
func verifyBinding(_ workflow.Shop, _ workflow.Job, a workflow.Answers) []workflow.FieldFault {
	var faults []workflow.FieldFault
	for _, r := range []struct {
		low, high workflow.FieldID
		unit      quantity.Unit
		apart     bool // the ends must differ
	}{
		{"scale_min", "scale_max", quantity.Plain, true},
		{"sole_min", "sole_max", quantity.MM, false},
		{"track_min", "track_max", quantity.MM, false},
	} {
		low, hasLow := a.Number(r.low, workflow.Both, r.unit)
		high, hasHigh := a.Number(r.high, workflow.Both, r.unit)
		switch {
		case hasLow != hasHigh:
			missing := r.high
			if hasHigh {
				missing = r.low
			}
			faults = append(faults, workflow.FieldFault{Field: missing, Fault: calc.Faultf("binding.half-range",
				"A range has two ends: give both, or none.")})
		case hasLow && (high < low || r.apart && high == low):
			faults = append(faults, workflow.FieldFault{Field: r.high, Fault: calc.Faultf("binding.range",
				"The range runs from %s to %s: the second must be the larger.", quantity.Print(low, r.unit), quantity.Print(high, r.unit))})
		}
	}
	return append(faults, verifyRisers(a)...)
}

// verifyRisers catches a touring binding that was taken for one that cannot tour.
func verifyRisers(a workflow.Answers) []workflow.FieldFault {
	kind := fit.Kind(a.Text("kind", workflow.Both))
	if n, ok := a.Number("risers", workflow.Both, quantity.Plain); !ok || n == 0 || kind.Tours() {
		return nil
	}
	name := "An alpine"
	if kind == fit.KindTrack {
		name = "A system track"
	}
	return []workflow.FieldFault{{Field: "risers", Fault: calc.Faultf("binding.risers",
		"%s binding has no heel risers: choose hybrid, pin or frame, or leave it empty.", name)}}
}

// checkBinding looks at what can be wrong with the binding alone. Whether it
// suits boot and ski is said by the fit check.
func checkBinding(shop workflow.Shop, job workflow.Job) []workflow.Finding {
	var found []calc.Finding
	if kindOf(job) == fit.KindTrack && isMount(job) {
		found = append(found, calc.Stopf("binding.track-mount", commonPractice,
			"A system track binding slides onto the ski's own plate and needs no holes: open an adjustment instead, or choose another kind."))
	}
	if job.Is(Binding, "used", workflow.Both, "used") {
		found = append(found, calc.Notef("binding.used", commonPractice,
			"The binding is used: look for cracks, dried grease, worn gliding surfaces and bent brake arms before it goes on."))
	}
	if job.Is(Binding, "looked_over", workflow.Both, lookedWorn) {
		found = append(found, never(calc.Stopf("binding.worn", commonPractice,
			"The binding is worn: it does not go out; fit another one, and answer this step for it.")))
	}
	return workflow.On(workflow.Both, append(found, checkPattern(shop, job)...))
}
