package paper

import (
	"fmt"
	"strings"

	"drillstop/workflow"
)

// work is the record: every step with who did it when, every round of testing,
// where the holes lie, and the entries as they were made.
func (s *ticketSheet) work() {
	s.page()
	s.write(s.margin, s.y, s.big, "B", "Record of the work")
	s.y += s.high(s.big)
	for _, phase := range s.View.Phases {
		if phase.Of == 0 {
			continue
		}
		s.section(string(phase.Phase), fmt.Sprintf("%d of %d", phase.Done, phase.Of))
		for _, sv := range s.View.Steps {
			if sv.Step.Phase == phase.Phase {
				s.stepDone(sv)
			}
		}
		if phase.Phase == workflow.Layout && s.facts.Layout != nil {
			s.layoutPicture(*s.facts.Layout)
		}
	}
	s.entries()
}

// stepDone writes a step that says something, and names one that was not done.
func (s *ticketSheet) stepDone(sv workflow.StepView) {
	if sv.Mark == workflow.MarkApart {
		return
	}
	answered, done := s.View.Job.Answered(sv.Step.ID)
	title := string(sv.Mark) + " " + sv.Step.Title
	if sv.Mark != workflow.MarkKept {
		title += " (" + sv.Mark.Word() + ")"
	}
	who := ""
	if done {
		who = answered.By + "  " + s.when(answered.At)
	}
	s.gap(s.high(s.fine) * 0.5)
	s.titled(title, who)
	if rounds := s.roundsOf(sv.Step.ID); len(rounds) > 0 {
		for _, r := range rounds {
			s.round(r)
		}
	} else {
		s.answers(sv.Step, answered.Answers)
		s.figures(answered.Figures)
	}
	if sv.Stale != "" {
		s.listed(string(workflow.MarkStale), "stale: "+sv.Stale)
	}
	for _, f := range sv.Findings {
		if f.Code == codeKeep {
			continue // the round says so beside its readings
		}
		s.listed(findingMark(f), Finding(f))
		if f.Waiver != nil {
			s.listed("", "waived by "+f.Waiver.By+": "+f.Waiver.Reason)
		}
		if f.Source != "" {
			s.row(s.fine, column{0.025, 0.975, "", "source: " + f.Source})
		}
	}
	if sv.Step.ID != stepRelease { // those stand beside the values
		s.pictures(sv.Step.ID)
	}
}

func (s *ticketSheet) roundsOf(id workflow.StepID) []Round {
	var rounds []Round
	for _, r := range s.facts.Rounds {
		if r.Step == id {
			rounds = append(rounds, r)
		}
	}
	return rounds
}

// figures are what was computed, with the path and what the record keeps of it.
func (s *ticketSheet) figures(figures []workflow.Figure) {
	for _, f := range figures {
		s.row(s.body, column{0, labelWide, "B", f.Label}, column{valueFrom, 1 - valueFrom, "B", f.Value})
		s.small(f)
	}
}

// small is how a figure came about, and what the record keeps of it.
func (s *ticketSheet) small(f workflow.Figure) {
	for _, more := range []string{f.Path, f.Record} {
		if more != "" {
			s.row(s.fine, column{valueFrom, 1 - valueFrom, "", more})
		}
	}
}

// entries are the lines of the record as they were made.
func (s *ticketSheet) entries() {
	s.section("who did what when", entries(len(s.Entries)))
	before := map[workflow.StepID]workflow.Answers{}
	for _, e := range s.Entries {
		s.row(s.fine,
			column{0, 0.04, "", fmt.Sprint(e.Seq)}, column{0.05, 0.15, "", s.when(e.At)},
			column{0.21, 0.18, "", e.By}, column{0.40, 0.60, "", strings.TrimSpace(s.did(e, before[e.Step]))})
		if e.Kind == workflow.EntryAnswered {
			before[e.Step] = e.Answers
		}
	}
}
