package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"os"

	"github.com/spf13/cobra"

	"drillstop/calc/layout"
	"drillstop/calc/quantity"
	"drillstop/db/pattern"
	"drillstop/tui/paper"
	"drillstop/workflow"
)

// layoutFlags are a layout as typed.
type layoutFlags struct {
	pattern, sole, heelFor, shift, hole string
	waist, widths, oldHoles             string
	also, marks, chord                  string
	pdf, sheet, job                     string
}

func newLayout(a *app) *cobra.Command {
	var typed layoutFlags
	cmd := &cobra.Command{
		Use:   "layout --pattern FILE|NAME --sole S",
		Short: "Lay the holes of a mount out: coordinates, clashes, and every shift that clears",
		Long: `Lays the holes of a binding out on both skis. Lengths are in mm; x runs from the
mount mark to the tip, y from the centre line to the skier's right. Compares
them with old holes, with each other and with the edge, and names every shift of
the mount point that clears. Exit code 3 if the wished shift does not clear; a
template is not written then.

A pattern is a file that ends in .toml, or the name of one that the shop has
imported, or of an invented one: see drillstop pattern.`,
		Example: `  drillstop layout --pattern alpine --sole 318mm --waist 98mm
  drillstop layout --pattern shop.toml --sole 318 --shift -5mm --old-holes old.csv --json
  drillstop layout --pattern alpine --sole 318 --pdf template.pdf --paper letter --job T-0417`,
		Args: noArgs,
		RunE: func(cmd *cobra.Command, _ []string) error { return a.layout(cmd.Context(), typed) },
	}
	flags := cmd.Flags()
	flags.StringVar(&typed.pattern, "pattern", "", "hole pattern: a `FILE` that ends in .toml, or a name of the shop's or an invented one")
	flags.StringVar(&typed.sole, "sole", "", "boot sole `LENGTH`, the three digits at the heel, in mm")
	flags.StringVar(&typed.heelFor, "heel-for", "", "sole `LENGTH` that the heel piece is drilled for (default: --sole)")
	flags.StringVar(&typed.shift, "shift", "0mm", "`LENGTH` of the midsole in front of the mount mark, negative for back")
	flags.StringVar(&typed.hole, "hole", "", "hole marked on the ski, as `DIAMETERxDEPTH`: 4.1x9")
	flags.StringVar(&typed.waist, "waist", "", "narrowest `WIDTH` of the ski in mm, for the distance to the edge")
	flags.StringVar(&typed.widths, "widths", "", "widths along the ski from the mark, `X:WIDTH,X:WIDTH` or a file that ends in .csv")
	flags.StringVar(&typed.oldHoles, "old-holes", "", "old holes, a `FILE` that ends in .csv or .toml")
	flags.StringVar(&typed.also, "also", "", "sole `LENGTH` of a second boot that the mount should serve")
	flags.StringVar(&typed.marks, "marks", "", "mount marks of both skis from their tails, `LEFT,RIGHT`")
	flags.StringVar(&typed.chord, "chord", "", "straight `LENGTH` of the skis from tail to tip, or LEFT,RIGHT; for the mount points")
	flags.StringVar(&typed.pdf, "pdf", "", "write a drill template at 1:1 to a `FILE`")
	flags.StringVar(&typed.sheet, "paper", string(paper.A4), "paper of the template: `a4 or letter`")
	flags.StringVar(&typed.job, "job", "", "ticket `NUMBER` for the template")
	a.jsonFlag(cmd)
	return cmd
}

// wished is a layout as it was asked for.
type wished struct {
	spec  layout.Spec
	also  quantity.Millimetre // 0 = no second boot
	marks []float64           // left, right; nil = not measured
	chord []float64           // left, right; nil = not measured
	sheet paper.Sheet
	job   string
}

// read parses the flags. What was typed wrongly is an error of usage; what is
// wrong in a file is not.
func (f layoutFlags) read(find patternFinder) (w wished, err error) {
	if f.pattern == "" || f.sole == "" {
		return w, usage(errors.New("layout needs --pattern and --sole; drillstop layout --help shows how"))
	}
	var waist quantity.Millimetre
	for _, part := range []struct {
		flag, typed string
		read        func(typed string) error
	}{
		{"sole", f.sole, soleInto(&w.spec.Mount.Sole)},
		{"heel-for", f.heelFor, soleInto(&w.spec.Mount.HeelFor)},
		{"also", f.also, soleInto(&w.also)},
		{"shift", f.shift, lengthInto(&w.spec.Mount.Shift)},
		{"waist", f.waist, lengthInto(&waist)},
		{"hole", f.hole, func(t string) (err error) {
			w.spec.Bit.Diameter, w.spec.Bit.Depth, err = quantity.ParseHole(t)
			return err
		}},
		{"marks", f.marks, func(t string) (err error) { w.marks, err = quantity.ParseList(t, quantity.MM, 2); return err }},
		{"chord", f.chord, func(t string) (err error) { w.chord, err = chords(t); return err }},
		{"paper", f.sheet, func(t string) (err error) { w.sheet, err = paper.ParseSheet(t); return err }},
		{"job", f.job, func(t string) error {
			ticket, err := workflow.ParseTicket(t)
			w.job = ticket.String()
			return err
		}},
	} {
		if part.typed == "" {
			continue
		}
		if err := part.read(part.typed); err != nil {
			return w, usage(onFlag(part.flag, err))
		}
	}
	if w.spec.Left.Width, err = f.width(waist); err != nil {
		return w, err
	}
	w.spec.Right.Width = w.spec.Left.Width
	return w, f.files(&w.spec, find)
}

// files reads the pattern and the old holes.
func (f layoutFlags) files(spec *layout.Spec, find patternFinder) (err error) {
	if spec.Pattern, err = find(f.pattern); err != nil {
		return err
	}
	if f.oldHoles == "" {
		return nil
	}
	text, err := os.ReadFile(f.oldHoles)
	if err != nil {
		return fileFault("old-holes.file", "file of old holes", f.oldHoles, err)
	}
	old, err := pattern.ReadOld(f.oldHoles, text)
	if err != nil {
		return err
	}
	spec.Left.Old, spec.Right.Old, err = old.Holes(find, spec.Bit)
	return err
}

func soleInto(to *quantity.Millimetre) func(string) error {
	return func(typed string) (err error) {
		*to, err = quantity.ParseSole(typed)
		return err
	}
}

func lengthInto(to *quantity.Millimetre) func(string) error {
	return func(typed string) error {
		v, err := quantity.Parse(typed, quantity.MM)
		*to = quantity.Millimetre(v)
		return err
	}
}

func (a *app) layout(ctx context.Context, typed layoutFlags) error {
	w, err := typed.read(a.patternFinder(ctx))
	if err != nil {
		return err
	}
	if w.spec.Rules, err = a.rules(); err != nil {
		return err
	}
	l, err := lay(w)
	if err != nil {
		return err
	}
	if err := a.printLayout(l); err != nil {
		return err
	}
	if !l.plan.Clear() {
		if typed.pdf != "" {
			fmt.Fprintf(a.err, "drillstop: The template %s was not written: this layout clashes.\n", typed.pdf)
		}
		return errStopped
	}
	if typed.pdf != "" {
		return a.writeTemplate(typed.pdf, w, l.plan)
	}
	return nil
}

// laid is a layout with everything that was computed about it.
type laid struct {
	wished
	plan   layout.Plan
	shifts layout.Shifts
	shared *layout.Shared
	pair   *layout.Marks
	points []layout.MountPoint // left, right; nil without a chord
}

// lay computes. What cannot be laid out was typed wrongly; two boots that one
// mount does not serve are a stop.
func lay(w wished) (l laid, err error) {
	l.wished = w
	if l.plan, err = w.spec.Plan(); err != nil {
		return l, usage(err)
	}
	window := layout.DefaultWindow()
	window.From, window.To = min(window.From, w.spec.Mount.Shift), max(window.To, w.spec.Mount.Shift)
	if l.shifts, err = w.spec.Shifts(window); err != nil {
		return l, usage(err)
	}
	if w.also != 0 {
		shared, err := layout.Serve(w.spec.Pattern, w.spec.Mount.Sole, w.also)
		if err != nil {
			return l, stopped(onFlag("also", err))
		}
		l.shared = &shared
	}
	if w.marks != nil {
		pair, err := layout.PairMarks(quantity.Millimetre(w.marks[0]), quantity.Millimetre(w.marks[1]))
		if err != nil {
			return l, usage(onFlag("marks", err))
		}
		l.pair = &pair
	}
	if l.points, err = w.mountPoints(); err != nil {
		return l, usage(onFlag("chord", err))
	}
	return l, nil
}

// writeTemplate draws the template first, so that a file that cannot be drawn
// is not begun.
func (a *app) writeTemplate(path string, w wished, plan layout.Plan) error {
	var out bytes.Buffer
	if err := paper.TemplateOf(&w.spec, plan, w.job, w.sheet, a.now()).PDF(&out); err != nil {
		return err
	}
	if err := os.WriteFile(path, out.Bytes(), 0o600); err != nil {
		return fmt.Errorf("the template cannot be written: %w", err)
	}
	fmt.Fprintf(a.err, "drillstop: Template written to %s. A jig comes first; print at 100 %% and measure both bars.\n", path)
	return nil
}
