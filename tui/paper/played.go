package paper

import (
	"fmt"

	"drillstop/calc"
	"drillstop/workflow"
)

// Played is what came of an answer sheet.
type Played struct {
	Play workflow.Play
	View workflow.View // of the job at the end
}

// Text returns the sheet line by line: what was kept, what was refused and why,
// what was found, what became stale; then what is open at the end.
func (t Played) Text() string {
	p := &page{}
	job := t.View.Job
	p.ends(workflow.KindLabel(job.Kind), job.Ticket.String())
	for _, e := range t.Play.Events {
		t.event(p, e)
	}
	p.gap()
	t.open(p)
	t.state(p)
	return p.String()
}

func (t Played) event(p *page, e workflow.Event) {
	number := fmt.Sprintf("%3d ", e.Line)
	if e.Refusal == nil {
		p.indented(0, number, fmt.Sprintf("%c %s: kept", workflow.MarkKept, t.title(e.Step)))
	} else {
		p.indented(0, number, "x "+t.title(e.Step)+": not kept")
		t.refusal(p, *e.Refusal)
	}
	for _, f := range e.Findings {
		finding(p, f)
	}
	for _, id := range e.Stale {
		p.indented(labelAt, string(workflow.MarkStale)+" ", t.title(id)+" is stale now")
	}
}

func (t Played) refusal(p *page, r workflow.Refusal) {
	if r.Held != "" {
		p.indented(labelAt+2, "", r.Held)
	}
	for _, f := range r.Fields {
		p.indented(labelAt+2, "", workflow.Key(f.Field, f.Side)+": "+f.Fault.Sentence)
	}
}

// open lists what stands against the job at the end.
func (t Played) open(p *page) {
	headed := len(p.lines)
	p.row(cell{0, Width, "Open at the end:"})
	for _, f := range t.View.Findings {
		if f.Level != calc.Note {
			finding(p, f)
		}
	}
	for _, sv := range t.View.Steps {
		if sv.Stale != "" {
			p.indented(labelAt, string(workflow.MarkStale)+" ", sv.Step.Title+" is stale: "+sv.Stale)
		}
	}
	for _, id := range t.Play.Refused {
		p.indented(labelAt, "x ", t.title(id)+": its last answer on the sheet was not kept")
	}
	if len(p.lines) == headed+1 {
		p.lines[headed] = "Nothing is open."
	}
}

func (t Played) state(p *page) {
	job := t.View.Job
	said := job.Ticket.String() + " is " + string(job.State)
	if here, ok := t.View.Step(t.View.Here); ok {
		said += "; next: " + here.Step.Title
	}
	p.row(cell{0, Width, said + "."})
}

// title is the name of a step for the eye; its id if there is no such step.
func (t Played) title(id workflow.StepID) string {
	if sv, ok := t.View.Step(id); ok {
		return sv.Step.Title
	}
	return string(id)
}
