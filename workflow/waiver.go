package workflow

import (
	"maps"
	"strings"

	"drillstop/calc"
)

// Waived reports whether a waiver is in force: the skier is told of it.
func (j Job) Waived() bool { return len(j.waivers) > 0 }

// IsWaived reports whether a waiver covers exactly this finding.
func (j Job) IsWaived(f Finding) bool { return j.waived(f).Waiver != nil }

// waived returns the finding with the waiver that covers it, if there is one.
func (j Job) waived(f Finding) Finding {
	if w, ok := j.waivers[waiverKey(f)]; ok && f.Level == calc.Stop && !f.Never {
		f.Waiver = &w
	}
	return f
}

// hasWaiver reports whether a stop of that step is waived.
func (j Job) hasWaiver(step StepID) bool {
	for key := range j.waivers {
		if waives(key, step) {
			return true
		}
	}
	return false
}

// waiversAfter are the waivers that are still in force after an answer: one ends
// when its step is answered otherwise or becomes stale, for then nobody has
// looked at what it was given for.
func (j Job) waiversAfter(e Entry) map[string]Waiver {
	ends := map[StepID]bool{e.Step: !maps.Equal(j.Answers(e.Step), e.Answers)}
	for _, mark := range e.Stale {
		ends[mark.Step] = true
	}
	left := maps.Clone(j.waivers)
	maps.DeleteFunc(left, func(key string, _ Waiver) bool {
		for step, over := range ends {
			if over && waives(key, step) {
				return true
			}
		}
		return false
	})
	return left
}

// waives reports whether a waiver, by its key, is about a finding of that step.
func waives(key string, step StepID) bool { return strings.HasPrefix(key, string(step)+"\x00") }
