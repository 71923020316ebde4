package main

import (
	"bytes"
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// commanded is the program called with a command line, on a clock that stands.
func commanded(t *testing.T, args ...string) string {
	t.Helper()
	var out, errs bytes.Buffer
	a := newApp()
	a.out, a.err = &out, &errs
	a.now = func() time.Time { return time.Date(2026, 11, 25, 17, 4, 0, 0, time.UTC) }
	code := execute(t.Context(), a, args)
	require.Contains(t, []int{exitDone, exitStop}, code, "%v: %s", args, errs.String())
	return out.String()
}

// kept is a job in a shop file.
type kept struct{ file, job string }

// jobs are jobs of every kind and state: those of the demo shop, and some that
// were played in a shop of its own.
func jobs(t *testing.T) []kept {
	t.Helper()
	demo, own := filepath.Join(t.TempDir(), "demo.db"), filepath.Join(t.TempDir(), "own.db")
	commanded(t, "demo", "--fill-only", "--db", demo)
	commanded(t, "pattern", "import", "--db", own, filepath.Join("..", "..", "db", "pattern", "invented", "alpine.toml"))
	for _, sheet := range []string{"worked_example.json", "remount_clash.json", "six_traps.json"} {
		commanded(t, "run", "--db", own, filepath.Join("..", "..", "testdata", "sheets", sheet))
	}
	looped(t, own)
	untested(t, own)
	var all []kept
	for _, file := range []string{demo, own} {
		var found struct {
			Jobs []struct{ Ticket string }
		}
		require.NoError(t, json.Unmarshal([]byte(commanded(t, "find", "--db", file, "--json")), &found))
		for _, j := range found.Jobs {
			all = append(all, kept{file, j.Ticket})
		}
	}
	require.GreaterOrEqual(t, len(all), 13)
	return all
}

// onPaper is what pdftotext reads of a file, page by page.
func onPaper(t *testing.T, file string) []string {
	t.Helper()
	if _, err := exec.LookPath("pdftotext"); err != nil {
		t.Skip("pdftotext of poppler-utils is not here")
	}
	out, err := exec.CommandContext(t.Context(), "pdftotext", "-raw", file, "-").Output()
	require.NoError(t, err)
	return strings.Split(strings.TrimSuffix(string(out), "\f"), "\f")
}

var (
	number = regexp.MustCompile(`\d+(?:\.\d+)?`)
	// furniture are the numbers of the sheet, not of the job: its pages, how many
	// steps and entries it has, when it was printed, and its scale bar.
	furniture = regexp.MustCompile(`page \d+ of \d+|(?m)^.*\b\d+ of \d+$|\d+ entr(?:y|ies)|printed \d+-\d+-\d+ \d+:\d+|50 mm on the ski`)
	instant   = regexp.MustCompile(`"(\d{4}-\d\d-\d\dT[\d:.]+Z)"`)
	brokenUp  = regexp.MustCompile(`\s+`)
)

// localised are the instants of a JSON as a sheet prints them.
func localised(t *testing.T, text string) string {
	t.Helper()
	said := ""
	for _, found := range instant.FindAllStringSubmatch(text, -1) {
		at, err := time.Parse(time.RFC3339Nano, found[1])
		require.NoError(t, err)
		said += at.In(time.Local).Format("2006-01-02 15:04 ")
	}
	return said
}

// leaves are the values of a JSON that a ticket must show: what was answered,
// computed and found, by whom, and the four scales.
func leaves(t *testing.T, text string) []string {
	t.Helper()
	type finding struct {
		Text, Source string
		Waiver       *struct{ By, Reason string }
	}
	type figure struct{ Value, Path, Record string }
	var r struct {
		Ticket, Due, EndedWhy string
		Steps                 []struct {
			Step, Title, By, Stale string
			Answers                map[string]string
			Figures                []figure
			Findings               []finding
		}
		Entries []struct {
			By, Step, Reason string
			Answers          map[string]string
			Figures          []struct{ Name, Value, Path string }
		}
		Sheet struct {
			Shop, Path string
			NextDue    string `json:"next_due"`
			Notices    []string
			Cautions   []string
			Scales     []struct{ Computed, Set, Corrected, Stands, Stale string }
			Signatures []struct{ Role, Name string }
			Layout     *struct {
				Pattern string
				Skis    []struct {
					Holes []struct{ X, Y, Diameter, Depth float64 }
				}
			}
		}
	}
	require.NoError(t, json.Unmarshal([]byte(text), &r))
	all := []string{r.Ticket, r.Due, r.EndedWhy, r.Sheet.Shop, r.Sheet.Path, r.Sheet.NextDue}
	all = append(all, r.Sheet.Notices...)
	all = append(all, r.Sheet.Cautions...)
	tested := func(step string) bool { return step == "release-test" || step == "correction" }
	for _, s := range r.Steps {
		all = append(all, s.Title, s.By, s.Stale)
		for _, answer := range s.Answers {
			all = append(all, answer)
		}
		for _, f := range s.Figures {
			all = append(all, f.Value)
			if !tested(s.Step) {
				all = append(all, f.Path, f.Record)
			}
		}
		for _, f := range s.Findings {
			if !strings.HasSuffix(f.Text, "keep.") {
				all = append(all, f.Text, f.Source)
			}
			if f.Waiver != nil {
				all = append(all, f.Waiver.By, f.Waiver.Reason)
			}
		}
	}
	for _, e := range r.Entries { // every round, also those that were replaced
		all = append(all, e.By, e.Reason)
		if tested(e.Step) {
			for _, answer := range e.Answers {
				all = append(all, answer)
			}
			for _, f := range e.Figures {
				all = append(all, f.Value, f.Path)
			}
		}
	}
	for _, s := range r.Sheet.Scales {
		all = append(all, s.Computed, s.Set, s.Corrected, s.Stands, s.Stale)
	}
	for _, s := range r.Sheet.Signatures {
		all = append(all, s.Role, s.Name)
	}
	if l := r.Sheet.Layout; l != nil {
		all = append(all, l.Pattern)
		for _, ski := range l.Skis {
			for _, h := range ski.Holes {
				place := plain(h.X) + ", " + plain(h.Y) + ", " + plain(h.Diameter)
				if h.Depth > 0 {
					place += " x " + plain(h.Depth)
				}
				all = append(all, place)
			}
		}
	}
	return all
}

func TestThePaperSaysWhatTheJSONSays(t *testing.T) {
	t.Parallel()
	rounds := 0
	for _, k := range jobs(t) {
		id, file := k.job, k.file
		text := commanded(t, "ticket", id, "--db", file, "--json")
		known := map[string]bool{}
		for _, v := range number.FindAllString(text+localised(t, text), -1) {
			known[v] = true
		}
		rounds += strings.Count(text, `"step": "release-test"`)
		for size, most := range map[string]int{"a4": 8, "a5": 10} {
			pdf := filepath.Join(t.TempDir(), "ticket.pdf")
			assert.Empty(t, commanded(t, "ticket", id, "--db", file, "--pdf", pdf, "--paper", size))
			pages := onPaper(t, pdf)
			assert.LessOrEqual(t, len(pages), most, "%s on %s", id, size)
			printed := strings.Join(pages, "\n")
			for _, v := range number.FindAllString(furniture.ReplaceAllString(printed, ""), -1) {
				assert.True(t, known[v], "%s on %s: %s stands on the paper and not in the JSON", id, size, v)
			}
			whole := brokenUp.ReplaceAllString(printed, "")
			for _, leaf := range leaves(t, text) {
				assert.Contains(t, whole, brokenUp.ReplaceAllString(leaf, ""), "%s on %s", id, size)
			}
			if t.Failed() {
				return
			}
		}
	}
	assert.Positive(t, rounds, "a job was release-tested")
}

func TestATicketInJSONAndText(t *testing.T) {
	t.Parallel()
	for _, k := range jobs(t) {
		id, file := k.job, k.file
		text := commanded(t, "ticket", id, "--db", file)
		var r struct {
			Ticket string
			Sheet  struct {
				Invented      string
				ReleaseTested string `json:"release_tested"`
				Notices       []string
			}
		}
		require.NoError(t, json.Unmarshal([]byte(commanded(t, "ticket", id, "--db", file, "--json")), &r))
		assert.Equal(t, strings.Contains(file, "demo.db"), r.Sheet.Invented == "demo")
		assert.Equal(t, id, r.Ticket)
		tested := r.Sheet.ReleaseTested == "yes"
		assert.NotEqual(t, tested, strings.Contains(text, "RELEASE-TESTED") || strings.Contains(text, "RELEASE TEST NOT PASSED"), "%s", r.Ticket)
		for _, notice := range r.Sheet.Notices {
			assert.Contains(t, brokenUp.ReplaceAllString(strings.ReplaceAll(text, "|", ""), ""), brokenUp.ReplaceAllString(notice, ""))
		}
	}
}

// otherChart is a chart of the shop's own, with another reference in every row.
func otherChart(t *testing.T) string {
	t.Helper()
	own, err := os.ReadFile(filepath.Join("..", "..", "calc", "release", "chart_default.csv"))
	require.NoError(t, err)
	text := strings.Replace(string(own), "drillstop default 1", "another chart", 1)
	text = strings.ReplaceAll(text, ",50,194", ",51,195")
	require.Contains(t, text, "another chart")
	require.Contains(t, text, ",51,195")
	file := filepath.Join(t.TempDir(), "other.csv")
	require.NoError(t, os.WriteFile(file, []byte(text), 0o600))
	return file
}

func TestAnEndedJobIsPrintedFromItsRecord(t *testing.T) {
	t.Parallel()
	chart := otherChart(t)
	ended := 0
	for _, k := range jobs(t) {
		id, file := k.job, k.file
		one := commanded(t, "ticket", id, "--db", file, "--json")
		if !strings.Contains(one, `"ended_at"`) {
			continue
		}
		ended++
		assert.Equal(t, one, commanded(t, "ticket", id, "--db", file, "--json", "--chart", chart))
		assert.Equal(t, strings.Contains(one, `"toe_set.left"`), strings.Contains(one, `"kind": "scale"`), "%s", id)
		for _, kind := range []string{"--pdf", "--card"} {
			here, there := filepath.Join(t.TempDir(), "one.pdf"), filepath.Join(t.TempDir(), "two.pdf")
			commanded(t, "ticket", id, "--db", file, kind, here)
			commanded(t, "ticket", id, "--db", file, kind, there, "--chart", chart)
			a, err := os.ReadFile(here)
			require.NoError(t, err)
			b, err := os.ReadFile(there)
			require.NoError(t, err)
			assert.True(t, bytes.Equal(a, b), "%s %s", id, kind)
		}
	}
	assert.GreaterOrEqual(t, ended, 4)
}
