package workflow

import (
	"fmt"
	"slices"
)

// Checklist is the whole job as an ordered list of steps. It decides which
// entries may be written; it is immutable.
type Checklist struct {
	steps []Step
	index map[StepID]int
}

// NewChecklist checks the declarations against each other: unique names,
// phases in order, needs that come earlier, rests on steps and fields that
// exist, exactly one step that closes the job, at the end.
func NewChecklist(steps ...Step) (*Checklist, error) {
	c := &Checklist{steps: slices.Clone(steps), index: make(map[StepID]int, len(steps))}
	for i, s := range steps {
		if _, twice := c.index[s.ID]; twice || s.ID == "" {
			return nil, fmt.Errorf("step %d: the id %q is empty or taken", i, s.ID)
		}
		c.index[s.ID] = i
	}
	for i, s := range steps {
		if err := c.checkStep(i, s); err != nil {
			return nil, fmt.Errorf("step %q: %w", s.ID, err)
		}
	}
	return c, nil
}

func (c *Checklist) checkStep(i int, s Step) error {
	if !slices.Contains(Phases[:], s.Phase) {
		return fmt.Errorf("unknown phase %q", s.Phase)
	}
	if i > 0 && slices.Index(Phases[:], s.Phase) < slices.Index(Phases[:], c.steps[i-1].Phase) {
		return fmt.Errorf("phase %q comes before that of the step ahead of it", s.Phase)
	}
	if s.Closes != (i == len(c.steps)-1) {
		return fmt.Errorf("the last step closes the job, and no other")
	}
	for _, need := range s.Needs {
		if at, ok := c.index[need]; !ok || at >= i {
			return fmt.Errorf("needs %q, which does not come before it", need)
		}
	}
	if at, ok := c.index[s.Mends]; s.Mends != "" && (!ok || !c.steps[at].restsOn(s.ID)) {
		return fmt.Errorf("mends %q, which does not rest on it", s.Mends)
	}
	for _, rest := range s.Rests {
		at, ok := c.index[rest.On]
		if !ok || at == i || rest.Because == "" {
			return fmt.Errorf("rests on %q: no such other step, or no reason given", rest.On)
		}
		for _, id := range rest.Fields {
			if _, ok := c.steps[at].Field(id); !ok {
				return fmt.Errorf("rests on %s of %q, which has no such field", id, rest.On)
			}
		}
	}
	return checkFields(s.Fields)
}

func checkFields(fields []Field) error {
	seen := map[FieldID]bool{}
	for _, f := range fields {
		switch {
		case f.ID == "" || f.Label == "" || f.Kind == "":
			return fmt.Errorf("field %q lacks an id, a label or a kind", f.ID)
		case seen[f.ID]:
			return fmt.Errorf("field %q stands twice", f.ID)
		case (f.Kind == Choice) != (len(f.Options) > 0):
			return fmt.Errorf("field %q: options and kind do not agree", f.ID)
		}
		seen[f.ID] = true
	}
	return nil
}

// Steps returns all steps in order.
func (c *Checklist) Steps() []Step { return slices.Clone(c.steps) }

// Step returns the step of that name.
func (c *Checklist) Step(id StepID) (Step, bool) {
	i, ok := c.index[id]
	if !ok {
		return Step{}, false
	}
	return c.steps[i], true
}

// Findings returns what the checks say of the job as it stands. A step speaks
// once it is answered; a step without fields speaks as soon as what it needs is
// there. For a job that is no longer open it is what was found then.
func (c *Checklist) Findings(shop Shop, job Job) []Finding {
	return c.View(shop, job).Findings
}

func (c *Checklist) findings(shop Shop, job Job, s Step) []Finding {
	_, answered := job.Answered(s.ID)
	if s.Check == nil || !s.applies(job) || !answered && (len(s.Fields) > 0 || !c.ready(job, s)) {
		return nil
	}
	return withWaivers(job, located(s.ID, s.Check(shop, job)))
}

// located writes the step's name into findings that carry none.
func located(step StepID, found []Finding) []Finding {
	for i := range found {
		if found[i].Step == "" {
			found[i].Step = step
		}
	}
	return found
}

func withWaivers(job Job, found []Finding) []Finding {
	out := make([]Finding, len(found))
	for i, f := range found {
		out[i] = job.waived(f)
	}
	return out
}

// ready reports whether all that the step needs, and that applies, is answered
// and fresh.
func (c *Checklist) ready(job Job, s Step) bool { return c.missingNeed(job, s) == "" }

// missingNeed returns the first step that must be answered before; the step
// that closes the job needs all others, whether it names them or not.
func (c *Checklist) missingNeed(job Job, s Step) StepID {
	needs := s.Needs
	if s.Closes {
		needs = nil
		for _, other := range c.steps {
			if other.ID != s.ID {
				needs = append(needs, other.ID)
			}
		}
	}
	for _, need := range needs {
		if c.steps[c.index[need]].applies(job) && !job.Fresh(need) {
			return need
		}
	}
	return ""
}
