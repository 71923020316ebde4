package layout

import (
	"math"
	"strconv"
)

// OldHoles turns the holes of an earlier mount into old holes of a ski: the
// pattern, sole length and shift that it had. The bit is that of the ski, 0, 0
// if it is not marked. It fails as Spec.Check does.
func OldHoles(p *Pattern, mount Mount, bit Bit, side Side, plugged bool) ([]OldHole, error) {
	spec := Spec{Pattern: p, Mount: mount, Bit: bit, Rules: DefaultRules()}
	if err := spec.Check(); err != nil {
		return nil, err
	}
	holes := spec.holes(make([]Hole, 0, p.holes()), side, mount)
	old := make([]OldHole, len(holes))
	for i, h := range holes {
		old[i] = OldHole{X: h.X, Y: h.Y, Diameter: h.Diameter, Depth: h.Depth, Plugged: plugged}
	}
	return old, nil
}

// oldOn begins a sentence about n old holes of a ski.
func oldOn(side Side, n int) string {
	if n == 1 {
		return "1 old hole on the " + string(side) + " ski is"
	}
	return strconv.Itoa(n) + " old holes on the " + string(side) + " ski are"
}

func itOrThem(n int) string {
	if n == 1 {
		return "it"
	}
	return "them"
}

// tidy drops the last bits of a sum, so that it prints as it was meant.
func tidy(v mm) mm {
	const perMm = 1e6
	return mm(math.Round(float64(v)*perMm) / perMm)
}
