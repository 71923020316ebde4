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

// ticketFlags are where a ticket goes beside the screen.
type ticketFlags struct{ pdf, paper, card string }

func newTicket(a *app) *cobra.Command {
	var typed ticketFlags
	cmd := &cobra.Command{
		Use:   "ticket NUMBER",
		Short: "Print one job: who did which step when, every answer, figure and finding",
		Long: `Prints one job. With --pdf it is written for paper: first what the skier takes
along and both sign, then the whole record of the work. With --card it is the
bench card that hangs on the skis while they are in work, with the number as a
barcode. A job that has ended is printed from its own record alone.`,
		Example: "  drillstop ticket T-0417\n  drillstop ticket 417 --json\n  drillstop ticket 417 --pdf ticket.pdf --paper a5\n  drillstop ticket 417 --card card.pdf",
		Args:    oneArg("ticket number"),
		RunE: func(cmd *cobra.Command, args []string) error {
			number, err := workflow.ParseTicket(args[0])
			if err != nil {
				return usage(err)
			}
			sheet, err := paper.ParseTicketSheet(typed.paper)
			if err != nil {
				return usage(err)
			}
			return a.ticket(cmd.Context(), number, typed, sheet)
		},
	}
	flags := cmd.Flags()
	flags.StringVar(&typed.pdf, "pdf", "", "write the ticket for paper to a `FILE`")
	flags.StringVar(&typed.paper, "paper", string(paper.A4), "paper of the ticket: `a4 or a5`")
	flags.StringVar(&typed.card, "card", "", "write the bench card, A6, to a `FILE`")
	a.jsonFlag(cmd)
	return cmd
}

func (a *app) ticket(ctx context.Context, number workflow.Ticket, typed ticketFlags, sheet paper.Sheet) error {
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
	ticket := ticketOf(file, job, entries, a.now())
	if err := a.writeSheets(ticket, file.desk, typed, sheet); err != nil {
		return err
	}
	if a.json {
		return writeJSON(a.out, ticketRecord{recordOf(ticket.View, entries), ticket.Facts()})
	}
	if typed.pdf != "" || typed.card != "" {
		return nil // it is on paper
	}
	_, err = fmt.Fprint(a.out, ticket.Text())
	return err
}

// ticketRecord is a job as ticket prints it as JSON; the names are a contract.
type ticketRecord struct {
	jobRecord
	Sheet paper.Facts `json:"sheet"` // what the printed ticket says beyond the steps
}

// ticketOf makes the ticket of a job. A job in hand shows its layout and its
// pictures as the steps draw them now; one that has ended only what it recorded.
func ticketOf(file *shopFile, job workflow.Job, entries []workflow.Entry, now time.Time) paper.Ticket {
	t := paper.Ticket{
		Shop: file.desk.Shop().Name, View: file.desk.View(job), Entries: entries, Zone: time.Local, Made: now,
	}
	if file.demo {
		t.Invented = "demo"
	}
	if job.State != workflow.Open {
		return t
	}
	for _, s := range file.desk.Checklist().Steps() {
		answers := job.Answers(s.ID)
		if answers == nil {
			continue
		}
		if spec, ok := file.desk.Map(job, s.ID, answers); ok {
			if plan, err := spec.Plan(); err == nil {
				t.Layout = paper.LayoutOf(&spec, plan)
			}
		}
		for _, p := range file.desk.Picture(job, s.ID, answers) {
			t.Pictures = append(t.Pictures, paper.StepPicture{Step: s.ID, Picture: p})
		}
	}
	return t
}
