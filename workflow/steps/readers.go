package steps

import (
	"math"
	"slices"
	"strings"

	"drillstop/calc"
	"drillstop/calc/fit"
	"drillstop/calc/quantity"
	"drillstop/workflow"
)

// readMass reads a skier's mass and keeps whole 10 g, rounded down: 165 lb is
// 74.84 kg. Rounded down, a mass never crosses a limit of a chart from below,
// and it stays on the right side of every limit that has two decimals at most.
func readMass(_ workflow.Shop, typed string) (string, error) {
	v, err := quantity.ParseMass(typed)
	if err != nil {
		return "", err
	}
	// The small term keeps a mass that is whole already where it is.
	return quantity.Print(math.Floor(float64(v)*100+1e-6)/100, quantity.KG), nil
}

func readHeight(_ workflow.Shop, typed string) (string, error) {
	v, err := quantity.ParseHeight(typed)
	if err != nil {
		return "", err
	}
	return v.String(), nil
}

// readAge reads an age or a birth date, and keeps the age on the day it was
// typed: the value set that day rests on it.
func readAge(shop workflow.Shop, typed string) (string, error) {
	if quantity.IsDate(typed) {
		age, _, err := quantity.ParseBirthDate(typed, shop.Now)
		if err != nil {
			return "", err
		}
		return quantity.Print(float64(age), quantity.Years), nil
	}
	age, err := quantity.ParseAge(typed)
	if err != nil {
		return "", err
	}
	return quantity.Print(float64(age), quantity.Years), nil
}

func readSole(_ workflow.Shop, typed string) (string, error) {
	v, err := quantity.ParseSole(typed)
	if err != nil {
		return "", err
	}
	return v.String(), nil
}

func readHole(_ workflow.Shop, typed string) (string, error) {
	diameter, depth, err := quantity.ParseHole(typed)
	if err != nil {
		return "", err
	}
	return quantity.PrintHole(diameter, depth), nil
}

// readNorms reads the sole norms a binding takes, separated by commas or
// semicolons, each by a beginning that fits just one: "5355 a; 9523".
func readNorms(_ workflow.Shop, typed string) (string, error) {
	taken := map[fit.Norm]bool{}
	for _, word := range strings.FieldsFunc(typed, isSeparator) {
		if strings.TrimSpace(word) == "" {
			continue
		}
		norm, err := readNorm(word)
		if err != nil {
			return "", err
		}
		taken[norm] = true
	}
	var names []string
	for _, norm := range fit.KnownNorms() {
		if taken[norm] {
			names = append(names, string(norm))
		}
	}
	if len(names) == 0 {
		return "", calc.Faultf("binding.norms", "No sole norm in %q: name those the binding takes, of %s.", typed, knownNorms())
	}
	return strings.Join(names, ", "), nil
}

func isSeparator(r rune) bool { return r == ',' || r == ';' }

func readNorm(word string) (fit.Norm, error) {
	var fits []fit.Norm
	for _, norm := range fit.KnownNorms() {
		if normKey(word) != "" && strings.HasPrefix(normKey(string(norm)), normKey(word)) {
			fits = append(fits, norm)
		}
	}
	switch len(fits) {
	case 1:
		return fits[0], nil
	case 0:
		return "", calc.Faultf("binding.norm", "%q is no sole norm; known are %s.", strings.TrimSpace(word), knownNorms())
	}
	return "", calc.Faultf("binding.norm", "%q can be %s: write which; A is adult, C is child.", strings.TrimSpace(word), joined(fits, " or "))
}

// normKey is a norm as it is compared: without ISO, spaces and case.
func normKey(text string) string {
	return strings.TrimPrefix(strings.ToUpper(strings.Join(strings.Fields(text), "")), "ISO")
}

func knownNorms() string { return joined(fit.KnownNorms(), ", ") }

func joined(norms []fit.Norm, between string) string {
	words := make([]string, len(norms))
	for i, n := range norms {
		words[i] = string(n)
	}
	return strings.Join(words, between)
}

// parseNorms reads what readNorms kept.
func parseNorms(kept string) []fit.Norm {
	var norms []fit.Norm
	for word := range strings.SplitSeq(kept, ",") {
		if norm := fit.Norm(strings.TrimSpace(word)); slices.Contains(fit.KnownNorms(), norm) {
			norms = append(norms, norm)
		}
	}
	return norms
}

// whole makes a number field take whole numbers only: screws and holes are
// counted.
func whole(f workflow.Field) workflow.Field {
	number := f
	number.Kind, number.Unit = workflow.Number, quantity.Plain
	f = number
	f.Read = func(shop workflow.Shop, typed string) (string, error) {
		kept, err := number.Accept(shop, typed)
		if err != nil {
			return "", err
		}
		if v, err := quantity.Parse(kept, quantity.Plain); err != nil || v != math.Trunc(v) {
			return "", calc.Faultf("field.whole", "%s: %s is no whole number; count again.", number.Label, kept)
		}
		return kept, nil
	}
	return f
}
