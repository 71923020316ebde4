package workflow

// Closing is how a job stood when it ended. A closed job is shown from it and
// from its answers alone: a program with other steps, other rules or another
// chart reads the same record in it.
type Closing struct {
	Steps    []ClosedStep `json:"steps"` // those that applied, in their order
	Findings []Finding    `json:"findings,omitempty"`
}

// ClosedStep is a step as it was asked then.
type ClosedStep struct {
	ID     StepID        `json:"id"`
	Phase  Phase         `json:"phase"`
	Title  string        `json:"title"`
	Mark   Mark          `json:"mark"`
	Fields []ClosedField `json:"fields,omitempty"`
}

// ClosedField is a field as it was asked then.
type ClosedField struct {
	ID     FieldID   `json:"id"`
	Label  string    `json:"label"`
	Kind   FieldKind `json:"kind"`
	PerSki bool      `json:"per_ski,omitempty"`
}

// closing sums a view up for the entry that ends the job.
func closing(v View) *Closing {
	c := &Closing{Findings: v.Findings}
	for _, sv := range v.Steps {
		if sv.Mark == MarkApart {
			continue
		}
		step := ClosedStep{ID: sv.Step.ID, Phase: sv.Step.Phase, Title: sv.Step.Title, Mark: sv.Mark}
		if step.Mark == MarkHere {
			step.Mark = MarkAhead // nobody goes on from here
		}
		for _, f := range sv.Step.Asked(v.Job) {
			step.Fields = append(step.Fields, ClosedField{ID: f.ID, Label: f.Label, Kind: f.Kind, PerSki: f.PerSki})
		}
		c.Steps = append(c.Steps, step)
	}
	return c
}

// viewClosed shows a job that has ended as it stood then.
func viewClosed(job Job) View {
	v := View{Job: job, Findings: job.closing.Findings}
	held := "The job is " + string(job.State) + "; a new job can take it up."
	for _, was := range job.closing.Steps {
		step := Step{ID: was.ID, Phase: was.Phase, Title: was.Title}
		for _, f := range was.Fields {
			step.Fields = append(step.Fields, Field{ID: f.ID, Label: f.Label, Kind: f.Kind, PerSki: f.PerSki})
		}
		sv := StepView{Step: step, Mark: was.Mark, Held: held}
		if a, ok := job.Answered(was.ID); ok {
			sv.Stale = a.Stale
		}
		for _, f := range v.Findings {
			if f.Step == was.ID {
				sv.Findings = append(sv.Findings, f)
			}
		}
		v.Steps = append(v.Steps, sv)
	}
	v.Phases = phases(v.Steps)
	return v
}
