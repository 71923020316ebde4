package tui

import (
	"context"
	"strings"

	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"

	"drillstop/workflow"
)

// cards chooses a card of the shop's library.
type cards struct {
	s      *Session
	kind   workflow.CardKind
	job    workflow.Job // that takes the card
	list   []workflow.Card
	loaded bool
	at     int
	width  int
	height int
}

func newCards(s *Session, kind workflow.CardKind, job workflow.Job) *cards {
	return &cards{s: s, kind: kind, job: job}
}

// cardMsg carries the chosen card to the step.
type cardMsg struct{ card workflow.Card }

type cardsMsg struct {
	list []workflow.Card
	err  error
}

func (c *cards) Init() tea.Cmd {
	return do(func(ctx context.Context) tea.Msg {
		list, err := c.s.Desk.Cards(ctx, c.kind, c.job)
		return cardsMsg{list, err}
	})
}

func (c *cards) Resume() tea.Cmd { return nil }
func (c *cards) Leave() tea.Cmd  { return nil }
func (c *cards) Next() string    { return "" }
func (c *cards) Busy() bool      { return !c.loaded }
func (c *cards) Capturing() bool { return false }

func (c *cards) Head() (left, right string) {
	if c.kind == workflow.HolesCard {
		return "Earlier jobs on this pair", c.s.Desk.Person().Name
	}
	return "The shop's " + string(c.kind) + " cards", c.s.Desk.Person().Name
}

func (c *cards) Resize(width, height int) { c.width, c.height = width, height }

func (c *cards) Keys() []key.Binding {
	return []key.Binding{labelled(Keys.Enter, "take"), Keys.Back, Keys.Move}
}

func (c *cards) Update(msg tea.Msg) (tea.Cmd, move) {
	switch msg := msg.(type) {
	case cardsMsg:
		if msg.err != nil {
			return said(noticeMsg{workflow.MarkStop, sentence(msg.err)}), pop()
		}
		c.list, c.loaded = msg.list, true
	case tea.KeyMsg:
		switch {
		case is(msg, Keys.Back):
			return nil, pop()
		case is(msg, Keys.Enter) && c.at < len(c.list):
			return nil, move{back: 1, then: cardMsg{c.list[c.at]}}
		case is(msg, Keys.Up):
			c.at--
		case is(msg, Keys.Down):
			c.at++
		}
	}
	c.at = max(min(c.at, len(c.list)-1), 0)
	return nil, stay
}

func (c *cards) View() string {
	t := c.s.Theme
	if !c.loaded {
		return " reading the shop file"
	}
	if len(c.list) == 0 {
		return strings.Join(marked("·", c.none(), c.width), "\n")
	}
	lines := make([]string, len(c.list))
	for i, card := range c.list {
		cursor, name := "  ", t.Plain
		if i == c.at {
			cursor, name = t.Hand.Render("> "), t.Strong
		}
		lines[i] = cursor + name.Render(pad(card.Name, 26)) + t.Faint.Render(clip(c.about(card), c.width-30))
	}
	return strings.Join(window(lines, c.at, c.height), "\n")
}

// none says why there is nothing to choose from.
func (c *cards) none() string {
	if c.kind == workflow.HolesCard {
		return "The shop knows no earlier job on this pair: measure the holes and type them."
	}
	return "The library has no " + string(c.kind) + " card yet. Type one in once, then f6 keeps it as a card."
}

// about is what a card says, in the order in which the step asks it.
func (c *cards) about(card workflow.Card) string {
	if card.About != "" {
		return card.About
	}
	var parts []string
	for _, step := range c.s.Desk.Checklist().Steps() {
		if step.CardOf != c.kind {
			continue
		}
		for _, f := range step.Fields {
			for _, key := range f.Keys() {
				parts = appendSaid(parts, card.Answers[key])
			}
		}
	}
	return strings.Join(parts, ", ")
}

// keepCardPage asks for the name under which what is typed becomes a card.
func keepCardPage(s *Session, step workflow.Step, typed workflow.Answers) page {
	question := workflow.Step{ID: "card", Title: "card", Fields: []workflow.Field{
		{ID: "name", Label: "Name of the card", Kind: workflow.Text, Hint: "the same name replaces the card"},
	}}
	return newAsk(s, "Keep as a card", question, func(ctx context.Context, answers workflow.Answers) (tea.Msg, error) {
		card := workflow.Card{Kind: step.CardOf, Name: answers.Text("name", workflow.Both), Answers: typed}
		if err := s.Desk.SaveCard(ctx, card); err != nil {
			return nil, err
		}
		return noticeMsg{workflow.MarkKept, "card kept: " + card.Name}, nil
	})
}
