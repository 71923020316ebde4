package main

import (
	"context"
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"drillstop/db"
	"drillstop/workflow"
)

func newFind(a *app) *cobra.Command {
	cmd := &cobra.Command{
		Use:     "find [WORDS]",
		Short:   "Search all jobs, newest first",
		Long:    "Lists the jobs in which each word begins a word of skier, ski, binding or ticket; without words all jobs.",
		Example: "  drillstop find ida tarn",
		Args:    cobra.ArbitraryArgs,
		RunE: func(cmd *cobra.Command, args []string) error {
			return a.find(cmd.Context(), strings.Join(args, " "))
		},
	}
	a.jsonFlag(cmd)
	return cmd
}

func (a *app) find(ctx context.Context, words string) error {
	file, err := a.open(ctx, db.Options{MustExist: true})
	if err != nil {
		return err
	}
	defer file.close()
	jobs, err := file.desk.List(ctx, workflow.Query{Words: words})
	if err != nil {
		return err
	}
	if a.json {
		return writeJSON(a.out, struct {
			Jobs []workflow.Summary `json:"jobs"`
		}{append([]workflow.Summary{}, jobs...)})
	}
	for _, s := range jobs {
		a.print("%s  %-11s %-12s %s\n", s.Ticket, s.Kind, s.State, strings.Join([]string{s.Skier, s.Ski, s.Binding}, "  "))
		if s.Worst != "" {
			a.print("        %c %s\n", s.Mark, s.Worst)
		}
	}
	if len(jobs) == 0 {
		fmt.Fprintln(a.err, "drillstop: no job matches.")
	}
	return nil
}
