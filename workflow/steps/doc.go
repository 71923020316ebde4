// Package steps declares the steps of the whole job, one file per step: what is
// asked, why, what it needs, what it rests on, and the check that speaks up.
// All gives them in the order in which the hands do them.
//
// Computation stays in calc. What a step takes from the job to feed it stands
// in the files named after what they hold: release_input.go, bore_plan.go,
// binding_facts.go, boots_facts.go.
package steps
