package paper

import (
	"math"
	"strconv"

	"drillstop/workflow"
)

// shortest prints a number as programs read it.
func shortest(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

// pictures draws what belongs to a step.
func (s *ticketSheet) pictures(step workflow.StepID) {
	for _, p := range s.facts.Pictures {
		if p.Step != step {
			continue
		}
		switch {
		case p.Picture.Scale != nil:
			s.scalePicture(*p.Picture.Scale)
		case p.Picture.Bands != nil:
			s.bandsPicture(*p.Picture.Bands)
		case p.Picture.Window != nil:
			s.windowPicture(*p.Picture.Window)
		}
	}
}

// axis is a line of numbers from one end of a sheet to the other.
type axis struct{ from, to, left, right float64 }

// at is where a number lies; the ends of the axis for what lies beyond them.
func (a axis) at(v float64) float64 {
	return a.left + (min(max(v, a.from), a.to)-a.from)/(a.to-a.from)*(a.right-a.left)
}

// numbered is an axis for the sheet, false where the numbers make none.
func (s *ticketSheet) numbered(from, to float64) (axis, bool) {
	const label = 0.12
	ok := to > from && !math.IsInf(to-from, 0)
	return axis{from, to, s.margin + s.inner()*label, s.width - s.margin - s.inner()*0.04}, ok
}

// mostTicks is how many marks of a scale are drawn.
const mostTicks = 80

// scalePicture is a release scale with the computed value over it, and what the
// two skis were set and corrected to below.
func (s *ticketSheet) scalePicture(p workflow.ScalePicture) {
	a, ok := s.numbered(p.Low, p.High)
	if !ok {
		return
	}
	line := s.high(s.fine)
	s.need(line * 6.4)
	s.gap(line * 0.6)
	y := s.y + line*1.9
	s.write(s.margin, y-line*0.5, s.fine, "B", p.Title)
	s.stroke(a.left, y, a.right, y, 0.3)
	for _, end := range []float64{p.Low, p.High} {
		s.stroke(a.at(end), y-1.6, a.at(end), y+1.6, 0.4)
		s.writeMiddle(a.at(end), y-1.6-line, s.fine, "", shortest(end))
	}
	if p.Step > 0 && (p.High-p.Low)/p.Step <= mostTicks {
		for k := math.Ceil(p.Low/p.Step + 1e-9); k*p.Step < p.High-1e-9; k++ {
			long := 0.8
			if v := k * p.Step; math.Abs(v-math.Round(v)) < 1e-9 {
				long = 1.4
			}
			s.stroke(a.at(k*p.Step), y-long, a.at(k*p.Step), y+long, 0.15)
		}
	}
	if p.Computed > 0 {
		x := a.at(p.Computed)
		s.triangle(x, y-0.4, -1.8, true)
		s.writeMiddle(x, y-2.2-line, s.fine, "B", "computed "+shortest(p.Computed))
	}
	below := y + 1.8
	for _, on := range scaleLines(p) {
		if on.set > 0 {
			s.triangle(a.at(on.set), y+0.4, 1.8, true)
			s.beside(a.at(on.set), below, on.corrected > on.set, on.name+" set "+shortest(on.set)+outside(on.set, p.Low, p.High))
		}
		if on.corrected > 0 {
			s.triangle(a.at(on.corrected), y+0.4, 1.8, false)
			s.beside(a.at(on.corrected), below, on.corrected <= on.set, on.name+" corrected "+shortest(on.corrected)+outside(on.corrected, p.Low, p.High))
		}
		below += line * 1.05
	}
	s.y = below + line*0.3
}

// scaleLine is what the scale of a ski is set and corrected to.
type scaleLine struct {
	name           string
	set, corrected float64
}

// scaleLines are one line for each ski, or one where both say the same.
func scaleLines(p workflow.ScalePicture) []scaleLine {
	if p.Set[0] == p.Set[1] && p.Corrected[0] == p.Corrected[1] {
		return []scaleLine{{"left and right", p.Set[0], p.Corrected[0]}}
	}
	var lines []scaleLine
	for i, side := range workflow.Sides {
		lines = append(lines, scaleLine{string(side), p.Set[i], p.Corrected[i]})
	}
	return lines
}

// beside writes what a mark on a scale is, before it or behind it.
func (s *ticketSheet) beside(x, y float64, before bool, text string) {
	const apart = 1.2
	if before {
		s.writeEnd(x-apart, y, s.fine, "", text)
		return
	}
	s.write(x+apart, y, s.fine, "", text)
}

func outside(v, low, high float64) string {
	if v < low || v > high {
		return ", off this scale"
	}
	return ""
}

// triangle points at a place on a line; a height below zero stands above it.
func (f *flow) triangle(x, y, height float64, full bool) {
	style := "D"
	if full {
		style = "F"
	}
	f.SetLineWidth(0.25)
	f.polygon(style, x, y, x-1.1, y+height, x+1.1, y+height)
}

// bandsPicture is one direction of the release test: the rows of the chart as
// bands, the skier's own as a heavy line, the readings as strokes.
func (s *ticketSheet) bandsPicture(p workflow.BandsPicture) {
	if p.At < 0 || p.At >= len(p.Rows) {
		return
	}
	const around = 0.25 // of the skier's own row, so that near readings look near
	own := p.Rows[p.At]
	low, high := min(p.Rows[0], own*(1-around)), max(p.Rows[len(p.Rows)-1], own*(1+around))
	for _, readings := range p.Readings {
		for _, r := range readings {
			low, high = min(low, r), max(high, r)
		}
	}
	a, ok := s.numbered(low-(high-low)*0.06-1, high+(high-low)*0.06+1)
	if !ok {
		return
	}
	line := s.high(s.fine)
	lane := line * 1.5
	s.need(line*3 + 2*lane)
	s.gap(line * 0.6)
	s.row(s.fine, column{0, 0.3, "B", p.Title + ", Nm"}, column{0.32, 0.68, "", "heavy: the reference; grey: one row either way, and two; strokes: readings; full: their middle"})
	top := s.y + line
	for _, band := range []struct{ rows, light int }{{2, 235}, {1, 205}} { // in use, inspection
		from, to := p.Rows[max(0, p.At-band.rows)], p.Rows[min(len(p.Rows)-1, p.At+band.rows)]
		s.grey(a.at(from), top, a.at(to)-a.at(from), 2*lane, band.light)
	}
	for i, row := range p.Rows {
		width, style := 0.15, ""
		if i == p.At {
			width, style = 0.6, "B"
		}
		s.stroke(a.at(row), top-0.5, a.at(row), top+2*lane, width)
		s.writeMiddle(a.at(row), s.y, s.fine, style, shortest(row))
	}
	for i, side := range workflow.Sides {
		y := top + float64(i)*lane + lane/2
		name := string(side)
		if p.Mark[i] != 0 {
			name += " " + string(p.Mark[i])
		}
		s.write(s.margin, y-line/2, s.fine, "", name)
		for _, r := range p.Readings[i] {
			s.stroke(a.at(r), y-lane*0.3, a.at(r), y+lane*0.3, 0.3)
		}
		if v := p.Middle[i]; v > 0 {
			x := a.at(v)
			s.polygon("F", x-1.3, y, x, y-1.3, x+1.3, y, x, y+1.3)
			s.writeEnd(a.left-1.5, y-line/2, s.fine, "B", shortest(v))
		}
	}
	s.y = top + 2*lane + line*0.5
}

// windowPicture is the forward-pressure indicator of both skis: an open mark
// where it was found, a full one where it was left.
func (s *ticketSheet) windowPicture(p workflow.WindowPicture) {
	line := s.high(s.fine)
	lane := line * 1.5
	s.need(line*3 + 2*lane)
	s.gap(line * 0.6)
	s.row(s.fine, column{0, 1, "B", p.Title})
	left, right := s.margin+s.inner()*0.2, s.margin+s.inner()*0.7
	third := (right - left) / 3
	places := map[string]float64{
		workflow.WindowLittle: left + third/2, workflow.WindowIn: left + third*1.5, workflow.WindowMuch: left + third*2.5,
	}
	top := s.y + line
	s.grey(left+third, top, third, 2*lane, 215)
	for _, name := range []string{workflow.WindowLittle, workflow.WindowIn, workflow.WindowMuch} {
		s.writeMiddle(places[name], s.y, s.fine, "", name)
	}
	s.stroke(left+third, top, left+third, top+2*lane, 0.5)
	s.stroke(left+2*third, top, left+2*third, top+2*lane, 0.5)
	for i, side := range workflow.Sides {
		y := top + float64(i)*lane + lane/2
		s.write(s.margin, y-line/2, s.fine, "", string(side))
		s.stroke(left, y, right, y, 0.15)
		said := ""
		if x, ok := places[p.Found[i]]; ok {
			s.SetLineWidth(0.25)
			s.Circle(x-1.2, y, 0.9, "D")
			said = "found " + p.Found[i]
		}
		if x, ok := places[p.Left[i]]; ok {
			s.Circle(x+1.2, y, 0.9, "F")
			if said != "" {
				said += ", "
			}
			said += "now " + p.Left[i]
		}
		s.write(right+2, y-line/2, s.fine, "", said)
	}
	s.y = top + 2*lane + line*0.5
	for i, side := range workflow.Sides {
		if p.Advice[i] != "" {
			s.row(s.fine, column{0, 1, "", string(side) + ": " + p.Advice[i]})
		}
	}
}
