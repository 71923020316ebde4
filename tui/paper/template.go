package paper

import (
	"fmt"
	"io"
	"math"
	"strings"
	"time"

	"drillstop/calc"
	"drillstop/calc/layout"
	"drillstop/calc/quantity"
)

// Sheet is a size of paper.
type Sheet string

// The sizes of paper that a drill template is made for.
const (
	A4     Sheet = "a4"
	Letter Sheet = "letter"
)

// ParseSheet reads the name of a size of paper. An unknown one is a *calc.Fault
// of code "paper".
func ParseSheet(name string) (Sheet, error) {
	for _, s := range []Sheet{A4, Letter} {
		if strings.EqualFold(name, string(s)) {
			return s, nil
		}
	}
	return "", calc.Faultf("paper", "%q is not a paper that a template is made for: a4 or letter.", name)
}

// TemplateHole is a hole on a template, in mm and in ski coordinates: x from
// the mount mark to the tip, y to the skier's right.
type TemplateHole struct {
	X, Y, Diameter, Depth float64
	N                     int    // in the screw order
	Says                  string // beside its size, such as "locks"
}

// TemplateSki is one ski on a template.
type TemplateSki struct {
	Name      string
	Holes     []TemplateHole
	Old       []TemplateHole // shown, and not to be drilled
	Heel, Toe float64        // the ends of the boot
	Midsole   float64
	Edge      func(x float64) float64 // half the width; nil = not known
}

// Template is a drill template at the scale 1:1.
type Template struct {
	Job      string // its number; "" leaves a line to write it on
	Pattern  string
	Invented bool
	Setting  string // sole, shift and what else it was laid out for
	Warning  string // what stands against it, "" if nothing
	Skis     []TemplateSki
	Sheet    Sheet
	Made     time.Time
}

// TemplateOf makes the template of a layout. The plan must be that of the spec.
func TemplateOf(spec *layout.Spec, plan layout.Plan, job string, sheet Sheet, made time.Time) Template {
	t := Template{
		Job: job, Pattern: spec.Pattern.Name, Invented: spec.Pattern.Invented, Sheet: sheet, Made: made,
		Setting: fmt.Sprintf("sole %s, midsole %s", spec.Mount.Sole, at(float64(spec.Mount.Shift))),
	}
	if spec.Mount.HeelFor != 0 {
		t.Setting += fmt.Sprintf(", heel drilled for %s", spec.Mount.HeelFor)
	}
	if n := len(plan.Clashes); n > 0 {
		t.Warning = fmt.Sprintf("CLASHES: %d. Do not drill before they are cleared.", n)
	}
	for _, side := range layout.Sides() {
		t.Skis = append(t.Skis, templateSki(spec, plan, side))
	}
	return t
}

func templateSki(spec *layout.Spec, plan layout.Plan, side layout.Side) TemplateSki {
	from := spec.Ski(side)
	ski := TemplateSki{
		Name: string(side),
		Heel: float64(spec.Mount.BootHeel() + from.Correction), Toe: float64(spec.Mount.BootToe() + from.Correction),
		Midsole: float64(spec.Mount.Shift + from.Correction),
	}
	if from.Width.Known() {
		ski.Edge = halfWidth(from.Width)
	}
	for _, h := range plan.On(side) {
		hole := TemplateHole{X: float64(h.X), Y: float64(h.Y), Diameter: float64(h.Diameter), Depth: float64(h.Depth), N: h.N}
		switch {
		case h.Fate == layout.Clashing:
			hole.Says = "CLASH"
		case h.Fate == layout.Reused && h.Locking:
			hole.Says = "re-used, locks"
		case h.Fate == layout.Reused:
			hole.Says = "re-used"
		case h.Locking:
			hole.Says = "locks"
		}
		ski.Holes = append(ski.Holes, hole)
	}
	for _, o := range from.Old {
		ski.Old = append(ski.Old, TemplateHole{X: float64(o.X), Y: float64(o.Y), Diameter: float64(o.Diameter)})
	}
	return ski
}

// halfWidth is half the width of a ski, not a number where it is not known.
func halfWidth(w layout.Width) func(float64) float64 {
	return func(x float64) float64 {
		if width, ok := w.At(quantity.Millimetre(x)); ok {
			return float64(width) / 2
		}
		return math.NaN()
	}
}

// at says where the midsole lies.
func at(shift float64) string {
	if shift == 0 {
		return "on the mark"
	}
	return layout.ShiftText(quantity.Millimetre(shift)) + " of the mark"
}

// PDF writes the template. Every ski has sheets of its own; where its span
// needs more than one, they overlap and carry joining marks. It fails if
// nothing is to be drawn, if a number is none, or if writing fails.
func (t Template) PDF(w io.Writer) error {
	if err := t.check(); err != nil {
		return err
	}
	p := t.pdf()
	for _, ski := range t.Skis {
		tiles := tile(ski.span(), p.length)
		for i := range tiles {
			p.sheet(t, ski, tiles, i)
		}
	}
	return p.Output(w)
}

// check refuses what cannot be drawn to scale.
func (t Template) check() error {
	if len(t.Skis) == 0 {
		return calc.Faultf("template", "There is no ski to draw a template for.")
	}
	if t.Sheet != A4 && t.Sheet != Letter {
		return calc.Faultf("paper", "%q is not a paper that a template is made for: a4 or letter.", string(t.Sheet))
	}
	for _, ski := range t.Skis {
		if len(ski.Holes) == 0 {
			return calc.Faultf("template", "The %s ski has no hole to draw.", ski.Name)
		}
		for _, h := range ski.Holes {
			if !(math.Abs(h.X) <= longest && math.Abs(h.Y) <= halfBand && h.Diameter > 0 && h.Diameter < halfBand && h.Depth >= 0) {
				return calc.Faultf("template", "Hole %d of the %s ski does not fit on a template: it lies at %g, %g mm and is %g mm wide.", h.N, ski.Name, h.X, h.Y, h.Diameter)
			}
		}
	}
	return nil
}

// stretch is a part of a ski's length, in mm from the mount mark.
type stretch struct{ from, to float64 }

// span is what a template must show: all holes and the mount mark.
func (s TemplateSki) span() stretch {
	const around = 14
	all := stretch{min(0, s.Midsole), max(0, s.Midsole)}
	for _, h := range s.Holes {
		all = stretch{min(all.from, h.X), max(all.to, h.X)}
	}
	return stretch{all.from - around, all.to + around}
}

// overlap is how much of the ski two neighbouring sheets both show, in mm.
const overlap = 36

// tile cuts a span into stretches of one length that overlap, in the middle of
// what they can show.
func tile(span stretch, length float64) []stretch {
	n := 1
	for length*float64(n)-overlap*float64(n-1) < span.to-span.from {
		n++
	}
	spare := length*float64(n) - overlap*float64(n-1) - (span.to - span.from)
	tiles := make([]stretch, n)
	for i := range tiles {
		from := span.from - spare/2 + float64(i)*(length-overlap)
		tiles[i] = stretch{from, from + length}
	}
	return tiles
}
