package release

import (
	"strings"

	"drillstop/calc"
	"drillstop/calc/quantity"
)

// Type is the skier type. The skier states it, never the technician (ISO 8061,
// A.1.1). The zero value is no type.
type Type int

// The types. I is the chart's row itself, II one row heavier, III two rows
// heavier (common practice, no source).
const (
	TypeI Type = iota + 1
	TypeII
	TypeIII
)

// ParseType reads I, II or III, or 1, 2 or 3, in any case, with or without the
// word type before it. Anything else is a *calc.Fault release.type.
func ParseType(typed string) (Type, error) {
	word := strings.ToLower(strings.TrimSpace(typed))
	switch strings.TrimSpace(strings.TrimPrefix(word, "type")) {
	case "i", "1":
		return TypeI, nil
	case "ii", "2":
		return TypeII, nil
	case "iii", "3":
		return TypeIII, nil
	}
	return 0, fault("release.type", "type", "%q is not a skier type: the skier states I, II or III.", short(typed))
}

// String is "I", "II" or "III", and "?" for anything else.
func (t Type) String() string {
	switch t {
	case TypeI:
		return "I"
	case TypeII:
		return "II"
	case TypeIII:
		return "III"
	default:
		return "?"
	}
}

// Wish is what the skier asks for at the toe or at the heel: up to 15 % lower or
// higher than computed (ISO 8061:2004, 4.3.4 to 4.3.6). 15 % is about one row
// (derived), and one row is what is applied.
type Wish int

// The wishes.
const (
	Lower      Wish = -1
	AsComputed Wish = 0
	Higher     Wish = 1
)

// ParseWish reads "lower", "higher", and "as computed" or nothing. Anything else
// is a *calc.Fault release.wish.
func ParseWish(typed string) (Wish, error) {
	switch strings.ToLower(strings.TrimSpace(typed)) {
	case "lower":
		return Lower, nil
	case "", "as computed", "as-computed":
		return AsComputed, nil
	case "higher":
		return Higher, nil
	}
	return 0, fault("release.wish", "", "%q is not a request: say lower, higher or as computed.", short(typed))
}

// String is "lower", "as computed" or "higher", and "?" for anything else.
func (w Wish) String() string {
	switch w {
	case Lower:
		return "lower"
	case AsComputed:
		return "as computed"
	case Higher:
		return "higher"
	default:
		return "?"
	}
}

// Input is what the chart is asked with.
type Input struct {
	Mass   quantity.Kilogram   // 8 to 250 kg, and within the chart
	Height quantity.Centimetre // 60 to 230 cm, and within the chart
	Age    int                 // completed years, 2 to 110
	Type   Type
	Sole   quantity.Millimetre // boot sole length, 150 to 400 mm, and within the chart
	Toe    Wish
	Heel   Wish
}

// check refuses what no chart can be asked. The limits are those of what can be
// typed; NaN is outside all of them.
func (in Input) check() error {
	switch {
	case !(in.Mass >= quantity.MinMass && in.Mass <= quantity.MaxMass):
		return fault("release.mass", "mass", "%s is not a skier's mass: expected %s to %s.", in.Mass, quantity.MinMass, quantity.MaxMass)
	case !(in.Height >= quantity.MinHeight && in.Height <= quantity.MaxHeight):
		return fault("release.height", "height", "%s is not a skier's height: expected %s to %s.", in.Height, quantity.MinHeight, quantity.MaxHeight)
	case in.Age < quantity.MinAge || in.Age > quantity.MaxAge:
		return fault("release.age", "age", "%d years is not a skier's age: expected %d to %d years.", in.Age, quantity.MinAge, quantity.MaxAge)
	case in.Type < TypeI || in.Type > TypeIII:
		return fault("release.type", "type", "The skier type is missing: the skier states I, II or III.")
	case !(in.Sole >= quantity.MinSole && in.Sole <= quantity.MaxSole):
		return fault("release.sole", "sole", "%s is not a boot sole length: expected %s to %s.", in.Sole, quantity.MinSole, quantity.MaxSole)
	case in.Toe < Lower || in.Toe > Higher:
		return fault("release.wish", "toe", "The request for the toe must be lower, higher or as computed.")
	case in.Heel < Lower || in.Heel > Higher:
		return fault("release.wish", "heel", "The request for the heel must be lower, higher or as computed.")
	}
	return in.checkLight()
}

// lightSkier is the mass in kg below which nothing may raise the value (common
// practice, no source).
const lightSkier quantity.Kilogram = 22

// checkLight refuses what would raise the value of the lightest skiers.
func (in Input) checkLight() error {
	const sentence = "%s is under %s: %s. Nothing may raise the value of so light a skier."
	switch {
	case in.Mass >= lightSkier:
		return nil
	case in.Type == TypeIII:
		return fault("release.light-type", "type", sentence, in.Mass, lightSkier, "type III is refused, type I or II is possible")
	case in.Toe == Higher:
		return fault("release.light-wish", "toe", sentence, in.Mass, lightSkier, "a higher value at the toe is refused")
	case in.Heel == Higher:
		return fault("release.light-wish", "heel", sentence, in.Mass, lightSkier, "a higher value at the heel is refused")
	}
	return nil
}

// fault is a Fault on a field.
func fault(code, field, format string, args ...any) error {
	f := calc.Faultf(code, format, args...)
	f.Field = field
	return f
}

// short keeps a typed text from filling a sentence.
func short(typed string) string {
	runes := []rune(typed)
	if len(runes) > 20 {
		return string(runes[:20]) + "..."
	}
	return typed
}
