package workflow

import (
	"time"

	"drillstop/calc/layout"
	"drillstop/calc/release"
)

// Shop is what a check may know beside the job.
type Shop struct {
	Name  string
	Chart *release.Chart // the chart in force
	// Patterns is the shop's library of hole patterns, each of which passes
	// its Check, under names that differ.
	Patterns []*layout.Pattern
	// Rules are the distances that the shop holds between holes; the zero
	// value stands for layout.DefaultRules.
	Rules layout.Rules
	// Devices are the shop's test devices, under names that differ.
	Devices []Device
	Now     time.Time
}

// Device returns the test device of exactly that name, false if the shop has
// none.
func (s Shop) Device(name string) (Device, bool) {
	for _, d := range s.Devices {
		if d.Name == name {
			return d, true
		}
	}
	return Device{}, false
}

// Pattern returns the hole pattern of exactly that name, false if the library
// has none.
func (s Shop) Pattern(name string) (*layout.Pattern, bool) {
	for _, p := range s.Patterns {
		if p.Name == name {
			return p, true
		}
	}
	return nil, false
}

// Distances returns the distances between holes that are in force.
func (s Shop) Distances() layout.Rules {
	if s.Rules == (layout.Rules{}) {
		return layout.DefaultRules()
	}
	return s.Rules
}

// Person is who answers.
type Person struct {
	Name       string
	Supervisor bool // may waive a stop
}
