// Measure builds the static, stripped program and measures through a terminal
// of its own what the bench costs: the time from exec to the first screen, from
// a key to the screen, memory and size. It prints a table with its conditions.
//
//	go run ./cmd/measure
//
// It is no test: figures depend on the machine, and belong beside its name.
package main

import (
	"context"
	"flag"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"time"
)

func main() {
	starts := flag.Int("starts", 30, "how often the program is started in each kind of terminal")
	keys := flag.Int("keys", 300, "how many keys are typed on each screen")
	flag.Parse()
	if err := measure(context.Background(), *starts, *keys); err != nil {
		fmt.Fprintln(os.Stderr, "measure:", err)
		os.Exit(1)
	}
}

func measure(ctx context.Context, starts, keys int) error {
	dir, err := os.MkdirTemp("", "drillstop-measure-")
	if err != nil {
		return err
	}
	defer os.RemoveAll(dir)
	bench := program{path: filepath.Join(dir, "drillstop"), home: dir}
	if err := bench.build(ctx); err != nil {
		return err
	}
	info, err := os.Stat(bench.path)
	if err != nil {
		return err
	}
	if err := bench.fill(ctx); err != nil {
		return err
	}
	fmt.Printf("%s %s/%s, %d cores; an invented shop of one screen, 80x24\n",
		runtime.Version(), runtime.GOOS, runtime.GOARCH, runtime.NumCPU())
	row("what", "median", "p99", "worst", "of")
	row("binary, static and stripped", fmt.Sprintf("%.1f MB", float64(info.Size())/1e6), "", "", "1")
	for _, kind := range []struct {
		name    string
		answers bool
	}{{"first screen, terminal answers", true}, {"first screen, terminal is silent", false}} {
		times, err := bench.starts(ctx, kind.answers, starts)
		if err != nil {
			return fmt.Errorf("%s: %w", kind.name, err)
		}
		times.print(kind.name)
	}
	return bench.typed(ctx, keys)
}

// program is the built program with a home folder of its own.
type program struct {
	path, home string
}

func (p program) build(ctx context.Context) error {
	cmd := exec.CommandContext(ctx, "go", "build", "-trimpath", "-ldflags", "-s -w", "-o", p.path, "drillstop/cmd/drillstop") //nolint:gosec // the path is our own
	cmd.Env = append(os.Environ(), "CGO_ENABLED=0")
	return told(cmd)
}

// fill makes the invented shop, so that the bench has jobs to draw.
func (p program) fill(ctx context.Context) error {
	cmd := exec.CommandContext(ctx, p.path, "demo", "--fill-only") //nolint:gosec // built just now
	cmd.Env = p.env()
	return told(cmd)
}

// told runs a command and returns what it said if it failed.
func told(cmd *exec.Cmd) error {
	out, err := cmd.CombinedOutput()
	if err != nil {
		return fmt.Errorf("%s: %w\n%s", strings.Join(cmd.Args, " "), err, out)
	}
	return nil
}

func (p program) env() []string {
	return []string{"HOME=" + p.home, "PATH=" + os.Getenv("PATH"), "TERM=xterm-256color", "LANG=C.UTF-8", "USER=measure"}
}

// starts measures the time from exec to the first screen.
func (p program) starts(ctx context.Context, answers bool, n int) (durations, error) {
	var times durations
	for range n {
		begun := time.Now()
		t, err := p.open(ctx, answers)
		if err != nil {
			return nil, err
		}
		_, err = t.waitFor(firstScreen, begun)
		if err == nil {
			times = append(times, time.Since(begun))
		}
		t.leave()
		if err != nil {
			return nil, err
		}
	}
	return times, nil
}

// typed measures the time from a key to the screen, on the bench and in a form,
// and the memory after it.
func (p program) typed(ctx context.Context, n int) error {
	t, err := p.open(ctx, true)
	if err != nil {
		return err
	}
	defer t.leave()
	if _, err := t.waitFor(firstScreen, time.Now()); err != nil {
		return err
	}
	onBench, err := t.moves(n)
	if err != nil {
		return fmt.Errorf("on the bench: %w", err)
	}
	onBench.print("key to screen, bench")
	if err := t.openForm(); err != nil {
		return err
	}
	inForm, err := t.letters(n)
	if err != nil {
		return fmt.Errorf("in a form: %w", err)
	}
	inForm.print("key to screen, form of a step")
	resident, peak := memory(t.cmd.Process.Pid)
	row("resident memory after it", resident, "", peak, "1")
	return nil
}
