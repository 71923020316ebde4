package tui

import (
	"context"

	tea "github.com/charmbracelet/bubbletea"

	"drillstop/calc"
	"drillstop/workflow"
)

// againPage asks for the kind of a new job for the same skier and pair, and the
// day it is due.
func againPage(s *Session, from workflow.Job) page {
	skier, ski, _ := s.Desk.Describe(from)
	a := newAsk(s, "Again: "+skier+"  "+ski, newJobStep(), func(ctx context.Context, answers workflow.Answers) (tea.Msg, error) {
		kind, err := workflow.ParseKind(answers.Text("kind", workflow.Both))
		if err != nil {
			return nil, err
		}
		job, err := s.Desk.Again(ctx, from, kind, answers.Text("due", workflow.Both))
		if err != nil && job.Ticket == 0 {
			return nil, err
		}
		// With a job in hand, an error says that some of what it should begin
		// with could not be kept: it is asked like the rest.
		return openedMsg{job: job}, nil
	})
	a.text = []workflow.Finding{{Level: calc.Note, Text: "Skier, boots, skis and binding are taken over from " + from.Ticket.String() +
		". What ages is asked again, with last time beside it."}}
	return a
}
