package pattern

import (
	"errors"
	"path/filepath"
	"strings"

	"drillstop/calc"
	"drillstop/calc/layout"
)

// Old is what a file tells of the old holes of a pair.
type Old struct {
	Left, Right []layout.OldHole
	Earlier     []Earlier
}

// Earlier is a mount that a ski had before, by the pattern that it was drilled
// with.
type Earlier struct {
	Pattern string // a short name, or the name of a pattern file
	Mount   layout.Mount
	Ski     layout.Side // Both for the pair
	Plugged bool
	where   string // in the file, for what is wrong with it
}

// mostHoles bounds what one file can hold; our own limit.
const mostHoles = 500

// The words of the state of an old hole.
const plugged, open = "plugged", "open"

// ReadOld reads a file of old holes: CSV if its name ends in .csv, TOML if it
// ends in .toml. Its faults are *calc.Fault of code "old-holes.file"; they name
// the file, the line, the key or column and what would be right.
//
// In TOML:
//
//	unit = "mm"
//
//	[[hole]]
//	ski = "left"          # left, right, both
//	x = -124.5            # from the mount mark, to the tip positive
//	y = 18                # from the centre line, to the skier's right positive
//	diameter = 4.1
//	depth = 9             # optional
//	state = "plugged"     # plugged, open
//
//	[[earlier]]           # every hole of an earlier mount
//	pattern = "alpine"    # a short name or a pattern file
//	sole = 318
//	heel_for = 320        # optional: the sole that the heel was drilled for
//	shift = -5            # optional: of the midsole, forward positive
//	ski = "both"
//	state = "open"
//
// In CSV the first line names the columns ski, x, y, diameter, state and, if it
// is known, depth, in any order, separated by commas or semicolons; lines that
// begin with # are not read.
func ReadOld(file string, text []byte) (Old, error) {
	switch strings.ToLower(filepath.Ext(file)) {
	case ".toml":
		return readOldTOML(file, text)
	case ".csv":
		return readOldCSV(file, text)
	}
	return Old{}, (&document{file: file, code: codeOld}).fault(0, "",
		"A file of old holes is CSV or TOML: its name must end in .csv or .toml.")
}

func readOldTOML(file string, text []byte) (Old, error) {
	d, top, err := openTOML(file, codeOld, text)
	if err != nil {
		return Old{}, err
	}
	top.only("unit", "hole", "earlier")
	readUnit(top)
	var old Old
	for i, t := range top.tables("hole") {
		side, hole := readOldHole(t)
		if d.err == nil {
			d.checkOld(t.path, i+1, &hole)
		}
		old.add(side, hole)
	}
	for _, t := range top.tables("earlier") {
		old.Earlier = append(old.Earlier, readEarlier(t))
	}
	if d.err == nil {
		d.checkCount(old)
	}
	if d.err != nil {
		return Old{}, d.err
	}
	return old, nil
}

func readOldHole(t *table) (layout.Side, layout.OldHole) {
	t.only("ski", "x", "y", "diameter", "depth", "state")
	side := readSide(t)
	hole := layout.OldHole{
		X: t.length("x"), Y: t.length("y"), Diameter: t.length("diameter"), Depth: t.maybeLength("depth"),
		Plugged: t.choice("state", plugged, open) == plugged,
	}
	return side, hole
}

func readEarlier(t *table) Earlier {
	t.only("pattern", "sole", "heel_for", "shift", "ski", "state")
	return Earlier{
		Pattern: t.text("pattern", "the name of a pattern in quotes"),
		Mount:   layout.Mount{Sole: t.length("sole"), HeelFor: t.maybeLength("heel_for"), Shift: t.maybeLength("shift")},
		Ski:     readSide(t),
		Plugged: t.choice("state", plugged, open) == plugged,
		where:   t.d.place(t.path),
	}
}

func readSide(t *table) layout.Side {
	side := layout.Side(t.choice("ski", string(layout.Left), string(layout.Right), "both"))
	if side == "both" {
		return layout.Both
	}
	return side
}

// checkOld asks whether a hole can be one.
func (d *document) checkOld(path string, n int, hole *layout.OldHole) {
	var fault *calc.Fault
	if errors.As(hole.Check(n, layout.Both), &fault) {
		d.wrong(join(path, fault.Field), "%s", fault.Sentence)
	}
}

func (d *document) checkCount(old Old) {
	if n := len(old.Left) + len(old.Right); n > mostHoles {
		d.wrong("", "The file holds %d holes: at most %d are read.", n, mostHoles)
	}
}

func (o *Old) add(side layout.Side, hole layout.OldHole) {
	if side != layout.Right {
		o.Left = append(o.Left, hole)
	}
	if side != layout.Left {
		o.Right = append(o.Right, hole)
	}
}

// Holes returns the old holes of both skis, those of the earlier mounts laid
// out with the patterns that find returns, after those that were listed. The
// bit is that of the ski, 0, 0 if it is not marked. What is wrong with an
// earlier mount is a *calc.Fault that names its place in the file.
func (o Old) Holes(find func(name string) (*layout.Pattern, error), bit layout.Bit) (left, right []layout.OldHole, err error) {
	all := Old{Left: append([]layout.OldHole{}, o.Left...), Right: append([]layout.OldHole{}, o.Right...)}
	for _, e := range o.Earlier {
		p, err := find(e.Pattern)
		if err != nil {
			return nil, nil, e.located(err)
		}
		for _, side := range layout.Sides() {
			if e.Ski != layout.Both && e.Ski != side {
				continue
			}
			holes, err := layout.OldHoles(p, e.Mount, bit, side, e.Plugged)
			if err != nil {
				return nil, nil, e.located(err)
			}
			for _, h := range holes {
				all.add(side, h)
			}
		}
	}
	return all.Left, all.Right, nil
}

func (e Earlier) located(err error) error {
	var fault *calc.Fault
	if !errors.As(err, &fault) {
		return err
	}
	said := calc.Faultf(fault.Code, "%s: %s", e.where, fault.Sentence)
	said.Field, said.Cause = fault.Field, fault
	return said
}
