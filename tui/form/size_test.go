package form

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/lipgloss"
	"github.com/muesli/termenv"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"drillstop/calc"
	"drillstop/workflow"
)

var update = flag.Bool("update", false, "write the golden screens anew")

func requireFits(t require.TestingT, m *Model, width, height int) {
	view := m.View()
	require.LessOrEqual(t, lipgloss.Height(view), height, "height %d\n%s", height, view)
	require.LessOrEqual(t, lipgloss.Width(view), width, "width %d\n%s", width, view)
}

// requireHand checks that the input in hand is on the screen: without colours
// it is the one with a cursor.
func requireHand(t require.TestingT, m *Model) {
	require.Equal(t, 1, strings.Count(m.View(), "_"), "one cursor\n%s", m.View())
}

func TestEverySizeHoldsAndGrowsBack(t *testing.T) {
	draft := workflow.Answers{"name": "Tarn 98 / 178 with a name that is longer than any input of the form could ever be", "bit": "35",
		"stop.left": "9", "type": "II", "eyes": "yes", "twist.left": "49 51 52", "due": "27.11.2026"}
	for _, focus := range []string{"name", "stop.right", "type", "mark.left", "twist.right", "note"} {
		m := open(Options{Focus: focus, Draft: draft, Width: 140, Height: 50})
		full := m.View()
		for w := 140; w >= 30; w -= 5 {
			for h := 50; h >= 8; h -= 3 {
				m.Resize(w, h)
				requireFits(t, m, w, h)
				requireHand(t, m)
				require.Equal(t, focus, m.FocusedKey())
			}
		}
		require.Equal(t, draft, m.Typed())
		m.Resize(140, 50)
		require.Equal(t, full, m.View(), "it grows back")
	}
}

func TestTinySizes(t *testing.T) {
	m := open(Options{Focus: "indicator.right"})
	for w := -1; w < 30; w++ {
		for h := -1; h < 8; h++ {
			m.Resize(w, h)
			requireFits(t, m, max(w, 0), max(h, 1))
		}
	}
}

// TestAnythingTypedFits types anything at all, at any size, into any step.
func TestAnythingTypedFits(t *testing.T) {
	text := rapid.StringOfN(rapid.RuneFrom([]rune("aXyn019 .,=-_åé漢字🙂\u0301\u200b\t\n\x1b")), 0, 60, -1)
	keys := []string{"<enter>", "<tab>", "<back>", "<up>", "<down>", "<left>", "<right>", "<home>", "<end>", "<rub>", "<del>", "<ctrl+d>", "<ctrl+e>", "<lf>", "<alt+b>"}
	rapid.Check(t, func(t *rapid.T) {
		step := workflow.Step{ID: "x", Fields: rapid.SliceOfN(rapid.Custom(func(t *rapid.T) workflow.Field {
			suggest := text.Draw(t, "suggest")
			return workflow.Field{
				ID: workflow.FieldID(rapid.StringMatching(`[a-c]`).Draw(t, "id")), Label: text.Draw(t, "label"), Hint: text.Draw(t, "hint"),
				Kind: rapid.SampledFrom([]workflow.FieldKind{workflow.Text, workflow.Number, workflow.List, workflow.Choice, workflow.Seen, workflow.Date, "odd"}).Draw(t, "kind"),
				Unit: "mm", Min: 0, Max: float64(rapid.IntRange(0, 9).Draw(t, "max")), PerSki: rapid.Bool().Draw(t, "per ski"), Optional: rapid.Bool().Draw(t, "optional"),
				Options: rapid.SliceOfN(rapid.Custom(func(t *rapid.T) workflow.Option {
					return workflow.Option{Value: text.Draw(t, "value"), Label: text.Draw(t, "label")}
				}), 0, 9).Draw(t, "options"),
				Suggest: func(workflow.Shop, workflow.Job, workflow.Side) string { return suggest },
			}
		}), 0, 9).Draw(t, "fields")}
		w, h := rapid.IntRange(1, 140).Draw(t, "width"), rapid.IntRange(1, 50).Draw(t, "height")
		m := New(Options{Step: step, Width: w, Height: h, ASCII: rapid.Bool().Draw(t, "ascii"), Draft: workflow.Answers{"a": text.Draw(t, "draft")},
			Styles: styles(rapid.SampledFrom([]termenv.Profile{termenv.Ascii, termenv.ANSI}).Draw(t, "profile"))})
		for range rapid.IntRange(0, 12).Draw(t, "steps") {
			typed, focus := m.Typed(), m.FocusedKey()
			switch rapid.IntRange(0, 3).Draw(t, "act") {
			case 0:
				w, h = rapid.IntRange(1, 140).Draw(t, "width"), rapid.IntRange(1, 50).Draw(t, "height")
				m.Resize(w, h)
				require.Equal(t, typed, m.Typed())
				require.Equal(t, focus, m.FocusedKey())
			case 1:
				m.Update(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(text.Draw(t, "typed")), Paste: rapid.Bool().Draw(t, "paste")})
			case 2:
				press(m, rapid.SampledFrom(keys).Draw(t, "key"))
				if focus != m.FocusedKey() {
					require.Equal(t, typed, m.Typed(), "moving changes nothing")
				}
			case 3:
				m.SetFaults([]workflow.FieldFault{{Field: "b", Side: workflow.Right, Fault: calc.Faultf("x", "%s", text.Draw(t, "fault"))}})
				require.Equal(t, typed, m.Typed())
			}
			requireFits(t, m, w, h)
		}
	})
}

func TestScrollingTellsWhatIsHidden(t *testing.T) {
	m := open(Options{Width: 80, Height: 8})
	assert.NotContains(t, m.View(), "more above")
	assert.Contains(t, m.View(), "more below, 5")
	press(m, strings.Repeat("<enter>", 6))
	assert.Contains(t, m.View(), "> Forward pressure")
	assert.Regexp(t, `more above, \d   more below, \d`, m.View())
	press(m, strings.Repeat("<enter>", 7))
	assert.Contains(t, m.View(), "> Anything else the next hand")
	assert.Contains(t, m.View(), "more above")
	assert.NotContains(t, m.View(), "more below")
}

func TestALongSentenceTakesTheSpareLines(t *testing.T) {
	long := strings.Repeat("This value was not taken. ", 20) + "End."
	step := workflow.Step{ID: "x", Fields: []workflow.Field{{ID: "a", Label: "A", Kind: workflow.Text}}}
	m := open(Options{Step: step, Width: 60, Height: 14})
	m.SetFaults([]workflow.FieldFault{{Field: "a", Fault: calc.Faultf("x", "%s", long)}})
	assert.Contains(t, m.View(), "End.")
	assert.Contains(t, m.View(), "[_ ", "beside the input")
	requireFits(t, m, 60, 14)
	m.Resize(60, 6)
	assert.NotContains(t, m.View(), "End.")
	assert.Contains(t, m.View(), "…", "cut, and it shows")
	assert.Contains(t, m.View(), "[_ ")
	requireFits(t, m, 60, 6)
}

func TestRowsStayWhereTheyAre(t *testing.T) {
	m := open(Options{})
	at := func() int {
		return strings.Count(m.View()[:strings.Index(m.View(), "Promised for")], "\n")
	}
	first, height := at(), lipgloss.Height(m.View())
	for range 13 {
		press(m, "<enter>")
		assert.Equal(t, first, at(), m.FocusedKey())
		assert.Equal(t, height, lipgloss.Height(m.View()), m.FocusedKey())
	}
}

func TestTheCursorIsSeenWithoutColours(t *testing.T) {
	m := open(Options{})
	press(m, "Tarn<left><left>")
	assert.Contains(t, m.View(), "[Ta|rn ")
	press(m, strings.Repeat("x", 60))
	assert.Contains(t, m.View(), "…")
	assert.Contains(t, m.View(), "x|rn]")
}

func TestASuggestionIsAlwaysShownAndNeverEntered(t *testing.T) {
	long := "as far as the second mark from behind"
	step := workflow.Step{ID: "x", Fields: []workflow.Field{{ID: "a", Label: "A", Kind: workflow.Number, PerSki: true, Hint: "turns of the screw",
		Suggest: func(_ workflow.Shop, _ workflow.Job, side workflow.Side) string {
			if side == workflow.Right {
				return "6.5"
			}
			return long
		}}}}
	m := open(Options{Step: step})
	assert.Contains(t, m.View(), "[          ] (6.5)", "beside the input")
	assert.Contains(t, m.View(), "turns of the screw; ("+long+")", "or below, where it does not fit")
	press(m, "<enter>")
	assert.NotContains(t, m.View(), long)
	press(m, "<enter>")
	assert.Empty(t, m.Typed())
}

func TestASCII(t *testing.T) {
	m := open(Options{ASCII: true, Width: 60, Height: 9, Draft: workflow.Answers{"name": strings.Repeat("long ", 30)}})
	for range 14 {
		view := m.View()
		for _, r := range view {
			require.Less(t, r, rune(128), view)
		}
		press(m, "<enter>")
	}
}

func TestGoldenScreens(t *testing.T) {
	for _, size := range []struct{ w, h int }{{80, 24}, {120, 40}, {40, 20}} {
		for name, m := range map[string]*Model{
			"empty": open(Options{Width: size.w, Height: size.h}),
			"typed": typedForm(size.w, size.h),
		} {
			path := filepath.Join("..", "..", "testdata", "golden", "form", fmt.Sprintf("%s-%dx%d.txt", name, size.w, size.h))
			t.Run(filepath.Base(path), func(t *testing.T) { golden(t, path, m.View()) })
		}
	}
}

func typedForm(w, h int) *Model {
	m := open(Options{Width: w, Height: h})
	press(m, "Tarn 98 / 178<enter>3.5<enter>9<enter>=<enter>2<enter>1<enter>too much<enter>y<enter> <enter><enter>49 51 52<enter>38<enter>")
	press(m, "<up>")
	return m
}

func golden(t *testing.T, path, view string) {
	if *update {
		require.NoError(t, os.MkdirAll(filepath.Dir(path), 0o755))
		require.NoError(t, os.WriteFile(path, []byte(view+"\n"), 0o644))
	}
	want, err := os.ReadFile(path)
	require.NoError(t, err, "run the tests with -update to write it")
	assert.Equal(t, string(want), view+"\n")
}

func BenchmarkKeyToView(b *testing.B) {
	var step workflow.Step
	for i := range 12 {
		step.Fields = append(step.Fields, workflow.Field{ID: workflow.FieldID(fmt.Sprintf("f%d", i)), Label: "Stop tried on scrap", Unit: "mm", Kind: workflow.Number, Max: 10, PerSki: i%2 == 1})
	}
	m := New(Options{Step: step, Width: 80, Height: 24, Styles: styles(termenv.ANSI256)})
	letter, rub := tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune("7")}, named["rub"]
	b.ReportAllocs()
	for b.Loop() {
		m.Update(letter)
		_ = m.View()
		m.Update(rub)
		_ = m.View()
	}
}

func BenchmarkNew(b *testing.B) {
	o := Options{Step: everyKind(), Width: 80, Height: 24, Styles: styles(termenv.ANSI256)}
	b.ReportAllocs()
	for b.Loop() {
		_ = New(o)
	}
}
