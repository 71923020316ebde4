package draw

import (
	"math"
	"strings"

	"drillstop/calc/quantity"
)

// Ink of one kind: which of the colours of Ink a character takes.
type tone int

const (
	faint tone = iota
	plain
	here
	stop
)

// of colours a text.
func (k Ink) of(t tone, text string) string {
	ink := map[tone]func(string) string{faint: k.Ahead, plain: k.Done, here: k.Here, stop: k.Stop}[t]
	if ink == nil || text == "" {
		return text
	}
	return ink(text)
}

// strip is a line being drawn: characters, each with its colour.
type strip struct {
	runes []rune
	tones []tone
}

func newStrip(width int, fill rune) strip {
	return strip{[]rune(strings.Repeat(string(fill), max(width, 0))), make([]tone, max(width, 0))}
}

// put writes a text from a column on; what lies outside of the strip is lost.
func (s strip) put(at int, text string, t tone) {
	for i, r := range []rune(text) {
		if c := at + i; c >= 0 && c < len(s.runes) {
			s.runes[c], s.tones[c] = printable(r), t
		}
	}
}

// label centres a text on a column, moved so that it lies within the strip. It
// writes nothing where there is no room, or another label too near.
func (s strip) label(at int, text string, t tone) {
	n := len([]rune(text))
	from := min(max(at-n/2, 0), len(s.runes)-n)
	if from < 0 {
		return
	}
	for c := max(from-1, 0); c < min(from+n+1, len(s.runes)); c++ {
		if s.runes[c] != ' ' {
			return
		}
	}
	s.put(from, text, t)
}

// text is the strip with its colours.
func (s strip) text(ink Ink) string {
	var b strings.Builder
	for start := 0; start < len(s.runes); {
		end := start + 1
		for end < len(s.runes) && s.tones[end] == s.tones[start] {
			end++
		}
		b.WriteString(ink.of(s.tones[start], string(s.runes[start:end])))
		start = end
	}
	return b.String()
}

// printable keeps a picture to ASCII, and to one line.
func printable(r rune) rune {
	if r < ' ' || r > '~' {
		return '?'
	}
	return r
}

// columns are how a picture shares its width out: the name of the ski, the
// drawing, a column left blank, and what is said in numbers.
type columns struct{ name, bar, says int }

const (
	nameColumns          = len("right") + 2
	usualBar, leastBar   = 41, 17
	leastSays, mostSays  = 12, 34
	leastPicture         = nameColumns + leastBar + 1 + leastSays
	besides              = nameColumns + 1
	leftName, rightName  = "left", "right"
	separator            = " "
	beyondLow, beyondTop = "<", ">"
	notRead              = "not read"
)

// columnsOf shares a width out; false where there is no room for a drawing.
func columnsOf(width int) (columns, bool) {
	c := columns{name: nameColumns, says: min(max(width-besides-usualBar, leastSays), mostSays)}
	c.bar = width - besides - c.says
	return c, width >= leastPicture
}

// line puts name, drawing and numbers together, exactly as wide as the columns.
func (c columns) line(name string, bar strip, says string, t tone, ink Ink) string {
	left, right := newStrip(c.name, ' '), newStrip(c.says, ' ')
	left.put(0, name, faint)
	right.put(0, says, t)
	return left.text(ink) + bar.text(ink) + separator + right.text(ink)
}

// whole is a line of words, exactly as wide as the picture.
func whole(width int, parts ...phrase) strip {
	line := newStrip(width, ' ')
	at := 0
	for _, p := range parts {
		line.put(at, p.text, p.tone)
		at += len([]rune(p.text))
	}
	return line
}

// phrase is a part of such a line.
type phrase struct {
	text string
	tone tone
}

// told is a picture for which there is no room, or nothing to draw: its title
// and what it has to say of each ski.
func told(title string, says [2]string, tones [2]tone, width int, ink Ink) []string {
	if width < 1 {
		return nil
	}
	return []string{
		whole(width, phrase{strings.ToUpper(title), plain}).text(ink),
		whole(width, phrase{"left  ", faint}, phrase{says[0], tones[0]}).text(ink),
		whole(width, phrase{"right ", faint}, phrase{says[1], tones[1]}).text(ink),
	}
}

// known reports whether a value was answered and can be drawn.
func known(v float64) bool { return v > 0 && !math.IsInf(v, 0) }

// plainly writes a value without its unit.
func plainly(v float64) string { return quantity.Print(v, quantity.Plain) }
