package tui

import (
	tea "github.com/charmbracelet/bubbletea"

	"drillstop/calc/quantity"
	"drillstop/tui/draw"
	"drillstop/workflow"
)

// offsetField is the field that a map of holes moves.
const offsetField workflow.FieldID = "offset"

// openMap shows the map of holes with what is typed so far.
func (p *stepPage) openMap() (tea.Cmd, move) {
	spec, ok := p.s.Desk.Map(p.job, p.step.Step.ID, p.form.Typed())
	if !ok {
		return sayNotice(workflow.MarkAhead, "There is no map yet: it needs a hole pattern of the binding and a sole length."), stay
	}
	_, moves := p.step.Step.Field(offsetField)
	return p.Leave(), push(newHoleMap(p.s, p.job, p.step.Step.Title+": map of holes", spec, moves && p.step.Held == ""))
}

// leastMap is the height below which a map beside the form shows too little.
const leastMap = 10

// picture is the map of the holes with what is typed so far, in at most height
// lines; nil where there is none, or no room for it.
func (p *stepPage) picture(height int) []string {
	if p.step.Step.Map == nil || height < leastMap || p.width < usualWidth {
		return nil
	}
	spec, ok := p.s.Desk.Map(p.job, p.step.Step.ID, p.form.Typed())
	if !ok {
		return nil
	}
	plan, err := spec.Plan()
	if err != nil {
		return nil // the panel says what is wrong
	}
	m := draw.MapOf(&spec, plan)
	m.Width, m.Height, m.Ink = p.width-2, height, mapInk(p.s.Theme)
	lines := m.Lines()
	for i := range lines {
		lines[i] = " " + lines[i]
	}
	return lines
}

// shift types the offset that was chosen on the map.
func (p *stepPage) shift(offset quantity.Millimetre) {
	typed := p.form.Typed()
	typed[workflow.Key(offsetField, workflow.Both)] = quantity.Print(float64(offset), quantity.MM)
	p.focused = workflow.Key(offsetField, workflow.Both)
	p.setForm(typed)
	p.touched = true
	p.look()
}
