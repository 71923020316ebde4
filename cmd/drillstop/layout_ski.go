package main

import (
	"errors"
	"os"

	"drillstop/calc/layout"
	"drillstop/calc/quantity"
	"drillstop/db/pattern"
)

// width is how wide the skis are: their waist as it was read, widths along them,
// or not known.
func (f layoutFlags) width(waist quantity.Millimetre) (layout.Width, error) {
	switch {
	case f.widths == "" && f.waist == "":
		return layout.Width{}, nil
	case f.widths == "":
		return layout.Waist(waist), nil
	case f.waist != "":
		return layout.Width{}, usage(errors.New("give --waist or --widths: the widths hold the waist"))
	case !pattern.IsWidthsFile(f.widths):
		width, err := pattern.ParseWidths(f.widths)
		if err != nil {
			return width, usage(onFlag("widths", err))
		}
		return width, nil
	}
	text, err := os.ReadFile(f.widths)
	if err != nil {
		return layout.Width{}, fileFault("widths.file", "file of widths", f.widths, err)
	}
	return pattern.ReadWidths(f.widths, text)
}

// chords reads the chord of both skis, or one for each.
func chords(typed string) ([]float64, error) {
	list, err := quantity.ParseList(typed, quantity.MM, 0)
	if err == nil && len(list) == 1 {
		return []float64{list[0], list[0]}, nil
	}
	if err != nil {
		return nil, err
	}
	return quantity.ParseList(typed, quantity.MM, 2)
}

// mountPoints are where the midsoles lie on both skis, as the shift says:
// measured from the marks, or from half the chord where there are none; nil if
// no chord was given.
func (w wished) mountPoints() ([]layout.MountPoint, error) {
	if w.chord == nil {
		return nil, nil
	}
	points := make([]layout.MountPoint, len(w.chord))
	for i := range points {
		chord, shift := quantity.Millimetre(w.chord[i]), w.spec.Mount.Shift
		var err error
		if w.marks == nil {
			points[i], err = layout.FromCentre(chord, shift)
		} else if points[i], err = layout.FromTail(chord, quantity.Millimetre(w.marks[i])); err == nil {
			points[i], err = points[i].Moved(chord, shift)
		}
		if err != nil {
			return nil, err
		}
	}
	return points, nil
}
