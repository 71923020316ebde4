package quantity

import (
	"strings"

	"drillstop/calc"
)

// longestList is how many characters a typed list may have. Our own limit.
const longestList = 4096

// ParseList reads several values of one unit, such as the three readings of a
// release test, and returns them in the unit want, in the order typed.
//
// What separates them: semicolons or slashes; commas followed by a space; commas
// alone, if there are at least two of them or the numbers have decimal points;
// or spaces. Next to semicolons, slashes or spaces a comma is a decimal sign
// ("49,5 51,0 52"). The unit stands nowhere, behind every value, or once at the
// end, where it counts for all of them.
//
// n > 0 asks for exactly n values; n == 0 accepts any number of them, at least
// one. Faults: those of Parse, and quantity.count (how many were found),
// quantity.ambiguous (a comma that could be either: "49,51"), quantity.list-unit.
func ParseList(typed string, want Unit, n int) ([]float64, error) {
	if n < 0 {
		return nil, calc.Faultf("quantity.count", "A list of %d values cannot be asked for.", n)
	}
	parts, err := listParts(clean(typed), n)
	if err != nil {
		return nil, err
	}
	if n > 0 && len(parts) != n {
		return nil, calc.Faultf("quantity.count", "%s holds %s: exactly %d needed.", show(typed), counted(len(parts)), n)
	}
	if err := spreadUnit(parts, typed); err != nil {
		return nil, err
	}
	values := make([]float64, len(parts))
	for i, p := range parts {
		if values[i], err = convert(p, want, typed); err != nil {
			return nil, err
		}
	}
	return values, nil
}

func counted(n int) string {
	if n == 1 {
		return "1 number"
	}
	return Print(float64(n), Plain) + " numbers"
}

// listParts cuts the list at its separators.
func listParts(text string, n int) ([]part, error) {
	if strings.ContainsAny(text, ";/") {
		return eachPart(strings.Split(strings.ReplaceAll(text, "/", ";"), ";"), text)
	}
	spaced, tight := commas(text)
	switch {
	case spaced > 0 && tight > 0:
		return nil, ambiguous(text)
	case spaced > 0:
		return eachPart(strings.Split(text, ","), text)
	case tight == 0 || hasSpacedNumbers(text):
		return scan(text, longestList)
	case tight == 1 && n == 1:
		return scan(text, longestList) // one value was asked for: its decimal comma
	case tight == 1 && n != 1 && n <= 2 && !strings.Contains(text, "."):
		return nil, ambiguous(text)
	}
	return eachPart(strings.Split(text, ","), text)
}

func ambiguous(text string) error {
	return calc.Faultf("quantity.ambiguous", "%s can be read in two ways: put spaces or semicolons between the values and use the comma for decimals only, such as 49,5 51,0 52.", show(text))
}

// commas counts those that have a space or an end of the text beside them and
// those that have none.
func commas(text string) (spaced, tight int) {
	for i := 0; i < len(text); i++ {
		if text[i] != ',' {
			continue
		}
		if i == 0 || i == len(text)-1 || text[i-1] == ' ' || text[i+1] == ' ' {
			spaced++
		} else {
			tight++
		}
	}
	return spaced, tight
}

// hasSpacedNumbers tells "49,5 51,0" (spaces separate) from "49,51,52 Nm".
func hasSpacedNumbers(text string) bool {
	words := strings.Fields(text)
	for _, word := range words[1:] {
		if strings.ContainsAny(word, "0123456789") {
			return true
		}
	}
	return false
}

// eachPart reads every piece as exactly one number with an optional unit.
func eachPart(pieces []string, text string) ([]part, error) {
	parts := make([]part, 0, len(pieces))
	for _, piece := range pieces {
		if strings.TrimSpace(piece) == "" {
			return nil, calc.Faultf("quantity.empty", "%s: no value stands beside one of its separators.", show(text))
		}
		found, err := scan(piece, longest)
		if err != nil {
			return nil, err
		}
		if len(found) != 1 {
			return nil, calc.Faultf("quantity.two-numbers", "%s in %s holds %d numbers between two separators.", show(piece), show(text), len(found))
		}
		parts = append(parts, found[0])
	}
	return parts, nil
}

// spreadUnit gives every value the unit that stands once at the end, and
// refuses lists in which it is not clear what a unit belongs to.
func spreadUnit(parts []part, typed string) error {
	last := parts[len(parts)-1].word
	every, none := true, true
	for _, p := range parts[:len(parts)-1] {
		every = every && strings.EqualFold(p.word, last)
		none = none && p.word == ""
	}
	if !every && !none {
		return calc.Faultf("quantity.list-unit", "%s: write the unit once at the end, or the same unit behind every value.", show(typed))
	}
	for i := range parts {
		parts[i].word = last
	}
	return nil
}
