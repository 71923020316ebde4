package moment

import (
	"math"
	"slices"

	"drillstop/calc/quantity"
)

// Limits of the ranges, in rows of the chart either way.
// Source: common practice, no formal source.
const (
	inspectionRows = 1.0
	inUseRows      = 2.0
)

// Limits of the deviation classes either way, in per cent of the reference, and
// in Nm. In twist both must be passed: in the lightest rows 15 % is less than a
// bench can resolve. In forward lean only the per cent count.
// Source: 15 % ASTM F1064-11 3.1.1; 30 % and 45 % from memory; 3 Nm
// ISO 8061 / ISO 11088 as summarised; 6 and 9 Nm our rule, by proportion.
const (
	classOnePercent                        = 15.0
	classTwoPercent                        = 30.0
	classThreePercent                      = 45.0
	classOneNm        quantity.NewtonMetre = 3
	classTwoNm        quantity.NewtonMetre = 6
	classThreeNm      quantity.NewtonMetre = 9
)

// roundingSlack keeps a value that stands exactly on a limit from falling
// beyond it by the last bit of a division.
const roundingSlack = 1e-9

// Range is how far the middle value lies from the reference, in rows.
type Range string

// The ranges: up to one row either way, up to two, and beyond.
const (
	InspectionRange Range = "inspection"
	InUseRange      Range = "in-use"
	Outside         Range = "outside"
)

// Class is how far a moment lies from the reference, in per cent and, in twist,
// in Nm.
type Class string

// The classes: up to 15 % or, in twist, 3 Nm if that is more; beyond it; beyond
// 30 % and 6 Nm; beyond 45 % and 9 Nm.
const (
	ClassNone Class = "none"
	ClassI    Class = "I"
	ClassII   Class = "II"
	ClassIII  Class = "III"
)

// Action is what is to be done with the binding.
type Action string

// The actions, mildest first.
const (
	Keep      Action = "keep"
	Correct   Action = "correct"
	SeekCause Action = "seek cause"
	TakeOut   Action = "take out of service"
)

func rangeOf(rows float64) Range {
	switch away := math.Abs(rows); {
	case away <= inspectionRows+roundingSlack:
		return InspectionRange
	case away <= inUseRows+roundingSlack:
		return InUseRange
	}
	return Outside
}

// classOf is the class of a deviation in per cent and in Nm, of either sign.
func classOf(dir Direction, percent float64, nm quantity.NewtonMetre) Class {
	byPercent := classByPercent(percent)
	if dir != Twist {
		return byPercent
	}
	return milder(byPercent, classByNm(nm))
}

func classByPercent(percent float64) Class {
	return graded(percent, classOnePercent, classTwoPercent, classThreePercent)
}

func classByNm(nm quantity.NewtonMetre) Class {
	return graded(float64(nm), float64(classOneNm), float64(classTwoNm), float64(classThreeNm))
}

// graded is the class of a deviation beyond the limits of classes I, II and III.
func graded(deviation, one, two, three float64) Class {
	switch away := math.Abs(deviation); {
	case away <= one+roundingSlack:
		return ClassNone
	case away <= two+roundingSlack:
		return ClassI
	case away <= three+roundingSlack:
		return ClassII
	}
	return ClassIII
}

func milder(a, b Class) Class {
	for _, c := range []Class{ClassNone, ClassI, ClassII} {
		if a == c || b == c {
			return c
		}
	}
	return ClassIII
}

// weight orders the actions, mildest first.
func (a Action) weight() int {
	return slices.Index([]Action{Keep, Correct, SeekCause, TakeOut}, a)
}

// actionFor lets the stricter of range and class decide. Our rule.
func actionFor(r Range, c Class) Action {
	switch {
	case c == ClassIII:
		return TakeOut
	case c == ClassII || r == Outside:
		return SeekCause
	case c == ClassI || r == InUseRange:
		return Correct
	}
	return Keep
}
