package paper

import (
	"fmt"
	"strings"

	"drillstop/calc"
	"drillstop/workflow"

	"github.com/charmbracelet/x/ansi"
)

// framed writes what must not be overlooked into a frame.
func framed(p *page, notices []string) {
	if len(notices) == 0 {
		return
	}
	const inside = Width - 4
	p.gap()
	edge := "+" + strings.Repeat("-", Width-2) + "+"
	p.lines = append(p.lines, edge)
	for _, notice := range notices {
		for _, line := range wrap(notice, inside) {
			p.lines = append(p.lines, "| "+line+strings.Repeat(" ", max(0, inside-ansi.StringWidth(line)))+" |")
		}
	}
	p.lines = append(p.lines, edge)
}

// scalesText are the four release scales in a table.
func scalesText(p *page, f Facts) {
	if len(f.Scales) == 0 {
		return
	}
	p.gap()
	p.row(cell{0, Width, "RELEASE VALUES"})
	at := []int{leftAt, leftAt + 11, leftAt + 22, leftAt + 33}
	line := func(label string, always bool, value func(ScaleFact) string) {
		cells, some := []cell{{labelAt, leftAt - labelAt - 2, label}}, always
		for i, s := range f.Scales {
			some = some || value(s) != ""
			cells = append(cells, cell{at[i], 11, orDash(value(s))})
		}
		if some {
			p.row(cells...)
		}
	}
	line("", true, func(s ScaleFact) string { return string(s.Side) + " " + s.Piece })
	line("Computed", false, func(s ScaleFact) string { return s.Computed })
	line("To the mark", false, func(s ScaleFact) string { return s.SetTo })
	line("Set, read back", true, func(s ScaleFact) string { return s.Set })
	line("Corrected after the test", false, func(s ScaleFact) string { return s.Corrected })
	line("Stands at", false, f.standing)
	if f.Path != "" {
		p.row(cell{labelAt, leftAt - labelAt - 2, "Code path"}, cell{leftAt, Width - leftAt, f.Path})
	}
	if f.Chart != nil {
		p.row(cell{labelAt, leftAt - labelAt - 2, "Chart"}, cell{leftAt, Width - leftAt, f.Chart.Edition + "  " + f.Chart.Checksum})
	}
}

// roundsText are all rounds of the release test and of the correction; a single
// one that holds stands in its step already.
func (t Ticket) roundsText(p *page, rounds []Round) {
	if len(rounds) == 0 || len(rounds) == 1 && rounds[0].Holds {
		return
	}
	p.gap()
	p.ends("ROUNDS OF TEST AND CORRECTION", fmt.Sprint(len(rounds)))
	for _, r := range rounds {
		p.gap()
		p.ends(r.name(), r.By+"  "+t.when(r.At))
		if r.Device != "" {
			p.row(cell{labelAt, leftAt - labelAt - 2, "Test device"}, cell{leftAt, Width - leftAt, r.Device})
		}
		for _, row := range r.Rows {
			roundRow(p, row)
		}
		for _, f := range r.Figures {
			figure(p, f)
		}
		for _, f := range r.Findings {
			if f.Level != calc.Note {
				finding(p, f)
			}
		}
		for _, m := range r.Stale {
			p.indented(labelAt, string(workflow.MarkStale)+" ", t.title(m.Step)+" became stale: "+m.Because)
		}
	}
}

func roundRow(p *page, row RoundRow) {
	label := cell{labelAt, leftAt - labelAt - 2, row.Label}
	if row.Left == nil && row.Right == nil {
		p.row(label, cell{leftAt, Width - leftAt, row.Both})
		return
	}
	const sideWide = 7
	for _, ski := range []struct {
		side workflow.Side
		said *Reading
	}{{workflow.Left, row.Left}, {workflow.Right, row.Right}} {
		p.row(label, cell{leftAt, sideWide, string(ski.side)}, cell{leftAt + sideWide, Width - leftAt - sideWide, orDash(ski.said.said())})
		label.text = ""
	}
}

// skierText is what the skier is told, and the two lines to sign on.
func (t Ticket) skierText(p *page, f Facts) {
	p.gap()
	p.row(cell{0, Width, "FOR THE SKIER"})
	for _, said := range f.Cautions {
		p.indented(labelAt-2, "- ", said)
	}
	if f.NextDue != "" {
		p.row(cell{labelAt - 2, Width, "Next check due " + f.NextDue})
	}
	for _, s := range f.Signatures {
		p.gap()
		name := t.signedBy(s)
		if s.At != nil {
			name += ", " + t.when(*s.At)
		}
		p.row(cell{labelAt - 2, 12, s.Role}, cell{labelAt + 10, Width, strings.Repeat("_", 26)}, cell{labelAt + 38, Width - labelAt - 38, name})
	}
}
