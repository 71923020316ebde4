package main

import (
	"fmt"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"drillstop/calc"
	"drillstop/calc/quantity"
	"drillstop/calc/release"
	"drillstop/tui/paper"
	"drillstop/workflow"
	"drillstop/workflow/steps"
)

// valueFlags are the skier and the boot as typed.
type valueFlags struct {
	mass, height, age, kind, sole, toe, heel string
}

// valueRecord is what value prints as JSON; the names are a contract.
type valueRecord struct {
	Code        string             `json:"code"`
	Value       float64            `json:"value"` // of the code, before requests
	Toe         float64            `json:"toe"`   // to set
	Heel        float64            `json:"heel"`  // to set
	ToeCode     string             `json:"toe_code"`
	HeelCode    string             `json:"heel_code"`
	Twist       float64            `json:"twist_nm"`
	ForwardLean float64            `json:"forward_lean_nm"`
	Path        string             `json:"path"`
	Chart       chartName          `json:"chart"`
	Findings    []workflow.Finding `json:"findings"`
}

func newValue(a *app) *cobra.Command {
	var typed valueFlags
	cmd := &cobra.Command{
		Use:   "value --mass M --height H --age A --type T --sole S",
		Short: "Compute release value, code path and reference moments for one skier and boot",
		Long: `Computes the release indicator values of toe and heel for a skier and a boot, the
path through the chart, and the reference moments to test against. Where the
chart has no value there is none: exit code 3.`,
		Example: `  drillstop value --mass 72kg --height 175cm --age 34 --type II --sole 318mm
  drillstop value --mass 165lb --height "5'10\"" --age 1992-03-30 --type III --sole 305 --toe lower`,
		Args: noArgs,
		RunE: func(*cobra.Command, []string) error { return a.value(typed) },
	}
	flags := cmd.Flags()
	flags.StringVar(&typed.mass, "mass", "", "`MASS`: 72kg, 165lb, 11st 4lb; kg if no unit is given")
	flags.StringVar(&typed.height, "height", "", "`HEIGHT`: 175cm, 1.75m, 5'10\"; cm if no unit is given")
	flags.StringVar(&typed.age, "age", "", "`AGE` in years, or the birth date as 1992-03-30")
	flags.StringVar(&typed.kind, "type", "", "`TYPE` I, II or III, as the skier states it")
	flags.StringVar(&typed.sole, "sole", "", "boot sole `LENGTH`, the three digits at the heel, in mm")
	flags.StringVar(&typed.toe, "toe", "", "what the skier asks for at the toe: `lower or higher`")
	flags.StringVar(&typed.heel, "heel", "", "what the skier asks for at the heel: `lower or higher`")
	a.jsonFlag(cmd)
	return cmd
}

// read parses the flags; the first that cannot be read is an error of usage.
func (f valueFlags) read(now time.Time) (in release.Input, err error) {
	if missing := f.missing(); len(missing) > 0 {
		return in, fmt.Errorf("value needs %s as well", strings.Join(missing, ", "))
	}
	for _, part := range []struct {
		flag string
		read func() error
	}{
		{"mass", func() (err error) { in.Mass, err = quantity.ParseMass(f.mass); return err }},
		{"height", func() (err error) { in.Height, err = quantity.ParseHeight(f.height); return err }},
		{"age", func() (err error) { in.Age, err = readAge(f.age, now); return err }},
		{"type", func() (err error) { in.Type, err = release.ParseType(f.kind); return err }},
		{"sole", func() (err error) { in.Sole, err = quantity.ParseSole(f.sole); return err }},
		{"toe", func() (err error) { in.Toe, err = release.ParseWish(f.toe); return err }},
		{"heel", func() (err error) { in.Heel, err = release.ParseWish(f.heel); return err }},
	} {
		if err := part.read(); err != nil {
			return in, onFlag(part.flag, err)
		}
	}
	return in, nil
}

func (f valueFlags) missing() []string {
	var missing []string
	for _, flag := range []struct{ name, typed string }{
		{"--mass", f.mass}, {"--height", f.height}, {"--age", f.age}, {"--type", f.kind}, {"--sole", f.sole},
	} {
		if strings.TrimSpace(flag.typed) == "" {
			missing = append(missing, flag.name)
		}
	}
	return missing
}

// readAge reads an age in years or a birth date.
func readAge(typed string, now time.Time) (int, error) {
	if !quantity.IsDate(typed) {
		return quantity.ParseAge(typed)
	}
	age, _, err := quantity.ParseBirthDate(typed, now)
	return age, err
}

func (a *app) value(typed valueFlags) error {
	in, err := typed.read(a.now())
	if err != nil {
		return usage(err)
	}
	chart, err := a.chart()
	if err != nil {
		return err
	}
	result, err := chart.Value(in)
	if err != nil {
		return stopped(err)
	}
	v := valueRecordOf(result)
	v.Chart = nameOf(chart)
	if err := a.printValue(v); err != nil {
		return err
	}
	if worst, found := workflow.Worst(v.Findings); found && worst.Holds() {
		return errStopped
	}
	return nil
}

func valueRecordOf(r release.Result) valueRecord {
	return valueRecord{
		Code: r.Code, Value: r.Value, Toe: r.Toe, Heel: r.Heel, ToeCode: r.ToeCode, HeelCode: r.HeelCode,
		Twist: float64(r.Twist), ForwardLean: float64(r.ForwardLean), Path: r.PathText(),
		Findings: findingsAt(steps.ReleaseValue, r.Findings),
	}
}

// findingsAt puts the findings of a computation at the step that asks for it.
func findingsAt(step workflow.StepID, found []calc.Finding) []workflow.Finding {
	at := workflow.On(workflow.Both, found)
	for i := range at {
		at[i].Step = step
	}
	return at
}

// printValue writes the number first, large and alone, and its path beneath.
func (a *app) printValue(v valueRecord) error {
	if a.json {
		return writeJSON(a.out, v)
	}
	a.print("\n  RELEASE VALUE   toe %s   heel %s\n\n", plain(v.Toe), plain(v.Heel))
	a.print("  %s\n", v.Path)
	a.print("  code %s   twist %s Nm (row %s)   forward lean %s Nm (row %s)\n",
		v.Code, plain(v.Twist), v.ToeCode, plain(v.ForwardLean), v.HeelCode)
	a.print("  chart %s\n", v.Chart)
	for i, f := range v.Findings {
		if i == 0 {
			a.print("\n")
		}
		a.print("  %s\n", paper.Finding(f))
	}
	a.print("\n  ! Set it, read it back, test the release. The binding maker's current chart\n" +
		"    and instructions, local rules and a certified technician come first.\n")
	return nil
}

func plain(v float64) string { return quantity.Print(v, quantity.Plain) }
