package moment

import (
	"strings"

	"drillstop/calc"
	"drillstop/calc/quantity"
)

// lowestMoment is the least, in Nm, that a bench can read and a chart can hold:
// the chart begins at 5 Nm. Our rule.
const lowestMoment quantity.NewtonMetre = 0.1

// Highest reading, in Nm, that is taken as a reading at all. The chart ends
// at 105 Nm in twist and 452 Nm in forward lean; more than twice that is a
// slipped decimal point or another unit. Our rule.
const (
	twistLimit       quantity.NewtonMetre = 300
	forwardLeanLimit quantity.NewtonMetre = 1000
)

// Direction is the way a boot is turned out of the binding.
type Direction string

// The two directions that have reference moments. Twist to the left and to
// the right are judged one after the other against the same reference.
const (
	Twist       Direction = "twist"
	ForwardLean Direction = "forward lean"
)

// ParseDirection reads a direction as people write it: "twist",
// "forward lean", "forward-lean" or "fwd", in any case and with spaces around
// it. Anything else is a *calc.Fault with the code "moment.direction".
func ParseDirection(text string) (Direction, error) {
	switch strings.ToLower(strings.TrimSpace(text)) {
	case "twist":
		return Twist, nil
	case "forward lean", "forward-lean", "fwd":
		return ForwardLean, nil
	}
	return "", unknownDirection(text)
}

// limit is the highest reading that makes sense in this direction.
func (d Direction) limit() (quantity.NewtonMetre, error) {
	switch d {
	case Twist:
		return twistLimit, nil
	case ForwardLean:
		return forwardLeanLimit, nil
	}
	return 0, unknownDirection(string(d))
}

func unknownDirection(text string) *calc.Fault {
	fault := calc.Faultf("moment.direction", "%q is not a direction of release: say twist or forward lean.", text)
	fault.Field = "direction"
	return fault
}
