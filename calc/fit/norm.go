package fit

import (
	"slices"
	"strings"

	"drillstop/calc"
)

const normSource = "scopes of ISO 5355, ISO 9523 and ISO 23223; mixing only where both makers declare it: common practice"

// Norm is the standard that a boot sole is made to.
type Norm string

// The sole norms; A is adult, C is child.
const (
	NormAlpineAdult Norm = "ISO 5355 A"
	NormAlpineChild Norm = "ISO 5355 C"
	NormTouring     Norm = "ISO 9523"
	NormWalkAdult   Norm = "ISO 23223 A"
	NormWalkChild   Norm = "ISO 23223 C"
)

// KnownNorms lists every sole norm, in the order in which a form offers them.
func KnownNorms() []Norm {
	return []Norm{NormAlpineAdult, NormAlpineChild, NormTouring, NormWalkAdult, NormWalkChild}
}

// Norms checks whether this binding can hold and release this boot.
//
// A boot whose norm is not among those that the binding declares, a pin binding
// under a boot without inserts, and a norm or kind that is not known are stops
// that nobody may waive: what releases the boot is then unknown.
//
// Source: scopes of ISO 5355, ISO 9523, ISO 23223; common practice.
func Norms(b Binding, boot Boot) []calc.Finding {
	if f, unclear := unclear(b, boot); unclear {
		return []calc.Finding{f}
	}
	var found []calc.Finding
	if f, bad := normFinding(b, boot); bad {
		found = append(found, f)
	}
	if b.Kind == KindPin && !boot.Inserts {
		found = append(found, never(calc.Stopf("fit.inserts-missing", practice,
			"A pin binding holds the boot by its inserts, and this boot has none: it needs a boot with touring inserts or another kind of binding.")))
	}
	return found
}

// unclear names what must be known before norms can be compared at all.
func unclear(b Binding, boot Boot) (calc.Finding, bool) {
	if !slices.Contains(Kinds(), b.Kind) {
		return never(calc.Stopf("fit.kind-unknown", ourRule,
			"%q is not a kind of binding: it is alpine, hybrid, pin, frame or system track.", string(b.Kind))), true
	}
	if len(b.Norms) == 0 {
		return never(calc.Stopf("fit.norms-missing", normSource,
			"The binding card names no sole norm: read on the binding or in its maker's sheet which soles it takes.")), true
	}
	for _, norm := range append(slices.Clone(b.Norms), boot.Norm) {
		if !slices.Contains(KnownNorms(), norm) {
			return never(calc.Stopf("fit.norm-unknown", normSource,
				"%q is not a sole norm: it is one of %s.", string(norm), list(KnownNorms()))), true
		}
	}
	return calc.Finding{}, false
}

// normFinding compares the boot's norm with those the binding declares.
func normFinding(b Binding, boot Boot) (calc.Finding, bool) {
	declared := slices.Contains(b.Norms, boot.Norm)
	touringInAlpine := boot.Norm == NormTouring && !b.Kind.Tours()
	switch {
	case touringInAlpine && !declared:
		return never(calc.Stopf("fit.norm-touring", normSource+"; toe heights: from memory",
			"A touring sole, %s, in an alpine binding for %s: its toe is about 25 mm high and not 19 mm, the binding cannot be trusted to release it; it needs a binding that declares %s.",
			boot.Norm, list(b.Norms), boot.Norm)), true
	case touringInAlpine:
		return calc.Cautionf("fit.norm-touring-declared", normSource,
			"The card of this %s binding declares the touring sole %s, which is rare: mix only where both makers, of boot and of binding, say so; read it on both.",
			b.Kind, boot.Norm), true
	case !declared:
		return never(calc.Stopf("fit.norm", normSource,
			"Sole norm %s is not among those the binding declares, %s: it cannot be trusted to release this boot; mix only where both makers declare it.",
			boot.Norm, list(b.Norms))), true
	}
	return calc.Finding{}, false
}

func list(norms []Norm) string {
	words := make([]string, len(norms))
	for i, n := range norms {
		words[i] = string(n)
	}
	return strings.Join(words, ", ")
}
