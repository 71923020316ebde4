package moment

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"drillstop/calc"
	"drillstop/calc/quantity"
)

const (
	rangeSource = "ranges: common practice, no formal source; 15 % or 3 Nm: ISO 8061 / ISO 11088 as summarised; the stricter decides: our rule"
	classSource = "actions: DOI 10.1520/STP158220130158; class: limits from memory, in Nm our rule"
	ourRule     = "our rule"
)

// Sentence says the verdict in one line, such as "51 Nm is 2 % above the
// reference 50 Nm: inspection range, keep.", as a ticket prints it.
func (v Verdict) Sentence() string {
	said := v.rangeWords() + v.classWords()
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
	return shortest(away, func(shown float64) bool { return shown > 0 && classByPercent(shown) == classByPercent(away) })
}

// rowsWords prints the size of a deviation in rows, so that a limit that was
// passed does not read as just reached: "1 row", "1.8 rows".
func rowsWords(rows float64) string {
	away := math.Abs(rows)
	text := shortest(away, func(shown float64) bool { return rangeOf(shown) == rangeOf(away) })
	return text + plural(text, " row")
}

// plural puts a word into the number that a printed figure asks for.
func plural(figure, word string) string {
	if figure == "1" {
		return word
	}
	return word + "s"
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

// findings lists what the technician has to hear about this verdict and its
// sorted readings.
func (v Verdict) findings(sorted []quantity.NewtonMetre) []calc.Finding {
	var found []calc.Finding
	if f, ok := v.deviationFinding(); ok {
		found = append(found, f)
	}
	found = append(found, v.spreadFindings()...)
	return append(found, v.farReadings(sorted)...)
}

// deviationFinding holds the job unless the binding may be kept as it is. A
// binding to be taken out of service cannot be waived: only new readings
// after a repair lift it.
func (v Verdict) deviationFinding() (calc.Finding, bool) {
	if v.Action == Keep {
		return calc.Finding{}, false
	}
	danger, code := "the binding may fail to release when it must", "moment.high"
	if v.DeviationNm < 0 {
		danger, code = "the binding may release when it must not", "moment.low"
	}
	seen := fmt.Sprintf("In %s %s (%s), %s", v.Direction, v.position(), rowsWords(v.DeviationRows), danger)
	switch v.Action {
	case Correct:
		return calc.Stopf(code, rangeSource, "%s: %s%s, correct the setting and test again.", seen, v.rangeWords(), v.classWords()), true
	case SeekCause:
		return calc.Stopf(code, v.seekSource(), "%s: %s%s, do not hand over; look for the cause in forward pressure, toe height, a worn or dirty gliding surface, a sole out of norm.", seen, v.rangeWords(), v.classWords()), true
	default: // TakeOut, the only one left
		f := calc.Stopf(code, classSource, "%s: class III, take the binding out of service.", seen)
		f.Never = true
		return f, true
	}
}

// seekSource is the source of a cause to be sought: what is said of class II
// rests on limits that the range does not.
func (v Verdict) seekSource() string {
	if v.Class == ClassII {
		return rangeSource + "; class II: limits from memory, in Nm our rule"
	}
	return rangeSource
}

// classWords says the class, and the Nm that made it milder than the per cent.
func (v Verdict) classWords() string {
	if v.Class == ClassNone {
		return ""
	}
	if v.Class == classByPercent(v.DeviationPercent) {
		return ", class " + string(v.Class)
	}
	return fmt.Sprintf(", class %s by %s", v.Class, quantity.NewtonMetre(math.Abs(float64(v.DeviationNm))))
}
