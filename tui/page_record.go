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
	read   scroll
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
		if is(msg, Keys.Back) || is(msg, Keys.Record) {
			return nil, pop()
		}
		r.read.key(msg)
	}
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
	return strings.Join(r.read.window(r.text, r.height, "esc goes back"), "\n")
}
