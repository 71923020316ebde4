package release

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"io"
	"strings"
	"testing"
	"testing/iotest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"drillstop/calc"
	"drillstop/calc/quantity"
)

// shopChart is an invented chart of a shop with other columns, fewer rows and a
// tallest and heaviest row that end.
const shopChart = `edition,invented shop chart
source,"invented, for tests"
units,mass kg,height cm,sole mm,moment Nm
code,mass,height,<=230,231 to 250,251-270,271 to 350,>=351,twist,forward lean
J,58 to 66,<=166,5,4.5,4,3.5,-,37,141
K,67 to 78,167 to 178,6,5.5,5,4.5,4,43,165
L,79 to 94,179 to 194,7,6.5,6,5.5,-,50,194
`

func load(text string) (*Chart, error) { return Load(strings.NewReader(text)) }

func TestDefaultLoads(t *testing.T) {
	chart := loaded(t)
	id := chart.Identity()
	assert.Contains(t, id.Edition, "default")
	assert.Contains(t, id.Source, "memory")
	assert.Contains(t, chart.Caveat(), "from memory")
	sum := sha256.Sum256(defaultBytes)
	assert.Equal(t, hex.EncodeToString(sum[:]), id.Checksum)
	assert.Equal(t, strings.Split("ABCDEFGHIJKLMNOPQ", ""), chart.Codes())
	assert.Equal(t, []string{"<=250 mm", "251 to 270 mm", "271 to 290 mm", "291 to 310 mm", "311 to 330 mm", ">=331 mm"}, chart.Columns())
}

// What is handed out is a copy: nobody can change a chart.
func TestChartDoesNotChange(t *testing.T) {
	chart := loaded(t)
	chart.Codes()[0], chart.TwistColumn()[0], chart.ForwardLeanColumn()[0], chart.Columns()[0] = "x", 1, 1, "x"
	assert.Equal(t, "A", chart.Codes()[0])
	assert.Equal(t, "5 Nm", chart.TwistColumn()[0].String())
	assert.Equal(t, "18 Nm", chart.ForwardLeanColumn()[0].String())
	assert.Equal(t, "<=250 mm", chart.Columns()[0])
}

func TestShopChart(t *testing.T) {
	chart, err := load(shopChart)
	require.NoError(t, err)
	assert.Empty(t, chart.Caveat())
	ask := func(mass, height, sole float64, kind Type) (Result, error) {
		in := designSkier()
		in.Mass, in.Height, in.Sole, in.Type = quantity.Kilogram(mass), quantity.Centimetre(height), quantity.Millimetre(sole), kind
		return chart.Value(in)
	}
	r, err := ask(72, 175, 225, TypeI)
	require.NoError(t, err)
	assert.Equal(t, 6.0, r.Value)
	assert.Empty(t, r.Findings)
	assert.Equal(t, "invented shop chart", r.Chart.Edition)
	r, err = ask(72, 175, 351, TypeII)
	faultOf(t, err, "release.blank-cell", "sole")
	assert.Empty(t, r)
	_, err = ask(80, 185, 240, TypeII)
	faultOf(t, err, "release.no-row", "type")
	_, err = ask(94.5, 185, 240, TypeI)
	faultOf(t, err, "release.mass-range", "mass")
	_, err = ask(57.9, 150, 240, TypeI)
	faultOf(t, err, "release.mass-range", "mass")
	_, err = ask(72, 194.5, 240, TypeI)
	faultOf(t, err, "release.height-range", "height")
	_, err = ask(72, 175, 150, TypeI)
	require.NoError(t, err) // the first column is open below
	in := designSkier()
	in.Sole, in.Heel = 240, Higher
	_, err = chart.Value(in)
	faultOf(t, err, "release.no-row", "heel")
	_, err = chart.Reference("A")
	assert.Contains(t, faultOf(t, err, "release.code", "code"), "J to L")
}

// Outer columns that end make soles beyond them a fault, on both sides.
func TestClosedOuterColumns(t *testing.T) {
	chart, err := load(strings.NewReplacer("<=230", "221 to 230", ">=351", "351 to 370").Replace(shopChart))
	require.NoError(t, err)
	in := designSkier()
	in.Type = TypeI
	for _, sole := range []quantity.Millimetre{220.5, 370.5} {
		in.Sole = sole
		_, err = chart.Value(in)
		assert.Contains(t, faultOf(t, err, "release.sole-range", "sole"), "221 to 230 mm to 351 to 370 mm")
	}
}

// Codes of more than one sign come after those of one: 9, 10, 11.
func TestNumberedCodes(t *testing.T) {
	chart, err := load(strings.NewReplacer("\nJ,", "\n9,", "\nK,", "\n10,", "\nL,", "\n11,").Replace(shopChart))
	require.NoError(t, err)
	assert.Equal(t, []string{"9", "10", "11"}, chart.Codes())
}

// A gap wider than the numbers are written with is a missing column.
func TestShopChartMustNotSkipAColumn(t *testing.T) {
	_, err := load(strings.Replace(shopChart, "271 to 350", "331 to 350", 1))
	sentence := faultOf(t, err, "release.chart-band", "chart")
	assert.Contains(t, sentence, "331 to 350 mm does not follow 251 to 270 mm")
}

// What spreadsheets do to a file does no harm.
func TestLoadTakesSpreadsheetFiles(t *testing.T) {
	text := "\ufeff\"# a comment, quoted\",,,\r\n" + strings.ReplaceAll(shopChart, "\n", "\r\n")
	text = strings.Replace(text, "edition,invented shop chart", "edition,invented shop chart,,,,,", 1) + ",,,,,,,,,\r\n"
	chart, err := load(text)
	require.NoError(t, err)
	assert.Equal(t, []string{"J", "K", "L"}, chart.Codes())
	plainFile, err := load(shopChart)
	require.NoError(t, err)
	assert.NotEqual(t, plainFile.Identity().Checksum, chart.Identity().Checksum)
}

// Every way to spoil the chart is refused, and the line and the cell are named.
func TestLoadRefuses(t *testing.T) {
	for _, c := range []struct{ name, old, new, code, says string }{
		{"no edition", "edition,invented shop chart\n", "", "release.chart-shape", "the edition line is missing"},
		{"no source", "source,\"invented, for tests\"\n", "", "release.chart-shape", "the source line is missing"},
		{"empty source", "source,\"invented, for tests\"", "source,", "release.chart-shape", "\"source\" needs one text"},
		{"unquoted commas", "\"invented, for tests\"", "invented, for tests", "release.chart-shape", "between double quotes"},
		{"edition twice", "source,", "edition,", "release.chart-shape", "stands there twice"},
		{"unknown head", "source,", "colour,", "release.chart-shape", "not known here"},
		{"pounds", "mass kg", "mass lb", "release.chart-units", "line 3: the units must be exactly"},
		{"no units", "units,mass kg,height cm,sole mm,moment Nm\n", "", "release.chart-shape", "the units line is missing"},
		{"no table", "code,mass", "codes,mass", "release.chart-shape", "\"codes\" is not known"},
		{"heads", "twist,forward lean", "forward lean,twist", "release.chart-shape", "the heads must be"},
		{"open quote", "invented shop chart", "\"invented", "release.chart-shape", "not a CSV file"},
		{"semicolons", "edition,", "edition;", "release.chart-shape", "is not known here"},
		{"short row", "J,58 to 66,<=166,5,4.5", "J,58 to 66,<=166,4.5", "release.chart-shape", "row J has 9 cells, the heads have 10"},
		{"empty cell", "3.5,-,37", "3.5,,37", "release.chart-number", "row J, >=351 mm"},
		{"word cell", "5.5,5,4.5,4,43", "5.5,five,4.5,4,43", "release.chart-number", "line 6, row K, 251 to 270 mm"},
		{"exponent", "4,43", "4e0,43", "release.chart-number", "row K"},
		{"zero", "5,4.5,4,3.5", "5,4.5,4,0", "release.chart-number", "above 0"},
		{"negative", "5,4.5,4,3.5", "5,4.5,4,-3.5", "release.chart-number", "above 0"},
		{"missing point", "6,5.5,5,4.5,4", "60,5.5,5,4.5,4", "release.chart-number", "a decimal point may be missing"},
		{"bad column", "251-270", "251..270", "release.chart-band", "sole column 3"},
		{"no column band", "251-270", "-", "release.chart-band", "sole column 3 has no band"},
		{"columns overlap", "251-270", "250-270", "release.chart-band", "250 to 270 mm does not follow 231 to 250 mm"},
		{"column gap", "251-270", "251.5-270", "release.chart-band", "does not follow"},
		{"columns open inside", "251-270", "<=270", "release.chart-band", "does not follow"},
		{"column backwards", "251-270", "270-251", "release.chart-band", "runs backwards"},
		{"code twice", "K,67", "J,67", "release.chart-code", "row J does not come after row J"},
		{"codes out of order", "L,79", "A,79", "release.chart-code", "row A does not come after row K"},
		{"code small", "L,79", "l,79", "release.chart-code", "capital letters"},
		{"code long", "L,79", "LLLL,79", "release.chart-code", "capital letters"},
		{"date for a mass", "67 to 78", "67-Oct", "release.chart-number", "row K, mass"},
		{"no mass first", "58 to 66", "-", "release.chart-band", "the lightest"},
		{"mass open below", "58 to 66", "<=66", "release.chart-band", "the lightest"},
		{"mass gap", "67 to 78", "68 to 78", "release.chart-band", "68 to 78 kg does not follow 58 to 66 kg"},
		{"mass overlap", "67 to 78", "66 to 78", "release.chart-band", "does not follow"},
		{"mass hole", "67 to 78,167 to 178", "-,-", "release.chart-band", "row L"},
		{"height without mass", "79 to 94", "-", "release.chart-band", "but no mass"},
		{"height first", "<=166", "158 to 166", "release.chart-band", "first height"},
		{"height gap", "167 to 178", "168.5 to 178", "release.chart-band", "does not follow"},
		{"height hole", "167 to 178", "-", "release.chart-band", "row L: height"},
		{"bad height", "167 to 178", "tall", "release.chart-band", "row K, height"},
		{"rises along", "6,5.5,5,4.5,4", "6,5.5,5.75,4.5,4", "release.chart-order", "5.75 is more than the value of a shorter sole, 5.5"},
		{"falls down", "7,6.5,6,5.5,-", "7,6.5,4.75,4.5,-", "release.chart-order", "4.75 is less than the value of a lighter row, 5"},
		{"rises across a blank", "6,5.5,5,4.5,4", "6,4.5,-,5,4", "release.chart-order", "5 is more than"},
		{"twist", "43,165", "37,165", "release.chart-order", "row K, twist: 37 Nm does not rise above 37 Nm"},
		{"forward lean", "50,194", "50,16", "release.chart-order", "row L, forward lean"},
		{"bad moment", "50,194", "50,much", "release.chart-number", "row L, forward lean"},
		{"moment", "50,194", "50,19400", "release.chart-number", "above 2000 Nm"},
		{"two rows", "L,79 to 94,179 to 194,7,6.5,6,5.5,-,50,194\n", "", "release.chart-shape", "3 to 60 rows"},
	} {
		t.Run(c.name, func(t *testing.T) {
			require.Equal(t, 1, strings.Count(shopChart, c.old), "the text to spoil")
			_, err := load(strings.Replace(shopChart, c.old, c.new, 1))
			assert.Contains(t, faultOf(t, err, c.code, "chart"), c.says)
		})
	}
}

func TestLoadRefusesOtherFiles(t *testing.T) {
	for text, code := range map[string]string{
		"":                           "release.chart-shape",
		"# only a comment\n":         "release.chart-shape",
		"\x00\xff\xfe":               "release.chart-shape",
		strings.Repeat("a\n", 40000): "release.chart-size",
		strings.Replace(shopChart, "<=166", "-", 1): "release.chart-band",
	} {
		_, err := load(text)
		faultOf(t, err, code, "chart")
	}
	broken := errors.New("the disk is gone")
	_, err := Load(io.MultiReader(strings.NewReader("edition,x\n"), iotest.ErrReader(broken)))
	faultOf(t, err, "release.chart-read", "chart")
	require.ErrorIs(t, err, broken)
}

func TestHeightsMustExist(t *testing.T) {
	text := strings.NewReplacer("<=166", "-", "167 to 178", "-", "179 to 194", "-").Replace(shopChart)
	_, err := load(text)
	assert.Contains(t, faultOf(t, err, "release.chart-band", "chart"), "no row has a height")
}

func FuzzLoad(f *testing.F) {
	f.Add(defaultBytes)
	f.Add([]byte(shopChart))
	f.Add([]byte("edition,a\nsource,b\nunits,mass kg,height cm,sole mm,moment Nm\ncode,mass,height,-,twist,forward lean\n"))
	f.Add([]byte("\"\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		chart, err := Load(bytes.NewReader(data))
		if err != nil {
			var fault *calc.Fault
			require.ErrorAs(t, err, &fault)
			return
		}
		id := chart.Identity()
		require.NotEmpty(t, id.Edition)
		require.NotEmpty(t, id.Source)
		for _, in := range []Input{designSkier(), {Mass: 11, Height: 85, Age: 5, Type: TypeI, Sole: 200, Toe: Lower}} {
			r, err := chart.Value(in)
			if err == nil {
				require.Positive(t, r.Value)
				require.NotEmpty(t, r.PathText())
			}
		}
	})
}
