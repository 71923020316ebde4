package main

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"drillstop/calc"
	"drillstop/db"
	"drillstop/testdata/demo"
	"drillstop/workflow"
)

// demoToken begins the token of every entry of an invented shop. Tokens of real
// entries are random: the first entry tells the two apart.
const demoToken = "demo-"

// demoPace is how much the clock of an invented job moves each time it is read.
const demoPace = time.Minute

func newDemo(a *app) *cobra.Command {
	var fillOnly bool
	cmd := &cobra.Command{
		Use:   "demo",
		Short: "Open an invented shop, in a file of its own",
		Long: `Opens the bench of an invented shop with jobs of every kind and in every state,
to look around and try things in. It lies in a file of its own, demo.db in your
data folder or the file that --db names; a real shop file is never touched.
Remove the file to begin anew.`,
		Args: noArgs,
		RunE: func(cmd *cobra.Command, _ []string) error { return a.runDemo(cmd.Context(), fillOnly) },
	}
	cmd.Flags().BoolVar(&fillOnly, "fill-only", false, "make the file, print its path and end")
	return cmd
}

func (a *app) runDemo(ctx context.Context, fillOnly bool) error {
	path, err := a.shopPath("demo.db")
	if err != nil {
		return err
	}
	a.dbFile, a.demo = path, true
	if _, err := os.Stat(path); errors.Is(err, fs.ErrNotExist) {
		if err := a.makeDemo(ctx, path); err != nil {
			return err
		}
	}
	if !fillOnly {
		return runBench(ctx, a)
	}
	file, err := a.open(ctx, db.Options{MustExist: true})
	if err != nil {
		return err
	}
	file.close()
	fmt.Fprintln(a.err, "This is a demo: the shop, its people and its skis are invented.")
	_, err = fmt.Fprintln(a.out, path)
	return err
}

// makeDemo fills a file beside the path and moves it there once it is whole, so
// that a demo is never half an one.
func (a *app) makeDemo(ctx context.Context, path string) error {
	folder := filepath.Dir(path)
	if err := os.MkdirAll(folder, 0o700); err != nil {
		return fileFault("demo.folder", "folder", folder, err)
	}
	draft, err := os.MkdirTemp(folder, "demo-")
	if err != nil {
		return fileFault("demo.folder", "folder", folder, err)
	}
	defer os.RemoveAll(draft)
	filling := filepath.Join(draft, "demo.db")
	if err := a.fillDemo(ctx, filling); err != nil {
		return fmt.Errorf("the demo could not be filled: %w", err)
	}
	return os.Rename(filling, path)
}

func (a *app) fillDemo(ctx context.Context, path string) (err error) {
	seat, err := a.seat()
	if err != nil {
		return err
	}
	store, err := db.Open(ctx, path, db.Options{})
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, store.Close()) }()
	seat.Store, seat.Shop.Name = store, demo.Shop
	if seat.Shop.Patterns, err = library(ctx, store, true); err != nil {
		return err
	}
	cards, err := demo.Cards()
	if err != nil {
		return err
	}
	for _, card := range cards {
		if err := store.SaveCard(ctx, card); err != nil {
			return err
		}
	}
	now := a.now()
	if seat.Shop.Devices, err = keepDevices(ctx, store, now); err != nil {
		return err
	}
	jobs, err := demo.Jobs(now)
	if err != nil {
		return err
	}
	for i, job := range jobs {
		if err := playDemo(ctx, seatDemo(seat, i+1, now, job), job); err != nil {
			return fmt.Errorf("job %d: %w", i+1, err)
		}
	}
	return nil
}

// keepDevices gives an invented shop its test devices.
func keepDevices(ctx context.Context, store *db.Store, now time.Time) ([]workflow.Device, error) {
	devices, err := demo.Devices(now)
	if err != nil {
		return nil, err
	}
	for _, d := range devices {
		if err := store.SaveDevice(ctx, d); err != nil {
			return nil, err
		}
	}
	return devices, nil
}

// seatDemo is the desk of an invented person, with a clock of its own.
func seatDemo(seat workflow.DeskOptions, number int, now time.Time, job demo.Job) *workflow.Desk {
	at, written := now.Add(-time.Duration(job.HoursAgo*float64(time.Hour))), 0
	seat.Person = workflow.Person{Name: job.By, Supervisor: job.Supervisor}
	seat.Now = func() time.Time { at = at.Add(demoPace); return at }
	seat.Token = func() string { written++; return fmt.Sprintf("%s%d-%d", demoToken, number, written) }
	return workflow.NewDesk(seat)
}

// playDemo answers one invented job the way a person would.
func playDemo(ctx context.Context, desk *workflow.Desk, job demo.Job) error {
	sheet, err := job.Answers()
	if err != nil {
		return err
	}
	play, err := desk.Play(ctx, sheet)
	if err != nil {
		return err
	}
	for _, e := range play.Events {
		if e.Refusal != nil {
			return fmt.Errorf("%s, line %d of the sheet: %w", e.Step, e.Line, e.Refusal)
		}
	}
	if job.Void != "" {
		_, err = desk.Void(ctx, play.Job, job.Void)
	}
	return err
}

// isDemo reports whether a shop file is an invented one. A file without jobs is
// not.
func isDemo(ctx context.Context, store *db.Store) (bool, error) {
	entries, err := store.Entries(ctx, 1)
	if errors.Is(err, workflow.ErrNoJob) {
		return false, nil
	}
	return err == nil && len(entries) > 0 && strings.HasPrefix(entries[0].Token, demoToken), err
}

func faultNoDemo(path string) error {
	return calc.Faultf("demo.real", "%s is a shop file and no demo: it stays as it is. Name another file with --db FILE.", path)
}
