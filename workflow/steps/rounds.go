package steps

import (
	"fmt"
	"slices"

	"drillstop/calc"
	"drillstop/calc/moment"
	"drillstop/workflow"
)

const roundsSource = "a binding that was outside does not come back by itself: " + ourRule

// causesLookedAt are the steps in which what moves a reading is seen to.
var causesLookedAt = []workflow.StepID{Correction, ForwardPressure, ToeHeight, SoleLength, Boots, Binding, ReleaseValue}

// answeredAgain disturbs by every answer after the first, whatever it says: a
// scale that a test had corrected may have been turned back to where it was set.
func answeredAgain(before, _ workflow.Answers) bool { return before != nil }

// checkRounds compares the present round of the release test with those before
// it. What was measured once is not unknown, and a reading far outside is not
// washed away by another one.
func checkRounds(shop workflow.Shop, job workflow.Job) []workflow.Finding {
	now := answered(job, ReleaseTest)
	if now == nil {
		return nil
	}
	for round := now.Before; round != nil; round = round.Before {
		if isNotTested(round.Answers) {
			continue
		}
		if isNotTested(now.Answers) {
			return workflow.On(workflow.Both, []calc.Finding{never(calc.Stopf("release-test.measured-before", roundsSource,
				"This pair was measured before in this job: what it releases at is known. Measure it again with the same device, or end the job."))})
		}
		if far, ok := outside(shop, job, round.Answers); ok {
			found := calc.Cautionf("release-test.earlier-round", roundsSource, "An earlier round was outside: %s", far)
			if !seenTo(job, round.Seq, now.Seq) {
				found = calc.Stopf("release-test.unexplained", roundsSource,
					"An earlier round was outside, and nothing was seen to since: %s Look for the cause, then measure again.", far)
			}
			return workflow.On(workflow.Both, []calc.Finding{found})
		}
	}
	return nil
}

// outside says the first reading of a round whose cause had to be sought, or
// with which the binding was to be taken out of service.
func outside(shop workflow.Shop, job workflow.Job, round workflow.Answers) (string, bool) {
	for _, m := range measurements() {
		for _, side := range workflow.Sides {
			v, err := m.verdict(shop, job, side, round)
			if err == nil && (v.Action == moment.SeekCause || v.Action == moment.TakeOut) {
				return fmt.Sprintf("%s, %s: %s", skiWord(side), m.words, v.Sentence()), true
			}
		}
	}
	return "", false
}

// seenTo reports whether a step in which a cause is looked at was answered
// between two entries.
func seenTo(job workflow.Job, from, to int) bool {
	return slices.ContainsFunc(causesLookedAt, func(step workflow.StepID) bool {
		for a := answered(job, step); a != nil; a = a.Before {
			if from < a.Seq && a.Seq < to {
				return true
			}
		}
		return false
	})
}
