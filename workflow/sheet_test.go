package workflow_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"drillstop/calc"
	"drillstop/workflow"
)

func TestReadSheet(t *testing.T) {
	sheet, err := workflow.ReadSheet(strings.NewReader(`{
		"sheet": 1, "kind": "new mount", "due": "2026-11-26",
		"steps": [
			{"step": "measure", "answers": {"length": 18.50, "words": "a b"}},
			{"step": "set", "answers": {"at": {"left": 5, "right": "5,5"}, "far": false}},
			{"step": "press", "answers": {"ok": true, "list": [49, 51.5, 52], "none": null}},
			{"step": "look", "waive": "look.20", "reason": "seen"}
		]}`))
	require.NoError(t, err)
	assert.Equal(t, workflow.NewMount, sheet.Kind)
	assert.Equal(t, workflow.SheetAnswers{"length": "18.50", "words": "a b"}, sheet.Steps[0].Answers)
	assert.Equal(t, workflow.SheetAnswers{"at.left": "5", "at.right": "5,5", "far": "no"}, sheet.Steps[1].Answers)
	assert.Equal(t, workflow.SheetAnswers{"ok": "yes", "list": "49; 51.5; 52", "none": ""}, sheet.Steps[2].Answers)
	assert.Equal(t, "look.20", sheet.Steps[3].Waive)
}

func TestReadSheetRefuses(t *testing.T) {
	tests := []struct {
		name, sheet, code, says string
	}{
		{"nothing", ``, "sheet.json", "Line 1"},
		{"no JSON", "{\n\n  kind: mount}", "sheet.json", "Line 3"},
		{"another version", `{"sheet": 2, "kind": "mount"}`, "sheet.version", "version 2"},
		{"no version", `{"kind": "mount"}`, "sheet.version", "version 0"},
		{"no kind", `{"sheet": 1}`, "field.empty", "Kind of job"},
		{"an unknown kind", `{"sheet": 1, "kind": "painting"}`, "field.choice", "painting"},
		{"an unknown word", `{"sheet": 1, "kind": "mount", "stepps": []}`, "sheet.json", "stepps"},
		{"something behind it", "{\"sheet\": 1, \"kind\": \"mount\"}\n{}", "sheet.trailing", "Line 2"},
		{"a third ski", `{"sheet": 1, "kind": "mount", "steps": [{"step": "set", "answers": {"at": {"middle": 5}}}]}`, "sheet.json", `"middle" is not a ski`},
		{"a list in a list", `{"sheet": 1, "kind": "mount", "steps": [{"step": "set", "answers": {"at": [[5]]}}]}`, "sheet.json", "at: [[5]]"},
		{"a gap in a list", `{"sheet": 1, "kind": "mount", "steps": [{"step": "set", "answers": {"at": [49, null, 52]}}]}`, "sheet.json", "null"},
		{"a side twice", `{"sheet": 1, "kind": "mount", "steps": [{"step": "set", "answers": {"at": {"left": 5}, "at.left": 6}}]}`, "sheet.json", "at.left is answered twice"},
		{"a field twice", `{"sheet": 1, "kind": "mount", "steps": [{"step": "set", "answers": {"mass": 72, "mass": 80}}]}`, "sheet.json", "mass is answered twice"},
		{"a ski twice", `{"sheet": 1, "kind": "mount", "steps": [{"step": "set", "answers": {"at": {"left": 5, "left": 6}}}]}`, "sheet.json", "at.left is answered twice"},
		{"too large", `{"sheet": 1, "kind": "` + strings.Repeat("m", workflow.MaxSheet) + `"}`, "sheet.large", "1048576"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			_, err := workflow.ReadSheet(strings.NewReader(tt.sheet))
			var fault *calc.Fault
			require.ErrorAs(t, err, &fault)
			assert.Equal(t, tt.code, fault.Code)
			assert.Contains(t, fault.Sentence, tt.says)
			assert.False(t, strings.HasSuffix(fault.Sentence, ".."), fault.Sentence)
		})
	}
}

// A sheet is written by hand: its faults say where to look.
func TestReadSheetNamesTheLine(t *testing.T) {
	tests := map[string]struct {
		row  string // stands in line 4
		says string
	}{
		"a slip in the JSON":   {`{"step": "set" "answers": {}}`, "Line 4"},
		"a word of no step":    {`{"step": "set", "anwsers": {}}`, "Line 4"},
		"a ski that is none":   {`{"step": "set", "answers": {"at": {"middle": 5}}}`, "Line 4"},
		"answers as a list":    {`{"step": "set", "answers": [5]}`, "Line 4"},
		"a step as a number":   {`{"step": 5}`, "Line 4"},
		"no step at all":       {`"set"`, "Line 4"},
		"a list of two things": {`{"step": "set", "answers": {"at": [5, "x"]}}`, "Line 4"},
	}
	for name, tt := range tests {
		t.Run(name, func(t *testing.T) {
			_, err := workflow.ReadSheet(strings.NewReader(
				"{\"sheet\": 1, \"kind\": \"mount\",\n\"steps\": [\n{\"step\": \"measure\"},\n" + tt.row + ",\n{\"step\": \"look\"}\n]}\n\n"))
			assert.ErrorContains(t, err, tt.says)
		})
	}
	_, err := workflow.ReadSheet(strings.NewReader("{\"sheet\": 1,\n\"colour\": \"red\",\n\"kind\": \"mount\"}"))
	assert.ErrorContains(t, err, "Line 2")
	_, err = workflow.ReadSheet(strings.NewReader("{\"sheet\": 1,\n\"kind\": \"mount\",\n\"steps\": {}\n}\n"))
	assert.ErrorContains(t, err, "Line 3")
	_, err = workflow.ReadSheet(strings.NewReader("{\n\"sheet\": \"one\",\n\"kind\": \"mount\"\n}\n"))
	assert.ErrorContains(t, err, "Line 2")
}

func TestReadSheetDue(t *testing.T) {
	for typed, want := range map[string]string{"": "", "2026-11-26": "2026-11-26", " 26.11.2026 ": "2026-11-26"} {
		sheet, err := workflow.ReadSheet(strings.NewReader(`{"sheet": 1, "kind": "mount", "due": "` + typed + `"}`))
		require.NoError(t, err)
		assert.Equal(t, want, sheet.Due)
	}
	for _, bad := range []string{"banana", "31.02.2027", "2027-02-31", "tomorrow", "26"} {
		_, err := workflow.ReadSheet(strings.NewReader(`{"sheet": 1, "kind": "mount", "due": "` + bad + `"}`))
		var fault *calc.Fault
		require.ErrorAs(t, err, &fault, bad)
		assert.Equal(t, "job.due", fault.Code)
		assert.Contains(t, fault.Sentence, bad)

		store := newMemory()
		_, err = newDesk(t, store, technician).NewJob(t.Context(), workflow.Adjustment, bad)
		require.ErrorAs(t, err, &fault, bad)
		assert.Empty(t, store.jobs, "nothing was opened")
	}
}

func TestReadSheetPassesOnWhatItsReaderSays(t *testing.T) {
	broken := errors.New("the stick was pulled")
	_, err := workflow.ReadSheet(brokenReader{broken})
	assert.ErrorIs(t, err, broken)
}

type brokenReader struct{ err error }

func (r brokenReader) Read([]byte) (int, error) { return 0, r.err }

// The blank sheet holds every field that a job of its kind may ask, and is a
// sheet itself.
func TestBlankSheet(t *testing.T) {
	list, err := workflow.NewChecklist(smallSteps()...)
	require.NoError(t, err)
	blank := list.Blank(workflow.Adjustment)
	text, err := json.Marshal(blank)
	require.NoError(t, err)
	back, err := workflow.ReadSheet(bytes.NewReader(text))
	require.NoError(t, err)
	require.Len(t, back.Steps, 5, "drill is not part of an adjustment")
	assert.Equal(t, workflow.SheetAnswers{"at.left": "", "at.right": "", "far": ""}, back.Steps[2].Answers)
	length, words, far := back.Steps[0].About[0], back.Steps[0].About[1], back.Steps[2].About[1]
	assert.Equal(t, workflow.FieldID("length"), length.Field)
	assert.Equal(t, []float64{10, 100}, length.Range)
	assert.True(t, words.Optional)
	assert.True(t, far.Sometimes)
	assert.Equal(t, []string{"yes", "no"}, far.Options)
	assert.Contains(t, string(text), `"answers":{"at.left":"","at.right":"","far":""}`)
	assert.Contains(t, string(text), `"answers":{"length":"","words":""}`)
	assert.Len(t, list.Blank(workflow.NewMount).Steps, 6)
}

// A sheet that is written says what it said when it was read, in the order of
// the form where it knows that order.
func TestSheetIsWrittenInTheOrderOfTheForm(t *testing.T) {
	row := workflow.SheetStep{
		Step:    "measure",
		Answers: workflow.SheetAnswers{"words": "a <b> {c}", "length": "18", "also": "x"},
		About:   []workflow.About{{Field: "length"}, {Field: "words"}},
	}
	text, err := json.Marshal(row)
	require.NoError(t, err)
	var back workflow.SheetStep
	require.NoError(t, json.Unmarshal(text, &back))
	assert.Equal(t, row, back)
	at := func(key string) int { return strings.Index(string(text), `"`+key+`":`) }
	assert.Less(t, at("length"), at("words"))
	assert.Less(t, at("words"), at("also"))
}

func FuzzReadSheet(f *testing.F) {
	for _, seed := range []string{
		`{"sheet": 1, "kind": "mount"}`,
		`{"sheet": 1, "kind": "adjustment", "steps": [{"step": "measure", "answers": {"length": 18}}]}`,
		`{"sheet": 1, "kind": "adjustment", "steps": [{"step": "set", "answers": {"at": {"left": [1, 2], "right": null}}}]}`,
		`{"sheet": 1, "steps": [{"answers": {"a": {}}}]}`,
		`[`, `{"sheet": 1e99}`, "\xff", `null`,
	} {
		f.Add([]byte(seed))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		sheet, err := workflow.ReadSheet(bytes.NewReader(data))
		if err != nil {
			var fault *calc.Fault
			if !errors.As(err, &fault) || fault.Sentence == "" {
				t.Fatalf("no sentence for a technician: %v", err)
			}
			return
		}
		text, err := json.Marshal(sheet)
		require.NoError(t, err)
		back, err := workflow.ReadSheet(bytes.NewReader(text))
		require.NoError(t, err)
		again, err := json.Marshal(back)
		require.NoError(t, err)
		require.Equal(t, string(text), string(again))
	})
}
