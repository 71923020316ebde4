package paper

import (
	"fmt"
	"strings"
	"time"

	"drillstop/workflow"
)

// Round is one answer to the release test or to the correction after it, as the
// record has it. Every one stays: the last of them replaces none.
type Round struct {
	N        int                  `json:"n"` // 1, 2, 3 … of its step
	Step     workflow.StepID      `json:"step"`
	Title    string               `json:"title"`
	At       time.Time            `json:"at"`
	By       string               `json:"by"`
	Seq      int                  `json:"seq"` // of its entry
	Device   string               `json:"device,omitempty"`
	Chart    string               `json:"chart,omitempty"` // that the readings were judged by
	Rows     []RoundRow           `json:"rows"`
	Figures  []workflow.Figure    `json:"figures,omitempty"` // beyond middle values and chart
	Findings []workflow.Finding   `json:"findings,omitempty"`
	Stale    []workflow.StaleMark `json:"stale,omitempty"` // what it made stale
	Last     bool                 `json:"last"`            // none of its step came after it
	Holds    bool                 `json:"holds"`           // it is the last, and nothing it rests on changed since
}

// RoundRow is one question of a round: one answer, or one for each ski.
type RoundRow struct {
	Field workflow.FieldID `json:"field"`
	Label string           `json:"label"`
	Both  string           `json:"both,omitempty"`
	Left  *Reading         `json:"left,omitempty"`
	Right *Reading         `json:"right,omitempty"`
}

// Reading is an answer for one ski and, for readings, what they came to.
type Reading struct {
	Text    string `json:"text"`
	Middle  string `json:"middle,omitempty"`
	Verdict string `json:"verdict,omitempty"`
}

// name is which round it is, and whether it is the one that counts.
func (r Round) name() string {
	said := fmt.Sprintf("%s, round %d", r.Title, r.N)
	switch {
	case !r.Last:
		said += " (a later one followed)"
	case !r.Holds:
		said += " (no longer valid)"
	}
	return said
}

// rounds are all answers to the release test and to the correction, in the
// order in which they were given.
func (t Ticket) rounds() []Round {
	var all []Round
	count := map[workflow.StepID]int{}
	for _, e := range t.Entries {
		if e.Kind != workflow.EntryAnswered || e.Step != stepReleaseTest && e.Step != stepCorrection {
			continue
		}
		count[e.Step]++
		now, _ := t.View.Job.Answered(e.Step)
		all = append(all, Round{
			N: count[e.Step], Step: e.Step, Title: t.title(e.Step), At: e.At, By: e.By, Seq: e.Seq,
			Device: e.Answers.Text(fieldDevice, workflow.Both), Chart: chartOf(e.Figures), Rows: t.roundRows(e),
			Figures: otherFigures(e.Figures), Findings: e.Findings, Stale: e.Stale, Last: now.Seq == e.Seq, Holds: now.Seq == e.Seq && now.Stale == "",
		})
	}
	return all
}

// chartOf names the chart among figures, "" where none is.
func chartOf(figures []workflow.Figure) string {
	for _, f := range figures {
		if f.Name == figureChart {
			return f.Value + "   " + f.Path
		}
	}
	return ""
}

// otherFigures are those that stand in no place of their own in a round.
func otherFigures(figures []workflow.Figure) []workflow.Figure {
	var others []workflow.Figure
	for _, f := range figures {
		if f.Name != figureChart && !strings.HasPrefix(f.Name, figureMiddle) {
			others = append(others, f)
		}
	}
	return others
}

// roundRows are the answers of a round in the order in which they are asked;
// what is no longer asked comes last under its own name.
func (t Ticket) roundRows(e workflow.Entry) []RoundRow {
	rows := []RoundRow{}
	known := map[string]bool{workflow.Key(fieldDevice, workflow.Both): true}
	add := func(row RoundRow) {
		id := row.Field
		row.Both = e.Answers.Text(id, workflow.Both)
		row.Left, row.Right = reading(e, id, workflow.Left), reading(e, id, workflow.Right)
		for _, side := range []workflow.Side{workflow.Both, workflow.Left, workflow.Right} {
			known[workflow.Key(id, side)] = true
		}
		if row.Both != "" || row.Left != nil || row.Right != nil {
			rows = append(rows, row)
		}
	}
	if sv, ok := t.View.Step(e.Step); ok {
		for _, f := range sv.Step.Fields {
			if f.ID != fieldDevice {
				add(RoundRow{Field: f.ID, Label: f.Label})
			}
		}
	}
	for _, key := range e.Answers.Keys() {
		if !known[key] {
			rows = append(rows, RoundRow{Field: workflow.FieldID(key), Label: key, Both: e.Answers[key]})
		}
	}
	return rows
}

// reading is an answer for one ski; nil where there is none.
func reading(e workflow.Entry, id workflow.FieldID, side workflow.Side) *Reading {
	text := e.Answers.Text(id, side)
	if text == "" {
		return nil
	}
	r := Reading{Text: text}
	for _, f := range e.Figures {
		if f.Name == figureMiddle+workflow.Key(id, side) {
			r.Middle, r.Verdict = f.Value, f.Path
		}
	}
	return &r
}
