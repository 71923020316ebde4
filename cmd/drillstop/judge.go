package main

import (
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"drillstop/calc"
	"drillstop/calc/moment"
	"drillstop/calc/quantity"
	"drillstop/tui/paper"
	"drillstop/workflow"
	"drillstop/workflow/steps"
)

// judgement is what judge prints as JSON; the names are a contract.
type judgement struct {
	Direction        moment.Direction   `json:"direction"`
	Code             string             `json:"code"`
	Middle           float64            `json:"middle"`    // Nm
	Reference        float64            `json:"reference"` // Nm
	DeviationPercent float64            `json:"deviation_percent"`
	DeviationRows    float64            `json:"deviation_rows"`
	Range            moment.Range       `json:"range"`
	Class            moment.Class       `json:"class"`
	Action           moment.Action      `json:"action"`
	Sentence         string             `json:"sentence"`
	Chart            chartName          `json:"chart"`
	Findings         []workflow.Finding `json:"findings"`
}

func newJudge(a *app) *cobra.Command {
	var code, direction, readings string
	cmd := &cobra.Command{
		Use:   "judge --code CODE --direction DIRECTION --readings A,B,C",
		Short: "Judge three release readings against the reference moment of a skier code",
		Long: `Takes three readings of a release test in Nm and says their middle value, how
far it lies from the reference moment of the skier code, and what is to be done.
Ends with exit code 3 unless the setting can be kept as it is.`,
		Example: "  drillstop judge --code L --direction twist --readings 49,51,52",
		Args:    noArgs,
		RunE: func(*cobra.Command, []string) error {
			return a.judge(code, direction, readings)
		},
	}
	cmd.Flags().StringVar(&code, "code", "", "skier `CODE`, the chart's row letter, after type and age")
	cmd.Flags().StringVar(&direction, "direction", "", "twist or forward-lean")
	cmd.Flags().StringVar(&readings, "readings", "", "three readings `A,B,C` in Nm")
	a.jsonFlag(cmd)
	return cmd
}

func (a *app) judge(code, direction, readings string) error {
	dir, err := moment.ParseDirection(direction)
	if err != nil {
		return usage(onFlag("direction", err))
	}
	values, err := quantity.ParseList(readings, quantity.NM, 3)
	if err != nil {
		return usage(onFlag("readings", err))
	}
	chart, err := a.chart()
	if err != nil {
		return err
	}
	reference, err := chart.Reference(strings.ToUpper(strings.TrimSpace(code)))
	if err != nil {
		return usage(onFlag("code", err))
	}
	scale := moment.Scale{Moments: chart.TwistColumn(), At: reference.Row}
	if dir == moment.ForwardLean {
		scale.Moments = chart.ForwardLeanColumn()
	}
	moments := make([]quantity.NewtonMetre, len(values))
	for i, v := range values {
		moments[i] = quantity.NewtonMetre(v)
	}
	v, err := moment.Judge(dir, scale, moments)
	if err != nil {
		return usage(err)
	}
	j := judgementOf(reference.Code, v)
	j.Chart = nameOf(chart)
	if err := a.printJudgement(j); err != nil {
		return err
	}
	stopped := slices.ContainsFunc(v.Findings, func(f calc.Finding) bool { return f.Level == calc.Stop })
	if v.Action != moment.Keep || stopped {
		return errStopped
	}
	return nil
}

func judgementOf(code string, v moment.Verdict) judgement {
	return judgement{
		Direction: v.Direction, Code: code, Middle: float64(v.Middle), Reference: float64(v.Reference),
		DeviationPercent: v.DeviationPercent, DeviationRows: v.DeviationRows,
		Range: v.Range, Class: v.Class, Action: v.Action, Sentence: v.Sentence(),
		Findings: findingsAt(steps.ReleaseTest, v.Findings),
	}
}

func (a *app) printJudgement(j judgement) error {
	if a.json {
		return writeJSON(a.out, j)
	}
	a.print("%s, code %s\n\n  %s\n\n", j.Direction, j.Code, j.Sentence)
	a.print("  deviation %+.1f %%, %+.1f rows; class %s; %s\n", j.DeviationPercent, j.DeviationRows, j.Class, j.Action)
	for _, f := range j.Findings {
		a.print("  %s\n", paper.Finding(f))
	}
	a.print("  chart %s\n", j.Chart)
	return nil
}
