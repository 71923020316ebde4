package main

import (
	"context"
	"os"

	"github.com/charmbracelet/x/term"

	"drillstop/calc"
	"drillstop/db"
	"drillstop/tui"
)

// runBench opens the bench: the jobs in hand.
func runBench(ctx context.Context, a *app) error {
	in, out, ok := a.terminal()
	if !ok {
		return calc.Faultf("terminal.none",
			"The bench needs a terminal. The commands value, judge, run and ticket work without one.")
	}
	terminal, err := tui.NewTerminal(out, a.getenv)
	if err != nil {
		return err
	}
	file, err := a.open(ctx, db.Options{})
	if err != nil {
		return err
	}
	defer file.close()
	return tui.Run(ctx, &tui.Session{
		Desk: file.desk, ShopFile: file.store.Path(), First: file.store.Created(), Demo: file.demo,
		Now: a.now, Theme: tui.NewTheme(terminal.Renderer), ASCII: terminal.ASCII,
	}, in, out)
}

// terminal returns the terminal on both ends of the program, if there is one.
func (a *app) terminal() (in, out *os.File, ok bool) {
	in, readable := a.in.(*os.File)
	out, writable := a.out.(*os.File)
	return in, out, readable && writable && isTerminal(in) && isTerminal(out)
}

func isTerminal(f *os.File) bool { return term.IsTerminal(f.Fd()) }
