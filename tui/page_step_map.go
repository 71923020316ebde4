package tui

import (
	tea "github.com/charmbracelet/bubbletea"

	"drillstop/calc/quantity"
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
	return p.Leave(), push(newHoleMap(p.s, p.job, "map of holes: "+p.step.Step.Title, spec, moves && p.step.Held == ""))
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
