package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/lipgloss"
	"github.com/charmbracelet/x/ansi"
	"github.com/muesli/termenv"
	"github.com/stretchr/testify/require"

	"drillstop/db"
	"drillstop/tui"
	"drillstop/workflow"
	"drillstop/workflow/steps"
)

// patience bounds how long a test waits for what must come; it is no measure.
const patience = 20 * time.Second

// technician sits at the real program, on a real shop file, with a clock of the
// test's own, and types.
type technician struct {
	t    *testing.T
	desk *workflow.Desk
	keys io.WriteCloser
	eyes *eyes
	ends chan error
	size func(width, height int)
}

// eyes is the model of the program with somebody looking at each frame.
type eyes struct {
	*tui.App
	mu    sync.Mutex
	frame string
	fresh *sync.Cond
}

func (e *eyes) Update(msg tea.Msg) (tea.Model, tea.Cmd) {
	_, cmd := e.App.Update(msg)
	return e, cmd
}

func (e *eyes) View() string {
	frame := e.App.View()
	e.mu.Lock()
	e.frame = frame
	e.mu.Unlock()
	e.fresh.Broadcast()
	return frame
}

// workday is the clock of the tests: a minute passes each time it is read by
// an answer, none while nobody answers.
type workday struct {
	mu sync.Mutex
	at time.Time
}

func (w *workday) now() time.Time {
	w.mu.Lock()
	defer w.mu.Unlock()
	return w.at
}

// sits opens the bench on a shop file at a size.
func sits(t *testing.T, file string, width, height int) *technician {
	t.Helper()
	store, err := db.Open(context.Background(), file, db.Options{})
	require.NoError(t, err)
	list, err := steps.Checklist()
	require.NoError(t, err)
	a := newApp()
	chart, err := a.chart()
	require.NoError(t, err)
	clock := &workday{at: time.Date(2026, 11, 25, 17, 4, 0, 0, time.UTC)}
	patterns, err := library(context.Background(), store, true)
	require.NoError(t, err)
	desk := workflow.NewDesk(workflow.DeskOptions{
		Checklist: list, Store: store, Shop: workflow.Shop{Name: "Nordhang workshop", Chart: chart, Patterns: patterns},
		Person:   workflow.Person{Name: "MB", Supervisor: true},
		Describe: steps.Describe, Now: clock.now, Token: a.token,
	})
	r := lipgloss.NewRenderer(io.Discard)
	r.SetColorProfile(termenv.Ascii)
	app := tui.New(&tui.Session{
		Desk: desk, ShopFile: "shop.db", First: store.Created(), Now: clock.now, Theme: tui.NewTheme(r), ASCII: true,
	})
	tech := &technician{t: t, desk: desk, ends: make(chan error, 1)}
	tech.eyes = &eyes{App: app}
	tech.eyes.fresh = sync.NewCond(&tech.eyes.mu)
	in, keys := io.Pipe()
	tech.keys = keys
	program := tea.NewProgram(tech.eyes, tea.WithInput(in), tea.WithOutput(io.Discard), tea.WithoutSignals(), tea.WithFPS(120))
	go func() {
		_, err := program.Run()
		tech.ends <- errors.Join(err, app.Close(), store.Close())
	}()
	tech.size = func(width, height int) { program.Send(tea.WindowSizeMsg{Width: width, Height: height}) }
	tech.size(width, height)
	return tech
}

// resizes gives the terminal another size.
func (d *technician) resizes(width, height int) { d.size(width, height) }

// named are the keys that have no letter.
var named = map[string]string{
	"enter": "\r", "tab": "\t", "shift+tab": "\x1b[Z", "esc": "\x1b", "up": "\x1b[A", "down": "\x1b[B",
	"left": "\x1b[D", "right": "\x1b[C", "backspace": "\x7f", "pgdown": "\x1b[6~", "pgup": "\x1b[5~",
	"f1": "\x1bOP", "f2": "\x1bOQ", "f3": "\x1bOR", "f4": "\x1bOS", "f5": "\x1b[15~", "f6": "\x1b[17~", "f7": "\x1b[18~", "f8": "\x1b[19~",
	"ctrl+c": "\x03", "ctrl+d": "\x04", "ctrl+s": "\x13", "ctrl+u": "\x15",
}

// press presses keys by name.
func (d *technician) press(keys ...string) {
	d.t.Helper()
	for _, key := range keys {
		seq, ok := named[key]
		require.True(d.t, ok, "no key %q", key)
		d.send(seq)
	}
}

// types types text; what stands in one call arrives in one burst.
func (d *technician) types(text string) { d.t.Helper(); d.send(text) }

func (d *technician) send(bytes string) {
	_, err := io.WriteString(d.keys, bytes)
	require.NoError(d.t, err)
}

// sees waits until all texts are on the screen.
func (d *technician) sees(texts ...string) {
	d.t.Helper()
	for _, text := range texts {
		d.until(fmt.Sprintf("see %q", text), func(screen string) bool { return strings.Contains(screen, text) })
	}
}

// loses waits until a text is gone from the screen.
func (d *technician) loses(text string) {
	d.t.Helper()
	d.until(fmt.Sprintf("no longer see %q", text), func(screen string) bool { return !strings.Contains(screen, text) })
}

func (d *technician) until(what string, ok func(screen string) bool) {
	d.t.Helper()
	late := time.AfterFunc(patience, d.eyes.fresh.Broadcast)
	defer late.Stop()
	deadline := time.Now().Add(patience)
	d.eyes.mu.Lock()
	defer d.eyes.mu.Unlock()
	for !ok(ansi.Strip(d.eyes.frame)) {
		if !time.Now().Before(deadline) {
			d.t.Fatalf("did not %s; the screen is:\n%s", what, ansi.Strip(d.eyes.frame))
		}
		d.eyes.fresh.Wait()
	}
}

func (d *technician) screen() string {
	d.eyes.mu.Lock()
	defer d.eyes.mu.Unlock()
	return ansi.Strip(d.eyes.frame)
}

// leaves closes the program with ctrl+c and waits for its end.
func (d *technician) leaves() {
	d.t.Helper()
	d.press("ctrl+c")
	select {
	case err := <-d.ends:
		require.NoError(d.t, err)
	case <-time.After(patience):
		d.t.Fatalf("the program did not end; the screen is:\n%s", d.screen())
	}
}

// golden compares the screen with the one on file; -update writes it anew.
func (d *technician) golden(name string) {
	d.t.Helper()
	path := filepath.Join("..", "..", "testdata", "golden", "screens", name+".txt")
	got := trimLines(d.screen()) + "\n"
	if *update {
		require.NoError(d.t, os.MkdirAll(filepath.Dir(path), 0o750))
		require.NoError(d.t, os.WriteFile(path, []byte(got), 0o600))
		return
	}
	want, err := os.ReadFile(path)
	require.NoError(d.t, err)
	require.Equal(d.t, string(want), got)
}

func trimLines(screen string) string {
	lines := strings.Split(screen, "\n")
	for i := range lines {
		lines[i] = strings.TrimRight(lines[i], " ")
	}
	return strings.Join(lines, "\n")
}

// answers types the answers of one line of a sheet into the step on the screen,
// field by field with Enter, as a hurried hand does.
func (d *technician) answers(ticket workflow.Ticket, row workflow.SheetStep) {
	d.t.Helper()
	d.types(d.burst(ticket, row))
}

// burst are the keys that type the answers of one line of a sheet.
func (d *technician) burst(ticket workflow.Ticket, row workflow.SheetStep) string {
	d.t.Helper()
	step, ok := d.desk.Checklist().Step(row.Step)
	require.True(d.t, ok)
	job, _, err := d.desk.Load(context.Background(), ticket)
	require.NoError(d.t, err)
	var burst strings.Builder
	for _, f := range step.Asked(job) {
		for _, key := range f.Keys() {
			burst.WriteString(typedFor(f, row.Answers[key]) + "\r")
		}
	}
	switch {
	case len(step.Asked(job)) == 0:
		burst.WriteString("\r")
	case step.Closes:
		burst.WriteString(named["ctrl+d"])
	}
	return burst.String()
}

// typedFor is what a hand types for an answer of a sheet.
func typedFor(f workflow.Field, answer string) string {
	if f.Kind == workflow.Seen && answer == workflow.Yes {
		return "y"
	}
	return answer
}

// job reads the job as the store has it.
func (d *technician) job(ticket workflow.Ticket) workflow.Job {
	d.t.Helper()
	job, _, err := d.desk.Load(context.Background(), ticket)
	require.NoError(d.t, err)
	return job
}
