package form

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"drillstop/workflow"
)

func TestConfirming(t *testing.T) {
	for _, c := range []struct{ typed, want string }{
		{"", ""},
		{"<enter>", ""},
		{"<tab>", ""},
		{"<right>", ""},
		{"y", "yes"},
		{"Y", "yes"},
		{"x", "yes"},
		{" ", "yes"},
		{"yes", "yes"},
		{"y<left>", "yes"},
		{"n", ""},
		{"no", ""},
		{"x<rub>", ""},
		{"x<del>", ""},
		{"yes<rub>", ""},
		{"q<rub>y", "yes"},
		{"<alt+q>", ""},
		// What a scanner types confirms nothing and is not lost.
		{"4006381333931", "4006381333931"},
		{"x4006381", "x4006381"},
		{"4006381x", "4006381x"},
		{"yx", "yx"},
		{"=", "="},
	} {
		m := open(Options{Focus: "eyes"})
		press(m, c.typed)
		assert.Equal(t, c.want, m.Typed()["eyes"], "%q", c.typed)
	}
}

func TestConfirmingRuneByRune(t *testing.T) {
	for _, c := range []struct{ typed, want string }{
		{"yes", "yes"},
		{"yyy", "yes"},
		{"x x", "yes"},
		{"no", ""},
		{"ny", "yes"},
		{"yn", ""},
		{"x4006381", "x4006381"},
		{"4006381x", "4006381x"},
		{"y-17", "y-17"},
		{"yesterday", "yesterday"},
	} {
		m := open(Options{Focus: "eyes"})
		oneByOne(m, c.typed)
		assert.Equal(t, c.want, m.Typed()["eyes"], "%q", c.typed)
	}
}

func TestAPasteConfirmsNothing(t *testing.T) {
	for _, pasted := range []string{"y", "yes", "yes\r\n", "x", "4006381"} {
		m := open(Options{Focus: "eyes"})
		paste(m, pasted)
		assert.Empty(t, m.Typed())
		assert.Equal(t, "eyes", m.FocusedKey())
		assert.Contains(t, m.View(), "! A paste confirms nothing: look, then press y.")
		press(m, "<enter><up>")
		assert.NotContains(t, m.View(), "A paste", "said once")
	}
}

func TestSeenOnTheScreen(t *testing.T) {
	m := open(Options{Focus: "mark.left"})
	assert.Contains(t, m.View(), "[_]                     [ ]")
	press(m, "y")
	assert.Contains(t, m.View(), "[x] seen_               [ ]")
	press(m, "<enter>")
	assert.Contains(t, m.View(), "[x] seen                [_]")
	press(m, "4006<enter><back>")
	assert.Contains(t, m.View(), "[ ] 4006_")
	assert.Contains(t, m.View(), `! Mount mark seen: "4006" does not confirm it; yes does.`)
}

func TestEachSkiIsConfirmedByItself(t *testing.T) {
	m := open(Options{Focus: "mark.left"})
	press(m, "y<enter><enter>")
	assert.Equal(t, workflow.Answers{"mark.left": "yes"}, m.Typed())
}
