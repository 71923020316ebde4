package form

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// At its own height a form hides nothing, whichever input has the focus.
func TestLinesHideNothing(t *testing.T) {
	for _, width := range []int{40, 80, 120} {
		m := open(Options{Width: width, Height: 60})
		m.Resize(width, m.Lines())
		for range m.rows {
			assert.NotContains(t, m.View(), "more ", "width %d", width)
			assert.LessOrEqual(t, strings.Count(m.View(), "\n")+1, m.Lines())
			press(m, "<down>")
		}
	}
}
