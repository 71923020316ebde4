package paper_test

import (
	"bytes"
	"fmt"
	"io"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"drillstop/calc"
	"drillstop/calc/layout"
	"drillstop/calc/quantity"
	"drillstop/tui/paper"
)

// dpi is how finely a printed sheet is looked at: 0.085 mm a dot.
const dpi = 300

// forty is an invented mount whose toe has two holes 40 mm apart across the
// ski, and whose heel has two 40 mm apart along it.
func forty() *layout.Spec {
	at := func(order int, x, y quantity.Millimetre) layout.PatternHole {
		return layout.PatternHole{X: x, Y: y, Diameter: 4.1, Depth: 9, Bite: 8, Class: layout.Marked, Order: order}
	}
	s := &layout.Spec{
		Pattern: &layout.Pattern{Name: "forty (invented)", Invented: true, Pieces: []layout.Piece{
			{
				Kind: layout.Toe, Anchor: layout.BootToe, From: -60, To: 20, SoleMin: 250, SoleMax: 380,
				Holes: []layout.PatternHole{at(1, -20, 20), at(2, -20, -20)},
			},
			{
				Kind: layout.Heel, Anchor: layout.BootHeel, From: -60, To: 50, SoleMin: 250, SoleMax: 380, TrackFore: 9, TrackAft: 9,
				Holes: []layout.PatternHole{at(1, 30, 10), at(2, -10, 10)},
			},
		}},
		Mount: layout.Mount{Sole: 318, Shift: -4.5}, Rules: layout.DefaultRules(),
	}
	s.Left.Width, s.Right.Width = layout.Waist(98), layout.Waist(98)
	return s
}

func templateFor(t *testing.T, s *layout.Spec, sheet paper.Sheet) paper.Template {
	t.Helper()
	plan, err := s.Plan()
	require.NoError(t, err)
	return paper.TemplateOf(s, plan, "T-0417", sheet, time.Date(2026, 11, 25, 17, 4, 0, 0, time.UTC))
}

// printed writes a template to a file.
func printed(t *testing.T, template paper.Template) string {
	t.Helper()
	var out bytes.Buffer
	require.NoError(t, template.PDF(&out))
	file := filepath.Join(t.TempDir(), "template.pdf")
	require.NoError(t, os.WriteFile(file, out.Bytes(), 0o600))
	return file
}

// needs skips a test where a program of poppler-utils is missing.
func needs(t *testing.T, program string) {
	t.Helper()
	if _, err := exec.LookPath(program); err != nil {
		t.Skip(program + " of poppler-utils is not here")
	}
}

// picture is a sheet as a printer would blacken it.
type picture struct {
	width, height int
	dots          []byte
}

// look renders one sheet of a file.
func look(t *testing.T, file string, sheet int) picture {
	t.Helper()
	n := strconv.Itoa(sheet)
	out, err := exec.CommandContext(t.Context(), "pdftoppm", "-gray", "-r", strconv.Itoa(dpi), "-f", n, "-l", n, file).Output()
	require.NoError(t, err)
	var p picture
	var most int
	in := bytes.NewReader(out)
	_, err = fmt.Fscanf(in, "P5\n%d %d\n%d\n", &p.width, &p.height, &most)
	require.NoError(t, err)
	p.dots = make([]byte, p.width*p.height)
	_, err = io.ReadFull(in, p.dots)
	require.NoError(t, err)
	return p
}

func (p picture) black(x, y int) bool {
	return x >= 0 && y >= 0 && x < p.width && y < p.height && p.dots[y*p.width+x] < 200
}

func dots(length float64) int          { return int(math.Round(length / 25.4 * dpi)) }
func millimetres(dots float64) float64 { return dots * 25.4 / dpi }

// strokes returns the middles of the black strokes along a line of dots.
func strokes(n int, black func(i int) bool) []float64 {
	var middles []float64
	for i := 0; i < n; i++ {
		if !black(i) {
			continue
		}
		from := i
		for i < n && black(i) {
			i++
		}
		middles = append(middles, float64(from+i-1)/2)
	}
	return middles
}

// bar measures a scale bar by its ticks, as one does with a rule: the first and
// the last stroke on a line beside the bar.
func bar(t *testing.T, n int, black func(i int) bool) float64 {
	t.Helper()
	ticks := strokes(n, black)
	require.Len(t, ticks, 2, "the two long ticks")
	return millimetres(ticks[1] - ticks[0])
}

func TestTheScaleBarsAre100mm(t *testing.T) {
	t.Parallel()
	needs(t, "pdftoppm")
	for _, sheet := range []paper.Sheet{paper.A4, paper.Letter} {
		file := printed(t, templateFor(t, forty(), sheet))
		for n := 1; n <= 4; n++ {
			p := look(t, file, n)
			// 2 mm below the flat bar, and 2 mm to the left of the upright one,
			// only the ticks at their ends reach.
			flat := bar(t, dots(130), func(x int) bool { return p.black(x, dots(186)) })
			upright := bar(t, p.height, func(y int) bool { return p.black(dots(11), y) })
			assert.InDelta(t, 100, flat, 0.2, "%s, sheet %d", sheet, n)
			assert.InDelta(t, 100, upright, 0.2, "%s, sheet %d", sheet, n)
		}
	}
}

// place is a place on a sheet, in mm.
type place struct{ x, y float64 }

// crosses finds the crosses that holes are drilled at: a stroke of 8 mm along
// and one across through its middle, in a circle.
func (p picture) crosses() []place {
	var found []place
	for y := range p.height {
		for x := 0; x < p.width; x++ {
			from := x
			for p.black(x, y) {
				x++
			}
			if length := millimetres(float64(x - from)); length > 7.5 && length < 8.6 {
				found = p.cross(found, float64(from+x-1)/2, y)
			}
		}
	}
	return found
}

func (p picture) cross(found []place, middle float64, y int) []place {
	x := int(math.Round(middle))
	top, bottom := y, y
	for p.black(x, top-1) {
		top--
	}
	for p.black(x, bottom+1) {
		bottom++
	}
	at := place{millimetres(middle), millimetres(float64(top+bottom) / 2)}
	length := millimetres(float64(bottom - top + 1))
	if length < 7.5 || length > 8.6 || math.Abs(at.y-millimetres(float64(y))) > 0.2 {
		return found
	}
	for _, other := range found {
		if math.Hypot(other.x-at.x, other.y-at.y) < 1 {
			return found // the same cross, one row of dots below
		}
	}
	return append(found, at)
}

func TestTwoHolesThatLie40mmApartAre40mmApartOnPaper(t *testing.T) {
	t.Parallel()
	needs(t, "pdftoppm")
	file := printed(t, templateFor(t, forty(), paper.A4))
	// The heel's holes are on the first sheet of a ski, the toe's on the second.
	heel, toe := look(t, file, 1).crosses(), look(t, file, 2).crosses()
	require.Len(t, heel, 2)
	assert.InDelta(t, 40, math.Abs(heel[0].x-heel[1].x), 0.2, "along the ski")
	assert.InDelta(t, 0, heel[0].y-heel[1].y, 0.2)
	require.Len(t, toe, 2)
	assert.InDelta(t, 40, math.Abs(toe[0].y-toe[1].y), 0.2, "across the ski")
	assert.InDelta(t, 0, toe[0].x-toe[1].x, 0.2)
	assert.InDelta(t, 92, (toe[0].y+toe[1].y)/2, 0.2, "either side of the centre line")
}

// joints finds the joining marks: strokes of 12 mm that cross.
func (p picture) joints() []float64 {
	var found []float64
	row := dots(92 - 56)
	for x := 0; x < p.width; x++ {
		from := x
		for p.black(x, row) {
			x++
		}
		if length := millimetres(float64(x - from)); length > 11.5 && length < 12.6 {
			found = append(found, millimetres(float64(from+x-1)/2))
		}
	}
	return found
}

func TestTheSheetsMeetAtTheirJoiningMarks(t *testing.T) {
	t.Parallel()
	needs(t, "pdftoppm")
	s := forty()
	file := printed(t, templateFor(t, s, paper.A4))
	first, second := look(t, file, 1), look(t, file, 2)
	a, b := first.joints(), second.joints()
	require.Len(t, a, 1)
	require.Len(t, b, 1)
	// Laid on each other at the mark, the sheets carry the heel's rear hole at
	// -4.5 - 159 - 10 and the toe's at -4.5 + 159 - 20: 308 mm.
	heel, toe := first.crosses(), second.crosses()
	rear := math.Min(heel[0].x, heel[1].x)
	assert.InDelta(t, 308, (toe[0].x-b[0])+(a[0]-rear), 0.3)
}

func TestASheetSaysWhatItIs(t *testing.T) {
	t.Parallel()
	needs(t, "pdftotext")
	file := printed(t, templateFor(t, forty(), paper.Letter))
	out, err := exec.CommandContext(t.Context(), "pdftotext", "-layout", file, "-").Output()
	require.NoError(t, err)
	pages := bytes.Split(bytes.TrimSuffix(out, []byte("\f")), []byte("\f"))
	require.Len(t, pages, 4)
	for i, page := range pages {
		for _, want := range []string{
			"job T-0417", []string{"LEFT ski", "RIGHT ski"}[i/2], fmt.Sprintf("sheet %d of 2", i%2+1),
			"forty (invented)", "sole 318 mm, midsole 4.5 mm back of the mark", "INVENTED PATTERN: never drill a real ski",
			"A jig comes first", "Measure both bars before drilling", "must be 100 mm", "join A", "4.1 x 9.0 mm",
		} {
			assert.Contains(t, string(page), want, "sheet %d", i+1)
		}
	}
	assert.Contains(t, string(out), "mount mark")
	assert.Contains(t, string(out), "boot midsole")
}

func TestATemplateIsTheSameEachTime(t *testing.T) {
	t.Parallel()
	var a, b bytes.Buffer
	require.NoError(t, templateFor(t, forty(), paper.A4).PDF(&a))
	require.NoError(t, templateFor(t, forty(), paper.A4).PDF(&b))
	assert.Equal(t, a.Bytes(), b.Bytes())
}

func TestAClashStandsOnTheSheet(t *testing.T) {
	t.Parallel()
	needs(t, "pdftotext")
	s := forty()
	s.Left.Old = []layout.OldHole{{X: 130, Y: 16, Diameter: 6}}
	out, err := exec.CommandContext(t.Context(), "pdftotext", printed(t, templateFor(t, s, paper.A4)), "-").Output()
	require.NoError(t, err)
	assert.Contains(t, string(out), "CLASHES: 1. Do not drill before they are cleared.")
	assert.Contains(t, string(out), "CLASH\n")
	assert.Contains(t, string(out), "old\n")
}

func TestTemplatesThatCannotBeDrawn(t *testing.T) {
	t.Parallel()
	for want, change := range map[string]func(*paper.Template){
		"There is no ski to draw a template for.":                                                        func(p *paper.Template) { p.Skis = nil },
		"The left ski has no hole to draw.":                                                              func(p *paper.Template) { p.Skis[0].Holes = nil },
		`"a3" is not a paper that a template is made for: a4 or letter.`:                                 func(p *paper.Template) { p.Sheet = "a3" },
		"Hole 1 of the left ski does not fit on a template: it lies at NaN, 20 mm and is 4.1 mm wide.":   func(p *paper.Template) { p.Skis[0].Holes[0].X = math.NaN() },
		"Hole 1 of the left ski does not fit on a template: it lies at 134.5, 63 mm and is 4.1 mm wide.": func(p *paper.Template) { p.Skis[0].Holes[0].Y = 63 },
	} {
		template := templateFor(t, forty(), paper.A4)
		change(&template)
		var out bytes.Buffer
		err := template.PDF(&out)
		var fault *calc.Fault
		require.ErrorAs(t, err, &fault)
		assert.Equal(t, want, fault.Sentence)
		assert.Empty(t, out.Bytes())
	}
}

func TestPapers(t *testing.T) {
	t.Parallel()
	for name, want := range map[string]paper.Sheet{"a4": paper.A4, "A4": paper.A4, "Letter": paper.Letter} {
		got, err := paper.ParseSheet(name)
		require.NoError(t, err)
		assert.Equal(t, want, got)
	}
	_, err := paper.ParseSheet("legal")
	assert.EqualError(t, err, `"legal" is not a paper that a template is made for: a4 or letter.`)
}
