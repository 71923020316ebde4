package tui

import (
	"strings"

	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"

	"drillstop/tui/draw"
	"drillstop/workflow"
)

// pictures shows all pictures of a step, with what was typed into it when the
// page was opened.
type pictures struct {
	s      *Session
	job    workflow.Job
	title  string
	shown  []workflow.Picture
	read   scroll
	width  int
	height int
}

func newPictures(s *Session, job workflow.Job, title string, shown []workflow.Picture) *pictures {
	return &pictures{s: s, job: job, title: title, shown: shown}
}

func (p *pictures) Init() tea.Cmd              { return nil }
func (p *pictures) Resume() tea.Cmd            { return nil }
func (p *pictures) Leave() tea.Cmd             { return nil }
func (p *pictures) Next() string               { return "" }
func (p *pictures) Busy() bool                 { return false }
func (p *pictures) Capturing() bool            { return false }
func (p *pictures) Resize(width, height int)   { p.width, p.height = width, height }
func (p *pictures) Head() (left, right string) { return jobHead(p.s, p.job, p.width) }

func (p *pictures) Keys() []key.Binding {
	return []key.Binding{Keys.Back, labelled(Keys.Move, "scroll"), Keys.Turn}
}

func (p *pictures) Update(msg tea.Msg) (tea.Cmd, move) {
	press, ok := msg.(tea.KeyMsg)
	if !ok {
		return nil, stay
	}
	if is(press, Keys.Back) || is(press, Keys.Pictures) || is(press, Keys.Enter) {
		return nil, pop()
	}
	p.read.key(press)
	return nil, stay
}

// View puts the pictures below each other, apart by a blank line where all of
// them fit so, and names their marks at the end.
func (p *pictures) View() string {
	t := p.s.Theme
	head := " " + t.Strong.Render(clip(strings.ToUpper(p.title[:1])+p.title[1:], p.width-2))
	lines := p.lines(true)
	if len(lines)+1 > p.height {
		lines = p.lines(false)
	}
	if len(lines)+1 <= p.height {
		return strings.Join(append([]string{head}, lines...), "\n")
	}
	return strings.Join(append([]string{head}, p.read.window(lines, p.height-1, "esc goes back")...), "\n")
}

func (p *pictures) lines(apart bool) []string {
	t := p.s.Theme
	var lines []string
	gap := func() {
		if apart {
			lines = append(lines, "")
		}
	}
	for _, picture := range p.shown {
		gap()
		for _, line := range draw.Picture(picture, p.width-len(indent)-1, p.s.ink()) {
			lines = append(lines, indent+line)
		}
	}
	gap()
	for _, legend := range draw.Legends(p.shown) {
		for _, line := range wrap(legend, p.width-len(indent)) {
			lines = append(lines, indent+t.Faint.Render(line))
		}
	}
	return lines
}
