package steps

import (
	"math"
	"strings"

	"drillstop/calc"
	"drillstop/calc/layout"
	"drillstop/calc/quantity"
	"drillstop/workflow"
)

// mostOldHoles is how many old holes are written down for one ski. Our own
// limit: with those of a former mount a layout still takes them.
const mostOldHoles = 100

// The words of the state of an old hole.
const (
	holePlugged = "plugged"
	holeOpen    = "open"
)

// holeForm is how a hole is written down.
const holeForm = "x, y, diameter, if known the depth, then plugged or open"

// readHoleList reads old holes as parseHoleList does and writes them down the
// way printHoleList does.
func readHoleList(_ workflow.Shop, typed string) (string, error) {
	holes, err := parseHoleList(typed)
	if err != nil {
		return "", err
	}
	return printHoleList(holes), nil
}

// parseHoleList reads old holes, separated by semicolons: of each its x from
// the mount mark, to the tip positive, its y from the centre line, to the
// skier's right positive, its diameter and, if it is known, its depth, in mm;
// then plugged or open. A hole of which neither is said is open: that is the
// one to be careful with. "-124.5 18 4.1 9 plugged; -124.5 -18 4.1".
//
// Faults name the hole by its place: "holes.number" where a number or a word
// cannot be read, "holes.count" for too few or too many of them,
// "layout.old-hole" for a number that no hole can have, "holes.twice" for a
// hole that is written down twice, "holes.many" for more than 100.
func parseHoleList(typed string) ([]layout.OldHole, error) {
	var holes []layout.OldHole
	for part := range strings.SplitSeq(typed, ";") {
		words := strings.Fields(part)
		if len(words) == 0 {
			continue // a semicolon at the end
		}
		hole, err := parseOldHole(words, len(holes)+1)
		if err != nil {
			return nil, err
		}
		for i, other := range holes {
			if other.X == hole.X && other.Y == hole.Y {
				return nil, calc.Faultf("holes.twice", "Hole %d lies where hole %d lies: write each hole down once.", len(holes)+1, i+1)
			}
		}
		holes = append(holes, hole)
	}
	switch {
	case len(holes) == 0:
		return nil, calc.Faultf("holes.count", "There is no hole in %q: of each hole write %s.", typed, holeForm)
	case len(holes) > mostOldHoles:
		return nil, calc.Faultf("holes.many", "These are %d holes: at most %d are written down for one ski.", len(holes), mostOldHoles)
	}
	return holes, nil
}

func parseOldHole(words []string, n int) (layout.OldHole, error) {
	hole, numbers := layout.OldHole{}, []float64(nil)
	for i, word := range words {
		state := stateOf(word)
		switch {
		case state != "" && i == len(words)-1:
			hole.Plugged = state == holePlugged
			continue
		case state != "":
			return hole, calc.Faultf("holes.number", "Hole %d: something follows %q; put a semicolon between two holes.", n, state)
		case strings.EqualFold(word, string(quantity.MM)) && len(numbers) > 0:
			continue
		}
		v, err := quantity.Parse(strings.TrimSuffix(word, ","), quantity.MM)
		if err != nil {
			fault := calc.Faultf("holes.number", "Hole %d: %q is no length in mm; write %s.", n, word, holeForm)
			fault.Cause = err
			return hole, fault
		}
		numbers = append(numbers, v+0) // a zero without a sign
	}
	if len(numbers) < 3 || len(numbers) > 4 {
		return hole, calc.Faultf("holes.count", "Hole %d has %d numbers: write %s, and a semicolon between two holes.", n, len(numbers), holeForm)
	}
	hole.X, hole.Y = quantity.Millimetre(numbers[0]), quantity.Millimetre(numbers[1])
	hole.Diameter = quantity.Millimetre(numbers[2])
	if len(numbers) == 4 {
		hole.Depth = quantity.Millimetre(numbers[3])
	}
	return hole, hole.Check(n, layout.Both)
}

// stateOf is the state that a word means, whole or by its beginning; "" if it
// is none.
func stateOf(word string) string {
	word = strings.ToLower(strings.Trim(word, ",."))
	for _, state := range []string{holePlugged, holeOpen} {
		if word != "" && strings.HasPrefix(state, word) {
			return state
		}
	}
	return ""
}

// printHoleList writes holes down so that parseHoleList reads them back.
func printHoleList(holes []layout.OldHole) string {
	texts := make([]string, len(holes))
	for i, h := range holes {
		words := []string{bareLength(h.X), bareLength(h.Y), bareLength(h.Diameter)}
		if h.Depth != 0 {
			words = append(words, bareLength(h.Depth))
		}
		state := holeOpen
		if h.Plugged {
			state = holePlugged
		}
		texts[i] = strings.Join(append(words, state), " ")
	}
	return strings.Join(texts, "; ")
}

func bareLength(v quantity.Millimetre) string { return quantity.Print(float64(v), quantity.Plain) }

// hundredths drops what a sum of lengths leaves behind, and what no rule can
// measure.
func hundredths(v quantity.Millimetre) quantity.Millimetre {
	const perMm = 100
	return quantity.Millimetre(math.Round(float64(v)*perMm)/perMm) + 0
}
