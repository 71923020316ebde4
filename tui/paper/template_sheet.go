package paper

import (
	"fmt"
	"strings"

	"codeberg.org/go-pdf/fpdf"
)

// Where things stand on a sheet, in mm. A sheet lies across: the ski's length
// runs from left to right, the tip at the right, the skier's right at the
// bottom.
const (
	besidePaper = 10.0 // to every edge: what printers leave white
	bandFrom    = 20.0 // the ski begins here, behind the upright bar
	bandMiddle  = 92.0 // the centre line of the ski
	halfBand    = 62.0 // of the ski, on either side of the centre line
	barLength   = 100.0
	uprightAt   = 13.0
	uprightFrom = bandMiddle - barLength/2
	flatFrom    = bandFrom + 4
	flatAt      = 184.0
	longest     = 1500.0 // of a place on a ski
)

// Lines and letters.
const (
	fine, plain          = 0.1, 0.2 // mm
	arm                  = 4.0      // of a hole's cross, mm
	joinArm              = 6.0
	joinBeside           = 56.0           // the joining marks from the centre line, mm
	small, normal, large = 6.5, 8.0, 10.0 // points
)

// templatePDF is the paper of a template.
type templatePDF struct {
	*fpdf.Fpdf
	latin  func(string) string // for the fonts that every reader has
	length float64             // of ski on one sheet, mm
}

func (t Template) pdf() *templatePDF {
	name := "A4"
	if t.Sheet == Letter {
		name = "Letter"
	}
	f := fpdf.New("L", "mm", name, "")
	f.SetCreationDate(t.Made)
	f.SetModificationDate(t.Made)
	f.SetCatalogSort(true)
	f.SetTitle("Drill template "+t.Job, true)
	f.SetMargins(besidePaper, besidePaper, besidePaper)
	f.SetAutoPageBreak(false, 0)
	width, _ := f.GetPageSize()
	return &templatePDF{Fpdf: f, latin: f.UnicodeTranslatorFromDescriptor(""), length: width - bandFrom - besidePaper - 2}
}

// tileOf is the sheet that is being drawn.
type tileOf struct {
	*templatePDF
	shows stretch
}

func (p tileOf) x(x float64) float64 { return bandFrom + x - p.shows.from }
func (p tileOf) y(y float64) float64 { return bandMiddle + y }

// has says whether a place lies on the sheet, not at its very edge.
func (p tileOf) has(x float64) bool { return x >= p.shows.from && x <= p.shows.to }

// sheet draws one sheet of a ski.
func (p *templatePDF) sheet(t Template, ski TemplateSki, tiles []stretch, i int) {
	p.AddPage()
	s := tileOf{p, tiles[i]}
	s.head(t, ski, i+1, len(tiles))
	s.frame(ski)
	for _, o := range ski.Old {
		if s.has(o.X) {
			s.old(o)
		}
	}
	for _, h := range ski.Holes {
		if s.has(h.X) {
			s.hole(h)
		}
	}
	if i > 0 {
		s.join(tiles[i].from+overlap/2, i)
	}
	if i < len(tiles)-1 {
		s.join(tiles[i].to-overlap/2, i+1)
	}
	s.bars()
	s.foot()
}

func (p tileOf) write(x, y, points float64, style, text string) {
	p.SetFont("Helvetica", style, points)
	p.Text(x, y, p.latin(text))
}

// line draws a line in a width, with dashes if there are any.
func (p tileOf) line(x1, y1, x2, y2, width float64, dashes ...float64) {
	p.SetLineWidth(width)
	p.SetDashPattern(dashes, 0)
	p.Line(x1, y1, x2, y2)
	p.SetDashPattern(nil, 0)
}

func (p tileOf) head(t Template, ski TemplateSki, n, of int) {
	job := t.Job
	if job == "" {
		job = "________"
	}
	p.write(bandFrom, 15, large, "B", fmt.Sprintf("DRILL TEMPLATE 1:1   job %s   %s ski   sheet %d of %d", job, strings.ToUpper(ski.Name), n, of))
	p.write(bandFrom, 20, normal, "", t.Pattern+"   "+t.Setting+"   made "+t.Made.Format("2006-01-02 15:04"))
	warning := t.Warning
	if t.Invented {
		warning = strings.TrimSpace("INVENTED PATTERN: never drill a real ski by this sheet. " + warning)
	}
	if warning != "" {
		p.write(bandFrom, 25, large, "B", warning)
	}
}

// frame draws the centre line, the mount line, the midsole, the boot and the
// edges.
func (p tileOf) frame(ski TemplateSki) {
	p.line(p.x(p.shows.from), p.y(0), p.x(p.shows.to), p.y(0), fine, 8, 1.5, 1, 1.5)
	p.write(p.x(p.shows.from)+1, p.y(0)-1, small, "", "tail")
	p.write(p.x(p.shows.to)-5, p.y(0)-1, small, "", "tip")
	mark := "mount mark"
	if ski.Midsole == 0 {
		mark = "mount mark and boot midsole"
	} else {
		p.across(ski.Midsole, fine, 1, 1)
		p.name(ski.Midsole, halfBand+3, "boot midsole")
	}
	p.across(0, plain, 5, 1.5)
	p.name(0, -halfBand-1, mark)
	p.end(ski.Heel, "boot heel")
	p.end(ski.Toe, "boot toe")
	p.edges(ski)
}

// end marks an end of the boot.
func (p tileOf) end(x float64, name string) {
	if p.has(x) {
		p.line(p.x(x), p.y(-6), p.x(x), p.y(6), fine, 1, 1)
		p.write(p.x(x)+1, p.y(-6)+2, small, "", name)
	}
}

// across draws a line across the ski.
func (p tileOf) across(x, width float64, dashes ...float64) {
	if p.has(x) {
		p.line(p.x(x), p.y(-halfBand), p.x(x), p.y(halfBand), width, dashes...)
	}
}

// name writes what a line across the ski is, beyond its end, within the sheet.
func (p tileOf) name(x, y float64, text string) {
	if !p.has(x) {
		return
	}
	p.SetFont("Helvetica", "", small)
	at := min(p.x(x)+1, p.x(p.shows.to)-p.GetStringWidth(p.latin(text)))
	p.write(at, p.y(y), small, "", text)
}

func (p tileOf) edges(ski TemplateSki) {
	if ski.Edge == nil {
		return
	}
	const step = 5
	for x := p.shows.from; x+step <= p.shows.to; x += step {
		a, b := ski.Edge(x), ski.Edge(x+step)
		if !(max(a, b) <= halfBand) { // beyond the sheet, or not known
			continue
		}
		for _, side := range []float64{-1, 1} {
			p.line(p.x(x), p.y(side*a), p.x(x+step), p.y(side*b), fine, 2, 2)
		}
	}
}

// hole draws what is to be drilled: a circle, a cross through its centre, its
// number and size.
func (p tileOf) hole(h TemplateHole) {
	x, y := p.x(h.X), p.y(h.Y)
	p.line(x-arm, y, x+arm, y, fine)
	p.line(x, y-arm, x, y+arm, fine)
	p.SetLineWidth(plain)
	p.Circle(x, y, h.Diameter/2, "D")
	p.write(x+arm+0.8, y-0.6, large, "B", fmt.Sprint(h.N))
	p.write(x+arm+0.8, y+2.4, small, "", fmt.Sprintf("%.1f x %.1f mm", h.Diameter, h.Depth))
	if h.Says != "" {
		p.write(x+arm+0.8, y+5.2, small, "B", h.Says)
	}
}

// old draws a hole that is there already: a broken circle without a cross.
func (p tileOf) old(o TemplateHole) {
	p.SetLineWidth(plain)
	p.SetDashPattern([]float64{0.7, 0.7}, 0)
	p.Circle(p.x(o.X), p.y(o.Y), o.Diameter/2, "D")
	p.SetDashPattern(nil, 0)
	p.write(p.x(o.X)-1.6, p.y(o.Y)-o.Diameter/2-0.8, small, "", "old")
}

// join draws the marks that two neighbouring sheets share.
func (p tileOf) join(x float64, n int) {
	name := "join " + string(rune('A'+(n-1)%26))
	for _, y := range []float64{-joinBeside, joinBeside} {
		p.line(p.x(x)-joinArm, p.y(y), p.x(x)+joinArm, p.y(y), plain)
		p.line(p.x(x), p.y(y)-joinArm, p.x(x), p.y(y)+joinArm, plain)
		p.SetLineWidth(plain)
		p.Rect(p.x(x)-1.5, p.y(y)-1.5, 3, 3, "D")
		p.SetFont("Helvetica", "B", normal)
		p.write(p.x(x)-joinArm-1-p.GetStringWidth(name), p.y(y)+1, normal, "B", name)
	}
}

// bars draws the two scale bars.
func (p tileOf) bars() {
	const tick, half = 2.5, 1.2
	p.line(flatFrom, flatAt, flatFrom+barLength, flatAt, plain)
	p.line(uprightAt, uprightFrom, uprightAt, uprightFrom+barLength, plain)
	for i := range 11 {
		at, size := float64(i)*barLength/10, half
		if i%10 == 0 {
			size = tick
		}
		p.line(flatFrom+at, flatAt-size, flatFrom+at, flatAt+size, fine)
		p.line(uprightAt-size, uprightFrom+at, uprightAt+size, uprightFrom+at, fine)
	}
	p.write(flatFrom+barLength/2-10, flatAt-2, normal, "B", "must be 100 mm")
	p.TransformBegin()
	p.TransformRotate(90, uprightAt+4, bandMiddle+10)
	p.write(uprightAt+4, bandMiddle+10, normal, "B", "must be 100 mm")
	p.TransformEnd()
}

// foot says how the sheet may be used.
func (p tileOf) foot() {
	x := flatFrom + barLength + 10
	for i, line := range []string{
		"A jig comes first: use this sheet only where there is no jig for this binding.",
		"Print at 100 %, without fitting to the page. Measure both bars before drilling: 100 mm each, within 0.2 mm.",
		"If a bar is wrong, or the sheets do not meet at their joining marks, do not drill by them.",
		"Centre line on the centre of the ski, mount mark on its mark. Drill with a stop; numbers are the screw order.",
	} {
		p.write(x, flatAt-5+3.6*float64(i), small, "", line)
	}
}
