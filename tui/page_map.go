package tui

import (
	"fmt"
	"slices"
	"strings"

	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"

	"drillstop/calc/layout"
	"drillstop/calc/quantity"
	"drillstop/tui/draw"
	"drillstop/workflow"
)

// The steps in which the mount point is moved, in mm.
const (
	shiftStep = 1
	shiftLeap = 5
)

// How the map and what is said beneath it share the height: the second ski is
// worth more than a long list of clashes that it shows.
const (
	findingShare  = 9 // the findings get this part of the height
	leastFindings = 3 // lines
	leastPicture  = 9 // lines
)

// holeMap shows where every hole falls, and moves the mount point where the
// step asks for it.
type holeMap struct {
	s      *Session
	job    workflow.Job
	title  string
	spec   layout.Spec
	plan   layout.Plan
	shifts layout.Shifts
	fault  error
	moves  bool // the step asks for the offset: keep hands it back
	here   int  // the ski that is drawn where only one fits
	width  int
	height int
}

// shiftedMsg hands the chosen offset to the step.
type shiftedMsg struct{ offset quantity.Millimetre }

// newHoleMap shows a layout; moves says whether the mount point may be moved.
func newHoleMap(s *Session, job workflow.Job, title string, spec layout.Spec, moves bool) *holeMap {
	m := &holeMap{s: s, job: job, title: title, spec: spec, moves: moves}
	m.shifts, m.fault = spec.Shifts(layout.DefaultWindow())
	m.at(spec.Mount.Shift)
	return m
}

// at lays the holes out with the mount point at a shift.
func (m *holeMap) at(shift quantity.Millimetre) {
	m.spec.Mount.Shift = shift
	plan, err := m.spec.Plan()
	if err != nil {
		m.fault = err
		return
	}
	m.plan = plan
}

func (m *holeMap) Init() tea.Cmd   { return nil }
func (m *holeMap) Resume() tea.Cmd { return nil }
func (m *holeMap) Leave() tea.Cmd  { return nil }
func (m *holeMap) Busy() bool      { return false }
func (m *holeMap) Capturing() bool { return false }
func (m *holeMap) Next() string    { return "" }

func (m *holeMap) Resize(width, height int)   { m.width, m.height = width, height }
func (m *holeMap) Head() (left, right string) { return jobHead(m.s, m.job, m.width) }

func (m *holeMap) Keys() []key.Binding {
	keys := []key.Binding{labelled(Keys.Enter, "take"), Keys.Back, Keys.Shift, Keys.Leap, Keys.Clear, Keys.Other}
	if !m.moves {
		keys = []key.Binding{Keys.Back, Keys.Other}
	}
	return keys
}

func (m *holeMap) Update(msg tea.Msg) (tea.Cmd, move) {
	press, ok := msg.(tea.KeyMsg)
	if !ok {
		return nil, stay
	}
	switch {
	case is(press, Keys.Back), is(press, Keys.Map), !m.moves && is(press, Keys.Enter):
		return nil, pop()
	case is(press, Keys.Other):
		m.here = 1 - m.here
	case !m.moves || m.fault != nil:
	case is(press, Keys.Enter):
		return nil, move{back: 1, then: shiftedMsg{m.spec.Mount.Shift}}
	case is(press, Keys.Clear):
		if to, ok := m.clear(); ok {
			m.at(to)
		}
	default:
		m.at(m.spec.Mount.Shift + shiftOf(press))
	}
	return nil, stay
}

// clear is the shift to jump to: the nearest that clears, and from one that does
// the next clear stretch forward, after the last of them the first.
func (m *holeMap) clear() (quantity.Millimetre, bool) {
	at := m.spec.Mount.Shift
	offers := m.shifts.Offers(at)
	switch next, ok := m.shifts.Forward(at); {
	case len(offers) == 0:
		return 0, false
	case !m.plan.Clear():
		return offers[0], true
	case ok:
		return next, true
	}
	return slices.Min(offers), true
}

// shiftOf is how far a key moves the mount point.
func shiftOf(press tea.KeyMsg) quantity.Millimetre {
	for binding, by := range map[*key.Binding]quantity.Millimetre{
		&Keys.ShiftBack: -shiftStep, &Keys.ShiftOn: shiftStep, &Keys.LeapBack: -shiftLeap, &Keys.LeapOn: shiftLeap,
	} {
		if is(press, *binding) {
			return by
		}
	}
	return 0
}

func (m *holeMap) View() string {
	t := m.s.Theme
	if m.fault != nil {
		return strings.Join(marked(string(workflow.MarkStop), sentence(m.fault), m.width), "\n")
	}
	lines := []string{" " + ends(t.Strong.Render(m.title), m.says(), m.width-2), ""}
	said := m.findings()
	picture := draw.MapOf(&m.spec, m.plan)
	picture.Here, picture.Width = m.here, m.width-2
	picture.Height = max(m.height-len(lines)-min(len(said), max(m.height/findingShare, leastFindings))-1, leastPicture)
	picture.Ink = mapInk(t)
	for _, line := range picture.Lines() {
		lines = append(lines, " "+line)
	}
	lines = append(lines, "")
	if room := m.height - len(lines); len(said) > room && room > 0 {
		said = append(said[:room-1], t.Faint.Render("   and more"))
	}
	return strings.Join(append(lines, said...), "\n")
}

// says tells where the mount point is, and what clears.
func (m *holeMap) says() string {
	text := "on the mark"
	if shift := m.spec.Mount.Shift; shift != 0 {
		text = layout.ShiftText(shift) + " of the mark"
	}
	return fmt.Sprintf("midsole %s, sole %s", text, m.spec.Mount.Sole)
}

func (m *holeMap) findings() []string {
	t := m.s.Theme
	var lines []string
	say := func(mark workflow.Mark, text string) {
		for _, line := range marked(m.s.mark(mark), text, m.width) {
			lines = append(lines, t.Mark(mark).Render(line))
		}
	}
	m.wayOut(say)
	for _, f := range workflow.OnceForBoth(workflow.On(workflow.Both, m.plan.Findings())) {
		say(levelMark(f), f.Text)
	}
	return lines
}

// wayOut says where it clears, or what blocks every shift.
func (m *holeMap) wayOut(say func(workflow.Mark, string)) {
	if !m.moves || m.plan.Clear() { // also beyond the window that was looked through
		return
	}
	offers := m.shifts.Offers(m.spec.Mount.Shift)
	texts := make([]string, len(offers))
	for i, offer := range offers {
		texts[i] = layout.ShiftText(offer)
	}
	if len(offers) > 0 {
		say(workflow.MarkHere, "clear: "+strings.Join(texts, ", ")+"; c takes the nearest")
	}
	for _, b := range m.shifts.Blockers {
		say(workflow.MarkStop, b.Finding(m.shifts.Window).Text)
	}
}

func mapInk(t Theme) draw.MapInk {
	faint := func(text string) string { return t.Faint.Render(text) }
	return draw.MapInk{
		New:   func(text string) string { return t.Strong.Render(text) },
		Again: func(text string) string { return t.Strong.Render(text) },
		Old:   faint,
		Clash: func(text string) string { return t.Stop.Render(text) },
		Mark:  func(text string) string { return t.Hand.Render(text) },
		Frame: faint,
	}
}
