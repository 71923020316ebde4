package moment

import (
	"math"

	"drillstop/calc"
	"drillstop/calc/quantity"
)

// lubricatedPercent is how far a lubricated sole may release from the clean one,
// in per cent of the clean one. Source: ASTM F1063-09(2014) 3.1.1.
const lubricatedPercent = 20.0

const lubricatedSource = "within 20 % of the clean one: ASTM F1063-09(2014) 3.1.1; what it points to: our rule"

// Lubricated compares the verdict on a lubricated boot sole with the one on the
// same sole when it was clean, same ski and direction, by their middle values. A
// difference of more than 20 % of the clean one either way is a caution: then it
// is rubbing that holds the boot, and not the spring.
//
// Verdicts that Judge did not make, or of two directions, are a stop that says
// so: nothing can be compared.
//
// Source: ASTM F1063-09(2014) 3.1.1.
func Lubricated(clean, lubricated Verdict) []calc.Finding {
	if clean.Direction != lubricated.Direction || !(clean.Middle > 0) || !(lubricated.Middle > 0) {
		f := calc.Stopf("moment.lubricated-unknown", ourRule, "Clean %s in %q and lubricated %s in %q cannot be compared: read the same ski in the same direction.",
			clean.Middle, clean.Direction, lubricated.Middle, lubricated.Direction)
		f.Never = true
		return []calc.Finding{f}
	}
	percent := percentOf(lubricated.Middle, clean.Middle)
	if isWithinLubricated(percent) {
		return nil
	}
	side, look := "below", "clean or replace the gliding surface, wash the sole, and look for wear"
	if percent > 0 {
		side, look = "above", "a lubricated sole should not hold more; clean both and test again"
	}
	away := shortest(math.Abs(percent), func(shown float64) bool { return !isWithinLubricated(shown) })
	return []calc.Finding{calc.Cautionf("moment.lubricated", lubricatedSource,
		"In %s the lubricated sole releases at %s, %s %% %s the clean one's %s, more than %s %%: %s.",
		clean.Direction, lubricated.Middle, away, side, clean.Middle, quantity.Print(lubricatedPercent, quantity.Plain), look)}
}

func isWithinLubricated(percent float64) bool {
	return math.Abs(percent) <= lubricatedPercent+roundingSlack
}
