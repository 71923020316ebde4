package paper

import (
	"fmt"
	"strings"
	"time"
	"unicode/utf8"

	"codeberg.org/go-pdf/fpdf"
)

// form is how a sheet of one size is set: lengths in mm, letters in points.
type form struct {
	paper                string // as fpdf names it
	width, height        float64
	margin               float64
	fine, body, big, top float64
}

// perPoint is the height of a line of one point, in mm.
const perPoint = 25.4 / 72 * 1.24

// flow writes from the top of a sheet to its bottom and goes on on the next.
type flow struct {
	*fpdf.Fpdf
	form
	y       float64
	lacked  bool // a letter that the font does not have
	running string
}

func newFlow(m form, title, running string, made time.Time) *flow {
	f := fpdf.NewCustom(&fpdf.InitType{OrientationStr: "P", UnitStr: "mm", Size: fpdf.SizeType{Wd: m.width, Ht: m.height}})
	f.SetCreationDate(made)
	f.SetModificationDate(made)
	f.SetCatalogSort(true)
	f.SetTitle(title, true)
	f.SetAutoPageBreak(false, 0)
	useFont(f)
	p := &flow{Fpdf: f, form: m, running: running}
	p.page()
	return p
}

func (f *flow) page() {
	f.AddPage()
	f.y = f.margin
}

// inner is the width between the margins.
func (f *flow) inner() float64 { return f.width - 2*f.margin }

// room is what is left of the sheet above its foot.
func (f *flow) room() float64 { return f.height - f.margin - f.high(f.fine)*1.5 - f.y }

// need begins a new sheet if less than a height is left.
func (f *flow) need(height float64) {
	if f.room() < height && f.y > f.margin {
		f.page()
	}
}

func (f *flow) high(points float64) float64 { return points * perPoint }

// write writes one line; y is its upper end.
func (f *flow) write(x, y, points float64, style, text string) {
	if text == "" {
		return
	}
	f.SetFont(fontFamily, style, points)
	f.Text(x, y+f.high(points)*0.78, f.letters(text))
}

func (f *flow) letters(text string) string {
	said, all := printable(text)
	f.lacked = f.lacked || !all
	return said
}

// writeEnd writes one line that ends at x.
func (f *flow) writeEnd(x, y, points float64, style, text string) {
	f.write(x-f.wide(points, style, text), y, points, style, text)
}

// writeMiddle writes one line around x.
func (f *flow) writeMiddle(x, y, points float64, style, text string) {
	f.write(x-f.wide(points, style, text)/2, y, points, style, text)
}

func (f *flow) wide(points float64, style, text string) float64 {
	f.SetFont(fontFamily, style, points)
	return f.GetStringWidth(f.letters(text))
}

// broken breaks a text at its spaces into lines of a width, and a word that is
// wider where the line ends.
func (f *flow) broken(text string, width, points float64, style string) []string {
	fits := func(s string) bool { return f.wide(points, style, s) <= width }
	if fits(text) {
		return []string{text}
	}
	var lines []string
	line := ""
	for _, word := range strings.Fields(text) {
		if line != "" && fits(line+" "+word) {
			line += " " + word
			continue
		}
		if line != "" {
			lines = append(lines, line)
		}
		for line = word; !fits(line); {
			cut := len(line)
			for cut > 0 && !fits(line[:cut]) {
				_, size := utf8.DecodeLastRuneInString(line[:cut])
				cut -= size
			}
			if cut == 0 { // a letter wider than the column
				break
			}
			lines, line = append(lines, line[:cut]), line[cut:]
		}
	}
	return append(lines, line)
}

// column is a text in a column of the sheet: where it begins and how wide it
// is, in parts of the width between the margins.
type column struct {
	at, width float64
	style     string
	text      string
}

// most is how high a row may be, in parts of a sheet, and still be kept
// together.
const most = 0.3

// row writes columns beside each other, each over as many lines as it needs.
func (f *flow) row(points float64, columns ...column) {
	lines := make([][]string, len(columns))
	height := 1
	for i, c := range columns {
		lines[i] = f.broken(c.text, c.width*f.inner(), points, c.style)
		height = max(height, len(lines[i]))
	}
	x := func(c column) float64 { return f.margin + c.at*f.inner() }
	if whole := float64(height) * f.high(points); whole < most*f.height {
		f.need(whole)
		for i, c := range columns { // one after the other, as they are read
			for y, line := range lines[i] {
				f.write(x(c), f.y+float64(y)*f.high(points), points, c.style, line)
			}
		}
		f.y += whole
		return
	}
	for y := range height {
		f.need(f.high(points))
		for i, c := range columns {
			if y < len(lines[i]) {
				f.write(x(c), f.y, points, c.style, lines[i][y])
			}
		}
		f.y += f.high(points)
	}
}

// gap leaves room, but not at the top of a sheet.
func (f *flow) gap(height float64) {
	if f.y > f.margin {
		f.y += height
	}
}

// section begins a part of the sheet with a heading and a line; it stays
// together with a few lines of what follows.
func (f *flow) section(title, right string) {
	f.gap(f.high(f.body) * 0.7)
	f.need(f.high(f.body) * 5)
	f.write(f.margin, f.y, f.body, "B", strings.ToUpper(title))
	if right != "" {
		f.writeEnd(f.width-f.margin, f.y, f.fine, "", right)
	}
	f.y += f.high(f.body) * 1.05
	f.stroke(f.margin, f.y, f.width-f.margin, f.y, 0.25)
	f.y += f.high(f.body) * 0.25
}

// box writes a text large in a frame that cannot be overlooked.
func (f *flow) box(text string, points float64) {
	pad := f.high(points) * 0.3
	lines := f.broken(text, f.inner()-4*pad, points, "B")
	height := float64(len(lines))*f.high(points) + 2*pad
	f.need(height)
	f.SetLineWidth(0.7)
	f.Rect(f.margin+0.35, f.y, f.inner()-0.7, height, "D")
	for i, line := range lines {
		f.write(f.margin+2*pad, f.y+pad+float64(i)*f.high(points), points, "B", line)
	}
	f.y += height + pad
}

// stroke draws a line in a width, with dashes if there are any.
func (f *flow) stroke(x1, y1, x2, y2, width float64, dashes ...float64) {
	f.SetLineWidth(width)
	f.SetDashPattern(dashes, 0)
	f.Line(x1, y1, x2, y2)
	f.SetDashPattern(nil, 0)
}

// grey fills a rectangle; 255 is white.
func (f *flow) grey(x, y, width, height float64, light int) {
	f.SetFillColor(light, light, light)
	f.Rect(x, y, width, height, "F")
	f.SetFillColor(0, 0, 0)
}

// feet numbers the sheets once all are written.
func (f *flow) feet() {
	pages := f.PageCount()
	running := f.running
	if f.lacked {
		running += "   " + lacking + " stands for letters that this font has not; the record has them"
	}
	y := f.height - f.margin - f.high(f.fine)
	for n := 1; n <= pages; n++ {
		f.SetPage(n)
		f.stroke(f.margin, y-0.5, f.width-f.margin, y-0.5, 0.15)
		page := fmt.Sprintf("page %d of %d", n, pages)
		lines := f.broken(running, f.inner()-f.wide(f.fine, "", page)-3, f.fine, "")
		f.write(f.margin, y, f.fine, "", lines[0])
		if len(lines) > 1 {
			f.write(f.margin, y+f.high(f.fine), f.fine, "", strings.Join(lines[1:], " "))
		}
		f.writeEnd(f.width-f.margin, y, f.fine, "", page)
	}
}

// polygon draws a figure by its corners: x, y of the first, of the second, and so on.
func (f *flow) polygon(style string, corners ...float64) {
	points := make([]fpdf.PointType, 0, len(corners)/2)
	for i := 0; i+1 < len(corners); i += 2 {
		points = append(points, fpdf.PointType{X: corners[i], Y: corners[i+1]})
	}
	f.Polygon(points, style)
}
