package moment

import (
	"math"

	"drillstop/calc/quantity"
)

// Limits of the ranges, in rows of the chart either way.
// Source: common practice, no formal source.
const (
	inspectionRows = 1.0
	inUseRows      = 2.0
)

// Limits of the deviation classes, in per cent of the reference either way.
// Source: class I ASTM F1064-11 3.1.1; II and III from memory.
const (
	classOnePercent   = 15.0
	classTwoPercent   = 30.0
	classThreePercent = 45.0
)

// twistForgiven is the deviation in twist that is accepted whatever its per
// cent: in the lightest rows 15 % is less than a bench can resolve.
// Source: ISO 8061 / ISO 11088 as summarised.
const twistForgiven quantity.NewtonMetre = 3

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

// Class is how far the middle value lies from the reference, in per cent.
type Class string

// The classes: up to 15 %, above 15 %, above 30 %, above 45 %.
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

func classOf(percent float64) Class {
	switch away := math.Abs(percent); {
	case away <= classOnePercent+roundingSlack:
		return ClassNone
	case away <= classTwoPercent+roundingSlack:
		return ClassI
	case away <= classThreePercent+roundingSlack:
		return ClassII
	}
	return ClassIII
}

func forgiven(dir Direction, deviation quantity.NewtonMetre) bool {
	return dir == Twist && math.Abs(float64(deviation)) <= float64(twistForgiven)+roundingSlack
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
