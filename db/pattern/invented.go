package pattern

import (
	"embed"
	"io/fs"
	"path"
	"strings"

	"drillstop/calc"
	"drillstop/calc/layout"
)

// The patterns that come with the program are invented, for practice and
// demonstration: no binding has these holes.
//
//go:embed invented/*.toml
var invented embed.FS

// Named is a pattern with the short name by which a command calls it.
type Named struct {
	Name    string
	Pattern *layout.Pattern
}

// Invented returns the invented patterns, by name.
func Invented() ([]Named, error) {
	files, err := fs.Glob(invented, "invented/*.toml")
	if err != nil {
		return nil, err
	}
	var list []Named
	for _, file := range files {
		p, err := readInvented(file)
		if err != nil {
			return nil, err
		}
		list = append(list, Named{strings.TrimSuffix(path.Base(file), ".toml"), p})
	}
	return list, nil
}

// Find returns the invented pattern of a short name. An unknown name is a
// *calc.Fault of code "pattern.unknown" that lists the known ones.
func Find(name string) (*layout.Pattern, error) {
	list, err := Invented()
	if err != nil {
		return nil, err
	}
	var known []string
	for _, n := range list {
		if n.Name == name {
			return n.Pattern, nil
		}
		known = append(known, n.Name)
	}
	return nil, calc.Faultf(codeUnknown, "There is no pattern %q: name a pattern file that ends in .toml, or one of the invented ones: %s.", name, strings.Join(known, ", "))
}

func readInvented(file string) (*layout.Pattern, error) {
	text, err := invented.ReadFile(file)
	if err != nil {
		return nil, err
	}
	return Read(path.Base(file), text)
}
