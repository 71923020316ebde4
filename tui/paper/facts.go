package paper

import (
	"time"

	"drillstop/workflow"
)

// Facts are what a ticket says beyond its steps, as plain values: what is drawn
// on the first sheet, and what programs read under the same names.
type Facts struct {
	Shop          string          `json:"shop"`
	Invented      string          `json:"invented,omitempty"` // "demo" or "practice": no customer's skis
	Notices       []string        `json:"notices"`            // what must not be overlooked, the heaviest first
	ReleaseTested Tested          `json:"release_tested"`
	NotTested     []string        `json:"not_tested"` // steps of the testing phase without an answer that holds
	Path          string          `json:"path,omitempty"`
	Chart         *ChartFact      `json:"chart,omitempty"`
	Scales        []ScaleFact     `json:"scales,omitempty"`
	References    []ReferenceFact `json:"references,omitempty"`
	Rounds        []Round         `json:"rounds,omitempty"`
	Layout        *Layout         `json:"layout,omitempty"`
	Pictures      []StepPicture   `json:"pictures,omitempty"`
	Cautions      []string        `json:"cautions"` // for the skier
	NextDue       string          `json:"next_due,omitempty"`
	Signatures    []Signature     `json:"signatures"`
}

// ChartFact is the chart that the values came from.
type ChartFact struct {
	Edition  string `json:"edition"`
	Checksum string `json:"checksum"` // the beginning of it
	Source   string `json:"source,omitempty"`
}

// ReferenceFact is a moment that readings were judged against.
type ReferenceFact struct {
	Label string `json:"label"`
	Value string `json:"value"`
	Row   string `json:"row,omitempty"`
}

// Signature is a name under the hand-over.
type Signature struct {
	Role string     `json:"role"`
	Name string     `json:"name,omitempty"`
	At   *time.Time `json:"at,omitempty"` // when the job was handed over
}

// StepPicture is a picture with the step that it belongs to.
type StepPicture struct {
	Step    workflow.StepID  `json:"step"`
	Picture workflow.Picture `json:"picture"`
}

// Facts gathers what the ticket says beyond its steps.
func (t Ticket) Facts() Facts {
	state := t.tested()
	f := Facts{
		Shop: t.Shop, Invented: t.Invented, ReleaseTested: state, NotTested: t.untested(), Notices: t.notices(state),
		Scales: t.scales(), Rounds: t.rounds(), Layout: t.layout(), Pictures: t.allPictures(),
		Cautions: t.cautions(state), Signatures: t.signatures(),
		NextDue: t.View.Job.Text(stepHandOver, fieldNextDue, workflow.Both),
	}
	if value, ok := t.figure(figureValue, stepRelease, stepFit); ok {
		f.Path = value.Path
	}
	if chart, ok := t.figure(figureChart, stepRelease, stepReleaseTest); ok {
		f.Chart = &ChartFact{Edition: chart.Value, Checksum: chart.Path, Source: chart.Record}
	}
	for _, name := range []string{figureTwist, figureForward} {
		if moment, ok := t.figure(name, stepReleaseTest, stepRelease); ok {
			f.References = append(f.References, ReferenceFact{Label: moment.Label, Value: moment.Value, Row: moment.Path})
		}
	}
	return f
}

// figure is what the record says under a name, at the first of the steps that
// has it.
func (t Ticket) figure(name string, steps ...workflow.StepID) (workflow.Figure, bool) {
	for _, step := range steps {
		answered, _ := t.View.Job.Answered(step)
		for _, f := range answered.Figures {
			if f.Name == name {
				return f, true
			}
		}
	}
	return workflow.Figure{}, false
}

func (t Ticket) signatures() []Signature {
	job := t.View.Job
	signed := []Signature{
		{Role: "technician", Name: job.Text(stepHandOver, fieldTechnician, workflow.Both)},
		{Role: "skier", Name: job.Text(stepHandOver, fieldSkier, workflow.Both)},
	}
	if job.State == workflow.Finished {
		for i := range signed {
			at := job.EndedAt
			signed[i].At = &at
		}
	}
	return signed
}

// signedBy is the name under a line to sign on.
func (t Ticket) signedBy(s Signature) string {
	switch {
	case s.Name != "":
		return s.Name
	case t.View.Job.State == workflow.Finished:
		return "no name on record"
	}
	return "not handed over"
}
