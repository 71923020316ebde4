package calc

import "fmt"

// Level says how much a finding weighs.
type Level string

// The levels, lightest first. A stop holds the job.
const (
	Note    Level = "note"
	Caution Level = "caution"
	Stop    Level = "stop"
)

// Finding is what a computation noticed, with the numbers behind it in one
// sentence and the source of the rule it applied.
type Finding struct {
	Level  Level
	Code   string // stable, for programs: "fit.brake-narrow"
	Text   string // for the technician, one sentence with its numbers
	Source string // a standard with its clause, a paper, "common practice, no source", "from memory"
	Never  bool   // a stop that nobody may waive
}

// Notef builds a finding that is good to know.
func Notef(code, source, format string, args ...any) Finding {
	return Finding{Level: Note, Code: code, Source: source, Text: fmt.Sprintf(format, args...)}
}

// Cautionf builds a finding that should make the hand pause.
func Cautionf(code, source, format string, args ...any) Finding {
	return Finding{Level: Caution, Code: code, Source: source, Text: fmt.Sprintf(format, args...)}
}

// Stopf builds a finding that holds the job.
func Stopf(code, source, format string, args ...any) Finding {
	return Finding{Level: Stop, Code: code, Source: source, Text: fmt.Sprintf(format, args...)}
}
