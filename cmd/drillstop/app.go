package main

import (
	"context"
	"crypto/rand"
	"fmt"
	"io"
	"os"
	"os/user"
	"path/filepath"
	"runtime"
	"strings"
	"time"

	"drillstop/calc"
	"drillstop/calc/layout"
	"drillstop/db"
	"drillstop/testdata/demo"
	"drillstop/workflow"
	"drillstop/workflow/steps"
)

// app is what the commands share: the world outside, and the flags.
type app struct {
	in       io.Reader
	out, err io.Writer
	getenv   func(string) string
	now      func() time.Time
	token    func() string

	dbFile, chartFile, apart, by string
	supervisor, json             bool
	demo                         bool // the shop file must be an invented one
}

func newApp() *app {
	return &app{
		in: os.Stdin, out: os.Stdout, err: os.Stderr,
		getenv: os.Getenv, now: time.Now, token: rand.Text,
	}
}

// shopFile is an open shop file with a desk on it.
type shopFile struct {
	desk  *workflow.Desk
	store *db.Store
	demo  bool // the shop is invented
	close func()
}

// open opens the shop file and seats the person who answers. The caller closes
// it.
func (a *app) open(ctx context.Context, options db.Options) (*shopFile, error) {
	path, err := a.shopPath("shop.db")
	if err != nil {
		return nil, err
	}
	seat, err := a.seat()
	if err != nil {
		return nil, err
	}
	store, err := db.Open(ctx, path, options)
	if err != nil {
		return nil, err
	}
	file := &shopFile{store: store, close: func() { a.closed(store.Close()) }}
	file.demo, err = isDemo(ctx, store)
	if err == nil && a.demo && !file.demo {
		err = faultNoDemo(path)
	}
	if err == nil {
		seat.Shop.Patterns, err = library(ctx, store, file.demo)
	}
	if err == nil {
		seat.Shop.Devices, err = store.Devices(ctx)
	}
	if err != nil {
		file.close()
		return nil, err
	}
	seat.Store, seat.Shop.Name = store, shopName(file.demo)
	file.desk = workflow.NewDesk(seat)
	return file, nil
}

// seat is a desk for the person who answers, without a store.
func (a *app) seat() (workflow.DeskOptions, error) {
	person, err := a.person()
	if err != nil {
		return workflow.DeskOptions{}, err
	}
	chart, err := a.chart()
	if err != nil {
		return workflow.DeskOptions{}, err
	}
	rules, err := a.rules()
	if err != nil {
		return workflow.DeskOptions{}, err
	}
	list, err := steps.Checklist()
	return workflow.DeskOptions{
		Checklist: list, Shop: workflow.Shop{Chart: chart, Rules: rules}, Person: person,
		Describe: steps.Describe, Now: a.now, Token: a.token,
	}, err
}

// rules are the distances between holes that the shop holds: the usual ones, and
// its own least one if --apart gives it.
func (a *app) rules() (layout.Rules, error) {
	rules := layout.DefaultRules()
	if a.apart == "" {
		return rules, nil
	}
	err := lengthInto(&rules.Apart)(a.apart)
	if err == nil {
		err = rules.Check()
	}
	if err != nil {
		return rules, usage(onFlag("apart", err))
	}
	return rules, nil
}

// closed tells of an error in closing the shop file: what was acknowledged is
// on the disk already.
func (a *app) closed(err error) {
	if err != nil {
		fmt.Fprintln(a.err, "drillstop: closing the shop file: "+err.Error())
	}
}

// shopPath is the shop file named by --db, or one of that name in the user's
// data folder.
func (a *app) shopPath(name string) (string, error) {
	if a.dbFile != "" {
		return a.dbFile, nil
	}
	dir, err := dataDir(runtime.GOOS, a.getenv)
	if err != nil {
		return "", err
	}
	return filepath.Join(dir, name), nil
}

func shopName(invented bool) string {
	if invented {
		return demo.Shop
	}
	return "Workshop"
}

// person is who answers: --by, or the user of this machine.
func (a *app) person() (workflow.Person, error) {
	name := strings.TrimSpace(a.by)
	if name == "" {
		name = systemUser()
	}
	if name == "" {
		return workflow.Person{}, calc.Faultf("person", "Who answers? This machine does not tell its user; give --by NAME.")
	}
	return workflow.Person{Name: name, Supervisor: a.supervisor}, nil
}

// systemUser is the full name of the machine's user, or the login name.
func systemUser() string {
	u, err := user.Current()
	switch {
	case err != nil:
		return ""
	case strings.TrimSpace(u.Name) != "":
		return strings.TrimSpace(u.Name)
	}
	return u.Username
}

// print writes to the output; an output that is gone has nobody to be told.
func (a *app) print(format string, args ...any) { fmt.Fprintf(a.out, format, args...) }
