package tui

import (
	"context"
	"slices"
	"strings"

	"github.com/charmbracelet/bubbles/key"
	"github.com/charmbracelet/bubbles/textinput"
	tea "github.com/charmbracelet/bubbletea"

	"drillstop/workflow"
)

// benchRow is the height of one job on the bench, with the line below it.
const benchRow = 4

// bench is the opening screen: the jobs in hand.
type bench struct {
	s        *Session
	width    int
	height   int
	jobs     []workflow.Summary
	loaded   bool
	finished bool // finished and void jobs instead of those in hand
	at       int
	hand     workflow.Ticket // the job under the cursor
	filter   textinput.Model
	asked    int  // number of the last list asked for; older answers are dropped
	open     bool // Enter was pressed before the list had come
	busy     bool // a job is being read
}

func newBench(s *Session) *bench {
	in := textinput.New()
	in.Prompt = "find: "
	in.CharLimit = 60
	return &bench{s: s, filter: in}
}

type listedMsg struct {
	number int
	jobs   []workflow.Summary
	err    error
}

func (b *bench) Init() tea.Cmd { return tea.Batch(b.list(), tick()) }
func (b *bench) Next() string  { return "" }
func (b *bench) Busy() bool    { return b.busy || b.open }

// Resume reads the list anew: the jobs may have moved on.
func (b *bench) Resume() tea.Cmd {
	b.busy = false
	return b.list()
}

func (b *bench) Leave() tea.Cmd { return nil }

func (b *bench) list() tea.Cmd {
	b.asked++
	number, words := b.asked, b.filter.Value()
	states := []workflow.State{workflow.Open}
	_, err := workflow.ParseTicket(words)
	switch {
	case err == nil, words != "" && !b.finished:
		states = nil // found wherever it is: skiers come back after their job has ended
	case b.finished:
		states = []workflow.State{workflow.Finished, workflow.Voided}
	}
	return do(func(ctx context.Context) tea.Msg {
		jobs, err := b.s.Desk.List(ctx, workflow.Query{States: states, Words: words})
		if !b.finished {
			slices.SortStableFunc(jobs, inHandFirst)
		}
		return listedMsg{number, jobs, err}
	})
}

// inHandFirst orders jobs in hand before those that have ended.
func inHandFirst(a, b workflow.Summary) int { return ended(a) - ended(b) }

func ended(j workflow.Summary) int {
	if j.State == workflow.Open {
		return 0
	}
	return 1
}

func (b *bench) Update(msg tea.Msg) (tea.Cmd, move) {
	switch msg := msg.(type) {
	case listedMsg:
		return b.listed(msg), stay
	case clockMsg:
		return b.list(), stay
	case openedMsg:
		b.busy = false
		if msg.err != nil {
			return said(noticeMsg{workflow.MarkStop, sentence(msg.err)}), stay
		}
		b.turnTo(msg.job)
		return nil, push(openJob(b.s, msg.job)...)
	case tea.KeyMsg:
		if b.filter.Focused() {
			return b.filterKey(msg), stay
		}
		return b.key(msg)
	}
	return nil, stay
}

// turnTo takes a job in hand. One that is not on the list was just begun: words
// to find would hide it.
func (b *bench) turnTo(job workflow.Job) {
	b.hand = job.Ticket
	if !slices.ContainsFunc(b.jobs, func(s workflow.Summary) bool { return s.Ticket == job.Ticket }) {
		b.filter.SetValue("")
		b.finished = false
	}
}

func (b *bench) listed(msg listedMsg) tea.Cmd {
	if msg.number != b.asked {
		return nil
	}
	if msg.err != nil {
		b.open = false
		return said(noticeMsg{workflow.MarkStop, sentence(msg.err)})
	}
	b.loaded = true
	b.at = min(b.at, max(len(msg.jobs)-1, 0))
	for i, j := range msg.jobs {
		// The hand stays on its job when others come and go above it.
		if j.Ticket == b.hand {
			b.at = i
		}
	}
	b.jobs = msg.jobs
	b.grip()
	if b.open {
		b.open = false
		if at, ok := b.meant(); ok {
			b.at = at
			b.grip()
			return b.load()
		}
	}
	return nil
}

// meant is the job that Enter opens behind words to find: the only one, or the
// only one in hand.
func (b *bench) meant() (at int, ok bool) {
	inHand := 0
	for i, j := range b.jobs {
		if j.State == workflow.Open {
			at = i
			inHand++
		}
	}
	return at, inHand == 1 || len(b.jobs) == 1
}

func (b *bench) key(msg tea.KeyMsg) (tea.Cmd, move) {
	if msg.Type == tea.KeyRunes && repeated(msg) {
		msg.Runes = msg.Runes[:1]
	}
	switch {
	case scanned(msg):
		b.filter.SetValue("")
		return tea.Batch(b.filter.Focus(), b.filterKey(msg)), stay
	case is(msg, Keys.New):
		return nil, push(newJobPage(b.s))
	case is(msg, Keys.Filter):
		return b.filter.Focus(), stay
	case is(msg, Keys.Finished):
		b.finished, b.at = !b.finished, 0
		return b.list(), stay
	case is(msg, Keys.Void) && b.chosen() != nil && b.chosen().State == workflow.Open:
		return nil, push(voidPage(b.s, *b.chosen()))
	case is(msg, Keys.Back) && b.filter.Value() != "":
		b.filter.SetValue("")
		return b.list(), stay
	case is(msg, Keys.Enter):
		return b.load(), stay
	}
	b.step(msg)
	return nil, stay
}

// scanned tells a scanner from a hand: it sends more than one character at
// once, or begins with a digit or the T of a ticket, which are no commands.
func scanned(msg tea.KeyMsg) bool {
	if msg.Type != tea.KeyRunes || msg.Alt {
		return false
	}
	first := msg.Runes[0]
	return len(msg.Runes) > 1 && !repeated(msg) || first == 'T' || first >= '0' && first <= '9'
}

// repeated tells a command key that was held down, or pressed twice in a hurry,
// from text.
func repeated(msg tea.KeyMsg) bool {
	for _, r := range msg.Runes {
		if r != msg.Runes[0] || !strings.ContainsRune("nvx/r", r) {
			return false
		}
	}
	return !msg.Paste
}

func (b *bench) step(msg tea.KeyMsg) {
	page := max(b.rows(), 1)
	switch {
	case is(msg, Keys.Up):
		b.at--
	case is(msg, Keys.Down):
		b.at++
	case is(msg, Keys.PageUp):
		b.at -= page
	case is(msg, Keys.PageDown):
		b.at += page
	}
	b.at = max(min(b.at, len(b.jobs)-1), 0)
	b.grip()
}

// grip remembers the job under the cursor.
func (b *bench) grip() {
	if chosen := b.chosen(); chosen != nil {
		b.hand = chosen.Ticket
	}
}

// filterKey takes keys while the words to find are typed: arrows choose, Enter
// opens the only match or ends the typing, Esc forgets the words.
func (b *bench) filterKey(msg tea.KeyMsg) tea.Cmd {
	switch msg.Type {
	case tea.KeyEsc:
		b.filter.SetValue("")
		b.filter.Blur()
		return b.list()
	case tea.KeyEnter:
		b.filter.Blur()
		b.open = true
		return b.list()
	case tea.KeyUp, tea.KeyDown, tea.KeyPgUp, tea.KeyPgDown:
		b.step(msg)
		return nil
	default:
		before := b.filter.Value()
		msg.Paste = msg.Type == tea.KeyRunes // text, never the name of a key
		var cmd tea.Cmd
		b.filter, cmd = b.filter.Update(msg)
		if b.filter.Value() != before {
			return tea.Batch(cmd, b.list())
		}
		return cmd
	}
}

func (b *bench) chosen() *workflow.Summary {
	if b.at >= len(b.jobs) {
		return nil
	}
	return &b.jobs[b.at]
}

// openedMsg carries a job that was just read or begun.
type openedMsg struct {
	job workflow.Job
	err error
}

func (b *bench) load() tea.Cmd {
	chosen := b.chosen()
	if chosen == nil {
		return nil
	}
	b.busy = true
	ticket := chosen.Ticket
	return do(func(ctx context.Context) tea.Msg {
		job, _, err := b.s.Desk.Load(ctx, ticket)
		return openedMsg{job, err}
	})
}

// openJob returns the pages of a job: its list of steps and, while it is open,
// the step to answer next on top of it.
func openJob(s *Session, job workflow.Job) []page {
	pages := []page{newJobView(s, job)}
	if view := s.Desk.View(job); view.Here != "" {
		pages = append(pages, newStepPage(s, job, view.Here))
	}
	return pages
}

func (b *bench) Resize(width, height int) {
	b.width, b.height = width, height
	b.filter.Width = max(width-12, 10)
}

func (b *bench) Capturing() bool { return b.filter.Focused() }

func (b *bench) Head() (left, right string) {
	left = "drillstop"
	if b.s.Demo {
		left += " demo"
	}
	shop := b.s.Desk.Shop()
	right = shop.Now.Local().Format("Mon 2 Jan 15:04")
	if b.width >= 60 && shop.Name != "" {
		right = shop.Name + "   " + right
	}
	return left, right
}

func (b *bench) Keys() []key.Binding {
	if b.filter.Focused() {
		return []key.Binding{
			labelled(Keys.Enter, "open the only match"), labelled(Keys.Back, "forget"),
			Keys.Move,
		}
	}
	finished := Keys.Finished
	if b.finished {
		finished = labelled(finished, "in hand")
	}
	if len(b.jobs) == 0 {
		return []key.Binding{Keys.New, Keys.Filter, finished}
	}
	return []key.Binding{Keys.Enter, Keys.New, Keys.Filter, finished, Keys.Void, Keys.Move, Keys.Turn}
}
