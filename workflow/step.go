package workflow

import (
	"slices"

	"drillstop/calc/layout"
)

// StepID names a step: "skier", "forward-pressure".
type StepID string

// Phase is a stretch of the job, and a stretch of the ski that shows it.
type Phase string

// The phases, in order.
const (
	Intake    Phase = "intake"
	Layout    Phase = "layout"
	Drilling  Phase = "drilling"
	Mounting  Phase = "mounting"
	Adjusting Phase = "adjusting"
	Testing   Phase = "testing"
	HandOver  Phase = "hand-over"
)

// Phases are all phases from tail to tip.
var Phases = [...]Phase{Intake, Layout, Drilling, Mounting, Adjusting, Testing, HandOver}

// Step is one declaration: all that the screens, the answer sheets and the
// record know of a step. Adding a step is adding one of these and its check.
type Step struct {
	ID       StepID
	Phase    Phase
	Title    string   // "bit and stop"
	Why      string   // for a learner: why it matters, a few sentences
	Cautions []string // where hands, eyes, lungs or knees are at risk
	Fields   []Field
	CardOf   CardKind // the step may be filled from a card of the shop's library

	// Kinds are the kinds of job that have this step; empty: all of them.
	Kinds []Kind
	// Applies decides beyond the kind whether the step belongs to this job;
	// nil: it does.
	Applies func(Job) bool
	// Needs are the steps that must be answered, and not be stale, before.
	Needs []StepID
	// Rests are the answers elsewhere that this step's answer relies on.
	Rests []Rest

	// Figures are what the program computed for this step, shown large.
	Figures func(Shop, Job) []Figure
	// Verify compares the step's own answers with each other; nil: nothing to
	// compare. It sees canonical answers and returns faults with their Field set.
	Verify func(Shop, Job, Answers) []FieldFault
	// Check looks at the job with this step answered (or, for a step without
	// fields, with what it needs answered) and says what it finds.
	Check func(Shop, Job) []Finding
	// Map is the layout that belongs to this step, for a picture of the ski: of
	// the job, with the step answered by what is given, which may be only a part
	// of its fields. false while there is nothing to draw: no hole pattern was
	// named, or what the layout is made of is not known yet. nil: the step has
	// no picture. A spec that is returned passes its Check.
	Map func(Shop, Job, Answers) (layout.Spec, bool)
	// Picture is what may be drawn beside the step: of the job, with the step
	// answered by what is given, which may be only a part of its fields. nil:
	// nothing.
	Picture func(Shop, Job, Answers) []Picture
	// Stales are the steps that an answer makes stale by what it says, beyond
	// what their Rests declare; it sees the job with the step answered. nil: none.
	Stales func(Shop, Job, Answers) []StaleMark
	// Mends names the step whose stops this one is there to remove: while that
	// step is stopped and this one wants an answer, the hand goes here first. It
	// must be a step that rests on this one.
	Mends StepID
	// Earlier makes a card for this job out of what an earlier job of the shop
	// knows, by its record; false if it knows nothing, or is not about the same
	// pair. nil: the step takes nothing over. It goes with a CardOf of HolesCard.
	Earlier func(shop Shop, job, earlier Job, record []Entry) (Card, bool)
	// Closes marks the step that ends the job; it needs every other step.
	Closes bool
}

// Rest says that a step's answer holds only as long as some answers of another
// step stay what they were.
type Rest struct {
	On     StepID
	Fields []FieldID // of On; empty: any of them
	// Disturbed decides beyond a plain change; nil: a change of one of Fields
	// disturbs. before is nil when On was not answered yet.
	Disturbed func(before, after Answers) bool
	// Redone: answering On again after it had become stale disturbs as well,
	// whatever the answer is: the work was done anew.
	Redone  bool
	Because string // "toe height was changed after forward pressure was read"
}

// Figure is a computed number as it was shown to the technician.
type Figure struct {
	Name  string `json:"name"`           // stable, for programs: "release_value"
	Label string `json:"label"`          // for the eye: "release value"
	Value string `json:"value"`          // "toe 6  heel 6"
	Path  string `json:"path,omitempty"` // how it came about
	// Record is kept but not shown on a screen: a checksum in full.
	Record string `json:"record,omitempty"`
}

// Field returns the step's field of that name.
func (s Step) Field(id FieldID) (Field, bool) {
	for _, f := range s.Fields {
		if f.ID == id {
			return f, true
		}
	}
	return Field{}, false
}

// Asked returns the fields that this job asks, in order.
func (s Step) Asked(job Job) []Field {
	asked := make([]Field, 0, len(s.Fields))
	for _, f := range s.Fields {
		if f.Asked(job) {
			asked = append(asked, f)
		}
	}
	return asked
}

func (s Step) restsOn(id StepID) bool {
	return slices.ContainsFunc(s.Rests, func(r Rest) bool { return r.On == id })
}

func (s Step) applies(job Job) bool {
	return in(s.Kinds, job.Kind) && (s.Applies == nil || s.Applies(job))
}

func in(kinds []Kind, kind Kind) bool { return len(kinds) == 0 || slices.Contains(kinds, kind) }
