package draw

import (
	"math"
	"slices"
	"strconv"
	"strings"
)

// mapPicture is the grid of characters of one ski.
type mapPicture struct {
	ski           MapSki
	from          float64 // mm at the left end of the first column
	perColumn     float64 // mm
	columns, rows int     // rows on either side of the centre line
	cells         [][]rune
	holes         [][]MapMark // 0 where there is none
}

func newMapPicture(m Map, ski MapSki, columns, rows int, perColumn float64) *mapPicture {
	// A picture that the height made smaller stands in the middle.
	spare := float64(columns)*perColumn - (m.To - m.From)
	p := &mapPicture{ski: ski, from: m.From - spare/2, perColumn: perColumn, columns: columns, rows: rows}
	for range 2*rows + 1 {
		p.cells = append(p.cells, []rune(strings.Repeat(" ", margin+columns+bow)))
		p.holes = append(p.holes, make([]MapMark, margin+columns+bow))
	}
	p.frame()
	p.boot()
	p.line()
	p.drill()
	return p
}

// column is where an x falls; it may lie outside of the picture.
func (p *mapPicture) column(x float64) int {
	return margin + int(math.Floor(bounded((x-p.from)/p.perColumn)))
}

// row is where a y falls, from the centre line.
func (p *mapPicture) row(y float64) int {
	return int(math.Round(bounded(y / p.perColumn / aspect)))
}

// bounded keeps what lies far outside of any picture countable.
func bounded(cells float64) float64 { return min(max(cells, -farCells), farCells) }

// inside says whether a column shows the ski to scale.
func (p *mapPicture) inside(column int) bool {
	return column >= margin && column < margin+p.columns
}

// put writes a character, at a row from the centre line.
func (p *mapPicture) put(row, column int, r rune) {
	if row >= -p.rows && row <= p.rows && column >= 0 && column < len(p.cells[0]) {
		p.cells[row+p.rows][column] = r
	}
}

// frame draws the edges where the ski ends, and closes the picture at the tail
// and at the tip.
func (p *mapPicture) frame() {
	for c := margin; c < margin+p.columns; c++ {
		edge := min(p.row(p.ski.half(p.from+(float64(c-margin)+0.5)*p.perColumn)), p.rows)
		if p.ski.Breadth == nil && c%2 == 0 {
			continue // a broken edge: its place is not known
		}
		p.put(-edge, c, '-')
		p.put(edge, c, '-')
	}
	for row := -p.rows; row <= p.rows; row++ {
		left, right, in := bend(row, p.rows)
		p.put(row, margin-bow+in, left)
		p.put(row, margin+p.columns+bow-1-in, right)
	}
	copy(p.cells[p.rows], []rune(tailWord))
}

// bend is the round end of the ski in a row: its characters at the tail and at
// the tip, and how many columns further in it stands.
func bend(row, rows int) (tail, tip rune, in int) {
	switch {
	case row == -rows:
		return ',', '.', 2
	case row == rows:
		return '`', '\'', 2
	case row < 0 && 2*-row > rows:
		return '/', '\\', 1
	case row > 0 && 2*row > rows:
		return '\\', '/', 1
	case row == 0:
		return '(', ')', 0
	}
	return '|', '|', 0
}

// boot outlines the boot in dots, within the edges of the ski.
func (p *mapPicture) boot() {
	heel, toe := p.column(p.ski.Heel), p.column(p.ski.Toe)
	side := min(p.row(bootHalf), p.rows-1)
	for c := max(heel, margin); c <= min(toe, margin+p.columns-1); c++ {
		if (c-heel)%2 == 0 && c != toe-1 {
			p.put(-side, c, '.')
			p.put(side, c, '.')
		}
	}
	for row := -side; row <= side; row++ {
		for _, c := range []int{heel, toe} {
			if p.inside(c) {
				p.put(row, c, '.')
			}
		}
	}
}

// line draws the mount line and the midsole.
func (p *mapPicture) line() {
	if c := p.column(0); p.inside(c) {
		for row := 1 - p.rows; row < p.rows; row++ {
			p.put(row, c, ':')
		}
	}
	if c := p.column(p.ski.Shift); p.inside(c) {
		p.put(0, c, '+')
	}
}

// drill draws the holes, the heaviest first, and then their numbers.
func (p *mapPicture) drill() {
	holes := slices.Clone(p.ski.Holes)
	slices.SortStableFunc(holes, func(a, b MapHole) int { return b.Mark.weight() - a.Mark.weight() })
	for _, h := range holes {
		p.hole(h)
	}
	for _, h := range holes {
		if h.N > 0 {
			p.number(h)
		}
	}
}

// hole draws one hole. Where its cell is taken it is drawn in the next one on
// its own side, so that two holes are seen as two.
func (p *mapPicture) hole(h MapHole) {
	row, c := p.row(h.Y), p.column(h.X)
	if p.taken(row, c) {
		exact := float64(margin) + (h.X-p.from)/p.perColumn
		if exact-float64(c) < 0.5 {
			c--
		} else {
			c++
		}
	}
	if p.inside(c) && row >= -p.rows && row <= p.rows && !p.taken(row, c) {
		p.put(row, c, rune(h.Mark))
		p.holes[row+p.rows][c] = h.Mark
	}
}

func (p *mapPicture) taken(row, c int) bool {
	return row >= -p.rows && row <= p.rows && p.inside(c) && p.holes[row+p.rows][c] != 0
}

// number writes the number of a hole beside it, where nothing is hidden by it.
func (p *mapPicture) number(h MapHole) {
	digits := []rune(strconv.Itoa(h.N))
	row, c := p.row(h.Y), p.column(h.X)
	if row < -p.rows || row > p.rows {
		return
	}
	for _, start := range []int{c + 1, c - len(digits)} {
		if p.free(row, start, len(digits)) {
			for i, d := range digits {
				p.put(row, start+i, d)
			}
			return
		}
	}
}

// free says whether a number can be written: over nothing but the boot's dots,
// and not against another number.
func (p *mapPicture) free(row, start, length int) bool {
	for c := start - 1; c <= start+length; c++ {
		if !p.inside(c) {
			return false
		}
		within := c >= start && c < start+length
		r := p.cells[row+p.rows][c]
		if within && r != ' ' && r != '.' || !within && r >= '0' && r <= '9' {
			return false
		}
	}
	return true
}

// lines colours the rows and adds the words at the ends.
func (p *mapPicture) lines(ink MapInk) []string {
	var lines []string
	for i, cells := range p.cells {
		var b strings.Builder
		for start := 0; start < len(cells); {
			end := start + 1
			for end < len(cells) && p.kind(i, end) == p.kind(i, start) {
				end++
			}
			b.WriteString(ink.of(p.kind(i, start), string(cells[start:end])))
			start = end
		}
		line := b.String()
		if i == p.rows {
			line += " " + tipWord
		}
		lines = append(lines, strings.TrimRight(line, " "))
	}
	return lines
}

// kind is what a cell shows: the mark of a hole, the mount line, or the frame.
func (p *mapPicture) kind(i, c int) rune {
	if mark := p.holes[i][c]; mark != 0 {
		return rune(mark)
	}
	switch r := p.cells[i][c]; r {
	case ':', '+', ' ':
		return r
	}
	return '-'
}

// of colours a text of one kind of cells.
func (k MapInk) of(kind rune, text string) string {
	ink := k.Frame
	switch MapMark(kind) {
	case MapNew:
		ink = k.New
	case MapAgain:
		ink = k.Again
	case MapOld, MapPlugged:
		ink = k.Old
	case MapClash, MapInWay:
		ink = k.Clash
	case ':', '+':
		ink = k.Mark
	case ' ':
		return text
	}
	if ink == nil {
		return text
	}
	return ink(text)
}
