// Package calc holds what every computation of drillstop has in common: the
// way it says no (Fault) and the way it says what it saw (Finding). The
// computations themselves live in rooms by subject below it.
package calc

import "fmt"

// Fault is an error that a screen can show to a technician: what is wrong,
// which number, what would be right. It never replaces a number by a guess.
type Fault struct {
	Code     string // stable, for programs: "quantity.unit", "release.blank-cell"
	Field    string // the field it belongs to, if the caller knows one
	Sentence string // for the technician, complete
	Source   string // of the rule that refuses, as in Finding; "" if it is the caller's own
	Cause    error  // for the log, may be nil
}

// Faultf builds a Fault whose sentence is formatted as by fmt.Sprintf.
func Faultf(code, format string, args ...any) *Fault {
	return &Fault{Code: code, Sentence: fmt.Sprintf(format, args...)}
}

// Error returns the sentence; the cause is reached through Unwrap.
func (f *Fault) Error() string { return f.Sentence }

// Unwrap returns the cause, for errors.Is and errors.As.
func (f *Fault) Unwrap() error { return f.Cause }
