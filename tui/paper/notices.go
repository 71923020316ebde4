package paper

import (
	"strings"

	"drillstop/workflow"
)

// Tested says how far a job was release-tested.
type Tested string

// How far a job was release-tested.
const (
	TestedAll     Tested = "yes"
	TestedPart    Tested = "in part"            // a direction on a ski was not measured
	TestedNot     Tested = "no"                 // nobody measured anything
	TestedStale   Tested = "no longer valid"    // something changed after the test
	TestedStopped Tested = "not passed"         // a stop stands against it
	TestedWaived  Tested = "let pass by waiver" // a supervisor let the stop pass
)

// tested reads from the record how far the job was release-tested.
func (t Ticket) tested() Tested {
	sv, asked := t.View.Step(stepReleaseTest)
	answered, done := t.View.Job.Answered(stepReleaseTest)
	read := 0
	for _, field := range readingFields {
		for _, side := range workflow.Sides {
			if answered.Answers.Text(field, side) != "" {
				read++
			}
		}
	}
	switch {
	case !asked || !done || sv.Mark == workflow.MarkApart || read == 0 || answered.Answers.Text(fieldTested, workflow.Both) == answerNoDevice:
		return TestedNot
	case answered.Stale != "":
		return TestedStale
	case sv.Mark == workflow.MarkStop:
		return TestedStopped
	case read < len(readingFields)*len(workflow.Sides):
		return TestedPart
	case sv.Mark == workflow.MarkWaived:
		return TestedWaived
	}
	return TestedAll
}

// untested are the steps of the testing phase that nothing valid is known of.
func (t Ticket) untested() []string {
	titles := []string{}
	for _, sv := range t.View.Steps {
		switch sv.Mark {
		case workflow.MarkAhead, workflow.MarkHere, workflow.MarkStale, workflow.MarkStop:
		default:
			continue
		}
		if sv.Step.Phase == workflow.Testing && sv.Step.ID != stepReleaseTest && sv.Step.ID != stepCorrection {
			titles = append(titles, sv.Step.Title)
		}
	}
	return titles
}

// notices are what must not be overlooked, in plain words.
func (t Ticket) notices(state Tested) []string {
	notices := []string{}
	switch t.Invented {
	case "":
	case "demo":
		notices = append(notices, "DEMO: shop, skier and numbers are invented. Not for skiing.")
	default:
		notices = append(notices, strings.ToUpper(t.Invented)+": no customer's skis. Not for skiing.")
	}
	switch job := t.View.Job; job.State {
	case workflow.Voided:
		notices = append(notices, "VOID: "+job.EndedWhy)
	case workflow.Open:
		notices = append(notices, "IN WORK: not handed over.")
	case workflow.Finished:
	}
	if said := state.notice(); said != "" {
		notices = append(notices, said)
	}
	if left := t.untested(); len(left) > 0 {
		notices = append(notices, "NOT TESTED: "+strings.Join(left, ", ")+".")
	}
	return notices
}

// notice says in large letters what a skier must know of the release test; "" if
// it was passed.
func (s Tested) notice() string {
	switch s {
	case TestedAll:
		return ""
	case TestedPart:
		return "NOT FULLY RELEASE-TESTED"
	case TestedStale:
		return "NOT RELEASE-TESTED as it stands: something changed after the test"
	case TestedStopped:
		return "RELEASE TEST NOT PASSED"
	case TestedWaived:
		return "RELEASE TEST NOT PASSED, let pass by waiver"
	case TestedNot:
	}
	return "NOT RELEASE-TESTED"
}

// cautions are what the skier is told, in writing. Sources: 15 to 20 days on
// snow and each season, press release of a standards body, 2004; loads and
// boots, ASTM F939, scope; the rest follows from what the values rest on.
func (t Ticket) cautions(state Tested) []string {
	said := []string{
		"These values hold for the skier, the boots and the skis on this sheet. With another mass, height, age, skier type or boot, have them set anew.",
		"No binding releases in every fall, and none keeps from every injury.",
		"Do not turn the scales yourself. Have the bindings checked every 15 to 20 days on snow, and before each season.",
		"The values are not for heavy loads, sleds or boots above mid-calf.",
	}
	if state != TestedAll {
		said = append(said, "Read the large print above: at what moment these bindings let go was not measured, or not as it should be.")
	}
	if sv, ok := t.View.Step(stepHandOver); ok {
		for _, f := range sv.Step.Asked(t.View.Job) {
			if f.ID == fieldTouring {
				said = append(said, "Touring: with the toe locked the binding does not release. Unlock it before skiing down, and look that the heel holds.")
			}
		}
	}
	for _, f := range t.View.Findings {
		if f.Waiver != nil {
			return append(said, "A supervisor let a stop pass; it stands under findings, with the reason.")
		}
	}
	return said
}
