package workflow

import "time"

// EntryKind says what an entry records.
type EntryKind string

// The kinds of entry.
const (
	EntryOpened   EntryKind = "opened"   // the job began
	EntryAnswered EntryKind = "answered" // a step was answered, for the first time or again
	EntryWaived   EntryKind = "waived"   // a supervisor lets the job go on in spite of a stop
	EntryVoided   EntryKind = "voided"   // the job ends without hand-over
)

// Entry is one line of a job's record. It says who did what when, and it
// carries what the program concluded at that moment (figures, findings, what
// became stale): replaying entries needs no rules, so a record reads the same
// after the rules have changed.
type Entry struct {
	Ticket Ticket    `json:"ticket"`
	Seq    int       `json:"seq"` // 1, 2, 3 … within the job
	At     time.Time `json:"at"`
	By     string    `json:"by"`
	Kind   EntryKind `json:"kind"`
	// Token makes a repeated append of the same entry harmless.
	Token string `json:"token"`

	JobKind Kind   `json:"job_kind,omitempty"` // opened
	Due     string `json:"due,omitempty"`      // opened: a day, 2026-11-26

	Last *Last `json:"last,omitempty"` // opened: the job it was made from

	Step     StepID      `json:"step,omitempty"` // answered
	Answers  Answers     `json:"answers,omitempty"`
	Figures  []Figure    `json:"figures,omitempty"`
	Findings []Finding   `json:"findings,omitempty"`
	Stale    []StaleMark `json:"stale,omitempty"`
	Finishes bool        `json:"finishes,omitempty"`

	// Closing is how the whole job stood, on the entry that ends it.
	Closing *Closing `json:"closing,omitempty"`

	Waived *Finding `json:"waived,omitempty"` // waived
	Reason string   `json:"reason,omitempty"` // waived, voided
}

// StaleMark says that an answer made another step's answer stale, and why.
type StaleMark struct {
	Step    StepID `json:"step"`
	Because string `json:"because"`
}
