package main

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"drillstop/calc"
	"drillstop/calc/layout"
	"drillstop/db"
	"drillstop/db/pattern"
)

func newPatternImport(a *app) *cobra.Command {
	return &cobra.Command{
		Use:   "import FILE...",
		Short: "Keep pattern files in the shop file, for the binding step",
		Long: `Reads pattern files and keeps them in the shop file, where the binding step of a
job finds them by name. A pattern of the same name is replaced; what was drilled
by it stays as it is recorded. All files are read first: if one of them cannot
be used, none is kept.`,
		Example: "  drillstop pattern import orlo-10.toml orlo-12.toml",
		Args: func(cmd *cobra.Command, args []string) error {
			if len(args) == 0 {
				return usage(fmt.Errorf("%s needs a pattern file or several; %s --help shows how", cmd.Name(), cmd.CommandPath()))
			}
			return nil
		},
		RunE: func(cmd *cobra.Command, args []string) error { return a.patternImport(cmd.Context(), args) },
	}
}

// importRecord is what became of one file, as pattern import prints it as JSON;
// the names are a contract.
type importRecord struct {
	File     string `json:"file"`
	Name     string `json:"name"`
	Pieces   int    `json:"pieces"`
	Holes    int    `json:"holes"` // in one ski
	Invented bool   `json:"invented"`
	Replaced bool   `json:"replaced"` // there was one of that name
}

// patternFile is a pattern file that can be used.
type patternFile struct {
	path   string
	source []byte
	name   string
}

func (a *app) patternImport(ctx context.Context, paths []string) error {
	files, err := readPatternFiles(paths)
	if err != nil {
		return err
	}
	shop, err := a.open(ctx, db.Options{})
	if err != nil {
		return err
	}
	defer shop.close()
	if shop.store.Created() {
		fmt.Fprintf(a.err, "New shop file: %s\n", shop.store.Path())
	}
	records := []importRecord{}
	for _, f := range files {
		kept, replaced, err := shop.store.SavePattern(ctx, f.path, f.source, a.now(), shop.desk.Person().Name)
		if err != nil {
			return err
		}
		records = append(records, importRecord{
			File: f.path, Name: kept.Layout.Name, Pieces: len(kept.Layout.Pieces), Holes: holesOf(kept.Layout),
			Invented: kept.Layout.Invented, Replaced: replaced,
		})
	}
	if a.json {
		return writeJSON(a.out, map[string]any{"imported": records})
	}
	for _, r := range records {
		a.print("%s: kept %s, %d pieces, %d holes%s.\n", r.File, r.Name, r.Pieces, r.Holes, word(r.Replaced, "; it replaces the one of that name"))
		if r.Invented {
			a.print("  ! It is invented: never drill a real ski by it.\n")
		}
	}
	return nil
}

// readPatternFiles reads all files before any is kept.
func readPatternFiles(paths []string) ([]patternFile, error) {
	files := make([]patternFile, len(paths))
	for i, path := range paths {
		source, err := os.ReadFile(path) //nolint:gosec // the user names the file
		if err != nil {
			return nil, fileFault("pattern.file", "hole pattern", path, err)
		}
		p, err := pattern.Read(filepath.Base(path), source)
		if err != nil {
			return nil, err
		}
		for _, earlier := range files[:i] {
			if strings.EqualFold(earlier.name, p.Name) {
				return nil, calc.Faultf("pattern.twice", "%s and %s are both named %q: give one of them another name. None was kept.", earlier.path, path, p.Name)
			}
		}
		files[i] = patternFile{path, source, p.Name}
	}
	return files, nil
}

func holesOf(p *layout.Pattern) int {
	n := 0
	for _, piece := range p.Pieces {
		n += len(piece.Holes)
	}
	return n
}

// library is what the bench of a shop knows: its own patterns, and in an
// invented shop the invented ones that come with the program.
func library(ctx context.Context, store *db.Store, invented bool) ([]*layout.Pattern, error) {
	own, err := store.Patterns(ctx)
	if err != nil {
		return nil, err
	}
	var all []*layout.Pattern
	taken := map[string]bool{}
	for _, p := range own {
		all = append(all, p.Layout)
		taken[strings.ToLower(p.Layout.Name)] = true
	}
	if !invented {
		return all, nil
	}
	named, err := pattern.Invented()
	if err != nil {
		return nil, err
	}
	for _, n := range named {
		if !taken[strings.ToLower(n.Pattern.Name)] {
			all = append(all, n.Pattern)
		}
	}
	return all, nil
}
