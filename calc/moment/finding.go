package moment

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"drillstop/calc"
	"drillstop/calc/quantity"
)

// Limits of the spread of three readings and of the difference between the
// two skis: both must be passed, so that 3 Nm in the lightest rows and a few
// per cent in the heaviest are left alone. Our rule.
const (
	apartPercent                      = 15.0
	apartNm      quantity.NewtonMetre = 3
)

const (
	rangeSource  = "ranges: common practice, no formal source; 15 % or 3 Nm: ISO 8061 / ISO 11088 as summarised; the stricter decides: our rule"
	classSource  = "actions: DOI 10.1520/STP158220130158; limits of the class: from memory"
	spreadSource = "our rule"
)

// Sentence says the verdict in one line, such as "51 Nm is 2 % above the
// reference 50 Nm: inspection range, keep.", as a ticket prints it.
func (v Verdict) Sentence() string {
	said := v.rangeWords()
	if v.Class != ClassNone {
		said += ", class " + string(v.Class)
	}
	return fmt.Sprintf("%s: %s, %s.", v.position(), said, v.Action)
}

// position says where the middle value lies: "51 Nm is 2 % above the
// reference 50 Nm".
func (v Verdict) position() string {
	if v.DeviationNm == 0 {
		return fmt.Sprintf("%s is the reference", v.Middle)
	}
	side := "above"
	if v.DeviationNm < 0 {
		side = "below"
	}
	return fmt.Sprintf("%s is %s %% %s the reference %s", v.Middle, percentWords(v.DeviationPercent), side, v.Reference)
}

func (v Verdict) rangeWords() string {
	if v.Range == Outside {
		return "outside both ranges"
	}
	return string(v.Range) + " range"
}

// percentWords prints the size of a deviation in per cent, so that 15.01 %
// does not read as an acceptable 15 %.
func percentWords(percent float64) string {
	away := math.Abs(percent)
	return shortest(away, func(shown float64) bool { return shown > 0 && classOf(shown) == classOf(away) })
}

// rowsWords prints the size of a deviation in rows, so that a limit that was
// passed does not read as just reached.
func rowsWords(rows float64) string {
	away := math.Abs(rows)
	return shortest(away, func(shown float64) bool { return rangeOf(shown) == rangeOf(away) })
}

// shortest prints a value with one decimal, or with as many more, up to six,
// as it takes to still mean the same.
func shortest(value float64, means func(shown float64) bool) string {
	const most = 6
	for decimals := 1; decimals < most; decimals++ {
		text := strconv.FormatFloat(value, 'f', decimals, 64)
		if shown, err := strconv.ParseFloat(text, 64); err == nil && means(shown) {
			return strings.TrimSuffix(text, ".0")
		}
	}
	return strconv.FormatFloat(value, 'f', most, 64)
}

// findings lists what the technician has to hear about this verdict.
func (v Verdict) findings() []calc.Finding {
	var found []calc.Finding
	if f, ok := v.deviationFinding(); ok {
		found = append(found, f)
	}
	if apart(v.Spread, v.Middle) {
		found = append(found, calc.Cautionf("moment.spread", spreadSource,
			"The three readings in %s lie %s apart, %s %% of their middle value %s: more than 15 %% and 3 Nm; clean boot and binding, release once each way and read again.",
			v.Direction, v.Spread, percentWords(float64(v.Spread)/float64(v.Middle)*100), v.Middle))
	}
	return found
}

// deviationFinding holds the job unless the binding may be kept as it is. A
// binding to be taken out of service cannot be waived: only new readings
// after a repair lift it.
func (v Verdict) deviationFinding() (calc.Finding, bool) {
	if v.Action == Keep {
		return calc.Finding{}, false
	}
	danger, code := "the binding may not release when it must", "moment.high"
	if v.DeviationNm < 0 {
		danger, code = "the binding may release when it must not", "moment.low"
	}
	seen := fmt.Sprintf("In %s %s (%s rows), %s", v.Direction, v.position(), rowsWords(v.DeviationRows), danger)
	switch v.Action {
	case Correct:
		return calc.Stopf(code, rangeSource, "%s: %s%s, correct the setting and test again.", seen, v.rangeWords(), v.classWords()), true
	case SeekCause:
		return calc.Stopf(code, rangeSource, "%s: %s%s, do not hand over; look for the cause in forward pressure, toe height, a worn or dirty gliding surface, a sole out of norm.", seen, v.rangeWords(), v.classWords()), true
	default: // TakeOut, the only one left
		f := calc.Stopf(code, classSource, "%s: class III, take the binding out of service.", seen)
		f.Never = true
		return f, true
	}
}

func (v Verdict) classWords() string {
	if v.Class == ClassNone {
		return ""
	}
	return ", class " + string(v.Class)
}

// apart says whether a difference passes both limits.
func apart(difference, of quantity.NewtonMetre) bool {
	return difference > apartNm+roundingSlack && float64(difference) > float64(of)*apartPercent/100+roundingSlack
}
