package main

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"strings"

	"drillstop/calc"
	"drillstop/calc/layout"
	"drillstop/db"
	"drillstop/db/pattern"
)

// patternFinder returns the pattern that a file or a name stands for.
type patternFinder func(name string) (*layout.Pattern, error)

// patternFinder reads pattern files, and finds patterns by name: those of the
// shop in any case, before the invented ones. The shop file is read once, and
// only when a name was given.
func (a *app) patternFinder(ctx context.Context) patternFinder {
	var own []db.Pattern
	read := false
	return func(name string) (*layout.Pattern, error) {
		if strings.EqualFold(filepath.Ext(name), ".toml") {
			return readPattern(name)
		}
		if !read {
			list, err := a.shopPatterns(ctx)
			if err != nil {
				return nil, err
			}
			own, read = list, true
		}
		for _, p := range own {
			if strings.EqualFold(p.Layout.Name, name) {
				return p.Layout, nil
			}
		}
		p, err := pattern.Find(name)
		return p, withOwn(err, own)
	}
}

// withOwn adds the shop's own patterns to the sentence about an unknown one.
func withOwn(err error, own []db.Pattern) error {
	var fault *calc.Fault
	if !errors.As(err, &fault) || len(own) == 0 {
		return err
	}
	names := make([]string, len(own))
	for i, p := range own {
		names[i] = p.Layout.Name
	}
	return calc.Faultf(fault.Code, "%s The shop has %s.", fault.Sentence, strings.Join(names, ", "))
}

// readPattern reads the pattern of a file.
func readPattern(path string) (*layout.Pattern, error) {
	text, err := os.ReadFile(path) //nolint:gosec // the user names the file
	if err != nil {
		return nil, fileFault("pattern.file", "hole pattern", path, err)
	}
	return pattern.Read(path, text)
}

// shopPatterns are the patterns of the shop file; none while there is no shop
// file and none was named.
func (a *app) shopPatterns(ctx context.Context) ([]db.Pattern, error) {
	path, err := a.shopPath("shop.db")
	if err != nil {
		return nil, err
	}
	if _, err := os.Stat(path); a.dbFile == "" && errors.Is(err, os.ErrNotExist) {
		return nil, nil
	}
	store, err := db.Open(ctx, path, db.Options{MustExist: true})
	if err != nil {
		return nil, err
	}
	list, err := store.Patterns(ctx)
	return list, errors.Join(err, store.Close())
}
