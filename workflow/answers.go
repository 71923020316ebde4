package workflow

import (
	"maps"
	"slices"

	"drillstop/calc/quantity"
)

// FieldID names a field within its step: "mass", "toe_set".
type FieldID string

// Side says which ski an answer is about.
type Side string

// The sides, in the order in which they are always asked and shown: as the
// skier stands on them.
const (
	Both  Side = ""
	Left  Side = "left"
	Right Side = "right"
)

// Sides are the two skis in order.
var Sides = [...]Side{Left, Right}

// Key is a field's name in Answers: "mass", or "toe_set.left".
func Key(id FieldID, side Side) string {
	if side == Both {
		return string(id)
	}
	return string(id) + "." + string(side)
}

// Answers are the values of one step, by Key, in their canonical text: what
// was typed after parsing, with its unit ("72 kg", "II", "49, 51, 52 Nm").
// Text rather than numbers, so that a record reads the same in ten years.
type Answers map[string]string

// Clone returns a copy that shares nothing with a.
func (a Answers) Clone() Answers {
	if a == nil {
		return Answers{}
	}
	return maps.Clone(a)
}

// Keys returns the keys in a fixed order.
func (a Answers) Keys() []string { return slices.Sorted(maps.Keys(a)) }

// Text returns the answer of a field, "" where there is none.
func (a Answers) Text(id FieldID, side Side) string { return a[Key(id, side)] }

// Is reports whether the answer of a field is exactly value.
func (a Answers) Is(id FieldID, side Side, value string) bool { return a[Key(id, side)] == value }

// Number returns the answer of a field as a number of unit; false where it was
// not answered or is no number.
func (a Answers) Number(id FieldID, side Side, unit quantity.Unit) (float64, bool) {
	text, ok := a[Key(id, side)]
	if !ok {
		return 0, false
	}
	v, err := quantity.Parse(text, unit)
	return v, err == nil
}

// List returns the answer of a list field as numbers of unit; nil where it was
// not answered.
func (a Answers) List(id FieldID, side Side, unit quantity.Unit) []float64 {
	text, ok := a[Key(id, side)]
	if !ok {
		return nil
	}
	vs, err := quantity.ParseList(text, unit, 0)
	if err != nil {
		return nil
	}
	return vs
}
