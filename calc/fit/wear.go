package fit

import (
	"drillstop/calc"
	"drillstop/calc/quantity"
)

const wearSource = "DOI 10.1111/sms.13391, mean toe wear with and without injury, not a reject limit"

// Mean toe wear, in mm, without and with an injury in that study, and the most
// that can be meant by wear at all: the toe of an alpine sole is 19 mm high.
// Source: DOI 10.1111/sms.13391; the highest value is our rule.
const (
	toeWearNote    quantity.Millimetre = 2.4
	toeWearCaution quantity.Millimetre = 4.8
	toeWearMost    quantity.Millimetre = 19
)

// Wear checks the state of one boot. Damage is a stop, which a supervisor may
// waive with a reason. Toe wear above 2.4 mm is a note, above 4.8 mm a caution:
// the study behind these numbers compares means and gives no limit.
func Wear(boot Boot) []calc.Finding {
	var found []calc.Finding
	if boot.Damaged {
		found = append(found, calc.Stopf("fit.boot-damaged", practice,
			"The boot is damaged: neither a value nor a test holds for a sole that gives way; it needs repair or another boot."))
	}
	switch worn := boot.WornToe; {
	case !within(worn, 0, toeWearMost):
		found = append(found, never(calc.Stopf("fit.wear-unusable", ourRule,
			"Toe wear %s cannot be: it is 0 to %s.", worn, toeWearMost)))
	case worn > toeWearCaution+slack:
		found = append(found, calc.Cautionf("fit.toe-worn", wearSource,
			"The toe is worn by %s, above the %s that went with injuries in a study: no limit, but renew the sole if it can be.", worn, toeWearCaution))
	case worn > toeWearNote+slack:
		found = append(found, calc.Notef("fit.toe-wear", wearSource,
			"The toe is worn by %s, above the %s of uninjured skiers in a study: no limit, look again before next season.", worn, toeWearNote))
	}
	return found
}
