package steps

import (
	"fmt"
	"strings"

	"drillstop/calc"
	"drillstop/calc/layout"
	"drillstop/workflow"
)

// mostNames is how many patterns a sentence names before it counts the rest.
const mostNames = 6

// patternField asks for a hole pattern of the shop's library.
func patternField(id workflow.FieldID, label, hint string) workflow.Field {
	return mountsOnly(workflow.Field{ID: id, Label: label, Hint: hint, Kind: workflow.Text, Read: readPattern, Optional: true})
}

// readPattern reads the name of a hole pattern of the shop's library: whole in
// any case, or a beginning that fits just one. It keeps the name as the library
// has it. Anything else is the fault "pattern.unknown" or "pattern.several",
// which names what the library has.
func readPattern(shop workflow.Shop, typed string) (string, error) {
	if _, ok := shop.Pattern(typed); ok {
		return typed, nil
	}
	var begin []string
	for _, p := range shop.Patterns {
		if strings.EqualFold(p.Name, typed) {
			return p.Name, nil
		}
		if strings.HasPrefix(strings.ToLower(p.Name), strings.ToLower(typed)) {
			begin = append(begin, p.Name)
		}
	}
	switch {
	case len(begin) == 1:
		return begin[0], nil
	case len(begin) > 1:
		return "", calc.Faultf("pattern.several", "%q can be %s: write which.", typed, someNames(begin))
	case len(shop.Patterns) == 0:
		return "", calc.Faultf("pattern.unknown", "The shop has no hole pattern yet: import one, or leave this empty.")
	}
	names := make([]string, len(shop.Patterns))
	for i, p := range shop.Patterns {
		names[i] = p.Name
	}
	return "", calc.Faultf("pattern.unknown", "The shop has no hole pattern %q; it has %s.", typed, someNames(names))
}

func someNames(names []string) string {
	if more := len(names) - mostNames; more > 0 {
		names = append(names[:mostNames:mostNames], fmt.Sprintf("%d more", more))
	}
	return strings.Join(names, ", ")
}

// patternOf is the hole pattern of the job's binding; false where none was
// named, or the library no longer has it.
func patternOf(shop workflow.Shop, job workflow.Job) (*layout.Pattern, bool) {
	return shop.Pattern(job.Text(Binding, "pattern", workflow.Both))
}

// holesOf is how many holes a pattern has under the toe piece, under the heel
// piece, and under whatever else is screwed to the ski.
func holesOf(p *layout.Pattern) (toe, heel, other int) {
	for _, piece := range p.Pieces {
		switch piece.Kind {
		case layout.Toe:
			toe += len(piece.Holes)
		case layout.Heel:
			heel += len(piece.Holes)
		case layout.Brake, layout.Plate:
			other += len(piece.Holes)
		}
	}
	return toe, heel, other
}

// locksToe says whether a screw of the pattern locks the toe piece in place.
func locksToe(p *layout.Pattern) bool {
	for _, h := range p.Piece(layout.Toe).Holes {
		if h.Locking {
			return true
		}
	}
	return false
}

// checkPattern holds the pattern that was named against the binding in the
// hand: a wrong pattern puts every hole in the wrong place.
func checkPattern(shop workflow.Shop, job workflow.Job) []calc.Finding {
	name := job.Text(Binding, "pattern", workflow.Both)
	if name == "" {
		return nil
	}
	p, ok := patternOf(shop, job)
	if !ok {
		return []calc.Finding{calc.Cautionf("binding.pattern-gone", ourRule,
			"The shop has no hole pattern %q any more: where the holes fall cannot be computed.", name)}
	}
	var found []calc.Finding
	if p.Invented {
		found = append(found, calc.Cautionf("binding.pattern-invented", ourRule,
			"The hole pattern %q is invented, for practice: never drill a real ski by it.", p.Name))
	}
	return append(found, checkScrewsOfPattern(job, p)...)
}

func checkScrewsOfPattern(job workflow.Job, p *layout.Pattern) []calc.Finding {
	var found []calc.Finding
	toe, heel, other := holesOf(p)
	screwsToe, screwsHeel := screwsOfPiece(job)
	if screwsToe != toe || screwsHeel != heel && screwsHeel != heel+other {
		found = append(found, calc.Stopf("binding.pattern-screws", ourRule,
			"The hole pattern %q has %d holes at the toe and %d at the heel (%d more under brake or plate), the binding %d and %d screws: count them again, or take its own pattern.",
			p.Name, toe, heel, other, screwsToe, screwsHeel))
	}
	if locks := locksToe(p); locks != lockingScrew(job) {
		says := "has no locking screw under the toe piece, the binding has a centre screw there"
		if locks {
			says = "has a locking screw under the toe piece, the binding no centre screw there"
		}
		found = append(found, calc.Stopf("binding.pattern-locking", ourRule,
			"The hole pattern %q %s: look again, or take its own pattern.", p.Name, says))
	}
	return found
}
