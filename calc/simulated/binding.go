// Package simulated is a binding that does not exist: it answers a setting with
// release moments, so that the loop of testing and correcting can be run without
// a bench. It serves tests and practice, and is never asked about a real ski.
//
// The model is our own and has no source. It is right in what a technician must
// notice: a spring off by a factor, rubbing that no spring sets, two ways of
// twist that differ, forward pressure and toe height that move the moments, and
// readings that scatter. It is not right in its numbers.
package simulated

import (
	"math"

	"drillstop/calc"
	"drillstop/calc/moment"
	"drillstop/calc/quantity"
)

// Largest values of the model. Beyond them it would be no binding any more. Our
// own, no source.
const (
	mostPerUnit  quantity.NewtonMetre = 1000 // Nm for each indicator unit
	mostGain                          = 3.0
	mostFriction quantity.NewtonMetre = 200
	mostShare                         = 0.5 // asymmetry, noise
	mostCoupling                      = 1.0 // share for each millimetre
	mostSetting                       = 20.0
	mostOff      quantity.Millimetre  = 10
)

// Release is one way out of the binding.
type Release string

// The three releases that a bench measures.
const (
	TwistLeft   Release = "twist to the left"
	TwistRight  Release = "twist to the right"
	ForwardLean Release = "forward lean"
)

// Releases are the three of them, in the order in which a bench takes them.
func Releases() []Release { return []Release{TwistLeft, TwistRight, ForwardLean} }

// Direction is the direction in which a release is judged.
func (r Release) Direction() moment.Direction {
	if r == ForwardLean {
		return moment.ForwardLean
	}
	return moment.Twist
}

// Spring is what holds the boot on one piece of the binding.
type Spring struct {
	PerUnit  quantity.NewtonMetre // the scale's promise: Nm for each indicator unit, above 0, up to 1000
	Gain     float64              // what becomes of the promise: 1 is kept, 1.2 is 20 % too strong; above 0, up to 3
	Friction quantity.NewtonMetre // rubbing that no setting changes, 0 to 200 Nm
}

// Binding is an invented binding on one ski with one boot in it.
type Binding struct {
	Toe, Heel Spring
	// Asymmetry is the share by which twist to the left lies above what the
	// spring says, and twist to the right below it; -0.5 to 0.5.
	Asymmetry float64
	// PressureShare is by which share every moment grows for each millimetre of
	// forward pressure too much, and shrinks for each too little; 0 to 1.
	PressureShare float64
	// PinchShare is by which share twist grows for each millimetre that the toe is
	// too low, and shrinks for each that it is too high; 0 to 1.
	PinchShare float64
	// Noise is the largest share by which a single reading is off; 0 to 0.5.
	Noise float64
	// Seed chooses the scatter: one seed, one series of readings.
	Seed uint64
}

// State is how the binding stands.
type State struct {
	Toe, Heel   float64             // indicator values, above 0, up to 20
	PressureOff quantity.Millimetre // of the forward-pressure window: + too much, - too little; up to 10 either way
	ToeOff      quantity.Millimetre // of the right toe height: + too high, - pinched; up to 10 either way
}

// Moment returns the release moment in Nm, without scatter:
//
//	spring  = per unit x gain x setting + friction
//	release = spring x (1 + pressure share x pressure off)
//	twist   = release x (1 - pinch share x toe off) x (1 +- asymmetry)
//
// A binding, a state or a release that the model does not cover is a *calc.Fault
// with the code "simulated.binding", "simulated.state" or "simulated.release";
// so is a state in which the boot would not be held at all ("simulated.loose").
//
// Source: our own model.
func (b Binding) Moment(r Release, s State) (quantity.NewtonMetre, error) {
	if err := b.check(); err != nil {
		return 0, err
	}
	if err := s.check(); err != nil {
		return 0, err
	}
	factor := 1 + b.PressureShare*float64(s.PressureOff)
	spring, setting := b.Toe, s.Toe
	switch r {
	case ForwardLean:
		spring, setting = b.Heel, s.Heel
	case TwistLeft:
		factor *= b.pinch(s) * (1 + b.Asymmetry)
	case TwistRight:
		factor *= b.pinch(s) * (1 - b.Asymmetry)
	default:
		return 0, calc.Faultf("simulated.release", "%q is no release: say %s, %s or %s.", r, TwistLeft, TwistRight, ForwardLean)
	}
	if 1+b.PressureShare*float64(s.PressureOff) <= 0 || b.pinch(s) <= 0 {
		return 0, calc.Faultf("simulated.loose", "With forward pressure off by %s and toe height off by %s nothing holds the boot: nearer to 0 it would.", s.PressureOff, s.ToeOff)
	}
	return (spring.PerUnit*quantity.NewtonMetre(spring.Gain*setting) + spring.Friction) * quantity.NewtonMetre(factor), nil
}

// pinch is the factor by which toe height moves twist.
func (b Binding) pinch(s State) float64 { return 1 - b.PinchShare*float64(s.ToeOff) }

func (b Binding) check() error {
	for _, spring := range []Spring{b.Toe, b.Heel} {
		if !(spring.PerUnit > 0) || spring.PerUnit > mostPerUnit || !(spring.Gain > 0) || spring.Gain > mostGain ||
			!within(float64(spring.Friction), 0, float64(mostFriction)) {
			return calc.Faultf("simulated.binding", "A spring of %s for each unit, gain %.4g, friction %s is none: up to %s, %g and %s make one.",
				spring.PerUnit, spring.Gain, spring.Friction, mostPerUnit, mostGain, mostFriction)
		}
	}
	for _, share := range []struct {
		name             string
		value, low, high float64
	}{
		{"asymmetry", b.Asymmetry, -mostShare, mostShare},
		{"pressure share", b.PressureShare, 0, mostCoupling},
		{"pinch share", b.PinchShare, 0, mostCoupling},
		{"noise", b.Noise, 0, mostShare},
	} {
		if !within(share.value, share.low, share.high) {
			return calc.Faultf("simulated.binding", "The %s %.4g is outside the model: it must lie between %g and %g.", share.name, share.value, share.low, share.high)
		}
	}
	return nil
}

func (s State) check() error {
	for _, setting := range []float64{s.Toe, s.Heel} {
		if !(setting > 0) || setting > mostSetting {
			return calc.Faultf("simulated.state", "A scale at %.4g is outside the model: it must stand above 0, up to %g.", setting, mostSetting)
		}
	}
	for _, off := range []quantity.Millimetre{s.PressureOff, s.ToeOff} {
		if !within(float64(off), -float64(mostOff), float64(mostOff)) {
			return calc.Faultf("simulated.state", "%s off is outside the model: it must lie within %s either way.", off, mostOff)
		}
	}
	return nil
}

// within reports whether a value lies between two limits; NaN lies nowhere.
func within(value, low, high float64) bool {
	return !math.IsNaN(value) && value >= low && value <= high
}
