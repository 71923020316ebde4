package release

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"drillstop/calc"
)

// wishPercent is how far a request may go either way, in per cent of the
// computed value (ISO 8061:2004, 4.3.4 to 4.3.6).
const wishPercent = 15

// wishStep is the step of indicator values that a value held at 15 % is rounded
// down to: the finest that the chart has. Our rule, conservative.
const wishStep = 0.25

// Wish is what the skier asks for at the toe or at the heel: up to 15 % lower or
// higher than computed (ISO 8061:2004, 4.3.4 to 4.3.6). 15 % is about one row
// (derived): one row is what is applied, and where it is more than 15 %, Higher is
// held at 15 %. Lower keeps its row, on the safe side. OwnRisk is what the skier
// alone answers for (4.3.6): two rows, about 30 %, and a stop that is waived with
// its reason or holds. Nothing higher is ever given.
type Wish int

// The wishes.
const (
	Lower      Wish = -1
	AsComputed Wish = 0
	Higher     Wish = 1
	OwnRisk    Wish = 2
)

// ParseWish reads "lower", "higher", "own risk", and "as computed" or nothing.
// Anything else is a *calc.Fault release.wish.
func ParseWish(typed string) (Wish, error) {
	switch strings.ToLower(strings.TrimSpace(typed)) {
	case "lower":
		return Lower, nil
	case "", "as computed", "as-computed":
		return AsComputed, nil
	case "higher":
		return Higher, nil
	case "own risk", "own-risk":
		return OwnRisk, nil
	}
	return 0, fault("release.wish", "", "%q is not a request: say lower, higher, own risk or as computed.", short(typed))
}

// String is "lower", "as computed", "higher" or "own risk", and "?" for anything
// else.
func (w Wish) String() string {
	switch w {
	case Lower:
		return "lower"
	case AsComputed:
		return "as computed"
	case Higher:
		return "higher"
	case OwnRisk:
		return "own risk"
	default:
		return "?"
	}
}

// granted is what a request comes to at one piece.
type granted struct {
	row   int     // whose reference moment holds
	value float64 // to be set
}

func (w *walk) atToe() error {
	g, err := w.grant("toe", w.in.Toe)
	if err != nil {
		return err
	}
	r := w.chart.rows[g.row]
	w.result.ToeCode, w.result.Toe, w.result.Twist = r.code, g.value, r.twist
	return nil
}

func (w *walk) atHeel() error {
	g, err := w.grant("heel", w.in.Heel)
	if err != nil {
		return err
	}
	r := w.chart.rows[g.row]
	w.result.HeelCode, w.result.Heel, w.result.ForwardLean = r.code, g.value, r.lean
	return nil
}

// grant applies a request. The row it leads to needs a value of its own, also
// where less than that value is granted.
func (w *walk) grant(piece string, wish Wish) (granted, error) {
	asComputed := granted{w.row, w.result.Value}
	row, text := w.row+int(wish), piece+" "+wish.String()
	switch {
	case wish == AsComputed:
		return asComputed, nil
	case row < 0:
		w.nothingLighter("the request for the " + piece)
		w.wishHop(piece, w.row, text+" ("+w.code()+") -> "+plain(w.result.Value))
		return asComputed, nil
	case row >= len(w.chart.rows):
		return granted{}, w.noRow(piece, text)
	}
	value, err := w.valueIn(row, piece, " ("+text+")")
	if err != nil {
		return granted{}, err
	}
	if wish == Higher && beyondWish(value, w.result.Value) {
		return w.hold(piece, row, value), nil
	}
	w.wishFinding(piece, wish, row, value)
	w.wishHop(piece, row, fmt.Sprintf("%s (%s) -> %s", text, w.chart.rows[row].code, plain(value)))
	return granted{row, value}, nil
}

// beyondWish says whether a value is more than 15 % above the computed one. The
// slack keeps exactly 15 % from falling beyond by the last bit of a product.
func beyondWish(value, computed float64) bool {
	const slack = 1e-9
	return value*100 > computed*(100+wishPercent)+slack
}

// mostHigher is the most that a request may raise a computed value to: 15 % more,
// rounded down to the step, and never below the value itself.
func mostHigher(computed float64) float64 {
	return max(computed, math.Floor(computed*(100+wishPercent)/100/wishStep)*wishStep)
}

// hold grants 15 % of a row that would be more. The reference moment is that of
// the heavier row, since moments rise by 15 to 19 % a row (derived). Where there
// is no step within 15 % nothing is raised, and the reference stays as well:
// against the heavier one the unchanged setting would be found too low.
func (w *walk) hold(piece string, row int, value float64) granted {
	computed, code := w.result.Value, w.chart.rows[row].code
	g := granted{row, mostHigher(computed)}
	would := fmt.Sprintf("%s would be %s more", plain(value), morePercent(value, computed))
	if g.value > computed {
		w.add(calc.Cautionf("release.higher-"+piece, fromISO8061Wish+"; rounded down: "+fromOurRule,
			"%s higher on the skier's request: %s is %s more than the computed %s; row %s with %s, so it is held at %d %%. The reference is that of row %s. The reason belongs on the record.",
			title(piece), plain(g.value), morePercent(g.value, computed), plain(computed), code, would, wishPercent, code))
	} else {
		g.row = w.row
		w.add(calc.Cautionf("release.higher-"+piece, fromISO8061Wish+"; rounded down: "+fromOurRule,
			"%s higher on the skier's request cannot be granted: row %s with %s, and no step of %.2f lies within %d %%. The value %s and the reference of row %s stay.",
			title(piece), code, would, wishStep, wishPercent, plain(computed), w.code()))
	}
	w.wishHop(piece, g.row, fmt.Sprintf("%s higher -> %s, %s; held at %d %% -> %s", piece, code, would, wishPercent, plain(g.value)))
	return g
}

func (w *walk) wishHop(piece string, row int, text string) {
	w.result.Path = append(w.result.Path, Hop{What: piece, Code: w.chart.rows[row].code, Text: text})
}

// wishFinding puts a request that was granted as one whole row on the record.
func (w *walk) wishFinding(piece string, wish Wish, row int, value float64) {
	const sentence = "%s one row %s on the skier's request: row %s, %s, is %s than the computed %s%s. The reason belongs on the record."
	code, computed := w.chart.rows[row].code, w.result.Value
	if wish == OwnRisk {
		w.add(calc.Stopf("release.own-risk-"+piece, fromISO8061Wish+"; two rows: "+fromOurRule,
			"%s two rows higher by the skier's own choice: row %s, %s, is %s more than the computed %s, beyond the %d %% of a request. It is set only at the skier's own risk, signed for, and with a waiver.",
			title(piece), code, plain(value), morePercent(value, computed), plain(computed), wishPercent))
		return
	}
	if wish == Higher {
		w.add(calc.Cautionf("release.higher-"+piece, fromISO8061Wish, sentence,
			title(piece), wish, code, plain(value), morePercent(value, computed)+" more", plain(computed), ""))
		return
	}
	less, beyond := 100*(computed-value)/computed, ""
	if less > wishPercent {
		beyond = fmt.Sprintf(", more than %d %%", wishPercent)
	}
	w.add(calc.Notef("release.lower-"+piece, fromISO8061Wish, sentence, title(piece), wish, code, plain(value), percentText(less)+" less", plain(computed), beyond))
}

func title(piece string) string { return strings.ToUpper(piece[:1]) + piece[1:] }

func morePercent(value, computed float64) string {
	return percentText(100 * (value - computed) / computed)
}

// percentText prints whole per cent, or as many decimals as it takes that more
// than 15 % does not read as 15 %.
func percentText(percent float64) string {
	const most = 6
	for decimals := range most {
		text := strconv.FormatFloat(percent, 'f', decimals, 64)
		shown, err := strconv.ParseFloat(text, 64)
		if err == nil && (shown > wishPercent) == (percent > wishPercent) {
			return text + " %"
		}
	}
	return strconv.FormatFloat(percent, 'f', most, 64) + " %"
}
