package main

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"

	"drillstop/calc"
)

// Exit codes: what a script may build on.
const (
	exitDone   = 0
	exitFailed = 1
	exitUsage  = 2 // the command was called in a way it does not know
	exitStop   = 3 // the computation ended in a stop
)

// outcome is an error with its exit code. Without a cause everything that is to
// be said was said.
type outcome struct {
	code  int
	cause error
}

// Error returns the sentence of the cause.
func (o *outcome) Error() string {
	if o.cause == nil {
		return "stop"
	}
	return o.cause.Error()
}

// Unwrap returns the cause.
func (o *outcome) Unwrap() error { return o.cause }

// errStopped ends a command whose output has told of a stop.
var errStopped = &outcome{code: exitStop}

func usage(err error) error   { return &outcome{code: exitUsage, cause: err} }
func stopped(err error) error { return &outcome{code: exitStop, cause: err} }

// execute works off one command line and returns its exit code.
func execute(ctx context.Context, a *app, args []string) int {
	root := newRoot(a)
	root.SetArgs(args)
	err := root.ExecuteContext(ctx)
	if err == nil {
		return exitDone
	}
	code := exitFailed
	var o *outcome
	if errors.As(err, &o) {
		code = o.code
		if o.cause == nil {
			return code
		}
	}
	a.tell(err)
	return code
}

// tell writes an error: one sentence for people, and for programs that asked
// for JSON an object where they look for one.
func (a *app) tell(err error) {
	fmt.Fprintln(a.err, "drillstop: "+err.Error())
	if !a.json {
		return
	}
	said := struct {
		Code  string `json:"code"`
		Field string `json:"field,omitempty"`
		Text  string `json:"text"`
	}{Code: "failed", Text: err.Error()}
	var fault *calc.Fault
	if errors.As(err, &fault) {
		said.Code, said.Field = fault.Code, fault.Field
	}
	if err := writeJSON(a.out, map[string]any{"error": said}); err != nil {
		fmt.Fprintln(a.err, "drillstop: "+err.Error())
	}
}

// writeJSON writes a value for programs, and readable for people.
func writeJSON(w io.Writer, v any) error {
	enc := json.NewEncoder(w)
	enc.SetIndent("", "  ")
	enc.SetEscapeHTML(false)
	return enc.Encode(v)
}

// onFlag names the flag of a fault, for programs.
func onFlag(flag string, err error) error {
	var fault *calc.Fault
	if !errors.As(err, &fault) || fault.Field == flag {
		return err
	}
	named := *fault
	named.Field = flag
	return &named
}
