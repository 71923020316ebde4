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

// skiWord begins a sentence about one ski.
func skiWord(side workflow.Side) string {
	if side == workflow.Right {
		return "Right ski"
	}
	return "Left ski"
}
