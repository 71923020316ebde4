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
	case in.Toe < Lower || in.Toe > OwnRisk:
		return fault("release.wish", "toe", "The request for the toe must be lower, higher, own risk or as computed.")
	case in.Heel < Lower || in.Heel > OwnRisk:
		return fault("release.wish", "heel", "The request for the heel must be lower, higher, own risk or as computed.")
	}
	return in.checkLight()
}

// lightSkier is the mass in kg below which type III and a higher value are
// refused (common practice, no source). From there to below lightUpTo the two
// together are asked after (our rule, no source).
const (
	lightSkier quantity.Kilogram = 22
	lightUpTo  quantity.Kilogram = 26
)

// checkLight refuses type III and a higher value to the lightest skiers. Type II
// stays possible.
func (in Input) checkLight() error {
	switch {
	case in.Mass >= lightSkier:
		return nil
	case in.Type == TypeIII:
		return in.refuseLight("release.light-type", "type", "type III is refused; type I or II is possible")
	case in.Toe > AsComputed:
		return in.refuseLight("release.light-wish", "toe", "a higher value at the toe is refused; as computed or lower is possible")
	case in.Heel > AsComputed:
		return in.refuseLight("release.light-wish", "heel", "a higher value at the heel is refused; as computed or lower is possible")
	}
	return nil
}

func (in Input) refuseLight(code, field, what string) error {
	f := calc.Faultf(code, "%s is under %s: %s.", massText(in.Mass), lightSkier, what)
	f.Field, f.Source = field, fromPractice
	return f
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
