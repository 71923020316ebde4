package main

import (
	"context"
	"errors"
	"fmt"
	"os"

	"github.com/spf13/cobra"

	"drillstop/calc"
	"drillstop/db"
	"drillstop/tui/paper"
	"drillstop/workflow"
)

func newRun(a *app) *cobra.Command {
	cmd := &cobra.Command{
		Use:   "run ANSWERS.json",
		Short: "Work through a job from an answer sheet, without a terminal",
		Long: `Opens a job and answers it line by line from a sheet, as a person would on the
screens: the same checks, the same record. "-" reads the sheet from the standard
input. Prints what was kept, what was refused and why, what became stale and what
was found. Ends with exit code 3 if a stop holds the job at the end, or if a step
was refused and not corrected further down the sheet.`,
		Example: "  drillstop blank --kind mount > sheet.json\n  drillstop run sheet.json",
		Args:    oneArg("answer sheet"),
		RunE:    func(cmd *cobra.Command, args []string) error { return a.run(cmd.Context(), args[0]) },
	}
	a.jsonFlag(cmd)
	return cmd
}

func (a *app) run(ctx context.Context, path string) error {
	sheet, err := a.readSheet(path)
	if err != nil {
		return err
	}
	file, err := a.open(ctx, db.Options{})
	if err != nil {
		return err
	}
	defer file.close()
	if file.store.Created() {
		fmt.Fprintf(a.err, "New shop file: %s\n", file.store.Path())
	}
	play, broken := file.desk.Play(ctx, sheet)
	if play.Job.Seq == 0 {
		return broken
	}
	view := file.desk.View(play.Job)
	if err := a.printPlay(play, view); err != nil {
		return err
	}
	switch {
	case broken != nil:
		return fmt.Errorf("the sheet broke off, %s stays as it is: %w", play.Job.Ticket, broken)
	case play.Stopped(view):
		return errStopped
	}
	return nil
}

func (a *app) readSheet(path string) (workflow.Sheet, error) {
	in := a.in
	if path != "-" {
		f, err := os.Open(path) //nolint:gosec // the user names the file
		if err != nil {
			return workflow.Sheet{}, fileFault("sheet.file", "answer sheet", path, err)
		}
		defer f.Close()
		in = f
	}
	sheet, err := workflow.ReadSheet(in)
	if err != nil {
		var fault *calc.Fault
		if !errors.As(err, &fault) {
			return sheet, fileFault("sheet.file", "answer sheet", path, err)
		}
	}
	return sheet, err
}

// fileFault says that a file could not be read, without the name of the call
// that failed.
func fileFault(code, what, path string, err error) error {
	why := err
	var pathErr *os.PathError
	if errors.As(err, &pathErr) {
		why = pathErr.Err
	}
	fault := calc.Faultf(code, "The %s %s cannot be read: %v.", what, path, why)
	fault.Cause = err
	return fault
}

func (a *app) printPlay(play workflow.Play, view workflow.View) error {
	if a.json {
		return writeJSON(a.out, playRecordOf(play, view))
	}
	_, err := fmt.Fprint(a.out, paper.Played{Play: play, View: view}.Text())
	return err
}
