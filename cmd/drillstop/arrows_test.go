package main

import (
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const (
	module   = "drillstop"
	moduleAt = "../.." // from this folder
)

// houses says which top-level folders each of them may import besides itself.
var houses = map[string][]string{
	"calc":     {},
	"workflow": {"calc"},
	"tui":      {"workflow", "calc"},
	"db":       {"workflow", "calc"},
	"cmd":      {"tui", "db", "workflow", "calc", "testdata"},
	"testdata": {"workflow", "calc"},
}

// pure are the houses that import nothing from outside the standard library;
// their tests may.
var pure = []string{"calc", "workflow", "testdata"}

// rooms are the imports that only one folder may have: huh's habits are known
// in one place, and so are those of the driver, of paper and of pattern files.
var rooms = map[string]string{
	"github.com/charmbracelet/huh": "tui/form",
	"modernc.org/sqlite":           "db",
	"github.com/spf13/cobra":       "cmd/drillstop",
	"codeberg.org/go-pdf/fpdf":     "tui/paper",
	"github.com/pelletier/go-toml": "db/pattern",
}

// broken says which rule an import of a file breaks, "" if none. The file is
// named by its slash path from the top of the module.
func broken(file, imported string) string {
	dir := filepath.ToSlash(filepath.Dir(file))
	house, _, _ := strings.Cut(dir, "/")
	allowed, known := houses[house]
	if !known {
		return "no Go file belongs here"
	}
	for pkg, room := range rooms {
		if within(imported, pkg) && !within(dir, room) {
			return "only " + room + " imports " + pkg
		}
	}
	if rest, own := strings.CutPrefix(imported, module+"/"); own {
		target, _, _ := strings.Cut(rest, "/")
		if target != house && !slices.Contains(allowed, target) {
			return house + " does not import " + target
		}
		return ""
	}
	first, _, _ := strings.Cut(imported, "/")
	outside := strings.Contains(first, ".")
	if outside && slices.Contains(pure, house) && !strings.HasSuffix(file, "_test.go") {
		return house + " imports the standard library only"
	}
	return ""
}

// within reports whether a slash path is the folder or lies in it.
func within(path, folder string) bool {
	return path == folder || strings.HasPrefix(path, folder+"/")
}

func TestImportsRunOneWay(t *testing.T) {
	t.Parallel()
	files := goFiles(t)
	require.Greater(t, len(files), 20, "the walk must see the module")
	for _, file := range files {
		parsed, err := parser.ParseFile(token.NewFileSet(), filepath.Join(moduleAt, file), nil, parser.ImportsOnly)
		require.NoError(t, err)
		for _, spec := range parsed.Imports {
			imported, err := strconv.Unquote(spec.Path.Value)
			require.NoError(t, err)
			assert.Empty(t, broken(filepath.ToSlash(file), imported), "%s imports %s", file, imported)
		}
	}
}

// goFiles returns every Go file of the module, from its top.
func goFiles(t *testing.T) []string {
	t.Helper()
	var files []string
	err := filepath.WalkDir(moduleAt, func(path string, d fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return err
		case d.IsDir() && path != moduleAt && strings.HasPrefix(d.Name(), "."):
			return filepath.SkipDir
		case !d.IsDir() && strings.HasSuffix(path, ".go"):
			rel, err := filepath.Rel(moduleAt, path)
			files = append(files, rel)
			return err
		}
		return nil
	})
	require.NoError(t, err)
	return files
}

func TestBrokenArrowsAreSeen(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		file, imported string
		fine           bool
	}{
		{"calc/release/code.go", "slices", true},
		{"calc/release/code.go", "drillstop/calc/quantity", true},
		{"calc/release/code.go", "drillstop/workflow", false},
		{"calc/release/code.go", "golang.org/x/text", false},
		{"calc/release/code_test.go", "pgregory.net/rapid", true},
		{"calc/release/code_test.go", "drillstop/workflow", false},
		{"workflow/job.go", "drillstop/calc", true},
		{"workflow/steps/skier.go", "drillstop/workflow", true},
		{"workflow/job.go", "drillstop/db", false},
		{"workflow/job.go", "drillstop/tui", false},
		{"workflow/job.go", "github.com/charmbracelet/lipgloss", false},
		{"tui/bench.go", "drillstop/workflow", true},
		{"tui/bench.go", "drillstop/db", false},
		{"tui/bench_test.go", "drillstop/db", false},
		{"tui/bench.go", "drillstop/dbase", false},
		{"tui/bench.go", "github.com/charmbracelet/huh", false},
		{"tui/form/form.go", "github.com/charmbracelet/huh", true},
		{"tui/former/form.go", "github.com/charmbracelet/huh", false},
		{"tui/paper/page.go", "codeberg.org/go-pdf/fpdf", true},
		{"tui/draw/map.go", "codeberg.org/go-pdf/fpdf", false},
		{"cmd/drillstop/layout.go", "codeberg.org/go-pdf/fpdf", false},
		{"db/pattern/document.go", "github.com/pelletier/go-toml/v2/unstable", true},
		{"db/patterns.go", "github.com/pelletier/go-toml/v2", false},
		{"db/store.go", "drillstop/workflow", true},
		{"db/store.go", "drillstop/tui", false},
		{"cmd/drillstop/app.go", "drillstop/db", true},
		{"cmd/drillstop/app.go", "modernc.org/sqlite", false},
		{"main.go", "fmt", false},
		{"internal/x/x.go", "fmt", false},
	} {
		why := broken(c.file, c.imported)
		assert.Equal(t, c.fine, why == "", "%s imports %s: %s", c.file, c.imported, why)
	}
}
