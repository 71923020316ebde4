package main

import (
	"time"

	"drillstop/workflow"
)

// jobRecord is a job as run and ticket print it as JSON; the names are a
// contract.
type jobRecord struct {
	Ticket   workflow.Ticket    `json:"ticket"`
	Kind     workflow.Kind      `json:"kind"`
	State    workflow.State     `json:"state"`
	OpenedAt time.Time          `json:"opened_at"`
	OpenedBy string             `json:"opened_by"`
	Due      string             `json:"due,omitempty"`
	EndedAt  *time.Time         `json:"ended_at,omitempty"`
	EndedWhy string             `json:"ended_why,omitempty"`
	Next     workflow.StepID    `json:"next,omitempty"` // the step to answer next
	Steps    []stepRecord       `json:"steps"`
	Findings []workflow.Finding `json:"findings"`
	Entries  []workflow.Entry   `json:"entries,omitempty"`
}

// stepRecord is one step that applies to the job.
type stepRecord struct {
	Step     workflow.StepID    `json:"step"`
	Title    string             `json:"title"`
	Phase    workflow.Phase     `json:"phase"`
	Mark     workflow.Mark      `json:"mark"`
	Means    string             `json:"means"` // the mark as a word
	At       *time.Time         `json:"at,omitempty"`
	By       string             `json:"by,omitempty"`
	Stale    string             `json:"stale,omitempty"`
	Answers  workflow.Answers   `json:"answers,omitempty"`
	Figures  []workflow.Figure  `json:"figures,omitempty"`
	Findings []workflow.Finding `json:"findings,omitempty"`
}

func recordOf(v workflow.View, entries []workflow.Entry) jobRecord {
	job := v.Job
	r := jobRecord{
		Ticket: job.Ticket, Kind: job.Kind, State: job.State,
		OpenedAt: job.OpenedAt, OpenedBy: job.OpenedBy, Due: job.Due,
		EndedWhy: job.EndedWhy, Next: v.Here, Steps: []stepRecord{},
		Findings: append([]workflow.Finding{}, v.Findings...), Entries: entries,
	}
	if job.State != workflow.Open {
		r.EndedAt = &job.EndedAt
	}
	for _, sv := range v.Steps {
		if sv.Mark != workflow.MarkApart {
			r.Steps = append(r.Steps, stepOf(job, sv))
		}
	}
	return r
}

func stepOf(job workflow.Job, sv workflow.StepView) stepRecord {
	s := stepRecord{
		Step: sv.Step.ID, Title: sv.Step.Title, Phase: sv.Step.Phase,
		Mark: sv.Mark, Means: sv.Mark.Word(), Stale: sv.Stale, Findings: sv.Findings,
	}
	if given, ok := job.Answered(sv.Step.ID); ok {
		s.At, s.By, s.Answers, s.Figures = &given.At, given.By, given.Answers, given.Figures
	}
	return s
}

// playRecord is a played answer sheet as run prints it as JSON.
type playRecord struct {
	Events   []eventRecord      `json:"events"`
	Job      jobRecord          `json:"job"`
	Findings []workflow.Finding `json:"findings"` // of the job at the end
	Refused  []workflow.StepID  `json:"refused"`  // steps whose last line was not kept
	Stopped  bool               `json:"stopped"`
}

// eventRecord is what came of one line of the sheet.
type eventRecord struct {
	Line     int                `json:"line"` // of the sheet's steps, from 1
	Step     workflow.StepID    `json:"step"`
	Kept     bool               `json:"kept"`
	Held     string             `json:"held,omitempty"`
	Faults   []faultRecord      `json:"faults,omitempty"`
	Findings []workflow.Finding `json:"findings,omitempty"`
	Stale    []workflow.StepID  `json:"stale,omitempty"`
}

// faultRecord is why one answer was refused.
type faultRecord struct {
	Field workflow.FieldID `json:"field"`
	Side  workflow.Side    `json:"side,omitempty"`
	Code  string           `json:"code"`
	Text  string           `json:"text"`
}

func playRecordOf(play workflow.Play, view workflow.View) playRecord {
	r := playRecord{
		Events: []eventRecord{}, Job: recordOf(view, nil), Stopped: play.Stopped(view),
		Refused: append([]workflow.StepID{}, play.Refused...),
	}
	r.Findings = r.Job.Findings
	for _, e := range play.Events {
		event := eventRecord{Line: e.Line, Step: e.Step, Kept: e.Kept, Findings: e.Findings, Stale: e.Stale}
		if e.Refusal != nil {
			event.Held = e.Refusal.Held
			for _, f := range e.Refusal.Fields {
				event.Faults = append(event.Faults, faultRecord{f.Field, f.Side, f.Fault.Code, f.Fault.Sentence})
			}
		}
		r.Events = append(r.Events, event)
	}
	return r
}
