package workflow

import (
	"drillstop/calc"
)

// Finding is what a check noticed, and where.
type Finding struct {
	Step   StepID     `json:"step"`
	Side   Side       `json:"side,omitempty"`
	Level  calc.Level `json:"level"`
	Code   string     `json:"code"`
	Text   string     `json:"text"`
	Source string     `json:"source,omitempty"`
	Never  bool       `json:"never_waived,omitempty"`
	Waiver *Waiver    `json:"waiver,omitempty"` // set on a stop that was waived
}

// Waiver is a supervisor's decision to go on in spite of a stop. It covers the
// finding with exactly these numbers: a changed sentence is a new stop. It ends
// when the step of the finding is answered otherwise, or becomes stale.
type Waiver struct {
	By     string `json:"by"`
	Reason string `json:"reason"`
}

// Holds reports whether the finding holds the job.
func (f Finding) Holds() bool { return f.Level == calc.Stop && f.Waiver == nil }

// On turns findings of a computation into findings about one ski.
func On(side Side, found []calc.Finding) []Finding {
	out := make([]Finding, len(found))
	for i, f := range found {
		out[i] = Finding{Side: side, Level: f.Level, Code: f.Code, Text: f.Text, Source: f.Source, Never: f.Never}
	}
	return out
}

// FromFault turns the no of a computation into a stop: without the number the
// job cannot go on, and nobody can waive a number that does not exist. source is
// that of the rule where the fault names none.
func FromFault(side Side, source string, err error) Finding {
	f := Finding{Side: side, Level: calc.Stop, Code: "fault", Text: err.Error(), Source: source, Never: true}
	if fault, ok := asFault(err); ok {
		f.Code = fault.Code
		if fault.Source != "" {
			f.Source = fault.Source
		}
	}
	return f
}

// waiverKey identifies the finding a waiver is about.
func waiverKey(f Finding) string {
	return string(f.Step) + "\x00" + string(f.Side) + "\x00" + f.Code + "\x00" + f.Text
}

// Worst returns the heaviest finding, the first of its weight; false if there
// is none. A waived stop weighs as a caution.
func Worst(found []Finding) (Finding, bool) {
	var worst Finding
	best := -1
	for _, f := range found {
		if w := weight(f); w > best {
			worst, best = f, w
		}
	}
	return worst, best >= 0
}

func weight(f Finding) int {
	switch {
	case f.Holds():
		return 3
	case f.Level == calc.Caution, f.Level == calc.Stop:
		return 2
	default:
		return 1
	}
}
