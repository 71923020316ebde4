package paper

import (
	"io"
	"strings"
	"time"

	"drillstop/workflow"
)

// cardForm is A6, a quarter of an A4 sheet.
var cardForm = form{paper: "A6", width: 105, height: 148, margin: 7, fine: 6, body: 9, big: 13, top: 32}

// Card is the bench card of a job: it hangs on the skis while they are in work.
type Card struct {
	Shop                string
	Skier, Ski, Binding string // "" while not known
	View                workflow.View
	Entries             []workflow.Entry
	Zone                *time.Location // in which times are printed; nil: UTC
	Invented            string         // "demo" or "practice"; "" for real work
	Made                time.Time      // when it was printed
}

// PDF writes the card. It fails with the code "barcode" on a number that no
// barcode can carry, or if writing fails.
func (c Card) PDF(w io.Writer) error {
	number := c.View.Job.Ticket.String()
	code, err := bars(number)
	if err != nil {
		return err
	}
	t := Ticket{Shop: c.Shop, View: c.View, Entries: c.Entries, Zone: c.Zone, Invented: c.Invented}
	running := number + "   as of " + t.when(c.Made) + "; the shop file is what counts"
	s := cardSheet{newFlow(cardForm, "Bench card "+number, running, c.Made), c, t}
	s.head(number, code)
	s.pair()
	s.numbers()
	s.progress()
	s.against()
	s.notes()
	s.feet()
	return s.Output(w)
}

// cardSheet is a card on its way to paper.
type cardSheet struct {
	*flow
	Card
	ticket Ticket
}

// head is the hole to hang the card by, the number, large, and its barcode.
func (s *cardSheet) head(number string, code []bool) {
	const hole = 3.0
	middle := s.width / 2
	s.SetLineWidth(0.2)
	s.SetDashPattern([]float64{0.8, 0.8}, 0)
	s.Circle(middle, s.margin+hole-2, hole, "D")
	s.SetDashPattern(nil, 0)
	s.y = s.margin + 2*hole
	s.writeMiddle(middle, s.y, s.top, "B", number)
	s.y += s.high(s.top)
	const tall = 13.0
	wide := min(s.inner(), max(barcodeWidth(code), 0.45*float64(len(code)+2*quietModules)))
	s.barcode(code, middle-wide/2, s.y, wide, tall)
	s.y += tall + 1.5
	if s.Invented != "" {
		s.box(strings.ToUpper(s.Invented)+": no customer's skis", s.body)
	}
}

func (s *cardSheet) pair() {
	job := s.View.Job
	for _, line := range []struct {
		points float64
		style  string
		label  string
		text   string
	}{
		{s.big, "B", "skier", s.Skier},
		{s.body, "", "skis", joined(s.Ski, job.Text(stepSkis, fieldSerial, workflow.Both))},
		{s.body, "", "binding", joined(s.Binding, job.Text(stepBinding, fieldSerial, workflow.Both))},
		{s.body, "", "work", joined(workflow.KindLabel(job.Kind), string(job.State))},
		{s.body, "B", "due", job.Due},
	} {
		if line.text != "" {
			s.row(line.points, column{0, 0.17, "", line.label}, column{0.18, 0.82, line.style, s.short(line.text, line.points, line.style)})
		}
	}
}

// mostLines is how many lines a name takes on a card.
const mostLines = 2

// short is the beginning of a text that is too long for a card, with dots that
// say so; the ticket has all of it.
func (s *cardSheet) short(text string, points float64, style string) string {
	const width, more = 0.82, " ..."
	broken := s.broken(text, width*s.inner(), points, style)
	if len(broken) <= mostLines {
		return text
	}
	words := strings.Fields(text)
	for n := len(words) - 1; n > 0; n-- {
		said := strings.Join(words[:n], " ") + more
		if len(s.broken(said, width*s.inner(), points, style)) <= mostLines {
			return said
		}
	}
	return broken[0] + more
}

func joined(texts ...string) string {
	said := ""
	for _, text := range texts {
		if said != "" && text != "" {
			said += ", "
		}
		said += text
	}
	return said
}

// numbers are what the hand at the bench asks for most.
func (s *cardSheet) numbers() {
	s.gap(1)
	s.stroke(s.margin, s.y, s.width-s.margin, s.y, 0.2)
	s.gap(0.8)
	job := s.View.Job
	sole := func(side workflow.Side) string { return job.Text(stepBoots, fieldSole, side) }
	soles := sole(workflow.Left)
	if right := sole(workflow.Right); right != soles {
		soles = joined("left "+soles, "right "+right)
	}
	value, _ := s.ticket.figure(figureValue, stepRelease, stepFit)
	bit, _ := s.ticket.figure(figureBit, stepFit, stepBit)
	stop, _ := s.ticket.figure(figureStop, stepFit, stepBit)
	drill := ""
	if bit.Value != "" {
		drill = "bit " + bit.Value + "  stop " + stop.Value
	}
	for _, line := range [][2]string{
		{"sole", soles}, {"drill", drill}, {"midsole", job.Text(stepMountPoint, fieldOffset, workflow.Both)}, {"computed", value.Value},
		{"stands", s.ticket.stands()},
	} {
		if line[1] != "" {
			s.row(s.body, column{0, 0.17, "", line[0]}, column{0.18, 0.82, "B", line[1]})
		}
	}
}

// stands is where the four scales stand, once one of them stands off where it
// was set.
func (t Ticket) stands() string {
	said, corrected := "", false
	for _, scale := range t.scales() {
		said = joined(said, string(scale.Side)+" "+scale.Piece+" "+orDash(scale.Stands))
		corrected = corrected || scale.Corrected != ""
	}
	if !corrected {
		return ""
	}
	return said
}

// progress is one mark for each phase.
func (s *cardSheet) progress() {
	s.gap(1.2)
	n := 0
	for _, phase := range s.View.Phases {
		if phase.Of > 0 {
			n++
		}
	}
	if n == 0 {
		return
	}
	step, i := s.inner()/float64(n), 0
	height := s.high(s.body)
	for _, phase := range s.View.Phases {
		if phase.Of == 0 {
			continue
		}
		x := s.margin + float64(i)*step
		if phase.Done == phase.Of {
			s.grey(x, s.y, step, height, 205)
		}
		s.SetLineWidth(0.2)
		s.Rect(x, s.y, step, height, "D")
		s.writeMiddle(x+step/2, s.y, s.body, "B", string(phase.Mark))
		s.writeMiddle(x+step/2, s.y+height, 5.2, "", string(phase.Phase))
		i++
	}
	s.y += height + s.high(s.fine)*1.2
}

// mostAgainst is how many findings a card has room for.
const mostAgainst = 4

// against is what stands against the job: stops first, then what is stale.
func (s *cardSheet) against() {
	var lines []string
	for _, f := range s.View.Findings {
		switch {
		case f.Holds():
			lines = append(lines, string(workflow.MarkStop)+" "+f.Text)
		case f.Waiver != nil:
			lines = append(lines, string(workflow.MarkWaived)+" waived by "+f.Waiver.By+": "+f.Text)
		}
	}
	for _, sv := range s.View.Steps {
		if sv.Stale != "" {
			lines = append(lines, string(workflow.MarkStale)+" "+sv.Step.Title+": "+sv.Stale)
		}
	}
	if here, ok := s.View.Step(s.View.Here); ok {
		lines = append(lines, string(workflow.MarkHere)+" next: "+here.Step.Title)
	}
	for i, line := range lines {
		if broken := s.broken(line, s.inner(), s.body, ""); i == mostAgainst || float64(len(broken)+1)*s.high(s.body) > s.room() {
			s.row(s.body, column{0, 1, "B", "and more: see the job"})
			return
		}
		s.row(s.body, column{0, 1, "", line})
	}
}

// notes are lines to write on by hand, as many as there is room for.
func (s *cardSheet) notes() {
	const apart = 7.5
	for s.room() > apart {
		s.y += apart
		s.stroke(s.margin, s.y, s.width-s.margin, s.y, 0.1, 0.4, 0.8)
	}
}
