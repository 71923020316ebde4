package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"os/exec"
	"strings"
	"time"

	"os"

	"github.com/creack/pty"
)

const (
	// firstScreen is the newest ticket of the invented shop: once it is drawn,
	// the bench shows its jobs.
	firstScreen = "T-0010"
	// patience is how long a screen may take before the measurement gives up.
	patience = 15 * time.Second
	// quiet is how long nothing may be drawn before the next key is typed.
	quiet = 30 * time.Millisecond
)

// queries are what programs ask a terminal, and what a common one says.
var queries = []struct{ ask, say string }{
	{"\x1b]10;?", "\x1b]10;rgb:d0d0/d0d0/d0d0\x1b\\"},
	{"\x1b]11;?", "\x1b]11;rgb:1010/1010/1010\x1b\\"},
	{"\x1b[c", "\x1b[?62;22c"},
	{"\x1b[0c", "\x1b[?62;22c"},
	{"\x1b[6n", "\x1b[1;1R"},
}

// terminal is a pseudo terminal with the program in it.
type terminal struct {
	cmd     *exec.Cmd
	tty     *os.File
	answers bool
	drawn   chan []byte
	seen    []byte // drawn since the last key
}

func (p program) open(ctx context.Context, answers bool) (*terminal, error) {
	t := &terminal{answers: answers, drawn: make(chan []byte, 1024)}
	t.cmd = exec.CommandContext(ctx, p.path, "demo") //nolint:gosec // built just now
	t.cmd.Env = p.env()
	tty, err := pty.StartWithSize(t.cmd, &pty.Winsize{Rows: 24, Cols: 80})
	if err != nil {
		return nil, err
	}
	t.tty = tty
	go t.read()
	return t, nil
}

// read passes on what is drawn, and answers what is asked if this terminal is
// one that answers.
func (t *terminal) read() {
	defer close(t.drawn)
	for {
		buffer := make([]byte, 1<<16)
		n, err := t.tty.Read(buffer)
		for _, q := range queries {
			if t.answers && bytes.Contains(buffer[:n], []byte(q.ask)) {
				if _, err := t.tty.WriteString(q.say); err != nil {
					return
				}
			}
		}
		if n > 0 {
			t.drawn <- buffer[:n]
		}
		if err != nil {
			return
		}
	}
}

// waitFor waits until a text is drawn and returns how long after begun it was.
func (t *terminal) waitFor(text string, begun time.Time) (time.Duration, error) {
	limit := time.After(patience)
	for {
		if bytes.Contains(t.seen, []byte(text)) {
			return time.Since(begun), nil
		}
		select {
		case drawn, open := <-t.drawn:
			if !open {
				return 0, fmt.Errorf("the program ended before it drew %q:\n%q", text, t.seen)
			}
			t.seen = append(t.seen, drawn...)
		case <-limit:
			return 0, fmt.Errorf("%q was not drawn within %s:\n%q", text, patience, t.seen)
		}
	}
}

// settle waits until nothing is drawn any more.
func (t *terminal) settle() {
	for {
		select {
		case _, open := <-t.drawn:
			if !open {
				return
			}
		case <-time.After(quiet):
			t.seen = nil
			return
		}
	}
}

// press types a key and returns the time until a text is drawn; "" is whatever
// is drawn first.
func (t *terminal) press(key, text string) (time.Duration, error) {
	t.settle()
	begun := time.Now()
	if _, err := t.tty.WriteString(key); err != nil {
		return 0, err
	}
	if text != "" {
		return t.waitFor(text, begun)
	}
	select {
	case _, open := <-t.drawn:
		if !open {
			return 0, errors.New("the program ended")
		}
		return time.Since(begun), nil
	case <-time.After(patience):
		return 0, fmt.Errorf("key %q drew nothing", key)
	}
}

// moves goes down and up the list of jobs.
func (t *terminal) moves(n int) (durations, error) {
	var times durations
	for i := range n {
		key := "\x1b[B"
		if i%2 == 1 {
			key = "\x1b[A"
		}
		took, err := t.press(key, "")
		if err != nil {
			return nil, err
		}
		times = append(times, took)
	}
	return times, nil
}

// openForm opens the job on top, and its first step.
func (t *terminal) openForm() error {
	for range 2 {
		if _, err := t.press("\r", ""); err != nil {
			return fmt.Errorf("opening a step: %w", err)
		}
	}
	return nil
}

// letters types words into the first field, and takes them back unmeasured.
func (t *terminal) letters(n int) (durations, error) {
	const word = "measured"
	var times durations
	for len(times) < n {
		for i := range word {
			took, err := t.press(word[i:i+1], word[:i+1])
			if err != nil {
				return nil, err
			}
			times = append(times, took)
		}
		if _, err := t.press(strings.Repeat("\x7f", len(word)), ""); err != nil {
			return nil, err
		}
	}
	return times[:n], nil
}

// leave ends the program: by its own key, and by force if that does nothing.
func (t *terminal) leave() {
	_, _ = t.tty.WriteString("\x03")
	gone := make(chan struct{})
	go func() {
		_ = t.cmd.Wait() // how it ended was not what was measured
		close(gone)
	}()
	go func() {
		for range t.drawn {
			continue // what is drawn on leaving is not looked at
		}
	}()
	select {
	case <-gone:
	case <-time.After(3 * time.Second):
		_ = t.cmd.Process.Kill()
		<-gone
	}
	_ = t.tty.Close()
}
