package tui

import (
	"fmt"
	"strings"
	"time"

	"drillstop/tui/draw"
	"drillstop/workflow"
)

func (b *bench) rows() int { return (b.height - 2) / benchRow }

func (b *bench) View() string {
	t := b.s.Theme
	lines := []string{" " + ends(b.count(), b.person(), b.width-2)}
	if b.filter.Focused() {
		lines = append(lines, " "+b.filter.View())
	} else if b.filter.Value() != "" {
		lines = append(lines, " "+t.Strong.Render("find: "+b.filter.Value())+t.Faint.Render("   esc forgets it"))
	} else {
		lines = append(lines, "")
	}
	switch {
	case !b.loaded:
		return strings.Join(lines, "\n")
	case len(b.jobs) == 0:
		return strings.Join(append(lines, b.empty()...), "\n")
	}
	rows := max(b.rows(), 1)
	from := min(max(b.at-rows+1, 0), b.at)
	if hidden := len(b.jobs) - rows; hidden > 0 && lines[1] == "" {
		above := min(from, hidden)
		lines[1] = "   " + t.Faint.Render(fmt.Sprintf("%d more above, %d more below", above, hidden-above))
	}
	for i := from; i < min(from+rows, len(b.jobs)); i++ {
		lines = append(lines, b.job(b.jobs[i], i == b.at)...)
	}
	return strings.Join(lines, "\n")
}

func (b *bench) person() string {
	p := b.s.Desk.Person()
	if p.Supervisor {
		return p.Name + " supervisor"
	}
	return p.Name + " technician"
}

func (b *bench) count() string {
	if !b.loaded {
		return "reading the shop file"
	}
	if b.finished {
		return fmt.Sprintf("%d finished or void", len(b.jobs))
	}
	if b.filter.Value() != "" {
		return b.countFound()
	}
	held := 0
	for _, j := range b.jobs {
		if j.Stops > 0 {
			held++
		}
	}
	text := fmt.Sprintf("%d on the bench", len(b.jobs))
	if held > 0 {
		text += fmt.Sprintf(", %d held by a stop", held)
	}
	return text
}

// countFound says how many jobs the words find, and where.
func (b *bench) countFound() string {
	gone := 0
	for _, j := range b.jobs {
		gone += ended(j)
	}
	return fmt.Sprintf("%d found on the bench, %d finished or void", len(b.jobs)-gone, gone)
}

// empty tells a newcomer what to press.
func (b *bench) empty() []string {
	switch {
	case b.filter.Value() != "":
		return marked("·", "No job has words that begin so, in hand or finished. esc forgets them.", b.width)
	case b.finished:
		return marked("·", "No job is finished yet. v goes back to the jobs in hand.", b.width)
	}
	t := b.s.Theme
	lines := []string{
		"   " + t.Strong.Render("The bench is empty."), "",
		"   " + t.Hand.Render("n") + "  begins a job: a pair of skis, from intake to hand-over.",
		"   " + t.Hand.Render("f1") + " shows all keys and marks.", "",
	}
	for _, line := range wrap("Every answer is kept as soon as the screen says so; esc and ctrl+c lose nothing. "+
		"To look around first, end with ctrl+c and start: drillstop demo", b.width-6) {
		lines = append(lines, "   "+line)
	}
	lines = append(lines, "")
	for _, line := range wrap("! drillstop computes and reminds. The binding maker's current instructions, local rules "+
		"and a certified technician come first.", b.width-6) {
		lines = append(lines, "   "+t.Faint.Render(line))
	}
	return lines
}

// job draws one job in benchRow lines.
func (b *bench) job(j workflow.Summary, chosen bool) []string {
	t := b.s.Theme
	cursor, name := "  ", t.Plain
	if chosen {
		cursor, name = t.Hand.Render("> "), t.Strong
	}
	where := draw.Ski{Phases: j.Phases, Here: here(j), Width: b.width - 10, Ink: b.s.ink()}.String()
	line, style := b.s.mark(workflow.MarkHere)+" "+j.Here, t.Hand
	if j.Worst != "" {
		line, style = b.s.mark(j.Mark)+" "+j.Worst, t.Mark(j.Mark)
	}
	due := dueText(j.Due, b.s.Now())
	if j.State != workflow.Open {
		line, style, due = string(j.State)+" "+j.Touched.Local().Format("Mon 2 Jan 2006"), t.Faint, ""
	}
	if due != "" {
		due = "  " + due
	}
	return []string{
		cursor + name.Render(b.title(j)),
		"         " + where,
		"         " + style.Render(pad(line, b.width-10-widthOf(due))) + due,
		"",
	}
}

func (b *bench) title(j workflow.Summary) string {
	skier := j.Skier
	if skier == "" {
		skier = "(no skier yet)"
	}
	room := b.width - 4
	if b.width < 60 {
		return ends(j.Ticket.String()+" "+skier, string(j.Kind), room)
	}
	column := (room - 24) / 3
	return ends(fmt.Sprintf("%-7s %s %s %s", j.Ticket, pad(skier, column), pad(j.Ski, column), pad(j.Binding, column)), string(j.Kind), room)
}

// here is the phase in which the job stands: the first that is not done.
func here(j workflow.Summary) workflow.Phase {
	if j.State != workflow.Open {
		return ""
	}
	for _, p := range j.Phases {
		if p.Done < p.Of {
			return p.Phase
		}
	}
	return ""
}

// dueText says how near a day is.
func dueText(day string, now time.Time) string {
	due, err := time.ParseInLocation(time.DateOnly, day, now.Location())
	if err != nil {
		return ""
	}
	today := time.Date(now.Year(), now.Month(), now.Day(), 0, 0, 0, 0, now.Location())
	switch days := int(due.Sub(today).Round(24*time.Hour).Hours() / 24); {
	case days < 0:
		return "overdue"
	case days == 0:
		return "due today"
	default:
		return "due " + due.Format("Mon 2 Jan")
	}
}

func (s *Session) ink() draw.Ink {
	render := func(style interface{ Render(...string) string }) func(string) string {
		return func(text string) string { return style.Render(text) }
	}
	return draw.Ink{
		Done: render(s.Theme.Plain), Here: render(s.Theme.Hand),
		Ahead: render(s.Theme.Faint), Stop: render(s.Theme.Stop),
	}
}
