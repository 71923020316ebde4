package paper

import (
	"strings"
	"testing"

	"github.com/charmbracelet/x/ansi"
	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

func TestRowsNeverLoseWordsOrLeaveThePaper(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.StringMatching(`[a-zå-ø0-9,.-]{1,90}( [a-zå-ø0-9,.-]{1,20}){0,12}`)
		label, value := text.Draw(t, "label"), text.Draw(t, "value")
		p := &page{}
		p.row(cell{labelAt, leftAt - labelAt - 2, label}, cell{leftAt, Width - leftAt, value})
		p.ends(label, "T-0417")
		p.indented(labelAt, "! ", value)
		for _, line := range p.lines {
			assert.LessOrEqual(t, ansi.StringWidth(line), Width, "%q", line)
			assert.Equal(t, strings.TrimRight(line, " "), line)
		}
		for word, times := range count(strings.Fields(label + " " + value)) {
			if ansi.StringWidth(word) < 20 { // wider ones may be broken
				assert.GreaterOrEqual(t, strings.Count(p.String(), word), times, "%q", word)
			}
		}
	})
}

func count(words []string) map[string]int {
	times := map[string]int{}
	for _, word := range words {
		times[word]++
	}
	return times
}

func TestWordsWiderThanALineAreBroken(t *testing.T) {
	t.Parallel()
	assert.Equal(t, []string{"ab", "abcd", "efgh", "i"}, wrap("ab abcdefghi", 4))
	assert.Equal(t, []string{"雪山", "雪"}, wrap("雪山雪", 5))
	assert.Equal(t, []string{"雪山"}, wrap("雪山", 1), "a column that holds no character cuts none off")
	assert.Equal(t, []string{"toe 6  heel 6"}, wrap("toe 6  heel 6", 20))
}

func TestGapIsOneLine(t *testing.T) {
	t.Parallel()
	p := &page{}
	p.gap()
	p.ends("a", "b")
	p.gap()
	p.gap()
	p.ends("c", "")
	assert.Equal(t, "a"+strings.Repeat(" ", Width-2)+"b\n\nc\n", p.String())
}
