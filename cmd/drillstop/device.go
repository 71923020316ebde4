package main

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"drillstop/calc"
	"drillstop/calc/quantity"
	"drillstop/db"
	"drillstop/workflow"
)

// mostDevice is the highest moment in Nm that a test device is said to measure:
// more is a slipped decimal point or another unit. As the highest reading taken.
const mostDevice = 1000.0

// deviceRecord is a test device as device prints it as JSON; the names are a
// contract. What is not known is null.
type deviceRecord struct {
	Name    string   `json:"name"`
	Low     *float64 `json:"low_nm"`
	High    *float64 `json:"high_nm"`
	Due     *string  `json:"calibration_due"` // the last day on which it holds
	Overdue bool     `json:"overdue"`
}

func newDevice(a *app) *cobra.Command {
	cmd := &cobra.Command{
		Use:   "device",
		Short: "Add, list and retire the shop's test devices",
		Args:  noArgs,
		RunE: func(*cobra.Command, []string) error {
			return usage(errors.New("device needs add, list or retire; drillstop device --help shows how"))
		},
	}
	list := &cobra.Command{
		Use: "list", Short: "List the test devices in service, with range and calibration", Args: noArgs,
		RunE: func(cmd *cobra.Command, _ []string) error { return a.deviceList(cmd.Context()) },
	}
	retire := &cobra.Command{
		Use: "retire NAME", Short: "Take a test device out of service; what it measured stays on record", Args: oneArg("name"),
		RunE: func(cmd *cobra.Command, args []string) error { return a.deviceRetire(cmd.Context(), args[0]) },
	}
	for _, sub := range []*cobra.Command{newDeviceAdd(a), list, retire} {
		a.jsonFlag(sub)
		cmd.AddCommand(sub)
	}
	return cmd
}

func newDeviceAdd(a *app) *cobra.Command {
	var low, high, due string
	cmd := &cobra.Command{
		Use:   "add NAME --low MOMENT --high MOMENT --due DAY",
		Short: "Add a test device, or write down its new calibration",
		Long: `Keeps a test device in the shop file, where the release test finds it by name: its
range in Nm and the last day on which its calibration holds. A device of the same
name is replaced; what it measured stays as it is recorded.`,
		Example: `  drillstop device add "Bench 2" --low 5 --high 400 --due 2027-03-01`,
		Args:    oneArg("name"),
		RunE: func(cmd *cobra.Command, args []string) error {
			d, err := readDevice(args[0], low, high, due)
			if err != nil {
				return usage(err)
			}
			return a.deviceAdd(cmd.Context(), d)
		},
	}
	cmd.Flags().StringVar(&low, "low", "", "lowest `MOMENT` it measures, in Nm")
	cmd.Flags().StringVar(&high, "high", "", "highest `MOMENT` it measures, in Nm")
	cmd.Flags().StringVar(&due, "due", "", "last `DAY` on which its calibration holds, 2027-03-01")
	return cmd
}

// readDevice reads a device as it is typed; its first mistake is named with its
// flag.
func readDevice(name, low, high, due string) (d workflow.Device, err error) {
	for _, part := range []struct {
		field workflow.Field
		typed string
		keep  func(string) error
	}{
		{workflow.Field{ID: "name", Label: "NAME", Kind: workflow.Text}, name, func(text string) error { d.Name = text; return nil }},
		{workflow.Field{ID: "low", Label: "--low", Kind: workflow.Number, Unit: quantity.NM, Max: mostDevice}, low, keepMoment(&d.Low)},
		{workflow.Field{ID: "high", Label: "--high", Kind: workflow.Number, Unit: quantity.NM, Max: mostDevice}, high, keepMoment(&d.High)},
		{workflow.Field{ID: "due", Label: "--due", Kind: workflow.Date}, due, func(text string) error { d.CalibrationDue = text; return nil }},
	} {
		text, err := part.field.Accept(workflow.Shop{}, part.typed)
		if err == nil {
			err = part.keep(text)
		}
		if err != nil {
			return workflow.Device{}, onFlag(string(part.field.ID), err)
		}
	}
	if d.High == 0 { // the store takes it for a range that is not known
		return workflow.Device{}, onFlag("high", calc.Faultf("device.range", "--high must be above 0 Nm: the highest moment that the device measures."))
	}
	return d, db.CheckDevice(d)
}

// keepMoment keeps a moment that a field has accepted.
func keepMoment(into *quantity.NewtonMetre) func(string) error {
	return func(text string) error {
		v, err := quantity.Parse(text, quantity.NM)
		*into = quantity.NewtonMetre(v)
		return err
	}
}

func (a *app) deviceAdd(ctx context.Context, d workflow.Device) error {
	shop, err := a.open(ctx, db.Options{})
	if err != nil {
		return err
	}
	defer shop.close()
	if shop.store.Created() {
		fmt.Fprintf(a.err, "New shop file: %s\n", shop.store.Path())
	}
	had, err := shop.store.Devices(ctx)
	if err != nil {
		return err
	}
	if err := shop.store.SaveDevice(ctx, d); err != nil {
		return err
	}
	replaced := slices.ContainsFunc(had, func(old workflow.Device) bool { return strings.EqualFold(old.Name, d.Name) })
	r := a.deviceRecordOf(d)
	if a.json {
		return writeJSON(a.out, map[string]any{"device": r, "replaced": replaced})
	}
	a.print("Kept %s%s.\n", r.words(), word(replaced, "; it replaces the one of that name"))
	if r.Overdue {
		a.print("  ! Its calibration is overdue: have it calibrated before it measures for a customer.\n")
	}
	return nil
}

func (a *app) deviceList(ctx context.Context) error {
	shop, err := a.open(ctx, db.Options{MustExist: true})
	if err != nil {
		return err
	}
	defer shop.close()
	list, err := shop.store.Devices(ctx)
	if err != nil {
		return err
	}
	records := []deviceRecord{}
	for _, d := range list {
		records = append(records, a.deviceRecordOf(d))
	}
	if a.json {
		return writeJSON(a.out, map[string]any{"devices": records})
	}
	for _, r := range records {
		a.print("  %s\n", r.words())
	}
	if len(records) == 0 {
		fmt.Fprintln(a.err, "drillstop: the shop has no test device in service; drillstop device add --help shows how to add one.")
	}
	return nil
}

func (a *app) deviceRetire(ctx context.Context, name string) error {
	shop, err := a.open(ctx, db.Options{MustExist: true})
	if err != nil {
		return err
	}
	defer shop.close()
	name = strings.TrimSpace(name)
	if err := shop.store.RetireDevice(ctx, name); err != nil {
		return err
	}
	if a.json {
		return writeJSON(a.out, map[string]any{"retired": name})
	}
	a.print("%s is retired: what it measured stays on record.\n", name)
	return nil
}

// deviceRecordOf says how a device stands today.
func (a *app) deviceRecordOf(d workflow.Device) deviceRecord {
	r := deviceRecord{Name: d.Name}
	if low, high := float64(d.Low), float64(d.High); high > 0 {
		r.Low, r.High = &low, &high
	}
	if d.CalibrationDue != "" {
		r.Due = &d.CalibrationDue
		r.Overdue = a.now().Format(time.DateOnly) > d.CalibrationDue
	}
	return r
}

// words is a device in one line, a "!" where its calibration is overdue.
func (r deviceRecord) words() string {
	measures, due := "range not known", "calibration not known"
	if r.Low != nil && r.High != nil {
		measures = fmt.Sprintf("%s to %s Nm", plain(*r.Low), plain(*r.High))
	}
	if r.Due != nil {
		due = "calibrated until " + *r.Due + word(r.Overdue, " ! overdue")
	}
	return strings.Join([]string{r.Name, measures, due}, ", ")
}
