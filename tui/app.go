package tui

import (
	"context"
	"strings"
	"time"

	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"

	"drillstop/workflow"
)

// The size that is assumed until the terminal tells its own, and the smallest
// that is drawn at all.
const (
	usualWidth, usualHeight = 80, 24
	leastWidth, leastHeight = 40, 16
)

// frame is what the root keeps of the height: head line, a blank line, notice
// line, footer.
const frame = 4

// App is the root model. It alone consumes the window size.
type App struct {
	session *Session
	pages   []page // the last is on top
	width   int
	height  int
	help    *scroll // where the help is read that lies over the page; nil: it does not
	notice  noticeMsg
	waiting []tea.KeyMsg // typed while the page on top was busy
}

// New returns the root model, opened on the bench.
func New(session *Session) *App {
	session.drafts = newDrafts(session.Desk)
	a := &App{session: session, width: usualWidth, height: usualHeight}
	a.pages = []page{newBench(session)}
	a.resize()
	if session.First {
		a.notice = noticeMsg{workflow.MarkKept, "New shop file: " + session.ShopFile}
	}
	return a
}

// Init implements tea.Model.
func (a *App) Init() tea.Cmd { return tea.Batch(a.top().Init(), tick()) }

// clockMsg moves the clock in the head line and lets lists look for news.
type clockMsg struct{}

func tick() tea.Cmd { return tea.Tick(10*time.Second, func(time.Time) tea.Msg { return clockMsg{} }) }

func (a *App) top() page { return a.pages[len(a.pages)-1] }

// Update implements tea.Model.
func (a *App) Update(msg tea.Msg) (tea.Model, tea.Cmd) {
	cmd := a.take(msg)
	for len(a.waiting) > 0 && !a.top().Busy() {
		next := a.waiting[0]
		a.waiting = a.waiting[1:]
		cmd = tea.Batch(cmd, a.key(next))
	}
	return a, cmd
}

func (a *App) take(msg tea.Msg) tea.Cmd {
	switch msg := msg.(type) {
	case tea.WindowSizeMsg:
		a.width, a.height = msg.Width, msg.Height
		a.resize()
		return nil
	case tea.KeyMsg:
		return a.key(msg)
	case noticeMsg:
		a.notice = msg
		return nil
	case draftFailedMsg:
		a.notice = noticeMsg{workflow.MarkStop, "The draft is not kept yet: " + sentence(msg.err)}
		return nil
	case clockMsg:
		return tea.Batch(a.page(msg), tick())
	}
	return a.page(msg)
}

// page gives a message to the page on top and goes where it asks to.
func (a *App) page(msg tea.Msg) tea.Cmd {
	cmd, m := a.top().Update(msg)
	return tea.Batch(cmd, a.move(m))
}

// key gives a key to the first who takes it: the interrupt, a page that is busy
// (it waits), the help that lies over everything, a page that is capturing
// text, the globals, the page.
func (a *App) key(msg tea.KeyMsg) tea.Cmd {
	if is(msg, Keys.Quit) {
		return tea.Quit
	}
	if a.top().Busy() {
		a.waiting = append(a.waiting, msg)
		return nil
	}
	if a.help != nil {
		if !a.help.key(msg) {
			a.help = nil
		}
		return nil
	}
	typed := msg.Type == tea.KeyRunes || msg.Type == tea.KeySpace
	if is(msg, Keys.Help) && (!typed || !a.top().Capturing()) {
		a.help = &scroll{}
		return nil
	}
	a.notice = noticeMsg{}
	return a.page(msg)
}

// Close keeps what would be lost with the program: call it when the program has
// ended, whatever ended it.
func (a *App) Close() error {
	for _, p := range a.pages {
		p.Leave()
	}
	ctx, cancel := context.WithTimeout(context.Background(), ioTimeout)
	defer cancel()
	return a.session.drafts.flush(ctx)
}

// move goes to another page.
func (a *App) move(m move) tea.Cmd {
	if m.back == 0 && len(m.on) == 0 {
		return nil
	}
	if m.back == 1 && len(a.pages) == 1 && len(m.on) == 0 {
		return tea.Quit
	}
	a.pages = append(a.pages[:max(len(a.pages)-m.back, 1)], m.on...)
	a.resize()
	var cmds []tea.Cmd
	for _, p := range m.on {
		cmds = append(cmds, p.Init())
	}
	if len(m.on) == 0 {
		cmds = append(cmds, a.top().Resume())
	}
	if m.then != nil {
		cmds = append(cmds, a.take(m.then))
	}
	return tea.Batch(cmds...)
}

func (a *App) resize() {
	for _, p := range a.pages {
		p.Resize(a.width, max(a.height-frame, 1))
	}
}

// View implements tea.Model.
func (a *App) View() string {
	t := a.session.Theme
	if a.width < leastWidth || a.height < leastHeight {
		small := wrap("drillstop needs a window of at least 40 columns and 16 lines; this one is smaller.", a.width)
		return fit(strings.Join(small, "\n"), a.width, a.height)
	}
	left, right := a.top().Head()
	body := a.top().View()
	if a.help != nil {
		body = strings.Join(a.help.window(a.helpLines(), a.height-frame, "any other key closes"), "\n")
	}
	lines := []string{" " + t.Strong.Render(ends(left, right, a.width-2)), ""}
	lines = append(lines, strings.Split(fit(body, a.width, a.height-frame), "\n")...)
	lines = append(lines, a.noticeLine(), a.footer())
	return strings.Join(lines, "\n")
}

// noticeLine says what came of the last key, and at the right what comes next.
func (a *App) noticeLine() string {
	t := a.session.Theme
	next := a.top().Next()
	if next != "" {
		next = "next: " + next
	}
	if a.notice.text == "" {
		return " " + t.Faint.Render(ends("", next, a.width-2))
	}
	text := string(a.notice.mark) + " " + a.notice.text
	if widthOf(text)+widthOf(next)+4 > a.width {
		next = ""
	}
	left := clip(text, a.width-2)
	return " " + t.Mark(a.notice.mark).Render(left) + t.Faint.Render(ends("", next, a.width-2-widthOf(left)))
}

// footer names as many keys as the width takes; help names them all.
func (a *App) footer() string {
	t := a.session.Theme
	help := a.hint(Keys.Help)
	room := a.width - 2 - widthOf(help)
	var line string
	for _, b := range a.top().Keys() {
		hint := a.hint(b) + "   "
		if widthOf(line)+widthOf(hint) > room {
			break
		}
		line += hint
	}
	return " " + t.Faint.Render(line+help)
}

func (a *App) hint(b key.Binding) string { return b.Help().Key + " " + b.Help().Desc }
