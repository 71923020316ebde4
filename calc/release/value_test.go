package release

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"drillstop/calc"
	"drillstop/calc/quantity"
)

// loaded is the embedded chart.
func loaded(t require.TestingT) *Chart {
	chart, err := Default()
	require.NoError(t, err)
	return chart
}

// designSkier is the invented skier of the design paper.
func designSkier() Input {
	return Input{Mass: 72, Height: 175, Age: 34, Type: TypeII, Sole: 318}
}

// faultOf asserts that err is a Fault of that code and field and returns its
// sentence.
func faultOf(t require.TestingT, err error, code, field string) string {
	var f *calc.Fault
	require.ErrorAs(t, err, &f)
	require.Equal(t, code, f.Code, f.Sentence)
	require.Equal(t, field, f.Field, f.Sentence)
	require.Regexp(t, `\.$`, f.Sentence)
	return f.Sentence
}

// finding is the one finding of that code; it must have a source.
func finding(t require.TestingT, r Result, code string) calc.Finding {
	var found []calc.Finding
	for _, f := range r.Findings {
		require.NotEmpty(t, f.Source, f.Code)
		if f.Code == code {
			found = append(found, f)
		}
	}
	require.Len(t, found, 1, code)
	return found[0]
}

// codes are the codes of the findings, without the chart's caveat.
func codes(r Result) []string {
	list := []string{}
	for _, f := range r.Findings {
		if f.Code != "release.chart-caveat" {
			list = append(list, f.Code)
		}
	}
	return list
}

// The example of the design paper; its cell and moments are from memory.
func TestDesignExample(t *testing.T) {
	r, err := loaded(t).Value(designSkier())
	require.NoError(t, err)
	assert.Equal(t, "mass 72 kg -> K, height 175 cm -> K, type II -> L, sole 318 mm -> 6", r.PathText())
	assert.Equal(t, []Hop{
		{"mass", "K", "mass 72 kg -> K"}, {"height", "K", "height 175 cm -> K"},
		{"type", "L", "type II -> L"}, {"sole", "L", "sole 318 mm -> 6"},
	}, r.Path)
	assert.Equal(t, "L", r.Code)
	assert.Equal(t, []float64{6, 6, 6}, []float64{r.Value, r.Toe, r.Heel})
	assert.Equal(t, "50 Nm", r.Twist.String())
	assert.Equal(t, "194 Nm", r.ForwardLean.String())
	assert.False(t, r.AboveTen)
	assert.Empty(t, codes(r))
	assert.Equal(t, loaded(t).Identity(), r.Chart)
	assert.Equal(t, calc.Note, finding(t, r, "release.chart-caveat").Level)
}

// A worked example from the press, not from a standard.
func TestWorkedExample(t *testing.T) {
	r, err := loaded(t).Value(Input{Mass: 70, Height: 175, Age: 40, Type: TypeIII, Sole: 305})
	require.NoError(t, err)
	assert.Equal(t, 8.0, r.Value)
	assert.Equal(t, "mass 70 kg -> K, height 175 cm -> K, type III -> M, sole 305 mm -> 8", r.PathText())
	assert.Equal(t, calc.Caution, finding(t, r, "release.type-iii").Level)
}

// Toe and heel may differ on request (ISO 8061:2004, 4.3.4 to 4.3.6): the twist
// reference follows the toe, the forward lean reference the heel.
func TestToeAndHeelApart(t *testing.T) {
	in := designSkier()
	in.Toe, in.Heel = Lower, Higher
	r, err := loaded(t).Value(in)
	require.NoError(t, err)
	assert.Equal(t, []string{"L", "K", "M"}, []string{r.Code, r.ToeCode, r.HeelCode})
	assert.Equal(t, []float64{6, 5, 6.75}, []float64{r.Value, r.Toe, r.Heel})
	assert.Equal(t, "43 Nm", r.Twist.String())
	assert.Equal(t, "229 Nm", r.ForwardLean.String())
	assert.Equal(t, calc.Note, finding(t, r, "release.lower-toe").Level)
	assert.Equal(t, calc.Caution, finding(t, r, "release.higher-heel").Level)
	assert.Contains(t, r.PathText(), "sole 318 mm -> 6, toe lower (K) -> 5, heel higher -> M, 7 would be 17 % more; held at 15 % -> 6.75")
}

// The age correction, ISO 8061:2004, 4.3.3: up to 9 and from 50 years on.
func TestAgeBounds(t *testing.T) {
	for age, want := range map[int]string{8: "K", 9: "K", 10: "L", 34: "L", 49: "L", 50: "K", 51: "K", 110: "K", 2: "K"} {
		in := designSkier()
		in.Age = age
		r, err := loaded(t).Value(in)
		require.NoError(t, err)
		assert.Equal(t, want, r.Code, "%d years", age)
		if want == "K" {
			finding(t, r, "release.age")
			assert.Equal(t, want, r.Path[3].Code)
			assert.Equal(t, "age", r.Path[3].What)
		}
	}
}

// In row A nothing lighter exists, and it is said (common practice).
func TestNothingLighterThanRowA(t *testing.T) {
	r, err := loaded(t).Value(Input{Mass: 11, Height: 85, Age: 4, Type: TypeI, Sole: 200, Heel: Lower})
	require.NoError(t, err)
	assert.Equal(t, "A", r.Code)
	assert.Equal(t, "A", r.HeelCode)
	assert.Equal(t, 0.75, r.Heel)
	assert.Equal(t, []string{"release.nothing-lighter", "release.nothing-lighter"}, codes(r))
	assert.Contains(t, r.PathText(), "age 4 (nothing lighter) -> A")
}

// Under 22 kg: no type III, no request for a higher value (common practice);
// the age correction is applied and its doubt is named.
func TestLightestSkiers(t *testing.T) {
	chart := loaded(t)
	light := Input{Mass: 21.9, Height: 115, Age: 7, Type: TypeII, Sole: 240}
	r, err := chart.Value(light)
	require.NoError(t, err)
	assert.Equal(t, "C", r.Code) // C by mass, D by type, C by age
	finding(t, r, "release.light-age")

	third, toe, heel := light, light, light
	third.Type, toe.Toe, heel.Heel = TypeIII, Higher, Higher
	for _, c := range []struct {
		in                   Input
		code, field, refused string
	}{
		{third, "release.light-type", "type", "21.9 kg is under 22 kg: type III is refused; type I or II is possible."},
		{toe, "release.light-wish", "toe", "21.9 kg is under 22 kg: a higher value at the toe is refused; as computed or lower is possible."},
		{heel, "release.light-wish", "heel", "21.9 kg is under 22 kg: a higher value at the heel is refused; as computed or lower is possible."},
	} {
		_, err = chart.Value(c.in)
		assert.Equal(t, c.refused, faultOf(t, err, c.code, c.field))
		var f *calc.Fault
		require.ErrorAs(t, err, &f)
		assert.Equal(t, "common practice, no source", f.Source)
	}

	third.Mass = 22
	_, err = chart.Value(third)
	require.NoError(t, err)
}

// A blank cell is refused for the piece that needs it, with row and column.
func TestBlankCells(t *testing.T) {
	chart := loaded(t)
	short := designSkier()
	short.Sole = 250
	_, err := chart.Value(short)
	sentence := faultOf(t, err, "release.blank-cell", "sole")
	assert.Contains(t, sentence, "row L, column <=250 mm")
	assert.Contains(t, sentence, "another boot or binding")

	heavy := Input{Mass: 100, Height: 200, Age: 30, Type: TypeIII, Sole: 318}
	r, err := chart.Value(heavy)
	require.NoError(t, err)
	assert.Equal(t, 10.0, r.Value)
	heavy.Heel = Higher
	_, err = chart.Value(heavy)
	sentence = faultOf(t, err, "release.blank-cell", "heel")
	assert.Contains(t, sentence, "row P (heel higher), column 311 to 330 mm")
}

// Values above 10 stand out (ISO 13992:2014); 10 itself does not.
func TestAboveTen(t *testing.T) {
	heavy := Input{Mass: 100, Height: 200, Age: 30, Type: TypeIII, Sole: 318}
	r, err := loaded(t).Value(heavy)
	require.NoError(t, err)
	assert.False(t, r.AboveTen)
	heavy.Sole = 300
	r, err = loaded(t).Value(heavy)
	require.NoError(t, err)
	assert.True(t, r.AboveTen)
	assert.Equal(t, calc.Caution, finding(t, r, "release.above-ten").Level)

	heavy.Type, heavy.Sole, heavy.Toe = TypeII, 280, Higher // only the toe is above 10
	r, err = loaded(t).Value(heavy)
	require.NoError(t, err)
	assert.Equal(t, 10.0, r.Value)
	assert.True(t, r.AboveTen)
}

// Numbers that hardly belong to one person are asked after (our rule).
func TestRowsApart(t *testing.T) {
	for _, c := range []struct {
		in   Input
		want bool
	}{
		{Input{Mass: 72, Height: 140, Age: 30, Type: TypeI, Sole: 318}, true}, // K beside H, mass alone
		{Input{Mass: 60, Height: 140, Age: 30, Type: TypeI, Sole: 318}, false},
		{Input{Mass: 23, Height: 110, Age: 10, Type: TypeI, Sole: 240}, false}, // a child
		{Input{Mass: 50, Height: 185, Age: 30, Type: TypeI, Sole: 318}, true},
		{Input{Mass: 90, Height: 150, Age: 30, Type: TypeI, Sole: 318}, true},
	} {
		r, err := loaded(t).Value(c.in)
		require.NoError(t, err)
		assert.Equal(t, c.want, slices.Contains(codes(r), "release.rows-apart"), r.PathText())
	}
}

func TestMassFromPoundsIsCutNotRounded(t *testing.T) {
	for mass, want := range map[float64]string{74.84274105: "74.84 kg", 78.999: "78.99 kg", 72.57: "72.57 kg", 72.001: "72 kg", 72: "72 kg", 72.5: "72.5 kg"} {
		in := designSkier()
		in.Mass = quantity.Kilogram(mass)
		r, err := loaded(t).Value(in)
		require.NoError(t, err)
		assert.Equal(t, "mass "+want+" -> K", r.Path[0].Text)
	}
}

// The zero value of an input names no type, and a wish has four values only.
func TestUnaskableInput(t *testing.T) {
	chart := loaded(t)
	for field, spoil := range map[string]func(*Input){
		"type": func(in *Input) { in.Type = 0 },
		"toe":  func(in *Input) { in.Toe = 3 },
		"heel": func(in *Input) { in.Heel = -2 },
	} {
		in := designSkier()
		spoil(&in)
		_, err := chart.Value(in)
		faultOf(t, err, map[string]string{"type": "release.type", "toe": "release.wish", "heel": "release.wish"}[field], field)
	}
}
