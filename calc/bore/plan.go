// Package bore says which bit to take, how deep to drill, how much of the
// screw bites and how much ski is left under the hole. Lengths are in
// millimetres.
package bore

import (
	"fmt"
	"math"
	"slices"
	"strconv"

	"drillstop/calc"
	"drillstop/calc/quantity"
)

// The hole where nothing is marked, in mm.
// Source: 3.5 or 3.6 without metal, 4.1 with metal or carbon, depth 9:
// common practice, no formal source; depth 7 for juniors: from memory.
const (
	softDiameter    quantity.Millimetre = 3.5
	softDiameterToo quantity.Millimetre = 3.6
	hardDiameter    quantity.Millimetre = 4.1
	adultDepth      quantity.Millimetre = 9
	juniorDepth     quantity.Millimetre = 7
)

// The depths, in mm, that markings usually have. A junior's begins at
// juniorDepth.
// Source: common practice, no formal source.
const (
	usualDepthMin quantity.Millimetre = 7.5
	usualDepthMax quantity.Millimetre = 9.5
)

// tapFrom is the marked diameter, in mm, from which a thread is cut first
// whatever the construction: holes of 4.1 mm are for tapping.
// Source: common practice, no formal source.
const tapFrom quantity.Millimetre = 4

const (
	practice = "common practice, no formal source"
	ourRule  = "our rule"
)

// Plan is what the hands do: the bit, the stop, whether to cut a thread.
type Plan struct {
	Hole
	Tap         bool   // cut a thread before the screw
	FromMarking bool   // the hole is the one marked on the topsheet
	Why         string // one sentence: by marking or by construction
	Source      string // of the hole
	Toe, Heel   Place
	Findings    []calc.Finding
}

// Place is what the hole means under one piece of the binding, in mm.
type Place struct {
	Screw     quantity.Millimetre // length below the base plate, as given
	Bite      quantity.Millimetre // of it in the hole: the smaller of Screw and hole depth
	Thickness quantity.Millimetre // of the ski, 0 if not measured
	Under     quantity.Millimetre // ski left under the hole; below 0 it is through; 0 if not measured
	Measured  bool                // the thickness is known, so Under means something
}

// LeastUnder returns the smaller of what is left under the holes at toe and
// heel, in mm, and false if neither thickness was measured.
func (p Plan) LeastUnder() (quantity.Millimetre, bool) {
	switch {
	case p.Toe.Measured && p.Heel.Measured:
		return min(p.Toe.Under, p.Heel.Under), true
	case p.Toe.Measured:
		return p.Toe.Under, true
	}
	return p.Heel.Under, p.Heel.Measured
}

// For makes the plan of a ski and its screws. The hole marked on the topsheet
// wins; without one the construction decides.
//
// A number that cannot be (diameter outside 2 to 8, depth 3 to 15, thickness 4
// to 60, screws 3 to 15 mm) and a ski with neither marking nor known
// construction are a *calc.Fault. What can be but must not be drilled is among
// the plan's findings.
//
// Source: common practice, no formal source; see the constants.
func For(ski Ski, screws Screws) (Plan, error) {
	if err := ski.check(); err != nil {
		return Plan{}, err
	}
	if err := screws.check(); err != nil {
		return Plan{}, err
	}
	p := byConstruction(ski.Construction)
	if ski.Marked != nil {
		p = byMarking(*ski.Marked, ski.Construction)
	}
	p.Toe = placeFor(p.Hole, ski.ThicknessToe, screws.BiteToe)
	p.Heel = placeFor(p.Hole, ski.ThicknessHeel, screws.BiteHeel)
	p.Findings = slices.Concat(markingFindings(p, ski.Construction), p.Toe.findings("toe", p.Depth), p.Heel.findings("heel", p.Depth))
	return p, nil
}

func byConstruction(c Construction) Plan {
	p := Plan{Hole: Hole{softDiameter, adultDepth}, Source: practice}
	also := fmt.Sprintf(" (%s does as well)", softDiameterToo)
	switch c {
	case Metal, Carbon:
		p.Diameter, p.Tap, also = hardDiameter, true, ""
	case Junior:
		p.Depth, p.Source = juniorDepth, practice+"; depth for juniors: from memory"
	case NoMetal:
	}
	p.Why = fmt.Sprintf("Nothing is marked on the topsheet, so the construction decides, %s: bit %s%s, stop %s%s.", c, p.Diameter, also, p.Depth, tapWords(p.Tap))
	return p
}

func byMarking(marked Hole, c Construction) Plan {
	p := Plan{Hole: marked, FromMarking: true, Source: practice}
	p.Tap = c == Metal || c == Carbon || marked.Diameter >= tapFrom
	p.Why = fmt.Sprintf("Marked on the topsheet %s, and the marking wins%s.", marked.Marking(), tapWords(p.Tap))
	return p
}

func tapWords(tap bool) string {
	if tap {
		return ", then tap"
	}
	return ""
}

// Marking writes the hole as it stands on a topsheet: "3.5 x 9.0 mm".
func (h Hole) Marking() string {
	return decimal(h.Diameter) + " x " + decimal(h.Depth) + " mm"
}

// decimal prints a length with one decimal, or with all that it has.
func decimal(length quantity.Millimetre) string {
	if v := float64(length); v != math.Trunc(v) {
		return strconv.FormatFloat(v, 'f', -1, 64)
	}
	return fmt.Sprintf("%.1f", float64(length))
}

func placeFor(h Hole, thickness, screw quantity.Millimetre) Place {
	p := Place{Screw: screw, Bite: min(screw, h.Depth), Thickness: thickness, Measured: thickness != 0}
	if p.Measured {
		p.Under = less(thickness, h.Depth)
	}
	return p
}

// slack keeps a length that stands exactly on a limit from falling beyond it
// by the last bit of a subtraction.
const slack = 1e-9

// less returns a - b to the millionth of a millimetre, so that 14.2 less 9
// prints as 5.2 and not as 5.199999999999999.
func less(a, b quantity.Millimetre) quantity.Millimetre {
	const perMm = 1e6
	return quantity.Millimetre(math.Round(float64(a-b)*perMm) / perMm)
}

// within says whether a length is a number from low to high.
func within(value, low, high quantity.Millimetre) bool {
	return value >= low-slack && value <= high+slack
}
