package paper_test

import (
	"bytes"
	"image/color"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/boombuler/barcode/code128"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"drillstop/calc"
	"drillstop/tui/paper"
	"drillstop/workflow"
)

// made is when the sheets of the tests are printed.
var made = time.Date(2026, 11, 25, 17, 4, 0, 0, time.UTC)

func (b *bench) paper() paper.Ticket {
	return paper.Ticket{Shop: b.shop.Name, View: b.list.View(b.shop, b.job), Entries: b.entries, Made: made}
}

func (b *bench) card() paper.Card {
	return paper.Card{
		Shop: b.shop.Name, View: b.list.View(b.shop, b.job), Entries: b.entries, Made: made,
		Skier: b.job.Text("skier", "name", workflow.Both), Ski: "Tarn 98 / 178", Binding: "Orlo 12 hybrid",
	}
}

// filed writes a sheet to a file.
func filed(t *testing.T, write func(io.Writer) error) string {
	t.Helper()
	var out bytes.Buffer
	require.NoError(t, write(&out))
	file := filepath.Join(t.TempDir(), "sheet.pdf")
	require.NoError(t, os.WriteFile(file, out.Bytes(), 0o600))
	return file
}

// read is what pdftotext reads on each page, in the order in which it was
// written.
func read(t *testing.T, file string) []string {
	t.Helper()
	needs(t, "pdftotext")
	out, err := exec.CommandContext(t.Context(), "pdftotext", "-raw", file, "-").Output()
	require.NoError(t, err)
	return strings.Split(strings.TrimSuffix(string(out), "\f"), "\f")
}

func (b *bench) pdf(t *testing.T, sheet paper.Sheet) []string {
	t.Helper()
	return read(t, filed(t, func(w io.Writer) error { return b.paper().PDF(w, sheet) }))
}

// atTheCounter is a job whose skier has a name.
func atTheCounter(t *testing.T, name string) *bench {
	t.Helper()
	b := newBench(t, workflow.NewMount)
	b.answer("skier", workflow.Answers{"name": name, "mass": "61.5"})
	b.answer("boots", shod)
	return b
}

func TestNamesFromEverywhereArePrinted(t *testing.T) {
	t.Parallel()
	for _, name := range []string{"Åse Østby-Fjelde", "Jürgen Weiß", "Łukasz Dvořák", "Zoë Peña", "İpek Şahin", "Ελένη Ξένου", "Игорь Ёлкин", "Nguyễn Thị Hoa"} {
		b := atTheCounter(t, name)
		for _, sheet := range []paper.Sheet{paper.A4, paper.A5} {
			pages := b.pdf(t, sheet)
			assert.Contains(t, pages[0], name)
			assert.NotContains(t, pages[0], "[?]")
		}
		assert.Contains(t, read(t, filed(t, b.card().PDF))[0], name)
	}
}

func TestALetterThatTheFontLacksIsSaidToLack(t *testing.T) {
	t.Parallel()
	b := atTheCounter(t, "雪 Ida 🎿")
	page := b.pdf(t, paper.A4)[0]
	assert.Contains(t, page, "[?] Ida [?]")
	assert.Contains(t, page, "[?] stands for letters that this font has not; the record has them")
	assert.Contains(t, b.ticket(), "雪 Ida 🎿", "the text has all of them")
}

func TestAnyTextGoesOnPaper(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(r *rapid.T) {
		b := newBench(t, workflow.NewMount)
		e, err := b.list.Answer(b.shop, b.job, "skier", workflow.Answers{"name": "x" + rapid.String().Draw(r, "name"), "mass": "72"}, b.stamp())
		if err != nil {
			return // too long
		}
		b.apply(e, nil)
		sheet := rapid.SampledFrom([]paper.Sheet{paper.A4, paper.A5}).Draw(r, "sheet")
		require.NoError(r, b.paper().PDF(io.Discard, sheet))
		require.NoError(r, b.card().PDF(io.Discard))
	})
}

func TestTheFirstSheetSaysHowItStands(t *testing.T) {
	t.Parallel()
	open := atTheCounter(t, "Ida Fjelde")
	page := open.pdf(t, paper.A4)[0]
	for _, want := range []string{"T-0417", "IN WORK: not handed over.", "NOT RELEASE-TESTED", "technician: not handed over", "page 1 of 2"} {
		assert.Contains(t, page, want)
	}
	e, err := open.list.Void(workflow.Shop{}, open.job, "The base is cut through.", open.stamp())
	open.apply(e, err)
	page = open.pdf(t, paper.A4)[0]
	assert.Contains(t, page, "VOID: The base is cut through.")
	assert.NotContains(t, page, "IN WORK")
}

func TestWhatIsInventedSaysSo(t *testing.T) {
	t.Parallel()
	b := atTheCounter(t, "Ida Fjelde")
	for invented, want := range map[string]string{
		"demo":     "DEMO: shop, skier and numbers are invented. Not for skiing.",
		"practice": "PRACTICE: no customer's skis. Not for skiing.",
	} {
		ticket, card := b.paper(), b.card()
		ticket.Invented, card.Invented = invented, invented
		assert.Contains(t, ticket.Text(), want)
		for _, page := range read(t, filed(t, func(w io.Writer) error { return ticket.PDF(w, paper.A5) })) {
			assert.Contains(t, page, strings.ToUpper(invented))
		}
		assert.Contains(t, read(t, filed(t, card.PDF))[0], strings.ToUpper(invented)+": no customer's skis")
	}
	assert.NotContains(t, b.paper().Text(), "invented")
}

func TestASheetIsTheSameEachTime(t *testing.T) {
	t.Parallel()
	b := atTheCounter(t, "Åse")
	ticket := b.paper()
	ticket.Pictures = pictured()
	ticket.Layout = drilled()
	for range 3 {
		var one, two bytes.Buffer
		require.NoError(t, ticket.PDF(&one, paper.A4))
		require.NoError(t, ticket.PDF(&two, paper.A4))
		assert.True(t, bytes.Equal(one.Bytes(), two.Bytes()))
	}
}

func TestSizesOfATicket(t *testing.T) {
	t.Parallel()
	for name, want := range map[string]paper.Sheet{"a4": paper.A4, "A5": paper.A5} {
		got, err := paper.ParseTicketSheet(name)
		require.NoError(t, err)
		assert.Equal(t, want, got)
	}
	_, err := paper.ParseTicketSheet("letter")
	assert.EqualError(t, err, `"letter" is not a paper that a ticket is printed on: a4 or a5.`)
	var fault *calc.Fault
	require.ErrorAs(t, newBench(t, workflow.NewMount).paper().PDF(io.Discard, "a3"), &fault)
	assert.Equal(t, "paper", fault.Code)
	needs(t, "pdfinfo")
	b := atTheCounter(t, "Ida Fjelde")
	for want, write := range map[string]func(io.Writer) error{
		"595.28 x 841.89 pts (A4)": func(w io.Writer) error { return b.paper().PDF(w, paper.A4) },
		"419.53 x 595.28 pts":      func(w io.Writer) error { return b.paper().PDF(w, paper.A5) },
		"297.64 x 419.53 pts":      b.card().PDF,
	} {
		out, err := exec.CommandContext(t.Context(), "pdfinfo", filed(t, write)).Output()
		require.NoError(t, err)
		assert.Contains(t, string(out), want)
	}
}

// runs are the lengths of the black and white stretches along a line of dots,
// from the first black to the last.
func (p picture) runs(y int) []int {
	var lengths []int
	black := false
	for x := range p.width {
		switch {
		case p.black(x, y) != black:
			black = !black
			lengths = append(lengths, 1)
		case len(lengths) > 0:
			lengths[len(lengths)-1]++
		}
	}
	if len(lengths) > 0 && !black {
		lengths = lengths[:len(lengths)-1]
	}
	return lengths
}

// encoded are the lengths of the bars and gaps of a text, in modules, as the
// encoder makes them.
func encoded(t *testing.T, text string) []int {
	t.Helper()
	code, err := code128.Encode(text)
	require.NoError(t, err)
	var lengths []int
	var before color.Color
	for x := range code.Bounds().Dx() {
		if c := code.At(x, 0); c != before {
			lengths, before = append(lengths, 0), c
		}
		lengths[len(lengths)-1]++
	}
	return lengths
}

func TestTheBarcodeCarriesTheNumber(t *testing.T) {
	t.Parallel()
	needs(t, "pdftoppm")
	b := atTheCounter(t, "Ida Fjelde")
	b.job.Ticket = 123456
	for name, sheet := range map[string]struct {
		write func(io.Writer) error
		at    float64 // a line through the bars, in mm
	}{
		"card": {b.card().PDF, 36},
		"a4":   {func(w io.Writer) error { return b.paper().PDF(w, paper.A4) }, 14},
		"a5":   {func(w io.Writer) error { return b.paper().PDF(w, paper.A5) }, 9.6},
	} {
		p := look(t, filed(t, sheet.write), 1)
		got, want := p.runs(dots(sheet.at)), encoded(t, "T-123456")
		require.Len(t, got, len(want), name)
		whole, modules := 0, 0
		for i := range got {
			whole, modules = whole+got[i], modules+want[i]
		}
		module := float64(whole) / float64(modules)
		assert.GreaterOrEqual(t, millimetres(module), 0.32, "%s: a module that a scanner sees", name)
		for i := range got {
			assert.InDelta(t, float64(want[i]), float64(got[i])/module, 0.45, "%s, stretch %d", name, i)
		}
	}
}

func TestTheCardShowsWhatStandsAgainstTheJob(t *testing.T) {
	t.Parallel()
	b := atTheCounter(t, "Ida Fjelde")
	b.answer("pressure", inside)
	b.answer("boots", workflow.Answers{"norm": "ISO 9523", "sole.left": "318", "sole.right": "317", "wear.right": "6"})
	pages := read(t, filed(t, b.card().PDF))
	require.Len(t, pages, 1)
	for _, want := range []string{
		"T-0417", "Ida Fjelde", "Tarn 98 / 178", "Orlo 12 hybrid", "left 318 mm, right 317 mm", "2026-11-26", "new mount, open",
		"# Toe wear 6 mm is more", "~ forward pressure: the boots were changed",
	} {
		assert.Contains(t, pages[0], want)
	}
}

func TestACardStaysOneSheet(t *testing.T) {
	t.Parallel()
	b := newBench(t, workflow.NewMount)
	b.answer("skier", workflow.Answers{"name": strings.Repeat("Maximiliane-Friederike ", 17), "mass": "72"})
	b.answer("boots", workflow.Answers{"norm": "ISO 9523", "sole.left": "318", "sole.right": "317", "wear.right": "6"})
	assert.Len(t, read(t, filed(t, b.card().PDF)), 1)
}
