package tui

import (
	"strings"

	"drillstop/calc"
	"drillstop/tui/draw"
	"drillstop/workflow"
)

// The smallest heights of the parts of a step's page.
const (
	leastForm  = 5
	leastPanel = 3
)

// besideFigure is the longest path that stands beside its number.
const besideFigure = 16

// room is how the height of a step's page is shared out.
type room struct {
	figures, form, panel int
	pictures             []string
}

// room gives the figures what they need, then the form and the panel of
// findings and cautions their share: the form scrolls, the panel is cut with a
// hint to where the rest stands. A picture is drawn where it hides nothing of
// the form, nor of what must be seen; notes and cautions of the step give way.
func (p *stepPage) room() room {
	r := room{figures: len(p.figures())}
	rest := p.height - 2 - r.figures // the ski and the line below it
	urgent, panel := len(p.urgent()), len(p.panel())
	wanted := p.form.Lines()
	r.pictures = p.drawn(rest - wanted - min(max(urgent+1, leastPanel), panel))
	rest -= len(r.pictures)
	r.form = max(min(wanted, rest-min(panel, leastPanel)), min(leastForm, rest))
	r.panel = max(rest-r.form, 0)
	return r
}

func (p *stepPage) View() string {
	t := p.s.Theme
	lines := []string{" " + p.ski(), ""}
	if p.why != nil {
		return strings.Join(append(lines, p.why.window(p.reasons(), p.height-len(lines), "f2 or esc goes back")...), "\n")
	}
	r := p.room()
	lines = append(append(lines, p.figures()...), r.pictures...)
	if len(p.step.Step.Asked(p.job)) > 0 {
		lines = append(lines, strings.Split(fit(p.form.View(), p.width, r.form), "\n")...)
	}
	panel := p.panel()
	if len(panel) > r.panel && r.panel > 0 {
		panel = append(panel[:r.panel-1], t.Faint.Render("   more with f2"))
	}
	lines = append(lines, panel...)
	return strings.Join(append(lines, p.aside(p.height-len(lines))...), "\n")
}

// aside fills what room a large window leaves: the map of the holes where the
// step has one, else the steps of this phase and why this one matters.
func (p *stepPage) aside(spare int) []string {
	if picture := p.picture(spare - 2); picture != nil {
		return append([]string{""}, picture...)
	}
	t := p.s.Theme
	var steps []string
	for _, sv := range p.view.Steps {
		if sv.Step.Phase == p.step.Step.Phase && sv.Mark != workflow.MarkApart {
			steps = append(steps, t.Mark(sv.Mark).Render(p.s.mark(sv.Mark)+" "+sv.Step.Title))
		}
	}
	lines := []string{"", "   " + strings.Join(steps, "   ")}
	why := wrap("Why: "+p.step.Step.Why, min(p.width, 100)-6)
	if spare < len(lines)+len(why)+8 {
		return nil
	}
	lines = append(lines, "")
	for _, line := range why {
		lines = append(lines, "   "+t.Faint.Render(line))
	}
	return lines
}

func (p *stepPage) ski() string {
	return draw.Ski{
		Phases: p.view.Phases, Here: p.step.Step.Phase, Step: p.step.Step.Title,
		At: p.place(), Width: p.width - 2, Ink: p.s.ink(),
	}.String()
}

// place is the number of the step within its phase.
func (p *stepPage) place() int {
	at := 0
	for _, sv := range p.view.Steps {
		if sv.Step.Phase == p.step.Step.Phase && sv.Mark != workflow.MarkApart {
			at++
		}
		if sv.Step.ID == p.step.Step.ID {
			break
		}
	}
	return at
}

// figuresNow are the step's computed numbers with what is typed so far.
func (p *stepPage) figuresNow() []workflow.Figure {
	if p.step.Held != "" {
		return nil
	}
	return p.s.Desk.Figures(p.job, p.step.Step.ID, p.form.Typed())
}

// figures are the computed numbers, large and alone, with the ways to them
// beneath.
func (p *stepPage) figures() []string {
	t := p.s.Theme
	var lines, paths []string
	row := ""
	flush := func() {
		lines = append(append(lines, row), paths...)
		row, paths = "", nil
	}
	for _, f := range p.figuresNow() {
		number := "   " + t.Hand.Render(strings.ToUpper(f.Label)) + " " + t.Figure.Render(f.Value)
		path := f.Path
		if path != "" && widthOf(path) <= besideFigure {
			number, path = number+t.Faint.Render(" ("+path+")"), ""
		}
		if row != "" && widthOf(row)+widthOf(number) > p.width {
			flush()
		}
		row += number
		for _, line := range wrap(path, p.width-4) {
			if line != "" {
				paths = append(paths, "   "+t.Faint.Render(line))
			}
		}
	}
	if row == "" {
		return nil
	}
	flush()
	if most := p.height / 3; len(lines) > most {
		lines = append(lines[:most-1], "   "+t.Faint.Render("more with f2"))
	}
	return append(lines, "")
}

// panel is what the hand should know while answering.
func (p *stepPage) panel() []string {
	lines := append(p.urgent(), p.findings(calc.Note)...)
	for _, caution := range p.step.Step.Cautions {
		lines = append(lines, p.say(workflow.MarkCaution, caution)...)
	}
	return lines
}

// urgent is why the step is held or stale, and what the checks find wrong.
func (p *stepPage) urgent() []string {
	var lines []string
	for _, f := range p.heldBy() {
		lines = append(lines, p.say(workflow.MarkStop, f.Text)...)
	}
	if p.step.Stale != "" {
		lines = append(lines, p.say(workflow.MarkStale, "Again, please: "+strings.TrimSuffix(p.step.Stale, ".")+".")...)
	}
	return append(append(lines, p.findings(calc.Stop)...), p.findings(calc.Caution)...)
}

// findings are what the checks find on one level.
func (p *stepPage) findings(level calc.Level) []string {
	var lines []string
	for _, f := range p.found {
		if f.Level == level {
			lines = append(lines, p.say(levelMark(f), onSide(f))...)
		}
	}
	return lines
}

func (p *stepPage) say(m workflow.Mark, text string) []string {
	lines := marked(p.s.mark(m), text, p.width)
	for i, line := range lines {
		lines[i] = p.s.Theme.Mark(m).Render(line)
	}
	return lines
}

// onSide names the ski a finding is about, unless its sentence does.
func onSide(f workflow.Finding) string {
	text := f.Text
	if f.Side != workflow.Both && !strings.Contains(strings.ToLower(text), string(f.Side)) {
		text = strings.ToUpper(string(f.Side[:1])) + string(f.Side[1:]) + ": " + text
	}
	if f.Waiver != nil {
		text += " Waived by " + f.Waiver.By + ": " + f.Waiver.Reason
	}
	return text
}

// reasons is the page behind the why key: why the step matters, all that was
// found with its source, all cautions.
func (p *stepPage) reasons() []string {
	t := p.s.Theme
	lines := []string{"   " + t.Strong.Render("Why: "+p.step.Step.Title), ""}
	for _, line := range wrap(p.step.Step.Why, p.width-6) {
		lines = append(lines, "   "+line)
	}
	lines = append(lines, "")
	for _, f := range p.figuresNow() {
		lines = append(lines, marked("=", f.Label+": "+f.Value+" "+f.Path, p.width)...)
	}
	for _, f := range p.found {
		text := onSide(f)
		if f.Source != "" {
			text += " [" + f.Source + "]"
		}
		for _, line := range marked(string(levelMark(f)), text, p.width) {
			lines = append(lines, t.Mark(levelMark(f)).Render(line))
		}
	}
	for _, c := range p.step.Step.Cautions {
		lines = append(lines, marked("!", c, p.width)...)
	}
	return lines
}

// jobHead is the head line of every page of a job.
func jobHead(s *Session, job workflow.Job, width int) (left, right string) {
	skier, ski, binding := s.Desk.Describe(job)
	parts := []string{job.Ticket.String()}
	for _, part := range []string{skier, ski, binding} {
		if part != "" {
			parts = append(parts, part)
		}
	}
	if len(parts) == 1 {
		parts = append(parts, workflow.KindLabel(job.Kind))
	}
	if width < 60 {
		return strings.Join(parts[:min(len(parts), 2)], " "), ""
	}
	return strings.Join(parts, "   "), s.Desk.Person().Name
}
