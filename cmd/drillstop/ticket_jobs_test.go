package main

import (
	"encoding/json"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"drillstop/workflow"
)

// edited is the worked example with other lines in place of its release test,
// and with more to confirm at hand-over.
func edited(t *testing.T, told []workflow.FieldID, lines ...workflow.SheetStep) workflow.Sheet {
	t.Helper()
	sheet := workedExample(t)
	at := slices.IndexFunc(sheet.Steps, func(s workflow.SheetStep) bool { return s.Step == "release-test" })
	require.Positive(t, at)
	sheet.Steps = slices.Concat(sheet.Steps[:at], lines, sheet.Steps[at+1:])
	binding := slices.IndexFunc(sheet.Steps, func(s workflow.SheetStep) bool { return s.Step == "binding" })
	sheet.Steps[binding].Answers["mm_per_turn"] = "2 mm"
	last := sheet.Steps[len(sheet.Steps)-1]
	for _, id := range told {
		last.Answers[string(id)] = workflow.Yes
	}
	return sheet
}

// runs plays a sheet into the shop file as a supervisor, and returns the number
// of its job.
func runs(t *testing.T, file string, sheet workflow.Sheet) string {
	t.Helper()
	data, err := json.Marshal(sheet)
	require.NoError(t, err)
	path := filepath.Join(t.TempDir(), "sheet.json")
	require.NoError(t, os.WriteFile(path, data, 0o600))
	var played struct {
		Job     struct{ Ticket workflow.Ticket }
		Refused []workflow.StepID
	}
	require.NoError(t, json.Unmarshal([]byte(commanded(t, "run", "--db", file, "--json", "--supervisor", path)), &played))
	require.Empty(t, played.Refused, "%s", commanded(t, "run", "--db", file, "--supervisor", path))
	return strconv.Itoa(int(played.Job.Ticket))
}

// looped is a job that went far out of range, had its forward pressure seen to,
// its left toe corrected, and came back: three tests, two corrections.
func looped(t *testing.T, file string) string {
	t.Helper()
	return runs(t, file, edited(t, []workflow.FieldID{"told_corrected"},
		tested("36; 37; 36", "38; 37; 37"),
		corrected("seek the cause", "", "forward-pressure"),
		pressed("too little", "-3.5", "1.75", "in window"),
		tested("47; 48; 49", "48; 47; 48"),
		corrected("set the scale", "9.5", ""),
		tested("57; 58; 58", "58; 57; 57"),
	))
}

// untested is a job that a supervisor let go without a test device.
func untested(t *testing.T, file string) string {
	t.Helper()
	return runs(t, file, edited(t, []workflow.FieldID{"told_untested", "told_waived"},
		workflow.SheetStep{Step: "release-test", Answers: workflow.SheetAnswers{"tested": "no device"}},
		workflow.SheetStep{Step: "release-test", Waive: "release-test.not-tested", Reason: "The tester is away for calibration; the skier knows."},
	))
}

// onSheets are the pages of a job's ticket on one paper, without line breaks.
func onSheets(t *testing.T, file, job, size string) []string {
	t.Helper()
	pdf := filepath.Join(t.TempDir(), "ticket.pdf")
	commanded(t, "ticket", job, "--db", file, "--pdf", pdf, "--paper", size)
	pages := onPaper(t, pdf)
	for i := range pages {
		pages[i] = strings.Join(strings.Fields(pages[i]), " ")
	}
	return pages
}

func TestTheWholeLoopIsOnTheTicket(t *testing.T) {
	t.Parallel()
	file := filepath.Join(t.TempDir(), "shop.db")
	job := looped(t, file)
	for _, size := range []string{"a4", "a5"} {
		pages := onSheets(t, file, job, size)
		assert.Contains(t, pages[0], "corrected after the test 9.5 - - - stands at 9.5 8 8 8")
		all := strings.Join(pages, " ")
		for _, want := range []string{
			"release test, round 1 (a later one followed)", "36, 37, 36 Nm. Middle 36 Nm", "correction, round 1 (a later one followed)",
			"forward pressure became stale", "release test, round 2 (a later one followed)", "correction, round 2", "9.5",
			"57, 58, 58 Nm. Middle 58 Nm is the reference: inspection range, keep.", "left corrected 9.5", "handed over",
		} {
			assert.Contains(t, all, want, size)
		}
		assert.NotContains(t, all, "RELEASE-TESTED")
		assert.NotContains(t, all, "NOT PASSED")
	}
	text := commanded(t, "ticket", job, "--db", file)
	assert.Contains(t, text, "ROUNDS OF TEST AND CORRECTION")
	assert.Contains(t, text, "Stands at                       9.5        8          8          8")
}

func TestAJobThatNobodyTestedSaysSoInLarge(t *testing.T) {
	t.Parallel()
	file := filepath.Join(t.TempDir(), "shop.db")
	job := untested(t, file)
	page := onSheets(t, file, job, "a4")[0]
	for _, want := range []string{
		"NOT RELEASE-TESTED", "RELEASE TEST no", "waived by", "The tester is away for calibration; the skier knows.",
		"at what moment these bindings let go was not measured", "skier: Ida Fjelde",
	} {
		assert.Contains(t, page, want)
	}
	assert.Contains(t, commanded(t, "ticket", job, "--db", file), "| NOT RELEASE-TESTED")
}
