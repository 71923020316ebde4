//go:build unix

package main

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"sync"
	"testing"
	"time"

	"github.com/charmbracelet/x/ansi"
	"github.com/creack/pty"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// window is the program on a pseudo terminal that answers no question, as a
// technician's terminal may be.
type window struct {
	t     *testing.T
	cmd   *exec.Cmd
	tty   *os.File
	mu    sync.Mutex
	drawn bytes.Buffer
	fresh *sync.Cond
	ended bool
}

// opens starts the program: this test binary under the program's name, in a
// home folder that holds nothing else.
func opens(t *testing.T, home, term string, args ...string) *window {
	t.Helper()
	self, err := os.Executable()
	require.NoError(t, err)
	program := filepath.Join(t.TempDir(), "drillstop")
	require.NoError(t, os.Symlink(self, program))
	w := &window{t: t, cmd: exec.CommandContext(t.Context(), program, args...)}
	w.fresh = sync.NewCond(&w.mu)
	w.cmd.Env = []string{"HOME=" + home, "TERM=" + term, "LANG=C.UTF-8", "TZ=UTC"}
	w.tty, err = pty.StartWithSize(w.cmd, &pty.Winsize{Rows: 24, Cols: 80})
	require.NoError(t, err)
	go w.read()
	return w
}

func (w *window) read() {
	buffer := make([]byte, 1<<16)
	for {
		n, err := w.tty.Read(buffer)
		w.mu.Lock()
		w.drawn.Write(buffer[:n])
		w.ended = err != nil
		w.mu.Unlock()
		w.fresh.Broadcast()
		if err != nil {
			return
		}
	}
}

// sees waits until a text was drawn since the last call.
func (w *window) sees(text string) {
	w.t.Helper()
	late := time.AfterFunc(patience, w.fresh.Broadcast)
	defer late.Stop()
	deadline := time.Now().Add(patience)
	w.mu.Lock()
	defer w.mu.Unlock()
	for {
		seen := ansi.Strip(w.drawn.String())
		if bytes.Contains([]byte(seen), []byte(text)) {
			w.drawn.Reset()
			return
		}
		if w.ended || !time.Now().Before(deadline) {
			w.t.Fatalf("%q was not drawn; drawn was:\n%s", text, seen)
		}
		w.fresh.Wait()
	}
}

func (w *window) types(keys string) {
	w.t.Helper()
	_, err := w.tty.WriteString(keys)
	require.NoError(w.t, err)
}

// exits waits for the end of the program and returns its exit code.
func (w *window) exits() int {
	w.t.Helper()
	err := w.cmd.Wait()
	assert.NoError(w.t, w.tty.Close())
	if err != nil {
		return w.cmd.ProcessState.ExitCode()
	}
	return 0
}

// A newcomer with an empty home folder, and a power cut in the middle of a step:
// what was kept is kept, what was typed is a draft.
func TestTheProgramOnATerminal(t *testing.T) {
	t.Parallel()
	home := t.TempDir()
	w := opens(t, home, "xterm-256color")
	w.sees("The bench is empty")
	w.types("n")
	w.sees("Kind of job")
	w.types("adjustment\r\r")
	w.sees("[intake 1 of 5: skier]")
	w.types("Ida Fjelde\r\r165 lb\r5'9\"\r34\rII\rnone\rnone\r\r\r")
	w.sees("kept: skier")
	w.types("ISO 9523\r318\r31")
	w.sees("31")
	w.types("\x03")
	assert.Equal(t, exitDone, w.exits())

	info, err := os.Stat(filepath.Join(home, ".local", "share", "drillstop", "shop.db"))
	require.NoError(t, err)
	assert.Equal(t, os.FileMode(0o600), info.Mode().Perm())

	w = opens(t, home, "xterm-256color")
	w.sees("Ida Fjelde")
	w.types("\r")
	w.sees("what you had typed is back")
	w.types("\x13")
	w.sees("1 on the bench")
	w.types("\x03")
	assert.Equal(t, exitDone, w.exits())
}

func TestADumbTerminalIsRefusedWithASentence(t *testing.T) {
	t.Parallel()
	w := opens(t, t.TempDir(), "dumb")
	w.sees("needs a terminal that can move its cursor")
	assert.Equal(t, exitFailed, w.exits())
}
