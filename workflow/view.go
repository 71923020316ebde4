package workflow

import (
	"fmt"
	"unicode/utf8"

	"drillstop/calc"
)

// Mark is one character that says how a step stands; it carries the meaning
// without colour, on a screen, on paper and read aloud.
type Mark rune

// The marks.
const (
	MarkAhead   Mark = '·' // not yet
	MarkHere    Mark = '>' // the hand is here
	MarkKept    Mark = '='
	MarkStale   Mark = '~'
	MarkCaution Mark = '!' // kept, with a caution
	MarkStop    Mark = '#'
	MarkWaived  Mark = 'w'
	MarkApart   Mark = '-' // does not apply
)

// MarshalText writes the mark as its character.
func (m Mark) MarshalText() ([]byte, error) { return []byte(string(m)), nil }

// UnmarshalText reads what MarshalText wrote.
func (m *Mark) UnmarshalText(text []byte) error {
	r, size := utf8.DecodeRune(text)
	if size != len(text) || Mark(r).Word() == "unknown" {
		return fmt.Errorf("%q is no mark", text)
	}
	*m = Mark(r)
	return nil
}

// Word returns the mark as a word, for readers that do not see it.
func (m Mark) Word() string {
	switch m {
	case MarkAhead:
		return "not yet"
	case MarkHere:
		return "here"
	case MarkKept:
		return "kept"
	case MarkStale:
		return "stale"
	case MarkCaution:
		return "kept, caution"
	case MarkStop:
		return "stop"
	case MarkWaived:
		return "waived"
	case MarkApart:
		return "does not apply"
	}
	return "unknown"
}

// View is a job as a screen or a report shows it: every step with its mark, and
// where the hand goes next. It is derived, never stored.
type View struct {
	Job      Job
	Steps    []StepView
	Phases   []PhaseView
	Findings []Finding
	Here     StepID // the step to answer next; "" when nothing is left
}

// StepView is one step of a View.
type StepView struct {
	Step     Step
	Mark     Mark
	Findings []Finding
	Stale    string // why it must be answered again
	Held     string // why it cannot be answered now; "" when it can
}

// PhaseView sums a phase up.
type PhaseView struct {
	Phase Phase `json:"phase"`
	Mark  Mark  `json:"mark"` // the most urgent mark of its steps
	Done  int   `json:"done"`
	Of    int   `json:"of"` // applicable steps; 0: the phase does not apply
}

// Step returns the view of one step.
func (v View) Step(id StepID) (StepView, bool) {
	for _, s := range v.Steps {
		if s.Step.ID == id {
			return s, true
		}
	}
	return StepView{}, false
}

// View looks at the job as it stands, or as it stood when it ended.
func (c *Checklist) View(shop Shop, job Job) View {
	if job.State != Open && job.closing != nil {
		return viewClosed(job)
	}
	v := View{Job: job, Steps: make([]StepView, 0, len(c.steps))}
	var holds []StepView // the steps with a stop, so far
	for _, s := range c.steps {
		found := c.findings(shop, job, s)
		v.Findings = append(v.Findings, found...)
		sv := StepView{Step: s, Findings: found, Held: c.held(job, s, holds)}
		sv.Mark, sv.Stale = mark(job, s, found)
		if v.Here == "" && job.State == Open && (wants(sv) || s.Closes) {
			v.Here = s.ID
		}
		v.Steps = append(v.Steps, sv)
		if sv.Mark == MarkStop {
			holds = append(holds, sv)
		}
	}
	v.Here = v.mendFirst()
	v.markHere()
	v.Phases = phases(v.Steps)
	return v
}

// wants reports whether the step is one to go to: not answered, stale, or the
// place of a stop.
func wants(sv StepView) bool {
	return sv.Mark == MarkAhead || sv.Mark == MarkStale || sv.Mark == MarkStop
}

// mendFirst sends the hand to the step that is there to remove a stop before it
// goes to the stopped step itself; once that is stale, its cause was seen to.
func (v View) mendFirst() StepID {
	for _, sv := range v.Steps {
		if sv.Step.Mends == v.Here && v.Here != "" && sv.Held == "" && (sv.Mark == MarkAhead || sv.Mark == MarkStale) {
			if stopped, _ := v.Step(v.Here); stopped.Mark == MarkStop && stopped.Stale == "" {
				return sv.Step.ID
			}
		}
	}
	return v.Here
}

func (v View) markHere() {
	for i := range v.Steps {
		if v.Steps[i].Step.ID == v.Here && v.Steps[i].Mark == MarkAhead {
			v.Steps[i].Mark = MarkHere
		}
	}
}

// held says why the step cannot be answered now. A stop holds what lies behind
// it, but never what might remove it: a step on which the stopped one rests.
func (c *Checklist) held(job Job, s Step, holds []StepView) string {
	switch {
	case job.State != Open:
		return "The job is " + string(job.State) + "; a new job can take it up."
	case !s.applies(job):
		return "This step does not apply to this job."
	}
	for _, stop := range holds {
		if !stop.Step.restsOn(s.ID) {
			worst, _ := Worst(stop.Findings)
			return "The job is held at " + stop.Step.Title + ": " + worst.Text
		}
	}
	if need := c.missingNeed(job, s); need != "" {
		what := "answered"
		if a, ok := job.Answered(need); ok && a.Stale != "" {
			what = "answered again"
		}
		return "First " + c.steps[c.index[need]].Title + " must be " + what + "."
	}
	return ""
}

func mark(job Job, s Step, found []Finding) (m Mark, stale string) {
	a, answered := job.Answered(s.ID)
	worst, some := Worst(found)
	switch {
	case !s.applies(job):
		return MarkApart, ""
	case some && worst.Holds():
		return MarkStop, a.Stale
	case !answered:
		return MarkAhead, ""
	case a.Stale != "":
		return MarkStale, a.Stale
	case hasWaiver(found):
		return MarkWaived, ""
	case some && worst.Level == calc.Caution:
		return MarkCaution, ""
	}
	return MarkKept, ""
}

func hasWaiver(found []Finding) bool {
	for _, f := range found {
		if f.Waiver != nil {
			return true
		}
	}
	return false
}

// urgency orders marks for the sum of a phase.
func urgency(m Mark) int {
	switch m {
	case MarkStop:
		return 6
	case MarkStale:
		return 5
	case MarkHere:
		return 4
	case MarkAhead:
		return 3
	case MarkWaived:
		return 2
	case MarkCaution:
		return 1
	case MarkKept, MarkApart:
	}
	return 0
}

func phases(steps []StepView) []PhaseView {
	out := make([]PhaseView, 0, len(Phases))
	for _, p := range Phases {
		pv := PhaseView{Phase: p, Mark: MarkKept}
		for _, s := range steps {
			if s.Step.Phase != p || s.Mark == MarkApart {
				continue
			}
			pv.Of++
			if s.Mark != MarkAhead && s.Mark != MarkHere && s.Mark != MarkStale && s.Mark != MarkStop {
				pv.Done++
			}
			if urgency(s.Mark) > urgency(pv.Mark) {
				pv.Mark = s.Mark
			}
		}
		if pv.Of == 0 {
			pv.Mark = MarkApart
		}
		out = append(out, pv)
	}
	return out
}
