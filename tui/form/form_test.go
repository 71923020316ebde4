package form

import (
	"strings"
	"testing"

	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/lipgloss"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"drillstop/calc"
	"drillstop/workflow"
)

func TestNothingIsEnteredByItself(t *testing.T) {
	m := open(Options{})
	assert.Empty(t, m.Typed())
	press(m, strings.Repeat("<enter>", 13))
	assert.Equal(t, "note", m.FocusedKey(), "all inputs passed")
	assert.Empty(t, m.Typed(), "passing a field answers nothing")
	assert.NotContains(t, m.View(), "!", "what is empty is no fault yet")
}

func TestOrderOfTheInputs(t *testing.T) {
	order := []string{"name", "bit", "stop.left", "stop.right", "type", "indicator.left", "indicator.right", "eyes",
		"mark.left", "mark.right", "twist.left", "twist.right", "due", "note"}
	for _, forward := range []string{"<enter>", "<tab>", "<lf>"} {
		m := open(Options{})
		for i, want := range order[:len(order)-1] {
			require.Equal(t, want, m.FocusedKey(), "%s, input %d", forward, i)
			sent := press(m, forward)
			require.Equal(t, []tea.Msg{Left{Step: "bit", Key: want}}, sent)
		}
		require.Equal(t, "note", m.FocusedKey())
		require.Equal(t, "Anything else the next hand must know before it goes on", m.FocusedField().Label)
	}
	m := open(Options{Focus: "note"})
	for i := len(order) - 1; i > 0; i-- {
		require.Equal(t, order[i], m.FocusedKey())
		press(m, "<back>")
	}
	require.Equal(t, "name", m.FocusedKey())
	require.Equal(t, []tea.Msg{Back{Step: "bit"}}, press(m, "<back>"))
	require.Equal(t, "name", m.FocusedKey(), "the field keeps the focus and takes text after going back")
	press(m, "Tarn")
	require.Equal(t, "Tarn", m.Typed()["name"])
}

// The arrows go along the rows of one ski, and stay in the form at its ends.
func TestArrowsStayWithOneSki(t *testing.T) {
	m := open(Options{Focus: "stop.right"})
	press(m, "<down>")
	assert.Equal(t, "type", m.FocusedKey())
	m = open(Options{Focus: "indicator.right"})
	press(m, "<down><down>")
	assert.Equal(t, "mark.left", m.FocusedKey(), "one input between two rows of both skis")
	press(m, "<enter><down>")
	assert.Equal(t, "twist.right", m.FocusedKey())
	press(m, "<down><down>")
	assert.Equal(t, "note", m.FocusedKey())
	assert.Empty(t, press(m, "<down>"))
	assert.Equal(t, "note", m.FocusedKey())
	m = open(Options{})
	assert.Empty(t, press(m, "<up>"))
	assert.Equal(t, "name", m.FocusedKey())
}

func TestEndsOfTheForm(t *testing.T) {
	want := []tea.Msg{Submitted{Step: "bit", Typed: workflow.Answers{"note": "dull bit"}}}

	m := open(Options{Focus: "note"})
	assert.Equal(t, want, press(m, "dull bit<enter>"))
	byKey := []tea.Msg{Submitted{Step: "bit", Typed: workflow.Answers{"note": "dull bit"}, ByKey: true}}
	assert.Equal(t, byKey, press(m, "<ctrl+d>"), "and from anywhere")

	m = open(Options{Focus: "note"})
	assert.Empty(t, press(m, "dull bit<tab><down>"), "only Enter submits")
	assert.Equal(t, "note", m.FocusedKey())
	press(m, "<up><up><up>")
	assert.Equal(t, byKey, press(m, "<ctrl+d>"))
}

func TestScannersEndWithCarriageReturnLineFeedOrBoth(t *testing.T) {
	for _, end := range []string{"<enter>", "<lf>", "<enter><lf>"} {
		m := open(Options{})
		press(m, "Tarn 98"+end+"3.5"+end)
		assert.Equal(t, workflow.Answers{"name": "Tarn 98", "bit": "3.5"}, m.Typed(), end)
		assert.Equal(t, "stop.left", m.FocusedKey(), end)
	}
}

func TestKeysThatMustDoNothing(t *testing.T) {
	for _, focus := range []string{"name", "bit", "type", "eyes", "twist.right"} {
		m := open(Options{Focus: focus, Draft: workflow.Answers{"name": "a", "bit": "3", "type": "II", "eyes": "yes", "twist.right": "1"}})
		before := m.Typed()
		for _, k := range []string{"<ctrl+c>", "<ctrl+e>", "<ctrl+v>", "<esc>", "<alt+q>", "<alt+b>"} {
			assert.Empty(t, press(m, k), k)
			assert.Equal(t, focus, m.FocusedKey(), k)
			assert.Equal(t, before, m.Typed(), "%s in %s", k, focus)
		}
		_, cmd := m.Update(tea.WindowSizeMsg{Width: 10, Height: 2})
		assert.Nil(t, cmd)
		assert.Greater(t, lipgloss.Height(m.View()), 10, "the window size is the root's")
	}
}

// One read of a terminal may hold a text that has the same name as a key.
func TestTextIsNoKey(t *testing.T) {
	for _, text := range []string{"enter", "tab", "end", "home", "up", "down", "left", "delete", "backspace", "ctrl+c", "ctrl+d", "ctrl+u", "shift+tab", "alt+b"} {
		for _, focus := range []string{"name", "type", "eyes"} {
			m := open(Options{Focus: focus})
			_, cmd := m.Update(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune("7" + text)})
			require.Nil(t, cmd)
			_, cmd = m.Update(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(text)})
			require.Nil(t, cmd)
			assert.Equal(t, workflow.Answers{workflow.Key(workflow.FieldID(focus), workflow.Both): "7" + text + text}, m.Typed())
		}
	}
}

func TestEditing(t *testing.T) {
	for _, c := range []struct{ typed, want string }{
		{"Tarn<left><left>x", "Taxrn"},
		{"Tarn<home>x<end>y", "xTarny"},
		{"Tarn<rub><rub>", "Ta"},
		{"Tarn<home><del>", "arn"},
		{"Tarn<ctrl+u>", ""},
		{"Tarn <alt+b>x", "xTarn "},
		{"blåbær ski", "blåbær ski"},
		{"=", "="},
	} {
		m := open(Options{})
		press(m, c.typed)
		assert.Equal(t, c.want, m.Typed()["name"], c.typed)
		assert.Equal(t, "name", m.FocusedKey())
	}
}

// A value that stands there already is measured again, not added to; words are.
func TestTypingReplacesAValue(t *testing.T) {
	m := open(Options{Focus: "stop.left", Draft: workflow.Answers{"stop.left": "12.5 mm", "name": "Tarn"}})
	press(m, "9")
	assert.Equal(t, "9", m.Typed()["stop.left"])
	press(m, ".0")
	assert.Equal(t, "9.0", m.Typed()["stop.left"])

	m = open(Options{Focus: "stop.left", Draft: workflow.Answers{"stop.left": "12.5 mm"}})
	press(m, "<rub>")
	press(m, "x")
	assert.Equal(t, "12.5 mx", m.Typed()["stop.left"], "backspace edits")

	m = open(Options{Focus: "name", Draft: workflow.Answers{"name": "Tarn"}})
	press(m, " 98")
	assert.Equal(t, "Tarn 98", m.Typed()["name"])
}

func TestSameAsLeft(t *testing.T) {
	m := open(Options{Focus: "stop.left"})
	press(m, "9.0<enter>")
	assert.Contains(t, m.View(), "= same as left")
	press(m, "=<enter>")
	assert.Equal(t, workflow.Answers{"stop.left": "9.0", "stop.right": "9.0"}, m.Typed())

	m = open(Options{Focus: "stop.right", Draft: workflow.Answers{"stop.left": "9", "stop.right": "8"}})
	press(m, "=")
	assert.Equal(t, "9", m.Typed()["stop.right"], "a number has no = in it")

	m = open(Options{Focus: "stop.right"})
	press(m, "=")
	assert.Empty(t, m.Typed())
	assert.Contains(t, m.View(), "There is nothing on the left to copy.")

	m = open(Options{Focus: "indicator.right", Draft: workflow.Answers{"indicator.left": "too much"}})
	press(m, "=")
	assert.Equal(t, "too much", m.Typed()["indicator.right"])

	m = open(Options{Focus: "mark.right", Draft: workflow.Answers{"mark.left": "yes"}})
	press(m, "=")
	assert.NotEqual(t, "yes", m.Typed()["mark.right"], "what must be looked at is not copied")
}

func TestValuesAreJudgedWhenTheyAreLeft(t *testing.T) {
	m := open(Options{Focus: "bit"})
	press(m, "35")
	assert.NotContains(t, m.View(), "!", "not while it is being typed")
	press(m, "<enter>")
	assert.Contains(t, m.View(), "!  Bit measured")
	assert.Contains(t, m.View(), "! Bit measured 35 mm is outside 2 to 8 mm.", "said while the eye is near")
	press(m, "<up>")
	assert.Contains(t, m.View(), "! Bit measured 35 mm is outside 2 to 8 mm.")
	press(m, "<rub>")
	assert.NotContains(t, m.View(), "!", "the fault was about another value")
	press(m, "<enter>")
	assert.NotContains(t, m.View(), "!")
	assert.Len(t, m.form.Errors(), 0)
}

func TestDraftIsJudgedAtOnce(t *testing.T) {
	m := open(Options{Draft: workflow.Answers{"bit": "35", "gone": "x", "due": "27.11.2026"}})
	assert.Contains(t, m.View(), "!  Bit measured")
	assert.Equal(t, workflow.Answers{"bit": "35", "due": "27.11.2026"}, m.Typed())
}

func TestSetFaults(t *testing.T) {
	draft := workflow.Answers{"name": "Tarn", "stop.left": "9", "stop.right": "10", "eyes": "yes"}
	m := open(Options{Focus: "note", Draft: draft})
	m.SetFaults([]workflow.FieldFault{
		{Field: "twist", Side: workflow.Left, Fault: calc.Faultf("x", "Twist is missing.")},
		{Field: "stop", Side: workflow.Right, Fault: calc.Faultf("x", "The right stop\ndiffers.")},
	})
	assert.Equal(t, "stop.right", m.FocusedKey(), "the first from the top")
	assert.Equal(t, draft, m.Typed(), "nothing typed is lost")
	assert.Contains(t, m.View(), "! The right stop differs.")
	assert.Len(t, m.form.Errors(), 2)

	press(m, "<enter>")
	assert.Len(t, m.form.Errors(), 2, "it stays while the value stays")
	press(m, "<back>.1")
	assert.Len(t, m.form.Errors(), 1, "and goes with the value")
	press(m, "<enter>")

	m.SetFaults(nil)
	assert.Empty(t, m.form.Errors())
	assert.Equal(t, "type", m.FocusedKey(), "no fault, no move")
}

func TestFaultsWithoutAPlace(t *testing.T) {
	m := open(Options{Focus: "bit"})
	m.SetFaults([]workflow.FieldFault{{Field: "gone.left", Fault: calc.Faultf("field.unknown", "There is no such field.")}})
	assert.Equal(t, "bit", m.FocusedKey())
	assert.Contains(t, m.View(), "! There is no such field.")
	m.SetFaults(nil)
	assert.NotContains(t, m.View(), "!")
	m.SetFaults([]workflow.FieldFault{{Field: "name"}, {Field: "name", Side: workflow.Left}})
	assert.Contains(t, m.View(), "! This value was not taken.")
}

func TestPaste(t *testing.T) {
	for _, c := range []struct{ pasted, want, focus string }{
		{"TARN-98-178-000123456", "TARN-98-178-000123456", "name"},
		{"TARN-98\r", "TARN-98", "bit"},
		{"TARN-98\r\n", "TARN-98", "bit"},
		{"TARN-98\t", "TARN-98", "bit"},
		{" \n TARN-98 \n\n", "TARN-98", "bit"},
		{"TARN\r98\t178", "TARN 98 178", "name"},
		{"TARN\x1b[31m", "TARN [31m", "name"},
		{"\r\n", "", "bit"},
	} {
		m := open(Options{})
		paste(m, c.pasted)
		assert.Equal(t, c.want, m.Typed()["name"], "%q", c.pasted)
		assert.Equal(t, c.focus, m.FocusedKey(), "%q", c.pasted)
	}
	m := open(Options{Focus: "note"})
	assert.Empty(t, paste(m, "dull bit\n"), "a paste never submits")
	assert.Equal(t, "dull bit", m.Typed()["note"])

	m = open(Options{})
	paste(m, strings.Repeat("x", fullAt+1)+"\n")
	assert.Empty(t, m.Typed(), "no part of it")
	assert.Equal(t, "name", m.FocusedKey())
	assert.Contains(t, m.View(), "1601 characters do not fit here")
	press(m, "y")
	assert.NotContains(t, m.View(), "do not fit")
}

func TestUnusualSteps(t *testing.T) {
	t.Run("no field", func(t *testing.T) {
		m := open(Options{Step: workflow.Step{ID: "fit"}})
		assert.False(t, m.Capturing())
		assert.Equal(t, "Nothing is typed here; enter keeps the step.", m.View())
		assert.Equal(t, []tea.Msg{Submitted{Step: "fit", Typed: workflow.Answers{}}}, press(m, "<enter>"))
		assert.Equal(t, []tea.Msg{Submitted{Step: "fit", Typed: workflow.Answers{}, ByKey: true}}, press(m, "<ctrl+d>"))
		assert.Equal(t, []tea.Msg{Back{Step: "fit"}}, press(m, "<back>"))
		assert.Empty(t, press(m, "abc<tab>"), "no submitting by tab")
		assert.Empty(t, paste(m, "abc\n"))
		assert.Empty(t, m.FocusedKey())
		assert.Empty(t, m.FocusedField().ID)
		m.SetFaults([]workflow.FieldFault{{Field: "x", Fault: calc.Faultf("x", "Held.")}})
		assert.Contains(t, m.View(), "Held.")
		m.Resize(10, 2)
		assert.LessOrEqual(t, lipgloss.Height(m.View()), 2)
	})
	t.Run("a field of no kind", func(t *testing.T) {
		m := open(Options{Step: workflow.Step{ID: "x", Fields: []workflow.Field{{ID: "a", Label: "A"}}}})
		press(m, "abc<tab>")
		assert.Contains(t, m.View(), "! A: the field has no kind.")
	})
	t.Run("a choice of nothing", func(t *testing.T) {
		m := open(Options{Step: workflow.Step{ID: "x", Fields: []workflow.Field{{ID: "a", Label: "A", Kind: workflow.Choice}}}})
		press(m, "<left><right>1<tab>")
		assert.Equal(t, workflow.Answers{"a": "1"}, m.Typed())
		assert.Contains(t, m.View(), `! A: "1" is none of`)
	})
	t.Run("fields of another kind of job", func(t *testing.T) {
		step := workflow.Step{ID: "x", Fields: []workflow.Field{
			{ID: "a", Label: "A", Kind: workflow.Text, Kinds: []workflow.Kind{"mount"}},
			{ID: "b", Label: "B", Kind: workflow.Text, When: func(j workflow.Job) bool { return j.Kind == "adjustment" }},
		}}
		m := open(Options{Step: step, Job: workflow.Job{Kind: "adjustment"}, Focus: "a"})
		assert.Equal(t, "b", m.FocusedKey())
		assert.Equal(t, workflow.Answers{}, open(Options{Step: step, Draft: workflow.Answers{"a": "1"}}).Typed())
	})
}

func TestKeyBinds(t *testing.T) {
	helps := func(m *Model) (all []string) {
		for _, b := range m.KeyBinds() {
			require.NotEmpty(t, b.Keys())
			all = append(all, b.Help().Key+" "+b.Help().Desc)
		}
		return all
	}
	assert.Equal(t, []string{"enter next", "shift+tab back", "ctrl+d keep all"}, helps(open(Options{})))
	assert.Equal(t, []string{"enter keep all", "shift+tab back", "ctrl+d keep all"}, helps(open(Options{Focus: "note"})))
	assert.Contains(t, helps(open(Options{Focus: "indicator.right"})), "= same as left")
	assert.Contains(t, helps(open(Options{Focus: "type"})), "left/right choose")
	m := open(Options{Focus: "eyes"})
	assert.Contains(t, helps(m), "y seen")
	press(m, "y")
	assert.Contains(t, helps(m), "n not seen")
	assert.Equal(t, []string{"enter keep", "shift+tab back"}, helps(open(Options{Step: workflow.Step{ID: "fit"}})))
	assert.True(t, key.Matches(named["enter"], open(Options{}).KeyBinds()[0]), "help and action are one binding")
}

// What is read back from each ski is not copied from the other.
func TestAReadBackIsNotCopied(t *testing.T) {
	step := workflow.Step{ID: "set", Fields: []workflow.Field{{ID: "toe", Label: "Toe", Kind: workflow.Number, PerSki: true, ReadBack: true}}}
	m := open(Options{Step: step, Focus: "toe.right", Draft: workflow.Answers{"toe.left": "6"}})
	assert.NotContains(t, m.View(), "same as left")
	press(m, "=")
	assert.NotEqual(t, "6", m.Typed()["toe.right"])
}
