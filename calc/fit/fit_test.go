package fit_test

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"drillstop/calc"
	"drillstop/calc/fit"
	"drillstop/calc/quantity"
)

var (
	nan = math.NaN()
	inf = math.Inf(1)
)

// hybrid is an invented binding that takes three norms.
var hybrid = fit.Binding{
	Kind:  fit.KindHybrid,
	Norms: []fit.Norm{fit.NormAlpineAdult, fit.NormTouring, fit.NormWalkAdult}, ScaleMin: 4, ScaleMax: 12,
	SoleMin: 260, SoleMax: 360, TrackMin: 290, TrackMax: 340, Brake: 110,
}

// boot is an invented boot that belongs to it.
var boot = fit.Boot{Norm: fit.NormTouring, Sole: 318, Shell: 27.5, Inserts: true}

// records reads a file of check values, its heading taken off. Every record
// must name its source.
func records(t testing.TB, name string) [][]string {
	t.Helper()
	file, err := os.Open("../../testdata/fit/" + name)
	require.NoError(t, err)
	defer func() { require.NoError(t, file.Close()) }()
	all, err := csv.NewReader(file).ReadAll()
	require.NoError(t, err)
	require.Greater(t, len(all), 1)
	require.Equal(t, "source", all[0][len(all[0])-1])
	for _, record := range all[1:] {
		require.NotEmpty(t, record[len(record)-1], "no source: %v", record)
	}
	return all[1:]
}

func number(t testing.TB, text string) float64 {
	t.Helper()
	value, err := strconv.ParseFloat(text, 64)
	require.NoError(t, err)
	return value
}

func millimetres(t testing.TB, text string) quantity.Millimetre {
	t.Helper()
	return quantity.Millimetre(number(t, text))
}

func codes(found []calc.Finding) []string {
	all := []string{}
	for _, f := range found {
		all = append(all, f.Code)
	}
	return all
}

// requireOne compares with a record's level and code; both empty mean that
// nothing is found.
func requireOne(t *testing.T, found []calc.Finding, level, code string, record []string) {
	t.Helper()
	if code == "" {
		require.Empty(t, found, record)
		return
	}
	require.Len(t, found, 1, record)
	require.Equal(t, calc.Level(level), found[0].Level, record)
	require.Equal(t, code, found[0].Code, record)
	require.NotEmpty(t, found[0].Source, record)
}

func TestPublishedNorms(t *testing.T) {
	for _, record := range records(t, "norms.csv") {
		var b fit.Binding
		b.Kind = fit.Kind(record[0])
		for norm := range strings.SplitSeq(record[1], ";") {
			b.Norms = append(b.Norms, fit.Norm(norm))
		}
		found := fit.Norms(b, fit.Boot{Norm: fit.Norm(record[2]), Inserts: record[3] == "yes"})
		require.Equal(t, record[4], strings.Join(codes(found), ";"), record)
		for _, f := range found {
			require.Equal(t, f.Level == calc.Stop, f.Never, "a boot that may not be released cannot be waived: %v", f)
		}
	}
}

func TestPublishedBrakes(t *testing.T) {
	for _, record := range records(t, "brakes.csv") {
		requireOne(t, fit.Brake(fit.Binding{Brake: millimetres(t, record[1])}, millimetres(t, record[0])), record[2], record[3], record)
	}
	found := fit.Brake(fit.Binding{Brake: 95}, 98)
	require.Equal(t, "Brake 95 mm is narrower than the waist 98 mm: needs a brake of 98 to 118 mm.", found[0].Text)
	require.False(t, found[0].Never)
}

// Without a brake a pin binding is a caution (from memory), any other a stop that
// may be waived (our rule).
func TestNoBrake(t *testing.T) {
	for _, kind := range append(fit.Kinds(), "") {
		b := hybrid
		b.Kind, b.Brake = kind, 0
		found := fit.Brake(b, 98)
		require.Equal(t, []string{"fit.brake-none"}, codes(found))
		require.False(t, found[0].Never)
		if kind == fit.KindPin {
			require.Equal(t, calc.Caution, found[0].Level)
			require.Equal(t, "from memory", found[0].Source)
			continue
		}
		require.Equal(t, calc.Stop, found[0].Level, kind)
		require.Equal(t, "our rule", found[0].Source)
		require.Equal(t, "There is no brake: a ski that comes off runs away; it needs a brake of 98 to 118 mm, or a leash and a supervisor's word.", found[0].Text)
	}
	pin := fit.Binding{Kind: fit.KindPin, Brake: 95}
	require.Equal(t, fit.Brake(fit.Binding{Brake: 95}, 98), fit.Brake(pin, 98), "a brake that is there is judged alike")
}

func TestPublishedShells(t *testing.T) {
	for _, record := range records(t, "shells.csv") {
		requireOne(t, fit.ShellSize(millimetres(t, record[0]), number(t, record[1])), record[2], record[3], record)
	}
	require.Equal(t, "275 mm looks like the shell size 27.5: the sole length is the three-digit number at the heel, for this shell about 300 mm to 330 mm.",
		fit.ShellSize(275, 27.5)[0].Text)
}

func TestPublishedScales(t *testing.T) {
	for _, record := range records(t, "scales.csv") {
		b := fit.Binding{ScaleMin: number(t, record[1]), ScaleMax: number(t, record[2])}
		found := fit.Scale(number(t, record[0]), b, "toe")
		requireOne(t, found, record[3], record[4], record)
		for _, f := range found {
			require.Equal(t, f.Level == calc.Stop, f.Never, "off the scale cannot be waived: %v", f)
			require.Contains(t, f.Text, "(toe)")
		}
	}
	require.Contains(t, fit.Scale(1, hybrid, "")[0].Text, "Value 1 (release)")
}

func TestPublishedWear(t *testing.T) {
	for _, record := range records(t, "wear.csv") {
		requireOne(t, fit.Wear(fit.Boot{WornToe: millimetres(t, record[0])}), record[1], record[2], record)
	}
	found := fit.Wear(fit.Boot{WornToe: 5, Damaged: true})
	require.Equal(t, []string{"fit.boot-damaged", "fit.toe-worn"}, codes(found))
	require.Equal(t, calc.Stop, found[0].Level)
	require.False(t, found[0].Never, "a supervisor may waive damage")
}

func TestNormsNeedTheCard(t *testing.T) {
	for code, c := range map[string]struct {
		b    fit.Binding
		boot fit.Boot
	}{
		"fit.kind-unknown":  {fit.Binding{Kind: "rope", Norms: hybrid.Norms}, boot},
		"fit.norms-missing": {fit.Binding{Kind: fit.KindAlpine}, boot},
		"fit.norm-unknown":  {hybrid, fit.Boot{}},
	} {
		found := fit.Norms(c.b, c.boot)
		require.Equal(t, []string{code}, codes(found))
		require.True(t, found[0].Never)
	}
	odd := fit.Binding{Kind: fit.KindAlpine, Norms: []fit.Norm{"ISO 5355"}}
	require.Equal(t, []string{"fit.norm-unknown"}, codes(fit.Norms(odd, boot)), "a card with an unknown norm")
}

func TestSoleLength(t *testing.T) {
	with := func(sole quantity.Millimetre) fit.Boot { return fit.Boot{Sole: sole} }
	for _, c := range []struct {
		name        string
		b           fit.Binding
		left, right quantity.Millimetre
		want        []string
	}{
		{"inside both", hybrid, 318, 318, []string{}},
		{"lower end of the track", hybrid, 290, 290, []string{}},
		{"upper end of the track", hybrid, 340, 340, []string{}},
		{"too short for the track", hybrid, 289, 289, []string{"fit.sole-range"}},
		{"too long for both", hybrid, 361, 361, []string{"fit.sole-range", "fit.sole-range"}},
		{"no track", fit.Binding{SoleMin: 260, SoleMax: 360}, 270, 270, []string{}},
		{"nothing on the card", fit.Binding{}, 318, 318, []string{"fit.template-unknown"}},
		{"one boot outside", hybrid, 318, 345, []string{"fit.sole-range", "fit.pair-sole"}},
		{"half a millimetre is nothing", hybrid, 318, 318.5, []string{}},
		{"a pair that is none", hybrid, 318, 319, []string{"fit.pair-sole"}},
		{"shell size for sole", hybrid, 27.5, 27.5, []string{"fit.sole-unusable"}},
		{"the shortest that can be typed", fit.Binding{}, quantity.MinSole, quantity.MinSole, []string{"fit.template-unknown"}},
		{"the longest that can be typed", fit.Binding{}, quantity.MaxSole, quantity.MaxSole, []string{"fit.template-unknown"}},
		{"longer than can be typed", fit.Binding{}, quantity.MaxSole + 1, quantity.MaxSole + 1, []string{"fit.sole-unusable"}},
		{"range upside down", fit.Binding{SoleMin: 360, SoleMax: 260}, 318, 318, []string{"fit.range-unusable"}},
		{"track without end", fit.Binding{SoleMin: 260, SoleMax: 360, TrackMin: 290, TrackMax: quantity.Millimetre(inf)}, 318, 318, []string{"fit.range-unusable"}},
	} {
		require.Equal(t, c.want, codes(fit.SoleLength(c.b, with(c.left), with(c.right))), c.name)
	}
	found := fit.SoleLength(hybrid, with(318), with(345))
	require.Equal(t, "Right boot: Sole 345 mm is longer than the heel track reaches: it takes 290 mm to 340 mm.", found[0].Text)
	require.Equal(t, calc.Stop, found[0].Level)
	require.True(t, found[0].Never, "the binding cannot be set to it")
	found = fit.SoleLength(hybrid, with(280), with(280))
	require.Equal(t, "Sole 280 mm is shorter than the heel track reaches: it takes 290 mm to 340 mm.", found[0].Text)
}

// The tolerances of a pair: our rule. The stop may be waived.
func TestPairOfSoles(t *testing.T) {
	for right, want := range map[quantity.Millimetre]calc.Level{
		318.5: "", 318.6: calc.Caution, 323: calc.Caution, 313: calc.Caution, 323.1: calc.Stop, 312.9: calc.Stop,
	} {
		found := fit.SoleLength(hybrid, fit.Boot{Sole: 318}, fit.Boot{Sole: right})
		require.Equal(t, want != "", len(found) == 1, right)
		if want != "" {
			require.Equal(t, want, found[0].Level, right)
			require.Equal(t, "fit.pair-sole", found[0].Code)
			require.False(t, found[0].Never)
		}
	}
	require.Equal(t, "The left sole is 318 mm long, the right 324 mm: a pair has one length; read the three-digit number at both heels again. More than 5 mm apart they are not one pair.",
		fit.SoleLength(hybrid, fit.Boot{Sole: 318}, fit.Boot{Sole: 324})[0].Text)
}

func TestCheck(t *testing.T) {
	require.Empty(t, fit.Check(hybrid, boot, boot, 98))

	traps := hybrid
	traps.Norms, traps.Brake = []fit.Norm{fit.NormAlpineAdult}, 95
	trap := boot
	trap.Sole = 275
	require.Equal(t, []string{"fit.norm", "fit.sole-range", "fit.shell-for-sole", "fit.brake-narrow"}, codes(fit.Check(traps, trap, trap, 98)),
		"what holds for both boots is said once")

	other := boot
	other.Norm, other.Damaged = fit.NormAlpineAdult, true
	found := fit.Check(hybrid, boot, other, 98)
	require.Equal(t, []string{"fit.pair-norm", "fit.boot-damaged"}, codes(found))
	require.Contains(t, found[1].Text, "Right boot: ")
	found = fit.Check(hybrid, other, boot, 98)
	require.Contains(t, found[1].Text, "Left boot: ")
}
