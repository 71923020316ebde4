package steps

import (
	"drillstop/calc/quantity"
	"drillstop/workflow"
)

// mostHoles is the largest number of holes or screws that one ski is asked for.
// Our own limit: bindings have 8 to 16.
const mostHoles = 40

// holeCount is a field for a number of holes or screws on each ski, from least
// to most. It refuses as whole does.
func holeCount(id workflow.FieldID, label, hint string, least, most float64) workflow.Field {
	return whole(workflow.Field{ID: id, Label: label, Hint: hint, Min: least, Max: most, PerSki: true})
}

// drilledHoles is how many holes were drilled into one ski; false where that
// was not answered.
func drilledHoles(job workflow.Job, side workflow.Side) (float64, bool) {
	return job.Number(Holes, "drilled", side, quantity.Plain)
}
