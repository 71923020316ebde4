package paper

import (
	"fmt"
	"math"
)

// layoutPicture draws both skis from above with their holes, as long as the
// sheet is wide, and lists where each hole lies.
func (s *ticketSheet) layoutPicture(l Layout) {
	view := l.frame()
	scale := s.inner() / (view.to - view.from)
	height := 2 * view.half * scale
	s.need(float64(len(l.Skis))*(height+s.high(s.fine)*1.4) + s.high(s.body)*4)
	s.gap(s.high(s.body) * 0.6)
	title := "Holes, seen from above"
	if l.Pattern != "" {
		title += "   pattern " + l.Pattern
	}
	s.row(s.body, column{0, 1, "B", title})
	for _, ski := range l.Skis {
		s.write(s.margin, s.y, s.fine, "", string(ski.Side)+" ski, tail to the left, tip to the right")
		s.y += s.high(s.fine) * 1.2
		skiPicture{s.flow, view, scale, s.y + height/2}.draw(ski)
		s.y += height + s.high(s.fine)*0.4
	}
	s.scaleBar(scale)
	s.holeList(l)
}

// layoutFrame is what of the skis is drawn, in mm from the mount mark, and how
// much of them on either side of the centre line.
type layoutFrame struct{ from, to, half float64 }

func (l Layout) frame() layoutFrame {
	const around = 18
	v := layoutFrame{-20, 20, 25}
	for _, ski := range l.Skis {
		for _, holes := range [][]LayoutHole{ski.Holes, ski.Old} {
			for _, h := range holes {
				v.from, v.to = min(v.from, h.X-around), max(v.to, h.X+around)
				v.half = max(v.half, math.Abs(h.Y)+12)
			}
		}
		v.half = max(v.half, ski.Waist/2+3)
	}
	return v
}

// skiPicture draws one ski around a centre line.
type skiPicture struct {
	*flow
	layoutFrame
	scale, middle float64
}

func (p skiPicture) at(x, y float64) (float64, float64) {
	return p.margin + (x-p.from)*p.scale, p.middle + y*p.scale
}

func (p skiPicture) draw(ski LayoutSki) {
	x0, x1 := p.margin, p.margin+p.inner()
	p.stroke(x0, p.middle, x1, p.middle, 0.1, 4, 1, 0.6, 1)
	if ski.Waist > 0 {
		for _, side := range []float64{-1, 1} {
			_, y := p.at(0, side*ski.Waist/2)
			p.stroke(x0, y, x1, y, 0.25)
		}
	}
	x, top := p.at(0, -p.half+1)
	_, bottom := p.at(0, p.half-1)
	p.stroke(x, top, x, bottom, 0.2, 2, 1)
	p.write(x+0.6, top+1.2, p.fine, "", "mount mark")
	if ski.Midsole != nil && *ski.Midsole != 0 {
		mid, _ := p.at(*ski.Midsole, 0)
		p.stroke(mid, top, mid, bottom, 0.1, 0.6, 0.6)
		p.write(mid+0.6, bottom-p.high(p.fine)-1.2, p.fine, "", "midsole")
	}
	for _, h := range ski.Old {
		x, y := p.at(h.X, h.Y)
		p.SetLineWidth(0.15)
		p.SetDashPattern([]float64{0.5, 0.5}, 0)
		p.Circle(x, y, h.Diameter/2*p.scale, "D")
		p.SetDashPattern(nil, 0)
		p.write(x-1, y-h.Diameter/2*p.scale-p.high(p.fine), p.fine, "", "old")
	}
	for _, h := range ski.Holes {
		x, y := p.at(h.X, h.Y)
		p.SetLineWidth(0.25)
		p.Circle(x, y, h.Diameter/2*p.scale, "D")
		p.write(x+h.Diameter/2*p.scale+0.4, y-p.high(p.fine)/2, p.fine, "B", fmt.Sprint(h.N))
	}
}

// barLong is the length that the scale bar of a layout stands for, in mm.
const barLong = 50

func (s *ticketSheet) scaleBar(scale float64) {
	y := s.y + 1.5
	s.stroke(s.margin, y, s.margin+barLong*scale, y, 0.3)
	for _, x := range []float64{0, barLong * scale} {
		s.stroke(s.margin+x, y-1, s.margin+x, y+1, 0.3)
	}
	s.write(s.margin+barLong*scale+1.5, y-s.high(s.fine)/2, s.fine, "", fmt.Sprintf("%d mm on the ski; never drill by this picture", barLong))
	s.y += s.high(s.fine)*1.3 + 1
}

// holeList says where each hole lies.
func (s *ticketSheet) holeList(l Layout) {
	rows := 0
	for _, ski := range l.Skis {
		rows = max(rows, len(ski.Holes))
	}
	s.row(s.fine, column{0, 0.1, "B", "hole"}, column{0.1, 0.44, "B", "left ski: x, y, diameter x depth, mm"}, column{0.56, 0.44, "B", "right ski: x, y, diameter x depth, mm"})
	for i := range rows {
		columns := []column{{0.1, 0.44, "", ""}, {0.56, 0.44, "", ""}}
		n := ""
		for j, ski := range l.Skis {
			if i < len(ski.Holes) && j < len(columns) {
				h := ski.Holes[i]
				n = fmt.Sprint(h.N)
				columns[j].text = h.place()
			}
		}
		s.row(s.fine, append([]column{{0, 0.1, "", n}}, columns...)...)
	}
}

func (h LayoutHole) place() string {
	said := shortest(h.X) + ", " + shortest(h.Y) + ", " + shortest(h.Diameter)
	if h.Depth > 0 {
		said += " x " + shortest(h.Depth)
	}
	return said
}
