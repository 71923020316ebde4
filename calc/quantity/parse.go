package quantity

import (
	"math/big"
	"strings"

	"drillstop/calc"
)

// Parse reads one quantity and returns it in the unit want.
//
// The unit in the text is optional; every convertible one is accepted: mm, cm,
// m, in, ft; kg, g, lb, st; Nm, daNm, ft-lb, in-lb; years; degrees, turns.
// Decimal point and decimal comma mean the same, and neither groups thousands.
// Two-part quantities are 5 ft 10 in (5'10"), 11 st 4 lb and 1 m 75. Spaces of
// every kind and a carriage return at the ends are dropped. A negative number is
// accepted for lengths, angles and plain numbers: offsets have a direction,
// masses, moments and ages have none.
//
// Faults: quantity.empty, quantity.long, quantity.number (not a number; also
// NaN, infinities, exponents, hexadecimal), quantity.unit (unknown, or of the
// wrong kind), quantity.two-numbers, quantity.two-parts, quantity.negative,
// quantity.range (not 0 and outside 1e-9..1e9 in want).
func Parse(typed string, want Unit) (float64, error) {
	parts, err := scan(typed, longest)
	if err != nil {
		return 0, err
	}
	return join(parts, want, typed)
}

// join makes one value of the one or two parts of a quantity.
func join(parts []part, want Unit, typed string) (float64, error) {
	switch len(parts) {
	case 1:
		return convert(parts[0], want, typed)
	case 2:
		return joinTwo(parts[0], parts[1], want, typed)
	}
	return 0, calc.Faultf("quantity.two-numbers", "%s holds %d numbers: one is expected.", show(typed), len(parts))
}

// joinTwo reads feet and inches, stones and pounds, metres and centimetres.
func joinTwo(first, second part, want Unit, typed string) (float64, error) {
	unit, limit := smallerUnit(first, second)
	if unit == "" {
		return 0, calc.Faultf("quantity.two-numbers", "%s holds two numbers: one is expected.", show(typed))
	}
	if strings.ContainsAny(first.number, ".-") {
		return 0, calc.Faultf("quantity.two-parts", "%s: the first of the two numbers must be whole and not negative.", show(typed))
	}
	amount, ok := new(big.Rat).SetString(second.number)
	if !ok || amount.Sign() < 0 || amount.Cmp(big.NewRat(limit, 1)) >= 0 {
		return 0, calc.Faultf("quantity.two-parts", "%s: the %s must be at least 0 and less than %d.", show(typed), unit, limit)
	}
	second.word = unit
	major, err := exactly(first, want, typed)
	if err != nil {
		return 0, err
	}
	minor, err := exactly(second, want, typed)
	if err != nil {
		return 0, err
	}
	return nearest(major.Add(major, minor), want, typed)
}

// smallerUnit says which unit the second number of a two-part quantity has and
// how many of it make one of the first; "" if the two do not belong together. A
// bare number behind metres must have two digits: 1 m 5 could be 1.05 or 1.5 m.
func smallerUnit(first, second part) (unit string, limit int64) {
	bare := second.word == ""
	switch {
	case sameUnit(first.word, "ft") && (bare || sameUnit(second.word, "in")):
		return "in", 12
	case sameUnit(first.word, "st") && (bare || sameUnit(second.word, "lb")):
		return "lb", 14
	case sameUnit(first.word, "m") && (bare && second.whole == 2 || sameUnit(second.word, "cm")):
		return "cm", 100
	}
	return "", 0
}

func sameUnit(word, unit string) bool {
	a, known := unitOf(word)
	b, _ := unitOf(unit)
	return known && a == b
}

// convert is one number in the unit want, rounded once.
func convert(p part, want Unit, typed string) (float64, error) {
	exact, err := exactly(p, want, typed)
	if err != nil {
		return 0, err
	}
	return nearest(exact, want, typed)
}

// exactly is one number in the unit want, not rounded.
func exactly(p part, want Unit, typed string) (*big.Rat, error) {
	target, ok := unitOf(string(want))
	if !ok {
		return nil, calc.Faultf("quantity.unit", "%q is not a unit that a value can be asked for in.", string(want))
	}
	amount, ok := new(big.Rat).SetString(p.number)
	if !ok {
		return nil, calc.Faultf("quantity.number", "%s does not read as a number.", show(typed))
	}
	if p.word == "" {
		return amount, nil
	}
	from, _ := unitOf(p.word) // scan let known units through only
	if from.kind != target.kind {
		return nil, calc.Faultf("quantity.unit", "%s is %s: expected %s.", show(typed), from.kind, expected(want, target))
	}
	return amount.Mul(amount, from.per(target)), nil
}

func expected(want Unit, target scale) string {
	if target.kind == plain {
		return "a plain number without a unit"
	}
	return string(target.kind) + " in " + string(want)
}

// nearest rounds once and holds the limits that every quantity has.
func nearest(exact *big.Rat, want Unit, typed string) (float64, error) {
	v, _ := exact.Float64()
	if v < 0 && (want == KG || want == NM || want == Years) {
		return 0, calc.Faultf("quantity.negative", "%s is negative: a value in %s cannot be below 0.", show(typed), want)
	}
	if size := max(v, -v); size > largest || (size != 0 && size < smallest) {
		return 0, calc.Faultf("quantity.range", "%s is beyond anything that can be measured here.", show(typed))
	}
	return v, nil
}
