package simulated

import (
	"math"
	"math/rand/v2"
	"slices"

	"drillstop/calc"
	"drillstop/calc/quantity"
)

// readingsEach is how many readings are taken of one release.
// Source: common practice, no formal source.
const readingsEach = 3

// perNm is how finely the invented bench reads: to the tenth of a newton metre.
const perNm = 10

// Readings returns three readings of one release in Nm, as a bench would show
// them: each off by up to the binding's noise, to the tenth. The same binding,
// state, release and round of testing read the same, always; another round
// scatters anew.
//
// It fails as Moment does, and with "simulated.round" for a round below 0.
func (b Binding) Readings(r Release, s State, round int) ([]quantity.NewtonMetre, error) {
	m, err := b.Moment(r, s)
	if err != nil {
		return nil, err
	}
	if round < 0 {
		return nil, calc.Faultf("simulated.round", "There is no round %d of testing: the first is 0.", round)
	}
	scatter := rand.New(rand.NewPCG(b.Seed, stream(r, round))) //nolint:gosec // a scatter that can be repeated, no secret
	readings := make([]quantity.NewtonMetre, readingsEach)
	for i := range readings {
		share := 1 + b.Noise*(2*scatter.Float64()-1)
		readings[i] = quantity.NewtonMetre(math.Round(float64(m)*share*perNm) / perNm)
	}
	return readings, nil
}

// stream keeps the scatter of releases and rounds apart.
func stream(r Release, round int) uint64 {
	return uint64(round)*uint64(len(Releases())) + uint64(slices.Index(Releases(), r)) //nolint:gosec // neither is negative here
}
