package tui

import (
	"context"
	"fmt"
	"strings"
	"time"

	"github.com/charmbracelet/bubbles/key"
	"github.com/charmbracelet/bubbles/textinput"
	tea "github.com/charmbracelet/bubbletea"

	"drillstop/tui/draw"
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

// clockMsg moves the clock in the head line.
type clockMsg struct{}

func tick() tea.Cmd { return tea.Tick(20*time.Second, func(time.Time) tea.Msg { return clockMsg{} }) }

func (b *bench) list() tea.Cmd {
	b.asked++
	number, words := b.asked, b.filter.Value()
	states := []workflow.State{workflow.Open}
	if b.finished {
		states = []workflow.State{workflow.Finished, workflow.Voided}
	}
	return do(func(ctx context.Context) tea.Msg {
		jobs, err := b.s.Desk.List(ctx, workflow.Query{States: states, Words: words})
		if err != nil {
			return failedMsg{err}
		}
		return listedMsg{number, jobs}
	})
}

func (b *bench) Update(msg tea.Msg) (tea.Cmd, move) {
	switch msg := msg.(type) {
	case listedMsg:
		return b.listed(msg), stay
	case clockMsg:
		return tick(), stay
	case openedMsg:
		return nil, push(openJob(b.s, msg.job)...)
	case failedMsg:
		b.busy, b.open = false, false
	case tea.KeyMsg:
		if b.filter.Focused() {
			return b.filterKey(msg), stay
		}
		return b.key(msg)
	}
	return nil, stay
}

func (b *bench) listed(msg listedMsg) tea.Cmd {
	if msg.number != b.asked {
		return nil
	}
	b.jobs, b.loaded = msg.jobs, true
	b.at = min(b.at, max(len(b.jobs)-1, 0))
	if b.open {
		b.open = false
		if len(b.jobs) == 1 {
			return b.load()
		}
	}
	return nil
}

func (b *bench) key(msg tea.KeyMsg) (tea.Cmd, move) {
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
	case is(msg, Keys.Void) && b.chosen() != nil && !b.finished:
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
	return len(msg.Runes) > 1 || first == 'T' || first >= '0' && first <= '9'
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
type openedMsg struct{ job workflow.Job }

func (b *bench) load() tea.Cmd {
	chosen := b.chosen()
	if chosen == nil {
		return nil
	}
	b.busy = true
	ticket := chosen.Ticket
	return do(func(ctx context.Context) tea.Msg {
		job, _, err := b.s.Desk.Load(ctx, ticket)
		if err != nil {
			return failedMsg{err}
		}
		return openedMsg{job}
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
	return []key.Binding{Keys.Enter, Keys.New, Keys.Filter, finished, Keys.Void, Keys.Move, Keys.Turn}
}

func (b *bench) rows() int { return (b.height - 2) / benchRow }

func (b *bench) View() string {
	t := b.s.Theme
	lines := []string{" " + ends(b.count(), b.person(), b.width-2)}
	if b.filter.Focused() {
		lines = append(lines, " "+b.filter.View())
	} else if b.filter.Value() != "" {
		lines = append(lines, " "+t.Strong.Render("find: "+b.filter.Value())+t.Faint.Render("   esc forgets it"))
	} else {
		lines = append(lines, "")
	}
	switch {
	case !b.loaded:
		return strings.Join(lines, "\n")
	case len(b.jobs) == 0:
		return strings.Join(append(lines, b.empty()...), "\n")
	}
	rows := max(b.rows(), 1)
	from := min(max(b.at-rows+1, 0), b.at)
	for i := from; i < min(from+rows, len(b.jobs)); i++ {
		lines = append(lines, b.job(b.jobs[i], i == b.at)...)
	}
	return strings.Join(lines, "\n")
}

func (b *bench) person() string {
	p := b.s.Desk.Person()
	if p.Supervisor {
		return p.Name + " supervisor"
	}
	return p.Name + " technician"
}

func (b *bench) count() string {
	if !b.loaded {
		return "reading the shop file"
	}
	if b.finished {
		return fmt.Sprintf("%d finished or void", len(b.jobs))
	}
	held := 0
	for _, j := range b.jobs {
		if j.Stops > 0 {
			held++
		}
	}
	text := fmt.Sprintf("%d on the bench", len(b.jobs))
	if held > 0 {
		text += fmt.Sprintf(", %d held by a stop", held)
	}
	return text
}

// empty tells a newcomer what to press.
func (b *bench) empty() []string {
	switch {
	case b.filter.Value() != "":
		return marked("·", "No job has words that begin so. esc forgets them; v looks among the finished ones.", b.width)
	case b.finished:
		return marked("·", "No job is finished yet. v goes back to the jobs in hand.", b.width)
	}
	t := b.s.Theme
	lines := []string{
		"   " + t.Strong.Render("The bench is empty."), "",
		"   " + t.Hand.Render("n") + "  begins a job: a pair of skis, from intake to hand-over.",
		"   " + t.Hand.Render("f1") + " shows all keys and marks.", "",
	}
	for _, line := range wrap("Every answer is kept as soon as the screen says so; esc and ctrl+c lose nothing. "+
		"To look around first, end with ctrl+c and start: drillstop demo", b.width-6) {
		lines = append(lines, "   "+line)
	}
	lines = append(lines, "")
	for _, line := range wrap("! drillstop computes and reminds. The binding maker's current instructions, local rules "+
		"and a certified technician come first.", b.width-6) {
		lines = append(lines, "   "+t.Faint.Render(line))
	}
	return lines
}

// job draws one job in benchRow lines.
func (b *bench) job(j workflow.Summary, chosen bool) []string {
	t := b.s.Theme
	cursor, name := "  ", t.Plain
	if chosen {
		cursor, name = t.Hand.Render("> "), t.Strong
	}
	where := draw.Ski{Phases: j.Phases, Here: here(j), Width: b.width - 10, Ink: b.s.ink()}.String()
	line, style := b.s.mark(workflow.MarkHere)+" "+j.Here, t.Hand
	if j.Worst != "" {
		line, style = b.s.mark(j.Mark)+" "+j.Worst, t.Mark(j.Mark)
	}
	due := dueText(j.Due, b.s.Now())
	if j.State != workflow.Open {
		line, style, due = string(j.State)+" "+j.Touched.Local().Format("Mon 2 Jan 2006"), t.Faint, ""
	}
	if due != "" {
		due = "  " + due
	}
	return []string{
		cursor + name.Render(b.title(j)),
		"         " + where,
		"         " + style.Render(pad(line, b.width-10-widthOf(due))) + due,
		"",
	}
}

func (b *bench) title(j workflow.Summary) string {
	skier := j.Skier
	if skier == "" {
		skier = "(no skier yet)"
	}
	room := b.width - 4
	if b.width < 60 {
		return ends(j.Ticket.String()+" "+skier, string(j.Kind), room)
	}
	column := (room - 24) / 3
	return ends(fmt.Sprintf("%-7s %s %s %s", j.Ticket, pad(skier, column), pad(j.Ski, column), pad(j.Binding, column)), string(j.Kind), room)
}

// here is the phase in which the job stands: the first that is not done.
func here(j workflow.Summary) workflow.Phase {
	if j.State != workflow.Open {
		return ""
	}
	for _, p := range j.Phases {
		if p.Done < p.Of {
			return p.Phase
		}
	}
	return ""
}

// dueText says how near a day is.
func dueText(day string, now time.Time) string {
	due, err := time.ParseInLocation(time.DateOnly, day, now.Location())
	if err != nil {
		return ""
	}
	today := time.Date(now.Year(), now.Month(), now.Day(), 0, 0, 0, 0, now.Location())
	switch days := int(due.Sub(today).Round(24*time.Hour).Hours() / 24); {
	case days < 0:
		return "overdue"
	case days == 0:
		return "due today"
	default:
		return "due " + due.Format("Mon 2 Jan")
	}
}

func (s *Session) ink() draw.Ink {
	render := func(style interface{ Render(...string) string }) func(string) string {
		return func(text string) string { return style.Render(text) }
	}
	return draw.Ink{
		Done: render(s.Theme.Plain), Here: render(s.Theme.Hand),
		Ahead: render(s.Theme.Faint), Stop: render(s.Theme.Stop),
	}
}
