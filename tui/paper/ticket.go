// Package paper puts jobs on paper. It takes plain values and decides nothing.
package paper

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"drillstop/calc"
	"drillstop/workflow"
)

// Ticket is the printed sheet of one job.
type Ticket struct {
	Shop     string
	View     workflow.View
	Entries  []workflow.Entry
	Zone     *time.Location // in which times are printed; nil: UTC
	Invented string         // "demo" or "practice": no customer's skis; "" for real work
	Layout   *Layout        // of a job in hand; nil: what the record has
	Pictures []StepPicture  // beside the steps
	Made     time.Time      // when it was printed
}

// Where the columns of answers stand.
const (
	labelAt = 4
	leftAt  = 36
	rightAt = 59
)

// Text returns the whole job as plain text, 80 characters wide: what must not be
// overlooked, the four scales, who did which step when, every answer, the left
// and the right ski in two columns, the figures, the findings with their sources,
// the waivers, every round of testing, what the skier is told, and the record.
func (t Ticket) Text() string {
	p, facts := &page{}, t.Facts()
	t.head(p)
	framed(p, facts.Notices)
	scalesText(p, facts)
	for _, phase := range t.View.Phases {
		if phase.Of == 0 {
			continue
		}
		p.gap()
		p.ends(strings.ToUpper(string(phase.Phase)), fmt.Sprintf("%d of %d", phase.Done, phase.Of))
		for _, sv := range t.View.Steps {
			if sv.Step.Phase == phase.Phase {
				t.step(p, sv)
			}
		}
	}
	t.roundsText(p, facts.Rounds)
	t.skierText(p, facts)
	t.record(p)
	return p.String()
}

func (t Ticket) head(p *page) {
	job := t.View.Job
	p.ends(t.Shop, job.Ticket.String())
	p.ends(workflow.KindLabel(job.Kind), string(job.State))
	p.gap()
	p.row(cell{0, Width, "Opened " + t.when(job.OpenedAt) + " by " + job.OpenedBy})
	if job.Due != "" {
		p.row(cell{0, Width, "Due " + job.Due})
	}
	switch job.State {
	case workflow.Finished:
		p.row(cell{0, Width, "Handed over " + t.when(job.EndedAt)})
	case workflow.Voided:
		p.row(cell{0, Width, "Void since " + t.when(job.EndedAt) + ": " + job.EndedWhy})
	case workflow.Open:
		if here, ok := t.View.Step(t.View.Here); ok {
			p.row(cell{0, Width, "Next: " + here.Step.Title})
		}
	}
}

// step writes a step that says something: an answer or a finding.
func (t Ticket) step(p *page, sv workflow.StepView) {
	answered, done := t.View.Job.Answered(sv.Step.ID)
	if sv.Mark == workflow.MarkApart || !done && len(sv.Findings) == 0 {
		return
	}
	p.gap()
	title := string(sv.Mark) + " " + sv.Step.Title
	if word := sv.Mark.Word(); sv.Mark != workflow.MarkKept {
		title += " (" + word + ")"
	}
	who := ""
	if done {
		who = answered.By + "  " + t.when(answered.At)
	}
	p.ends(title, who)
	answers(p, sv.Step, t.View.Job, answered.Answers)
	for _, f := range answered.Figures {
		figure(p, f)
	}
	if sv.Stale != "" {
		p.indented(labelAt, string(workflow.MarkStale)+" ", "stale: "+sv.Stale)
	}
	for _, f := range sv.Findings {
		finding(p, f)
		if f.Source != "" {
			p.indented(labelAt+2, "", "source: "+f.Source)
		}
	}
}

// answers writes what was answered, in the order in which it was asked; the
// heads of the two columns stand above the first answer that needs them.
func answers(p *page, step workflow.Step, job workflow.Job, given workflow.Answers) {
	headed := false
	for _, f := range step.Asked(job) {
		label := cell{labelAt, leftAt - labelAt - 2, f.Label}
		if !f.PerSki {
			if text := given.Text(f.ID, workflow.Both); text != "" {
				p.row(label, cell{leftAt, Width - leftAt, text})
			}
			continue
		}
		left, right := given.Text(f.ID, workflow.Left), given.Text(f.ID, workflow.Right)
		if left == "" && right == "" {
			continue
		}
		if !headed {
			p.row(cell{leftAt, rightAt - leftAt - 2, "left"}, cell{rightAt, Width - rightAt, "right"})
			headed = true
		}
		p.row(label, cell{leftAt, rightAt - leftAt - 2, orDash(left)}, cell{rightAt, Width - rightAt, orDash(right)})
	}
}

func figure(p *page, f workflow.Figure) {
	p.row(cell{labelAt, leftAt - labelAt - 2, strings.ToUpper(f.Label)}, cell{leftAt, Width - leftAt, f.Value})
	for _, more := range []string{f.Path, f.Record} {
		if more != "" {
			p.indented(labelAt+2, "", more)
		}
	}
}

func finding(p *page, f workflow.Finding) {
	p.indented(labelAt, findingMark(f)+" ", Finding(f))
	if f.Waiver != nil {
		p.indented(labelAt+2, "", "waived by "+f.Waiver.By+": "+f.Waiver.Reason)
	}
}

// Finding returns a finding as one line: its level, its ski unless the sentence
// names it, its sentence.
func Finding(f workflow.Finding) string {
	if f.Side == workflow.Both || strings.Contains(strings.ToLower(f.Text), string(f.Side)) {
		return string(f.Level) + ": " + f.Text
	}
	return string(f.Level) + ", " + string(f.Side) + " ski: " + f.Text
}

func findingMark(f workflow.Finding) string {
	switch {
	case f.Waiver != nil:
		return string(workflow.MarkWaived)
	case f.Level == calc.Stop:
		return string(workflow.MarkStop)
	case f.Level == calc.Caution:
		return string(workflow.MarkCaution)
	}
	return string(workflow.MarkKept)
}

// record lists the entries as they were made; a corrected answer says what it
// was before.
func (t Ticket) record(p *page) {
	p.gap()
	p.ends("RECORD", entries(len(t.Entries)))
	before := map[workflow.StepID]workflow.Answers{}
	for _, e := range t.Entries {
		p.row(
			cell{0, 4, fmt.Sprintf("%3d", e.Seq)},
			cell{5, 17, t.when(e.At)},
			cell{23, 18, e.By},
			cell{42, Width - 42, t.did(e, before[e.Step])},
		)
		if e.Kind == workflow.EntryAnswered {
			before[e.Step] = e.Answers
		}
	}
}

func entries(n int) string {
	if n == 1 {
		return "1 entry"
	}
	return fmt.Sprintf("%d entries", n)
}

// did says an entry in a few words; before is the step's answer until then.
func (t Ticket) did(e workflow.Entry, before workflow.Answers) string {
	switch e.Kind {
	case workflow.EntryOpened:
		return "opened, " + workflow.KindLabel(e.JobKind)
	case workflow.EntryAnswered:
		said := t.title(e.Step)
		if before != nil {
			said += " again" + changes(before, e.Answers)
		}
		for _, s := range e.Stale {
			said += "; " + t.title(s.Step) + " stale"
		}
		if e.Finishes {
			said += "; handed over"
		}
		return said
	case workflow.EntryWaived:
		said := "waived"
		if e.Waived != nil {
			said += " at " + t.title(e.Step) + ": " + e.Waived.Text
		}
		return said + " Reason: " + e.Reason
	case workflow.EntryVoided:
		return "void: " + e.Reason
	}
	return string(e.Kind)
}

// changes names what differs between two answers of a step.
func changes(before, after workflow.Answers) string {
	said := ""
	keys := slices.Compact(slices.Sorted(slices.Values(append(before.Keys(), after.Keys()...))))
	for _, key := range keys {
		was, is := before[key], after[key]
		switch {
		case was == is:
		case was == "":
			said += ", " + key + " " + is
		case is == "":
			said += ", " + key + " was " + was
		default:
			said += ", " + key + " " + was + " -> " + is
		}
	}
	return said
}

// title is the name of a step for the eye; its id if the step is gone.
func (t Ticket) title(id workflow.StepID) string {
	if sv, ok := t.View.Step(id); ok {
		return sv.Step.Title
	}
	return string(id)
}

func (t Ticket) when(at time.Time) string {
	zone := t.Zone
	if zone == nil {
		zone = time.UTC
	}
	return at.In(zone).Format("2006-01-02 15:04")
}

func orDash(text string) string {
	if text == "" {
		return "-"
	}
	return text
}
