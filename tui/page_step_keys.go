package tui

import (
	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"

	"drillstop/calc"
	"drillstop/workflow"
)

// key takes the keys of the page; the rest is for the form.
func (p *stepPage) key(msg tea.KeyMsg) (tea.Cmd, move, bool) {
	switch {
	case p.why != nil:
		if p.why.key(msg) {
			return nil, stay, true
		}
		p.why = nil
		return nil, stay, is(msg, Keys.Why) || is(msg, Keys.Back) || is(msg, Keys.Enter)
	case is(msg, Keys.Why):
		p.why = &scroll{}
	case is(msg, Keys.Back):
		return p.Leave(), move{back: 1, then: turnedMsg{p.job}}, true
	case is(msg, Keys.Map) && p.step.Step.Map != nil:
		cmd, m := p.openMap()
		return cmd, m, true
	case is(msg, Keys.Pictures) && p.step.Step.Picture != nil:
		cmd, m := p.openPictures()
		return cmd, m, true
	case is(msg, Keys.Forget):
		return p.forget(), stay, true
	case is(msg, Keys.Later):
		return p.Leave(), toBench(), true
	case is(msg, Keys.Card) && p.step.Step.CardOf != "":
		return p.Leave(), push(newCards(p.s, p.step.Step.CardOf, p.job)), true
	case is(msg, Keys.KeepCard) && p.keepsCards():
		return p.Leave(), push(keepCardPage(p.s, p.step.Step, p.form.Typed())), true
	case is(msg, Keys.Waive):
		cmd, m := p.waive()
		return cmd, m, true
	default:
		return nil, stay, false
	}
	return nil, stay, true
}

// waive asks for the reason of a waiver. It covers what is kept, so nothing may
// be typed beside it.
func (p *stepPage) waive() (tea.Cmd, move) {
	stop, ok := p.waivable()
	switch {
	case !ok:
		return nil, stay
	case !p.s.Desk.Person().Supervisor:
		return sayNotice(workflow.MarkStop, "Only a supervisor may waive a stop; they start drillstop with --supervisor."), stay
	case workflow.Changed(p.remembered(), p.form.Typed()):
		return sayNotice(workflow.MarkCaution, "A waiver covers what is kept: first keep what is typed (ctrl+d)."), stay
	}
	return nil, push(waivePage(p.s, p.job, stop))
}

// waivable returns the first stop of this step that a supervisor may waive.
func (p *stepPage) waivable() (workflow.Finding, bool) {
	for _, f := range p.step.Findings {
		if f.Holds() && !f.Never {
			return f, true
		}
	}
	return workflow.Finding{}, false
}

// keepsCards reports whether what is typed here can become a card of the shop's
// library; the holes of a pair cannot.
func (p *stepPage) keepsCards() bool {
	return p.step.Step.CardOf != "" && p.step.Step.CardOf != workflow.HolesCard
}

func (p *stepPage) Keys() []key.Binding {
	typing := p.form.KeyBinds()
	keys := []key.Binding{typing[0], labelled(Keys.Back, "all steps"), Keys.Why}
	if p.step.Step.Picture != nil {
		keys = append(keys, Keys.Pictures)
	}
	keys = append(keys, Keys.Later)
	if p.step.Step.Map != nil {
		keys = append([]key.Binding{Keys.Map}, keys...)
	}
	if p.step.Step.CardOf != "" {
		keys = append(keys, Keys.Card)
	}
	if p.keepsCards() {
		keys = append(keys, Keys.KeepCard)
	}
	if _, ok := p.waivable(); ok && p.s.Desk.Person().Supervisor {
		keys = append([]key.Binding{Keys.Waive}, keys...)
	}
	if p.recalled || workflow.Changed(p.remembered(), p.form.Typed()) {
		keys = append(keys, Keys.Forget)
	}
	return append(keys, typing[1:]...)
}

// heldBy says why the step cannot be answered now, as a finding.
func (p *stepPage) heldBy() []workflow.Finding {
	if p.step.Held == "" {
		return nil
	}
	return []workflow.Finding{{Level: calc.Stop, Text: p.step.Held}}
}
