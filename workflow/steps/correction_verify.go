package steps

import (
	"math"
	"slices"

	"drillstop/calc"
	"drillstop/calc/moment"
	"drillstop/calc/quantity"
	"drillstop/workflow"
)

// verifyCorrection holds what was done against what the readings ask for.
func verifyCorrection(shop workflow.Shop, job workflow.Job, a workflow.Answers) []workflow.FieldFault {
	test, _ := job.Answered(ReleaseTest)
	if round, ok := job.Answered(Correction); test.Stale != "" && (!ok || round.Seq < test.Seq) {
		return []workflow.FieldFault{onField("what", workflow.Left, "correction.stale",
			"The readings do not hold any more, %s: make the release test again first.", test.Stale)}
	}
	var faults []workflow.FieldFault
	for _, side := range workflow.Sides {
		faults = append(faults, verifyRound(shop, job, a, side)...)
	}
	return faults
}

func onField(id workflow.FieldID, side workflow.Side, code, format string, args ...any) workflow.FieldFault {
	return workflow.FieldFault{Field: id, Side: side, Fault: calc.Faultf(code, format, args...)}
}

func verifyRound(shop workflow.Shop, job workflow.Job, a workflow.Answers, side workflow.Side) []workflow.FieldFault {
	switch a.Text("what", side) {
	case keepIt:
		return verifyKept(job, a, side)
	case setTheScale:
		return verifySet(shop, job, a, side)
	case seekTheCause:
		return verifySought(a, side)
	}
	return nil
}

func verifyKept(job workflow.Job, a workflow.Answers, side workflow.Side) []workflow.FieldFault {
	if found := asked(job, side); len(found) > 0 {
		return []workflow.FieldFault{onField("what", side, "correction.keep",
			"It cannot be kept: %s", found[0].Text)}
	}
	return append(noScale(a, side, keepIt), noCause(a, side, keepIt)...)
}

func verifySought(a workflow.Answers, side workflow.Side) []workflow.FieldFault {
	faults := noScale(a, side, seekTheCause)
	if a.Text("cause", side) == "" {
		faults = append(faults, onField("cause", side, "correction.cause",
			"%s: which cause is looked at first? The likeliest is %s.", skiWord(side), moment.Causes()[0].Name))
	}
	return faults
}

// noScale refuses the reading of a scale that nobody had to touch.
func noScale(a workflow.Answers, side workflow.Side, what string) []workflow.FieldFault {
	var faults []workflow.FieldFault
	for _, p := range scales() {
		if a.Text(p.to, side) != "" {
			faults = append(faults, onField(p.to, side, "correction.scale",
				"%s: with %q the %s scale stays as it is; leave this empty, or choose %q.", skiWord(side), what, p.name, setTheScale))
		}
	}
	return faults
}

func noCause(a workflow.Answers, side workflow.Side, what string) []workflow.FieldFault {
	if a.Text("cause", side) == "" {
		return nil
	}
	return []workflow.FieldFault{onField("cause", side, "correction.cause",
		"%s: with %q no cause is looked at; leave this empty, or choose %q.", skiWord(side), what, seekTheCause)}
}

// verifySet takes a scale that was set on the word of the readings, and no other.
func verifySet(shop workflow.Shop, job workflow.Job, a workflow.Answers, side workflow.Side) []workflow.FieldFault {
	if spread := slices.IndexFunc(asked(job, side), func(f workflow.Finding) bool { return f.Code == "moment.spread" }); spread >= 0 {
		return []workflow.FieldFault{onField("what", side, "correction.spread", "No scale is set by such readings: %s", asked(job, side)[spread].Text)}
	}
	faults, moved := noCause(a, side, setTheScale), false
	for _, p := range scales() {
		to, asked, err := target(shop, job, side, p)
		moved = moved || asked
		if err != nil {
			fault := onField("what", side, "correction.seek", "%s, %s: %s", skiWord(side), p.name, err.Error())
			fault.Fault.Cause = err
			return []workflow.FieldFault{fault}
		}
		if fault, wrong := verifyScale(job, a, side, p, to, asked); wrong {
			faults = append(faults, fault)
		}
	}
	if !moved {
		faults = append(faults, onField("what", side, "correction.nothing", "%s: all its readings are in range: keep it.", skiWord(side)))
	}
	return faults
}

// verifyScale compares what a corrected scale reads with where it was sent.
func verifyScale(job workflow.Job, a workflow.Answers, side workflow.Side, p piece, to float64, asked bool) (workflow.FieldFault, bool) {
	reads, read := a.Number(p.to, side, quantity.Plain)
	name := p.title + " " + string(side)
	switch {
	case !asked && read:
		return onField(p.to, side, "correction.in-range", "%s: its readings are in range; leave the scale as it stands, and this empty.", name), true
	case asked && !read:
		return onField(p.to, side, "correction.read", "%s: set it to %s, then read it back.", name, plainNumber(to)), true
	case asked && math.Abs(reads-to) > slack:
		before, _ := p.standingBefore(job, side, testedAt(job))
		return onField(p.to, side, "correction.differs", "%s reads %s; the readings send it from %s to %s: set it and read it again.",
			name, plainNumber(reads), plainNumber(before), plainNumber(to)), true
	}
	return workflow.FieldFault{}, false
}
