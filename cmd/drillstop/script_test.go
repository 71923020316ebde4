package main

import (
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
	"github.com/stretchr/testify/require"

	"drillstop/workflow"
)

// TestMain lets the scripts call the program by its name, as its users do.
func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"drillstop": main})
}

// TestScripts runs the scripts that show every command from outside.
func TestScripts(t *testing.T) {
	t.Parallel()
	sheets, err := filepath.Abs("../../testdata/sheets")
	require.NoError(t, err)
	patterns, err := filepath.Abs("../../db/pattern/invented")
	require.NoError(t, err)
	testscript.Run(t, testscript.Params{
		Dir: "../../testdata/script",
		Setup: func(env *testscript.Env) error {
			env.Setenv("HOME", env.WorkDir+"/home")
			env.Setenv("USER", "tester")
			env.Setenv("TZ", "UTC")
			env.Setenv("SHEETS", sheets)
			env.Setenv("PATTERNS", patterns)
			return nil
		},
		Cmds: map[string]func(*testscript.TestScript, bool, []string){
			"exits": exits, "json": jsonIs, "jsonkeys": jsonKeys, "fill": fill,
		},
	})
}

// exits runs a command and compares its exit code: exits 3 drillstop judge.
func exits(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: exits CODE COMMAND [ARGS]")
	}
	want, err := strconv.Atoi(args[0])
	ts.Check(err)
	got := 0
	err = ts.Exec(args[1], args[2:]...)
	var exit *exec.ExitError
	switch {
	case errors.As(err, &exit):
		got = exit.ExitCode()
	case err != nil:
		ts.Fatalf("%v", err)
	}
	if got != want {
		ts.Fatalf("exit code %d, want %d", got, want)
	}
}

// jsonIs compares a value of the JSON on the last standard output: json
// findings.0.level stop. A list or object is compared in its compact form.
func jsonIs(ts *testscript.TestScript, neg bool, args []string) {
	if len(args) != 2 {
		ts.Fatalf("usage: json PATH VALUE")
	}
	got := text(dig(ts, args[0]))
	if (got == args[1]) == neg {
		ts.Fatalf("%s is %s, want %s", args[0], got, args[1])
	}
}

// jsonKeys asks an object for names: jsonkeys job.steps.0 step title.
func jsonKeys(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: jsonkeys PATH NAME…")
	}
	object, ok := dig(ts, args[0]).(map[string]any)
	if !ok {
		ts.Fatalf("%s is no object", args[0])
	}
	for _, name := range args[1:] {
		if _, ok := object[name]; !ok {
			ts.Fatalf("%s has no %q: %v", args[0], name, object)
		}
	}
}

// dig walks a path of names and positions; "." is the whole.
func dig(ts *testscript.TestScript, path string) any {
	var v any
	ts.Check(json.Unmarshal([]byte(ts.ReadFile("stdout")), &v))
	if path == "." {
		return v
	}
	for _, part := range strings.Split(path, ".") {
		switch node := v.(type) {
		case map[string]any:
			v = node[part]
		case []any:
			i, err := strconv.Atoi(part)
			if err != nil || i >= len(node) {
				ts.Fatalf("%s: no %q among %d", path, part, len(node))
			}
			v = node[i]
		default:
			ts.Fatalf("%s: nothing below %v", path, node)
		}
	}
	return v
}

// fill writes the answers of a sheet into the blank sheet on the last standard
// output, as a person would, and keeps the result: fill SHEET RESULT. Each
// answer must have its place on the blank.
func fill(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 2 {
		ts.Fatalf("usage: fill SHEET RESULT")
	}
	blank, err := workflow.ReadSheet(strings.NewReader(ts.ReadFile("stdout")))
	ts.Check(err)
	sheet, err := workflow.ReadSheet(strings.NewReader(ts.ReadFile(args[0])))
	ts.Check(err)
	for _, row := range sheet.Steps {
		i := slices.IndexFunc(blank.Steps, func(b workflow.SheetStep) bool { return b.Step == row.Step })
		if i < 0 {
			ts.Fatalf("the blank has no step %s", row.Step)
		}
		for key, value := range row.Answers {
			if _, known := blank.Steps[i].Answers[key]; !known {
				ts.Fatalf("the blank has no %s in %s", key, row.Step)
			}
			blank.Steps[i].Answers[key] = value
		}
	}
	data, err := json.Marshal(blank)
	ts.Check(err)
	ts.Check(os.WriteFile(ts.MkAbs(args[1]), data, 0o600))
}

func text(v any) string {
	switch v := v.(type) {
	case map[string]any, []any:
		compact, err := json.Marshal(v)
		if err != nil {
			return err.Error()
		}
		return string(compact)
	}
	return fmt.Sprint(v)
}
