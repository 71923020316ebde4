package tui

import "drillstop/workflow"

// recalling suggests what was answered before, where the program has nothing
// better to expect: what a stale step was answered with, and in intake what ages
// of the job that this one was made from. Later steps begin without it: what is
// measured is read as it is, not as it was a season ago.
func (p *stepPage) recalling(step workflow.Step) workflow.Step {
	if p.step.Stale != "" {
		return suggesting(step, "was ", p.job.Answers(step.ID), func(workflow.Field) bool { return true })
	}
	if last, ok := p.job.Last(); ok && step.Phase == workflow.Intake {
		return suggesting(step, "last time ", last.Answers[step.ID], func(f workflow.Field) bool { return !f.Lasts })
	}
	return step
}

// suggesting shows earlier answers beside some of the fields, behind a word.
func suggesting(step workflow.Step, word string, earlier workflow.Answers, some func(workflow.Field) bool) workflow.Step {
	fields := make([]workflow.Field, len(step.Fields))
	for i, f := range step.Fields {
		if f.Suggest == nil && some(f) {
			id := f.ID
			f.Suggest = func(_ workflow.Shop, _ workflow.Job, side workflow.Side) string {
				if text := earlier.Text(id, side); text != "" {
					return word + text
				}
				return ""
			}
		}
		fields[i] = f
	}
	step.Fields = fields
	return step
}
