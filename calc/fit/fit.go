// Package fit says whether boot, binding and ski belong together: sole norm,
// sole length, brake, scale range, shell size and wear. Lengths are in
// millimetres, shell sizes in centimetres (mondopoint).
//
// Every check returns findings, none when there is nothing to say. A value
// that cannot be what it is said to be (not a number, negative, beyond all
// sense) is a stop that nobody may waive, since it has to be typed again.
package fit

import (
	"math"
	"slices"

	"drillstop/calc"
	"drillstop/calc/quantity"
)

// Sources that several checks share.
const (
	practice = "common practice, no formal source"
	ourRule  = "our rule"
)

// slack keeps a value that stands exactly on a limit from falling beyond it by
// the last bit of a subtraction. In the unit of the value.
const slack = 1e-9

// Kind is how a binding holds the boot.
type Kind string

// The kinds of binding.
const (
	KindAlpine Kind = "alpine"
	KindHybrid Kind = "hybrid"
	KindPin    Kind = "pin"
	KindFrame  Kind = "frame"
	KindTrack  Kind = "system track"
)

// Kinds lists every kind of binding, in the order in which a form offers them.
func Kinds() []Kind {
	return []Kind{KindAlpine, KindHybrid, KindPin, KindFrame, KindTrack}
}

// Tours says whether a binding of this kind lets the heel go for walking.
func (k Kind) Tours() bool {
	return k == KindHybrid || k == KindPin || k == KindFrame
}

// Binding is what the checks need of a binding card.
type Binding struct {
	Kind               Kind
	Norms              []Norm              // the sole norms its maker declares
	ScaleMin, ScaleMax float64             // marked release indicator values
	SoleMin, SoleMax   quantity.Millimetre // sole lengths the template drills for; 0, 0 = not stated
	TrackMin, TrackMax quantity.Millimetre // sole lengths the heel track reaches; 0, 0 = no track
	Brake              quantity.Millimetre // 0 = no brake
}

// Boot is one boot of the pair.
type Boot struct {
	Norm    Norm
	Sole    quantity.Millimetre // engraved boot sole length
	Shell   float64             // shell size, mondopoint in cm; 0 = not known
	Inserts bool                // touring inserts at toe and heel
	WornToe quantity.Millimetre // toe wear; 0 = none measured
	Damaged bool                // cracks, missing parts, loose inserts
}

// Check runs every check of the pair of boots, the binding and the ski, except
// Scale, which needs a computed value. Waist is the ski's narrowest width.
//
// What holds for both boots is said once; what holds for one is said with its
// side.
func Check(b Binding, left, right Boot, waist quantity.Millimetre) []calc.Finding {
	found := bySide(Norms(b, left), Norms(b, right))
	if left.Norm != right.Norm {
		found = append(found, calc.Cautionf("fit.pair-norm", ourRule,
			"The left boot is of norm %q, the right of %q: a pair has one norm; read the soles again.", string(left.Norm), string(right.Norm)))
	}
	found = append(found, SoleLength(b, left, right)...)
	found = append(found, bySide(ShellSize(left.Sole, left.Shell), ShellSize(right.Sole, right.Shell))...)
	found = append(found, bySide(Wear(left), Wear(right))...)
	return append(found, Brake(b, waist)...)
}

// bySide says what was found on both boots alike once, and otherwise puts the
// side in front.
func bySide(left, right []calc.Finding) []calc.Finding {
	if slices.Equal(left, right) {
		return left
	}
	var found []calc.Finding
	for _, f := range left {
		f.Text = "Left boot: " + f.Text
		found = append(found, f)
	}
	for _, f := range right {
		f.Text = "Right boot: " + f.Text
		found = append(found, f)
	}
	return found
}

// never marks a stop that nobody may waive.
func never(f calc.Finding) calc.Finding {
	f.Never = true
	return f
}

// within says whether a value is a number from low to high.
func within[T ~float64](value, low, high T) bool {
	return value >= low-slack && value <= high+slack && !math.IsInf(float64(value), 0)
}

// tidy drops the last bits of a sum, so that it prints as it was meant.
func tidy(length quantity.Millimetre) quantity.Millimetre {
	const perMm = 1e6
	return quantity.Millimetre(math.Round(float64(length)*perMm) / perMm)
}
