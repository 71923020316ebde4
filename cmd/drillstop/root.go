package main

import (
	"errors"
	"fmt"
	"strings"

	"github.com/spf13/cobra"
)

// newRoot declares the command line. Nothing is opened before the command is
// known.
func newRoot(a *app) *cobra.Command {
	root := &cobra.Command{
		Use:   "drillstop",
		Short: "The workbench for mounting, adjusting, testing and handing over skis",
		Long: `Drillstop walks a technician through mounting, adjusting, testing and handing
over a pair of skis, step by step, and keeps the record. Without a command it
opens the bench: the jobs in hand.

Exit codes: 0 done, 1 failed, 2 wrong usage, 3 the computation ended in a stop.`,
		Args:          noArgs,
		SilenceErrors: true,
		SilenceUsage:  true,
		RunE:          func(cmd *cobra.Command, _ []string) error { return runBench(cmd.Context(), a) },
	}
	root.CompletionOptions.HiddenDefaultCmd = true
	root.SuggestionsMinimumDistance = 2
	root.SetOut(a.out)
	root.SetErr(a.err)
	root.SetIn(a.in)
	root.SetFlagErrorFunc(func(cmd *cobra.Command, err error) error {
		return usage(fmt.Errorf("%w; %s --help shows how", err, cmd.CommandPath()))
	})
	flags := root.PersistentFlags()
	flags.StringVar(&a.dbFile, "db", "", "shop `FILE` (default: in your data folder)")
	flags.StringVar(&a.chartFile, "chart", "", "the shop's own release chart, a `FILE` (default: the built-in chart)")
	flags.StringVar(&a.apart, "apart", "", "least `LENGTH` from hole to hole that the shop holds (default 10mm)")
	flags.StringVar(&a.by, "by", "", "`NAME` of who answers (default: the user of this machine)")
	flags.BoolVar(&a.supervisor, "supervisor", false, "who answers is a supervisor, who may waive a stop")
	root.AddCommand(
		newValue(a), newJudge(a), newBlank(a), newRun(a), newTicket(a), newFind(a), newDemo(a),
		newLayout(a), newPattern(a), newDevice(a),
	)
	return root
}

// jsonFlag adds --json to a command.
func (a *app) jsonFlag(cmd *cobra.Command) {
	cmd.Flags().BoolVar(&a.json, "json", false, "print JSON with stable names")
}

// noArgs refuses arguments; for the root that is an unknown command.
func noArgs(cmd *cobra.Command, args []string) error {
	if len(args) == 0 {
		return nil
	}
	if cmd.HasParent() {
		return usage(fmt.Errorf("%s takes no %q; %s --help shows how", cmd.Name(), args[0], cmd.CommandPath()))
	}
	said := fmt.Sprintf("there is no command %q", args[0])
	if near := cmd.SuggestionsFor(args[0]); len(near) > 0 {
		said += "; did you mean " + strings.Join(near, " or ") + "?"
	} else {
		said += "; drillstop --help names them all"
	}
	return usage(errors.New(said))
}

// oneArg asks for exactly one argument, named as the usage line names it.
func oneArg(name string) cobra.PositionalArgs {
	return func(cmd *cobra.Command, args []string) error {
		if len(args) == 1 {
			return nil
		}
		return usage(fmt.Errorf("%s needs one %s, and got %d; %s --help shows how",
			cmd.Name(), name, len(args), cmd.CommandPath()))
	}
}
