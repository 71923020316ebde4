package form

import (
	"io"
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"drillstop/workflow"
)

// stop ends a driven program; the form has no use for it.
const stop = "\x11" // ctrl+q

// driven is a form in a real program. It ends with Submitted or with stop.
type driven struct {
	form *Model
	sent []tea.Msg
}

func (d *driven) Init() tea.Cmd { return d.form.Init() }
func (d *driven) View() string  { return d.form.View() }

func (d *driven) Update(msg tea.Msg) (tea.Model, tea.Cmd) {
	switch msg := msg.(type) {
	case Submitted:
		d.sent = append(d.sent, msg)
		return d, tea.Quit
	case Left, Back:
		d.sent = append(d.sent, msg)
	case tea.KeyMsg:
		if msg.Type == tea.KeyCtrlQ {
			return d, tea.Quit
		}
	}
	var cmd tea.Cmd
	d.form, cmd = d.form.Update(msg)
	return d, cmd
}

// drive runs a program on a form and gives it all bytes in one read.
func drive(t *testing.T, m *Model, bytes string) *driven {
	t.Helper()
	require.Less(t, len(bytes), 256, "more than one read")
	in, out := io.Pipe()
	go func() { _, _ = io.WriteString(out, bytes) }()
	d := &driven{form: m}
	_, err := tea.NewProgram(d, tea.WithInput(in), tea.WithOutput(io.Discard), tea.WithoutSignals()).Run()
	require.NoError(t, err)
	require.NoError(t, in.Close())
	return d
}

func fields() workflow.Step {
	return workflow.Step{ID: "scan", Fields: []workflow.Field{
		{ID: "text", Label: "Text", Kind: workflow.Text},
		{ID: "number", Label: "Number", Kind: workflow.Number},
		{ID: "choice", Label: "Choice", Kind: workflow.Choice, Options: workflow.YesNo},
		{ID: "seen", Label: "Seen", Kind: workflow.Seen},
		{ID: "list", Label: "List", Kind: workflow.List, PerSki: true},
		{ID: "last", Label: "Last", Kind: workflow.Text},
	}}
}

func TestABurstLandsWholeInItsField(t *testing.T) {
	const code = "TARN-98/178-00042417" // 20 characters
	for _, key := range []string{"text", "number", "choice", "seen", "list.left", "list.right", "last"} {
		t.Run(key, func(t *testing.T) {
			d := drive(t, open(Options{Step: fields(), Focus: key}), code+"\r"+stop)
			assert.Equal(t, workflow.Answers{key: code}, d.form.Typed())
		})
	}
}

func TestBurstsOneAfterTheOther(t *testing.T) {
	want := workflow.Answers{"text": "TARN 98", "number": "49", "choice": "no", "seen": "yes",
		"list.left": "49, 51, 52", "list.right": "38, 39, 38", "last": "end"}
	values := []string{"TARN 98", "49", "no", "y", "49, 51, 52", "38, 39, 38", "end"}
	for name, end := range map[string]string{"return": "\r", "line feed": "\n", "both": "\r\n"} {
		t.Run(name, func(t *testing.T) {
			d := drive(t, open(Options{Step: fields()}), strings.Join(values, end)+end)
			require.NotEmpty(t, d.sent)
			assert.Contains(t, d.sent, Submitted{Step: "scan", Typed: want})
		})
	}
	t.Run("tab", func(t *testing.T) {
		d := drive(t, open(Options{Step: fields()}), strings.Join(values, "\t")+stop)
		assert.Equal(t, want, d.form.Typed())
	})
}

func TestABurstGoesBackAsWell(t *testing.T) {
	const up, shiftTab = "\x1b[A", "\x1b[Z"
	d := drive(t, open(Options{Step: fields(), Focus: "list.right"}), "3"+shiftTab+"2"+up+"y"+up+"no"+stop)
	assert.Equal(t, workflow.Answers{"list.right": "3", "list.left": "2", "seen": "yes", "choice": "no"}, d.form.Typed())
}

func TestABracketedPasteInABurst(t *testing.T) {
	pasted := func(s string) string { return "\x1b[200~" + s + "\x1b[201~" }
	for _, c := range []struct {
		name, bytes string
		want        workflow.Answers
	}{
		{"return at the end", pasted("TARN-98\r") + "49\r" + stop, workflow.Answers{"text": "TARN-98", "number": "49"}},
		{"return and line feed", pasted("TARN-98\r\n") + "49\r" + stop, workflow.Answers{"text": "TARN-98", "number": "49"}},
		{"tab at the end", pasted("TARN-98\t") + pasted("49\t") + stop, workflow.Answers{"text": "TARN-98", "number": "49"}},
		{"inside", pasted(" TARN\r98\t178 ") + "\r49" + stop, workflow.Answers{"text": "TARN 98 178", "number": "49"}},
		{"an own return after it", pasted("TARN") + "\r49" + stop, workflow.Answers{"text": "TARN", "number": "49"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			assert.Equal(t, c.want, drive(t, open(Options{Step: fields()}), c.bytes).form.Typed())
		})
	}
}

func TestTheInterruptDoesNotEndTheForm(t *testing.T) {
	d := drive(t, open(Options{Step: fields()}), "A\x03B\x05C\r"+stop)
	assert.Equal(t, workflow.Answers{"text": "ABC"}, d.form.Typed())
	assert.Equal(t, "number", d.form.FocusedKey())
}
