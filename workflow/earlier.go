package workflow

import (
	"context"
	"slices"
)

// earlier makes cards of the shop's other jobs on the same pair, newest first.
//
// A list of jobs knows their skier and their ski by name, so that jobs are
// looked for by either; whether it is the same pair is for the step to say.
func (d *Desk) earlier(ctx context.Context, kind CardKind, job Job) ([]Card, error) {
	at := slices.IndexFunc(d.list.steps, func(s Step) bool { return s.CardOf == kind && s.Earlier != nil })
	if at < 0 {
		return nil, nil
	}
	tickets, err := d.alike(ctx, job)
	if err != nil {
		return nil, err
	}
	var cards []Card
	for _, t := range tickets {
		other, record, err := d.Load(ctx, t)
		if err != nil {
			return nil, err
		}
		if card, ok := d.list.steps[at].Earlier(d.Shop(), job, other, record); ok {
			card.Kind, card.Name = kind, t.String()
			cards = append(cards, card)
		}
	}
	return cards, nil
}

// alike returns the other jobs that name the same skier or the same ski, newest
// first.
func (d *Desk) alike(ctx context.Context, job Job) ([]Ticket, error) {
	skier, ski, _ := d.describe(job)
	var tickets []Ticket
	for _, words := range []string{skier, ski} {
		if words == "" {
			continue
		}
		list, err := d.store.List(ctx, Query{Words: words})
		if err != nil {
			return nil, err
		}
		for _, summary := range list {
			if summary.Ticket != job.Ticket {
				tickets = append(tickets, summary.Ticket)
			}
		}
	}
	slices.Sort(tickets)
	tickets = slices.Compact(tickets)
	slices.Reverse(tickets)
	return tickets, nil
}
