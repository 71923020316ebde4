package draw

import (
	"fmt"
	"math"
	"strings"
)

// MapMark is what a hole is drawn as; each is told apart without colour.
type MapMark rune

// The marks of holes. A clash is drawn as a pair: the new hole and what is in
// its way.
const (
	MapNew     MapMark = 'o'
	MapAgain   MapMark = '@'
	MapOld     MapMark = 'x'
	MapPlugged MapMark = '*'
	MapClash   MapMark = '#'
	MapInWay   MapMark = 'X'
)

// weight says which of two marks in one cell is seen.
func (m MapMark) weight() int { return strings.IndexRune("*x@oX#", rune(m)) }

// MapHole is a hole on the map: x in mm from the mount mark to the tip, y in mm
// from the centre line to the skier's right, its number in the screw order, 0
// for an old hole.
type MapHole struct {
	X, Y float64
	Mark MapMark
	N    int
}

// MapSki is one ski on the map, in mm as its holes are.
type MapSki struct {
	Name      string // "left"
	Holes     []MapHole
	Heel, Toe float64                      // the ends of the boot
	Shift     float64                      // of the midsole from the mount mark
	Says      string                       // said above the ski, beside its name
	Breadth   func(x float64) (mm float64) // of the ski; nil = not known
}

// MapInk colours the parts of a map; a nil function leaves them plain.
type MapInk struct {
	New, Again, Old, Clash, Mark, Frame func(string) string
}

// Map draws the skis from above and to scale, the same along and across: tail
// at the left, tip at the right, the skier's right at the bottom of each. A
// character is taken to be twice as high as wide.
type Map struct {
	Skis          []MapSki // left, right
	Here          int      // the one that is drawn if there is room for one only
	From, To      float64  // the stretch of ski to show, mm from the mount mark
	Width, Height int      // the room there is, in characters
	Ink           MapInk
}

const (
	aspect = 2 // how much higher a character is than wide

	// Half the breadth that is drawn for a ski whose breadth is not known, and
	// that of a boot; in mm, from memory, for the picture alone.
	unknownHalf = 45
	bootHalf    = 32

	tailWord, tipWord = "tail", "tip"
	bow               = 3 // columns that each round end of the picture takes
	margin            = len(tailWord) + 1 + bow
	leastColumns      = 20
	leastRows         = 3
	leastStretch      = 20 // mm
	farCells          = 10000
)

// Legend names the marks in one line.
const Legend = "o new  @ re-used  x old  * plugged  # clash  X in its way  : mark  + midsole"

// Lines returns the picture line by line, none longer than Width: for each ski
// a line that names it and its rows, then the legend. If both skis do not fit
// into Height, the one at Here is drawn. It returns nothing if not even that
// fits, or if there is nothing to draw or less than 20 mm of it.
func (m Map) Lines() []string {
	columns := m.Width - margin - bow - 1 - len(tipWord)
	if len(m.Skis) == 0 || columns < leastColumns || !(m.To-m.From >= leastStretch) {
		return nil
	}
	perColumn := (m.To - m.From) / float64(columns)
	shown := m.Skis
	rows := m.reach(shown, perColumn)
	if len(shown)*(2*rows+2)+1 > m.Height {
		shown = m.Skis[min(max(m.Here, 0), len(m.Skis)-1):][:1]
		rows = m.reach(shown, perColumn)
	}
	if room := (m.Height - 3) / 2; rows > room {
		if 2*room+1 < leastRows {
			return nil
		}
		// The height decides: the same picture, smaller.
		rows = room
		perColumn = m.half(shown) / (float64(rows) + 0.49) / aspect
	}
	var lines []string
	for _, ski := range shown {
		p := newMapPicture(m, ski, columns, rows, perColumn)
		lines = append(lines, m.caption(ski, perColumn))
		lines = append(lines, p.lines(m.Ink)...)
	}
	return append(lines, "  "+cut(Legend, m.Width-2))
}

// half is half the breadth of the widest ski in the stretch.
func (m Map) half(skis []MapSki) float64 {
	widest := 0.0
	const places = 20
	for _, ski := range skis {
		for i := range places + 1 {
			widest = max(widest, ski.half(m.From+(m.To-m.From)*float64(i)/places))
		}
	}
	return widest
}

// reach is how many rows the edge lies from the centre line.
func (m Map) reach(skis []MapSki, perColumn float64) int {
	return max(1, int(math.Round(m.half(skis)/perColumn/aspect)))
}

func (s MapSki) half(x float64) float64 {
	if s.Breadth == nil {
		return unknownHalf
	}
	return s.Breadth(x) / 2
}

// caption names the ski and shows how long some millimetres are.
func (m Map) caption(ski MapSki, perColumn float64) string {
	bar := scaleBar(perColumn)
	name := fmt.Sprintf("  %-5s  %s", ski.Name, ski.Says)
	room := m.Width - len([]rune(bar)) - 1
	name = cut(name, room)
	return name + strings.Repeat(" ", max(1, room+1-len([]rune(name)))) + bar
}

// scaleBar picks a round length that ends on a column as nearly as may be.
func scaleBar(perColumn float64) string {
	best, columns, off := 0.0, 0, math.Inf(1)
	for _, length := range []float64{10, 20, 30, 40, 50, 60, 80, 100} {
		n := math.Round(length / perColumn)
		if wrong := math.Abs(n*perColumn-length) / length; n >= 4 && n <= 12 && wrong < off-0.001 {
			best, columns, off = length, int(n), wrong
		}
	}
	if columns == 0 {
		return ""
	}
	return fmt.Sprintf("%g mm |%s|", best, strings.Repeat("-", columns-1))
}

func cut(text string, width int) string {
	runes := []rune(text)
	if len(runes) <= width {
		return text
	}
	return string(runes[:max(0, width)])
}
