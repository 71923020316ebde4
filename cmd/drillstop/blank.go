package main

import (
	"github.com/spf13/cobra"

	"drillstop/workflow"
	"drillstop/workflow/steps"
)

func newBlank(a *app) *cobra.Command {
	var kind string
	cmd := &cobra.Command{
		Use:   "blank --kind KIND",
		Short: "Print an empty answer sheet, with every field's unit and range",
		Long: `Prints an answer sheet as JSON: every step of a kind of job and every field.
Fill in the answers and give the sheet to drillstop run. A step that stays empty
is left out. "about" describes the fields; run does not read it.

Kinds: ` + kindNames() + `.`,
		Example: "  drillstop blank --kind mount > sheet.json",
		Args:    noArgs,
		RunE: func(*cobra.Command, []string) error {
			k, err := workflow.ParseKind(kind)
			if err != nil {
				return usage(err)
			}
			list, err := steps.Checklist()
			if err != nil {
				return err
			}
			return writeJSON(a.out, list.Blank(k))
		},
	}
	cmd.Flags().StringVar(&kind, "kind", string(workflow.NewMount), "the `KIND` of job")
	return cmd
}

// kindNames lists the kinds of job for the help.
func kindNames() string {
	names := ""
	for i, o := range workflow.Kinds {
		if i > 0 {
			names += ", "
		}
		names += o.Value + " (" + o.Label + ")"
	}
	return names
}
