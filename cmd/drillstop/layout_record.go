package main

import (
	"math"

	"drillstop/calc"
	"drillstop/calc/layout"
	"drillstop/calc/quantity"
	"drillstop/workflow"
	"drillstop/workflow/steps"
)

// layoutRecord is what layout prints as JSON, lengths in mm; the names are a
// contract.
type layoutRecord struct {
	Pattern  patternName        `json:"pattern"`
	Sole     float64            `json:"sole"`
	HeelFor  float64            `json:"heel_for"` // the sole that the heel is drilled for
	Shift    float64            `json:"shift"`
	Apart    float64            `json:"apart"` // the least distance that was held
	Holes    []holeRecord       `json:"holes"`
	OldHoles []oldHoleRecord    `json:"old_holes"`
	Clashes  []clashRecord      `json:"clashes"`
	Window   [2]float64         `json:"window"`
	Clear    [][2]float64       `json:"clear_shifts"`
	Nearest  *float64           `json:"nearest_clear_shift"` // null if nothing clears
	Blockers []blockRecord      `json:"blockers"`            // what leaves no shift, if nothing clears
	Toe      travelRecord       `json:"toe_travel"`
	Heel     travelRecord       `json:"heel_travel"`
	Takes    [2]float64         `json:"takes_soles"`
	Shared   *sharedRecord      `json:"two_boots,omitempty"`
	Marks    *marksRecord       `json:"marks,omitempty"`
	Points   []mountPointRecord `json:"mount_points,omitempty"`
	Findings []workflow.Finding `json:"findings"`
}

type patternName struct {
	Name     string `json:"name"`
	Invented bool   `json:"invented"`
	Mirrored bool   `json:"mirrored"`
}

type holeRecord struct {
	Ski      layout.Side      `json:"ski"`
	Piece    layout.PieceKind `json:"piece"`
	N        int              `json:"n"` // in the screw order
	X        float64          `json:"x"`
	Y        float64          `json:"y"`
	Diameter float64          `json:"diameter"`
	Depth    float64          `json:"depth"`
	Bite     float64          `json:"bite"`
	Locking  bool             `json:"locking"`
	Fate     layout.Fate      `json:"fate"`
	Reuses   int              `json:"reuses,omitempty"` // number of the old hole
}

type oldHoleRecord struct {
	Ski      layout.Side `json:"ski"`
	N        int         `json:"n"`
	X        float64     `json:"x"`
	Y        float64     `json:"y"`
	Diameter float64     `json:"diameter"`
	Plugged  bool        `json:"plugged"`
}

type clashRecord struct {
	Kind     layout.ClashKind `json:"kind"`
	Ski      layout.Side      `json:"ski,omitempty"`
	Piece    layout.PieceKind `json:"piece,omitempty"`
	Hole     int              `json:"hole,omitempty"`
	Other    int              `json:"other,omitempty"` // the old hole, or the other new one
	Distance float64          `json:"distance"`
	Needs    float64          `json:"needs"`
	Text     string           `json:"text"`
}

type blockRecord struct {
	From  float64          `json:"from"`
	To    float64          `json:"to"`
	Kind  layout.ClashKind `json:"kind"`
	Ski   layout.Side      `json:"ski,omitempty"`
	Hole  int              `json:"hole,omitempty"`
	Other int              `json:"other,omitempty"`
	Text  string           `json:"text"`
}

type travelRecord struct {
	Fore float64 `json:"fore"`
	Back float64 `json:"back"`
}

type sharedRecord struct {
	HeelFor   [2]float64 `json:"heel_for"`
	Best      float64    `json:"best"`
	SecondOff float64    `json:"second_off"`
	Share     float64    `json:"share_shift"`
}

type marksRecord struct {
	Difference   float64 `json:"difference"`
	LeftOff      float64 `json:"left_off"`
	RightOff     float64 `json:"right_off"`
	CorrectLeft  float64 `json:"correct_left"`
	CorrectRight float64 `json:"correct_right"`
}

type mountPointRecord struct {
	Ski        layout.Side `json:"ski"`
	FromTail   float64     `json:"from_tail"`
	FromCentre float64     `json:"from_centre"` // in front of the middle of the chord
}

// micron is how finely lengths are printed: six decimals of a millimetre.
const micron = 1e6

// tidy drops the last bits of a sum, so that it prints as it was meant.
func tidy(v quantity.Millimetre) float64 { return math.Round(float64(v)*micron)/micron + 0 }

// inward rounds an interval without letting it grow: what is printed as clear
// can be typed again and clears.
func inward(i layout.Interval) [2]float64 {
	const hair = 1e-3 // of the last decimal
	from := math.Ceil(float64(i.From)*micron-hair) / micron
	to := math.Floor(float64(i.To)*micron+hair) / micron
	if from > to {
		return [2]float64{float64(i.From), float64(i.To)}
	}
	return [2]float64{from + 0, to + 0}
}

func layoutRecordOf(l laid) layoutRecord {
	spec := &l.spec
	r := layoutRecord{
		Pattern: patternName{spec.Pattern.Name, spec.Pattern.Invented, spec.Pattern.Mirrored},
		Sole:    tidy(spec.Mount.Sole), HeelFor: tidy(spec.Mount.Sole), Shift: tidy(spec.Mount.Shift), Apart: tidy(spec.Rules.Apart),
		Holes: []holeRecord{}, OldHoles: []oldHoleRecord{}, Clashes: []clashRecord{}, Clear: [][2]float64{}, Blockers: []blockRecord{},
		Window: inward(l.shifts.Window), Takes: inward(l.plan.Boots),
		Toe: travelRecord{tidy(l.plan.Toe.Fore), tidy(l.plan.Toe.Back)}, Heel: travelRecord{tidy(l.plan.Heel.Fore), tidy(l.plan.Heel.Back)},
		Findings: findingsAt(steps.MountPoint, l.findings()),
	}
	if spec.Mount.HeelFor != 0 {
		r.HeelFor = tidy(spec.Mount.HeelFor)
	}
	r.addHoles(l)
	r.addShifts(l)
	if s := l.shared; s != nil {
		r.Shared = &sharedRecord{inward(s.HeelFor), tidy(s.Best), tidy(s.SecondOff), tidy(s.Share)}
	}
	if m := l.pair; m != nil {
		r.Marks = &marksRecord{tidy(m.Difference), tidy(m.LeftOff), tidy(m.RightOff), tidy(m.Left), tidy(m.Right)}
	}
	for i, p := range l.points {
		r.Points = append(r.Points, mountPointRecord{layout.Sides()[i], tidy(p.FromTail), tidy(p.FromCentre)})
	}
	return r
}

func (r *layoutRecord) addHoles(l laid) {
	for _, h := range l.plan.Holes {
		r.Holes = append(r.Holes, holeRecord{
			Ski: h.Side, Piece: h.Piece, N: h.N, X: tidy(h.X), Y: tidy(h.Y), Diameter: tidy(h.Diameter),
			Depth: tidy(h.Depth), Bite: tidy(h.Bite), Locking: h.Locking, Fate: h.Fate, Reuses: h.Reuses,
		})
	}
	for _, side := range layout.Sides() {
		for i, o := range l.spec.Ski(side).Old {
			r.OldHoles = append(r.OldHoles, oldHoleRecord{side, i + 1, tidy(o.X), tidy(o.Y), tidy(o.Diameter), o.Plugged})
		}
	}
	for _, c := range l.plan.Clashes {
		r.Clashes = append(r.Clashes, clashRecord{
			Kind: c.Kind, Ski: c.Side, Piece: c.Piece, Hole: c.Hole, Other: c.Other,
			Distance: tidy(c.Distance), Needs: tidy(c.Needs), Text: c.Finding().Text,
		})
	}
}

func (r *layoutRecord) addShifts(l laid) {
	for _, free := range l.shifts.Clear {
		r.Clear = append(r.Clear, inward(free))
	}
	if nearest, ok := l.shifts.Nearest(l.spec.Mount.Shift); ok {
		v := float64(nearest)
		r.Nearest = &v
	}
	for _, b := range l.shifts.Blockers {
		window := l.shifts.Window
		r.Blockers = append(r.Blockers, blockRecord{
			From: tidy(max(b.From, window.From)), To: tidy(min(b.To, window.To)), Kind: b.Clash.Kind,
			Ski: b.Clash.Side, Hole: b.Clash.Hole, Other: b.Clash.Other, Text: b.Finding(window).Text,
		})
	}
}

// findings are those of the layout, of what blocks every shift, and of the
// marks of the pair.
func (l laid) findings() []calc.Finding {
	found := l.plan.Findings()
	for _, b := range l.shifts.Blockers {
		found = append(found, b.Finding(l.shifts.Window))
	}
	if l.pair != nil {
		found = append(found, l.pair.Findings...)
	}
	if l.spec.Pattern.Invented {
		found = append(found, calc.Cautionf("layout.invented", "the pattern file",
			"The pattern %s is invented: never drill a real ski by it.", l.spec.Pattern.Name))
	}
	return found
}
