package main

import (
	"context"
	"errors"
	"fmt"
	"time"

	"github.com/spf13/cobra"

	"drillstop/calc"
	"drillstop/db"
	"drillstop/tui/paper"
	"drillstop/workflow"
)

func newTicket(a *app) *cobra.Command {
	cmd := &cobra.Command{
		Use:     "ticket NUMBER",
		Short:   "Print one job: who did which step when, every answer, figure and finding",
		Example: "  drillstop ticket T-0417\n  drillstop ticket 417 --json",
		Args:    oneArg("ticket number"),
		RunE: func(cmd *cobra.Command, args []string) error {
			number, err := workflow.ParseTicket(args[0])
			if err != nil {
				return usage(err)
			}
			return a.ticket(cmd.Context(), number)
		},
	}
	a.jsonFlag(cmd)
	return cmd
}

func (a *app) ticket(ctx context.Context, number workflow.Ticket) error {
	file, err := a.open(ctx, db.Options{MustExist: true})
	if err != nil {
		return err
	}
	defer file.close()
	job, entries, err := file.desk.Load(ctx, number)
	if errors.Is(err, workflow.ErrNoJob) {
		fault := calc.Faultf("ticket.unknown", "There is no job %s in %s.", number, file.store.Path())
		fault.Cause = err
		return fault
	}
	if err != nil {
		return err
	}
	view := file.desk.View(job)
	if a.json {
		return writeJSON(a.out, recordOf(view, entries))
	}
	sheet := paper.Ticket{Shop: file.desk.Shop().Name, View: view, Entries: entries, Zone: time.Local}
	_, err = fmt.Fprint(a.out, sheet.Text())
	return err
}
