package tui

import (
	"context"
	"strings"
	"time"

	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"

	"drillstop/tui/paper"
	"drillstop/workflow"
)

// record shows a job's ticket as it would be printed, with every entry.
type record struct {
	s      *Session
	job    workflow.Job
	text   []string
	from   int
	width  int
	height int
	loaded []workflow.Entry
}

func newRecord(s *Session, job workflow.Job) *record { return &record{s: s, job: job} }

type recordMsg struct {
	job     workflow.Job
	entries []workflow.Entry
	err     error
}

func (r *record) Init() tea.Cmd {
	ticket := r.job.Ticket
	return do(func(ctx context.Context) tea.Msg {
		job, entries, err := r.s.Desk.Load(ctx, ticket)
		return recordMsg{job, entries, err}
	})
}

func (r *record) Resume() tea.Cmd            { return nil }
func (r *record) Leave() tea.Cmd             { return nil }
func (r *record) Next() string               { return "" }
func (r *record) Busy() bool                 { return false }
func (r *record) Capturing() bool            { return false }
func (r *record) Head() (left, right string) { return jobHead(r.s, r.job, r.width) }

func (r *record) Resize(width, height int) {
	r.width, r.height = width, height
	r.print()
}

func (r *record) Keys() []key.Binding {
	return []key.Binding{Keys.Back, labelled(Keys.Move, "scroll"), Keys.Turn}
}

func (r *record) Update(msg tea.Msg) (tea.Cmd, move) {
	switch msg := msg.(type) {
	case recordMsg:
		if msg.err != nil {
			return said(noticeMsg{workflow.MarkStop, sentence(msg.err)}), pop()
		}
		r.job, r.loaded = msg.job, msg.entries
		r.print()
	case tea.KeyMsg:
		switch {
		case is(msg, Keys.Back):
			return nil, pop()
		case is(msg, Keys.Up):
			r.from--
		case is(msg, Keys.Down):
			r.from++
		case is(msg, Keys.PageUp):
			r.from -= r.height
		case is(msg, Keys.PageDown):
			r.from += r.height
		}
	}
	r.from = max(min(r.from, len(r.text)-r.height), 0)
	return nil, stay
}

func (r *record) print() {
	if r.loaded == nil {
		return
	}
	ticket := paper.Ticket{Shop: r.s.Desk.Shop().Name, View: r.s.Desk.View(r.job), Entries: r.loaded, Zone: time.Local}
	r.text = strings.Split(strings.TrimRight(ticket.Text(), "\n"), "\n")
}

func (r *record) View() string {
	if r.loaded == nil {
		return " reading the record"
	}
	return strings.Join(r.text[r.from:min(r.from+r.height, len(r.text))], "\n")
}
