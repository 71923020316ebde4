package paper

import (
	"io"
	"strings"

	"drillstop/calc"
	"drillstop/workflow"
)

// A5 is half of an A4 sheet.
const A5 Sheet = "a5"

// ticketForms are the sizes of paper that a ticket is printed on.
var ticketForms = map[Sheet]form{
	A4: {paper: "A4", width: 210, height: 297, margin: 13, fine: 6.6, body: 8.4, big: 12, top: 17},
	A5: {paper: "A5", width: 148, height: 210, margin: 9, fine: 5.6, body: 6.8, big: 10, top: 14},
}

// ParseTicketSheet reads the name of a size of paper for a ticket. An unknown
// one is a *calc.Fault of code "paper".
func ParseTicketSheet(name string) (Sheet, error) {
	for _, s := range []Sheet{A4, A5} {
		if strings.EqualFold(name, string(s)) {
			return s, nil
		}
	}
	return "", calc.Faultf("paper", "%q is not a paper that a ticket is printed on: a4 or a5.", name)
}

// PDF writes the ticket: first what the skier takes along and both sign, then
// the whole record of the work. It fails with the code "paper" on a size that a
// ticket is not printed on, "barcode" on a number that no barcode can carry, or
// if writing fails.
func (t Ticket) PDF(w io.Writer, sheet Sheet) error {
	m, ok := ticketForms[sheet]
	if !ok {
		return calc.Faultf("paper", "%q is not a paper that a ticket is printed on: a4 or a5.", string(sheet))
	}
	number := t.View.Job.Ticket.String()
	code, err := bars(number)
	if err != nil {
		return err
	}
	running := number + "   " + t.Shop + "   printed " + t.when(t.Made)
	if t.Invented != "" {
		running += "   " + strings.ToUpper(t.Invented)
	}
	s := ticketSheet{flow: newFlow(m, "Ticket "+number, running, t.Made), Ticket: t, facts: t.Facts()}
	s.head(number, code)
	s.handed()
	s.work()
	s.feet()
	return s.Output(w)
}

// ticketSheet is a ticket on its way to paper.
type ticketSheet struct {
	*flow
	Ticket
	facts Facts
}

// Where the columns stand, in parts of the width between the margins.
const (
	labelWide  = 0.30
	valueFrom  = 0.32
	rightFrom  = 0.66
	columnWide = 0.33
	listedWide = 0.975 // behind a mark
)

// signingLines is how much room the two lines to sign on take.
const signingLines = 5

func (s *ticketSheet) head(number string, code []bool) {
	job := s.View.Job
	top := s.y
	wide := max(barcodeWidth(code), s.inner()*0.3)
	s.barcode(code, s.width-s.margin-wide, top, wide, s.high(s.top))
	s.writeMiddle(s.width-s.margin-wide/2, top+s.high(s.top)+0.5, s.fine, "", number)
	s.write(s.margin, top, s.top, "B", number)
	s.write(s.margin, top+s.high(s.top), s.body, "B", s.Shop)
	s.y = top + s.high(s.top) + s.high(s.body)*1.1
	said := workflow.KindLabel(job.Kind) + ", " + string(job.State) + "   opened " + s.when(job.OpenedAt) + " by " + job.OpenedBy
	if job.State != workflow.Open {
		said += "   ended " + s.when(job.EndedAt)
	}
	if job.Due != "" {
		said += "   due " + job.Due
	}
	s.row(s.body, column{at: 0, width: 1, text: said})
	s.gap(s.high(s.fine) * 0.4)
	for _, notice := range s.facts.Notices {
		s.box(notice, s.big)
	}
}

// handed is what goes with the skier.
func (s *ticketSheet) handed() {
	s.section("skier and equipment", "")
	s.parties()
	s.values()
	s.tests()
	s.found()
	s.cautioned()
}

// cautioned is what the skier is told, on one sheet with the lines to sign on.
func (s *ticketSheet) cautioned() {
	lines := signingLines + 3 // the heading and the next check
	for _, said := range s.facts.Cautions {
		lines += len(s.broken(said, listedWide*s.inner(), s.body, ""))
	}
	s.need(float64(lines) * s.high(s.body))
	s.section("for the skier", "")
	for _, said := range s.facts.Cautions {
		s.listed("-", said)
	}
	if s.facts.NextDue != "" {
		s.row(s.body, column{0, labelWide, "B", "Next check due"}, column{valueFrom, 1 - valueFrom, "B", s.facts.NextDue})
	}
	s.signed()
}

// answers writes what was answered, in the order in which it was asked.
func (s *ticketSheet) answers(step workflow.Step, given workflow.Answers) {
	for _, f := range step.Asked(s.View.Job) {
		if !f.PerSki {
			if text := given.Text(f.ID, workflow.Both); text != "" {
				s.row(s.body, column{0, labelWide, "", f.Label}, column{valueFrom, 1 - valueFrom, "", text})
			}
			continue
		}
		left, right := given.Text(f.ID, workflow.Left), given.Text(f.ID, workflow.Right)
		if left != "" || right != "" {
			s.pair(f.Label, left, right)
		}
	}
}

// pair writes an answer for each ski, with its name before it.
func (s *ticketSheet) pair(label, left, right string) {
	const sideWide = 0.045
	s.row(s.body,
		column{0, labelWide, "", label},
		column{valueFrom, sideWide, "", "left"}, column{valueFrom + sideWide + 0.01, columnWide - sideWide - 0.02, "", orDash(left)},
		column{rightFrom, sideWide + 0.01, "", "right"}, column{rightFrom + sideWide + 0.02, columnWide - sideWide - 0.02, "", orDash(right)})
}

// listed writes a text behind a mark, with its indent kept.
func (s *ticketSheet) listed(mark, text string) {
	s.row(s.body, column{0, 0.02, "B", mark}, column{1 - listedWide, listedWide, "", text})
}

// values are the four scales in a table, with where they came from.
func (s *ticketSheet) values() {
	if len(s.facts.Scales) == 0 {
		return
	}
	s.section("release values", "computed, set and read back")
	at := []float64{0.32, 0.49, 0.66, 0.83}
	head := []column{{0, labelWide, "", ""}}
	for i, f := range s.facts.Scales {
		head = append(head, column{at[i], 0.16, "B", string(f.Side) + ", " + f.Piece})
	}
	s.row(s.body, head...)
	for _, line := range []struct {
		label, style string
		value        func(ScaleFact) string
	}{
		{"computed", "", func(f ScaleFact) string { return f.Computed }},
		{"to the mark", "", func(f ScaleFact) string { return f.SetTo }},
		{"set, read back", "B", func(f ScaleFact) string { return f.Set }},
		{"corrected after the test", "B", func(f ScaleFact) string { return f.Corrected }},
		{"stands at", "B", s.facts.standing},
	} {
		row, some := []column{{0, labelWide, "", line.label}}, false
		for i, f := range s.facts.Scales {
			some = some || line.value(f) != ""
			row = append(row, column{at[i], 0.16, line.style, orDash(line.value(f))})
		}
		if some || line.label == "set, read back" {
			s.row((s.body+s.big)/2, row...)
		}
	}
	if stale := s.facts.Scales[0].Stale; stale != "" {
		s.listed(string(workflow.MarkStale), "stale: "+stale)
	}
	s.gap(s.high(s.fine) * 0.4)
	s.labelled("Code path", s.facts.Path)
	for _, r := range s.facts.References {
		s.labelled(r.Label, strings.TrimSpace(r.Value+"   "+r.Row))
	}
	if c := s.facts.Chart; c != nil {
		s.labelled("Chart", c.Edition+"   "+c.Checksum)
	}
	s.pictures(stepRelease)
}

// titled writes what follows in bold, and at the end of the line who did it.
func (s *ticketSheet) titled(title, who string) {
	s.need(s.high(s.body) * 3)
	at := s.y
	s.row(s.body, column{0, 0.62, "B", title})
	s.writeEnd(s.width-s.margin, max(at, s.y-s.high(s.body)), s.fine, "", who)
}

func (s *ticketSheet) labelled(label, text string) {
	if text != "" {
		s.row(s.body, column{0, labelWide, "", label}, column{valueFrom, 1 - valueFrom, "", text})
	}
}

// tests are the last readings, which are those that count; all rounds stand in
// the record of the work.
func (s *ticketSheet) tests() {
	s.section("release test", string(s.facts.ReleaseTested))
	last := -1
	for i, r := range s.facts.Rounds {
		if r.Step == stepReleaseTest {
			last = i
		}
	}
	if last < 0 {
		s.row(s.body, column{0, 1, "", "Nobody measured at what moment these bindings let go."})
		return
	}
	s.readings(s.facts.Rounds[last])
}

// found are the findings that are more than a note, with their waivers.
func (s *ticketSheet) found() {
	s.section("findings and waivers", "")
	some := false
	for _, f := range s.View.Findings {
		if f.Level != calc.Note {
			s.finding(f)
			some = true
		}
	}
	if !some {
		s.row(s.body, column{0, 1, "", "No caution and no stop stands against this job."})
	}
}

func (s *ticketSheet) finding(f workflow.Finding) {
	s.listed(findingMark(f), s.title(f.Step)+": "+Finding(f))
	if f.Waiver != nil {
		s.listed("", "waived by "+f.Waiver.By+": "+f.Waiver.Reason)
	}
}

// signed are the two lines to sign on.
func (s *ticketSheet) signed() {
	s.need(s.high(s.body) * signingLines)
	s.gap(s.high(s.body) * 2.5)
	half := s.inner() * 0.46
	for i, signature := range s.facts.Signatures {
		x := s.margin + float64(i)*(s.inner()-half)
		s.stroke(x, s.y, x+half, s.y, 0.25)
		s.write(x, s.y+0.5, s.body, "", signature.Role+": "+s.signedBy(signature))
		if signature.At != nil {
			s.write(x, s.y+0.5+s.high(s.body), s.fine, "", s.when(*signature.At))
		}
	}
	s.y += s.high(s.body)*2 + 1
}

// round is one round of the release test or the correction, with all that was
// said of it then.
func (s *ticketSheet) round(r Round) {
	s.readings(r)
	s.labelled("Chart", r.Chart)
	for _, f := range r.Figures {
		s.labelled(f.Label, f.Value)
		s.small(f)
	}
	for _, f := range r.Findings {
		if f.Level != calc.Note {
			s.listed(findingMark(f), Finding(f))
		}
	}
	for _, m := range r.Stale {
		s.listed(string(workflow.MarkStale), s.title(m.Step)+" became stale: "+m.Because)
	}
}

// readings are the answers of a round.
func (s *ticketSheet) readings(r Round) {
	s.gap(s.high(s.fine) * 0.4)
	s.titled(r.name(), r.By+"  "+s.when(r.At))
	s.labelled("Test device", r.Device)
	for _, row := range r.Rows {
		switch {
		case row.Left == nil && row.Right == nil:
			s.labelled(row.Label, row.Both)
		default:
			s.pair(row.Label, row.Left.said(), row.Right.said())
		}
	}
}

// said is a reading in words; "" where there is none.
func (r *Reading) said() string {
	switch {
	case r == nil:
		return ""
	case r.Verdict != "":
		return r.Text + ". Middle " + r.Verdict
	}
	return r.Text
}
