package steps

import (
	"drillstop/calc"
	"drillstop/workflow"
)

// Where rules come from that no standard or paper states.
const (
	commonPractice = "common practice, no source"
	ourRule        = "our rule, no source"
)

// onEach looks at the left and then at the right ski, and writes the ski into
// what is found.
func onEach(look func(workflow.Side) []calc.Finding) []workflow.Finding {
	var all []workflow.Finding
	for _, side := range workflow.Sides {
		all = append(all, workflow.On(side, look(side))...)
	}
	return all
}

// onThisPair is for what was done on the skis or read off them: it does not hold
// for another pair.
func onThisPair(done string) workflow.Rest {
	return workflow.Rest{On: Skis, Fields: []workflow.FieldID{"name", "serial", "length"}, Because: "the skis changed after " + done}
}

// never marks a stop that nobody may waive: its cause goes, or the pair is not
// handed over.
func never(f calc.Finding) calc.Finding {
	f.Never = true
	return f
}

// skiWord begins a sentence about one ski.
func skiWord(side workflow.Side) string {
	if side == workflow.Right {
		return "Right ski"
	}
	return "Left ski"
}
