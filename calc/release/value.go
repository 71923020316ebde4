package release

import (
	"strings"

	"drillstop/calc"
	"drillstop/calc/quantity"
)

// Hop is one hop of the path through the chart.
type Hop struct {
	What string // "mass", "height", "type", "age", "sole", "toe" or "heel"
	Code string // the skier code after this hop
	Text string // "mass 72 kg -> K"
}

// Result is what the chart says, with the way it was found.
type Result struct {
	Code        string  // the skier code after type and age
	Value       float64 // the release indicator value of that code
	ToeCode     string  // the code after the request for the toe
	Toe         float64 // the value to set at the toe
	HeelCode    string
	Heel        float64
	Twist       quantity.NewtonMetre // reference moment of the toe's code
	ForwardLean quantity.NewtonMetre // reference moment of the heel's code
	Path        []Hop
	Chart       Identity
	AboveTen    bool // a value is above 10 (ISO 13992:2014: must stand out)
	Findings    []calc.Finding
}

// PathText joins the hops: "mass 72 kg -> K, height 175 cm -> K, type II -> L,
// sole 318 mm -> 6".
func (r Result) PathText() string {
	texts := make([]string, len(r.Path))
	for i, hop := range r.Path {
		texts[i] = hop.Text
	}
	return strings.Join(texts, ", ")
}

// Value finds the release value and the reference moments.
//
//	row   = lighter of the rows of mass and height (mass alone up to the chart's
//	        lowest height limit, 148 cm), common practice and ISO 8061:2004, 4.2
//	      + 1 for type II, + 2 for type III, ISO 8061 A.1.1 and common practice
//	      - 1 up to 9 years and from 50 years on, ISO 8061:2004, 4.3.3
//	value = the cell of the row in the column of the sole length
//	toe   = the value; on the skier's request that of one row lighter, or of one
//	        row heavier but at most 15 % more, ISO 8061:2004, 4.3.4 to 4.3.6;
//	        at the skier's own risk, with a stop, of two rows heavier
//	heel  = the same, apart from the toe
//
// Between two bands the lighter row and the longer column count, always the
// lower value (our rule, conservative). Under 22 kg type III and a higher value
// are refused (common practice).
//
// Faults, each with its Field: release.mass, -height, -age, -type, -sole, -wish
// (outside what can be asked), release.mass-range, -height-range, -sole-range
// (outside this chart), release.light-type, release.light-wish, release.no-row
// (the chart has no row so heavy), release.blank-cell.
func (c *Chart) Value(in Input) (Result, error) {
	if err := in.check(); err != nil {
		return Result{}, err
	}
	w := walk{chart: c, in: in}
	for _, hop := range []func() error{w.byMass, w.byHeight, w.byType, w.byAge, w.bySole, w.atToe, w.atHeel} {
		if err := hop(); err != nil {
			return Result{}, err
		}
	}
	w.result.Chart = c.identity
	w.conclude()
	return w.result, nil
}

// walk is one way through the chart.
type walk struct {
	chart       *Chart
	in          Input
	row, column int
	result      Result
}

func (w *walk) code() string { return w.chart.rows[w.row].code }

func (w *walk) hop(what, code, text string) {
	w.result.Path = append(w.result.Path, Hop{What: what, Code: code, Text: text + " -> " + code})
}

// byMass finds the row of the mass.
func (w *walk) byMass() error {
	row, err := w.chart.massRow(w.in.Mass)
	if err != nil {
		return err
	}
	w.row = row
	if b := w.chart.rows[row].mass; float64(w.in.Mass) > b.high {
		w.between("mass", massText(w.in.Mass)+" lies above "+b.in(quantity.KG), "the lighter row "+w.code())
	}
	w.hop("mass", w.code(), "mass "+massText(w.in.Mass))
	return nil
}

// byHeight keeps the lighter of the rows of mass and height.
func (w *walk) byHeight() error {
	row, alone, err := w.chart.heightRow(w.in.Height)
	if err != nil {
		return err
	}
	w.compareRows(row, alone)
	w.checkPlausible()
	if alone {
		w.checkEdge(row)
	}
	text := "height " + w.in.Height.String()
	switch {
	case alone:
		text += " (mass alone)"
	case row < w.row:
		w.row = row
	case row > w.row:
		text += " (" + w.chart.rows[row].code + ")"
	}
	if b := w.chart.rows[row].height; !alone && float64(w.in.Height) > b.high {
		w.between("height", w.in.Height.String()+" lies above "+b.in(quantity.CM), "the lighter row "+w.chart.rows[row].code)
	}
	w.hop("height", w.code(), text)
	return nil
}

// byType goes to the heavier row of types II and III.
func (w *walk) byType() error {
	row := w.row + int(w.in.Type-TypeI)
	if row >= len(w.chart.rows) {
		return w.noRow("type", "type "+w.in.Type.String())
	}
	w.row = row
	w.hop("type", w.code(), "type "+w.in.Type.String())
	return nil
}

// Ages of the correction in completed years, both included (ISO 8061:2004, 4.3.3).
const (
	childUpTo = 9
	olderFrom = 50
)

// byAge goes one row lighter for the youngest and the older.
func (w *walk) byAge() error {
	if w.in.Age > childUpTo && w.in.Age < olderFrom {
		return nil
	}
	text := "age " + quantity.Print(float64(w.in.Age), quantity.Plain)
	if w.row == 0 {
		w.nothingLighter("the age correction")
		text += " (nothing lighter)"
	} else {
		w.row--
		w.ageNotes()
	}
	w.hop("age", w.code(), text)
	return nil
}

// bySole finds the column and the value.
func (w *walk) bySole() error {
	column, err := w.chart.soleColumn(w.in.Sole)
	if err != nil {
		return err
	}
	w.column = column
	if b := w.chart.columns[column]; float64(w.in.Sole) < b.low {
		w.between("sole", w.in.Sole.String()+" lies below "+b.in(quantity.MM), "that longer column")
	}
	w.result.Code = w.code()
	if w.result.Value, err = w.valueIn(w.row, "sole", ""); err != nil {
		return err
	}
	w.result.Path = append(w.result.Path, Hop{What: "sole", Code: w.code(), Text: "sole " + w.in.Sole.String() + " -> " + plain(w.result.Value)})
	return nil
}

// valueIn is the value of a row in the column of the sole. A blank cell is a
// fault: the neighbour's value belongs to another skier or another boot.
func (w *walk) valueIn(row int, field, because string) (float64, error) {
	r := w.chart.rows[row]
	if v := r.values[w.column]; v.set {
		return v.value, nil
	}
	return 0, fault("release.blank-cell", field,
		"The chart has no value in row %s%s, column %s: another boot or binding is needed; the binding maker may know more. The neighbouring value does not count.",
		r.code, because, w.chart.columns[w.column].in(quantity.MM))
}

func (w *walk) noRow(field, text string) error {
	last := w.chart.rows[len(w.chart.rows)-1].code
	return fault("release.no-row", field, "From row %s, %s goes beyond the heaviest row %s of this chart: there is no value for it.", w.code(), text, last)
}

func plain(v float64) string { return quantity.Print(v, quantity.Plain) }

// massText cuts a mass that came from pounds to two decimals. It cuts and does
// not round, so that 78.999 kg is not shown as the 79 kg of the next row.
func massText(m quantity.Kilogram) string {
	text := quantity.Print(float64(m), quantity.Plain)
	if dot := strings.IndexByte(text, '.'); dot >= 0 && len(text) > dot+3 {
		text = strings.TrimRight(strings.TrimRight(text[:dot+3], "0"), ".")
	}
	return text + " " + string(quantity.KG)
}
