package main

import (
	"bytes"
	"fmt"
	"io"
	"os"

	"drillstop/tui/paper"
	"drillstop/workflow"
)

// writeSheets writes what was asked for on paper, each once it is made whole, so
// that a sheet that fails is not begun.
func (a *app) writeSheets(t paper.Ticket, desk *workflow.Desk, typed ticketFlags, sheet paper.Sheet) error {
	if typed.pdf != "" {
		err := writeSheet(typed.pdf, "ticket", func(w io.Writer) error { return t.PDF(w, sheet) })
		if err != nil {
			return err
		}
		fmt.Fprintf(a.err, "drillstop: %s written to %s.\n", t.View.Job.Ticket, typed.pdf)
	}
	if typed.card == "" {
		return nil
	}
	card := paper.Card{Shop: t.Shop, View: t.View, Entries: t.Entries, Zone: t.Zone, Invented: t.Invented, Made: t.Made}
	card.Skier, card.Ski, card.Binding = desk.Describe(t.View.Job)
	if err := writeSheet(typed.card, "bench card", card.PDF); err != nil {
		return err
	}
	fmt.Fprintf(a.err, "drillstop: The bench card of %s written to %s.\n", t.View.Job.Ticket, typed.card)
	return nil
}

// writeSheet makes a sheet and keeps it in a file.
func writeSheet(path, name string, drawn func(io.Writer) error) error {
	var out bytes.Buffer
	if err := drawn(&out); err != nil {
		return err
	}
	if err := os.WriteFile(path, out.Bytes(), 0o600); err != nil {
		return fmt.Errorf("the %s cannot be written: %w", name, err)
	}
	return nil
}
