package db

import (
	"math"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"drillstop/calc/quantity"
	"drillstop/workflow"
)

// An invented test device.
var bench = workflow.Device{Name: "Nordhang bench 2 (invented)", Low: 5, High: 400, CalibrationDue: "2027-03-01"}

func devices(t *testing.T, s *Store) []workflow.Device {
	t.Helper()
	list, err := s.Devices(t.Context())
	require.NoError(t, err)
	return list
}

func TestDevices(t *testing.T) {
	path := filepath.Join(t.TempDir(), "shop.db")
	s := openAt(t, path)
	assert.Empty(t, devices(t, s))
	plain := workflow.Device{Name: "Arm"} // of which nothing is known
	require.NoError(t, s.SaveDevice(t.Context(), bench))
	require.NoError(t, s.SaveDevice(t.Context(), plain))
	require.NoError(t, s.Close())

	s = openAt(t, path)
	assert.Equal(t, []workflow.Device{plain, bench}, devices(t, s))

	// One name in another case is the same device, calibrated anew.
	again := bench
	again.Name, again.CalibrationDue, again.High = strings.ToUpper(bench.Name), "2028-03-01", 450.5
	require.NoError(t, s.SaveDevice(t.Context(), again))
	assert.Equal(t, []workflow.Device{plain, again}, devices(t, s))

	require.NoError(t, s.RetireDevice(t.Context(), bench.Name))
	assert.Equal(t, []workflow.Device{plain}, devices(t, s))
	requireFault(t, s.RetireDevice(t.Context(), bench.Name), "device.unknown", bench.Name)
	requireFault(t, s.RetireDevice(t.Context(), "Arms"), "device.unknown", `"Arms"`)
	var kept int
	require.NoError(t, s.reader.QueryRowContext(t.Context(), "SELECT count(*) FROM devices").Scan(&kept))
	assert.Equal(t, 2, kept, "a retired device can still be explained")

	require.NoError(t, s.SaveDevice(t.Context(), bench))
	assert.Equal(t, []workflow.Device{plain, bench}, devices(t, s), "back in service")
	requireWhole(t, s)
}

func TestBadDeviceIsNotKept(t *testing.T) {
	s := newStore(t)
	require.NoError(t, s.SaveDevice(t.Context(), bench))
	for name, c := range map[string]struct {
		change func(*workflow.Device)
		code   string
	}{
		"no name":            {func(d *workflow.Device) { d.Name = "" }, "device.name"},
		"space":              {func(d *workflow.Device) { d.Name = " " }, "device.name"},
		"space at the end":   {func(d *workflow.Device) { d.Name += " " }, "device.name"},
		"two lines":          {func(d *workflow.Device) { d.Name = "a\nb" }, "device.name"},
		"a long name":        {func(d *workflow.Device) { d.Name = strings.Repeat("x", workflow.MaxText+1) }, "device.name"},
		"not UTF-8":          {func(d *workflow.Device) { d.Name = "a\xff" }, "db.text"},
		"upside down":        {func(d *workflow.Device) { d.Low, d.High = d.High, d.Low }, "device.range"},
		"one moment":         {func(d *workflow.Device) { d.Low = d.High }, "device.range"},
		"below nothing":      {func(d *workflow.Device) { d.Low = -1 }, "device.range"},
		"low unknown":        {func(d *workflow.Device) { d.Low = quantity.NewtonMetre(math.NaN()) }, "device.range"},
		"high unknown":       {func(d *workflow.Device) { d.High = quantity.NewtonMetre(math.NaN()) }, "device.range"},
		"without end":        {func(d *workflow.Device) { d.High = quantity.NewtonMetre(math.Inf(1)) }, "device.range"},
		"no high":            {func(d *workflow.Device) { d.High = 0 }, "device.range"},
		"no day":             {func(d *workflow.Device) { d.CalibrationDue = "soon" }, "device.due"},
		"no day of the year": {func(d *workflow.Device) { d.CalibrationDue = "2027-02-30" }, "device.due"},
		"another way":        {func(d *workflow.Device) { d.CalibrationDue = "1.3.2027" }, "device.due"},
	} {
		d := bench
		c.change(&d)
		requireFault(t, s.SaveDevice(t.Context(), d), c.code)
		assert.Equal(t, []workflow.Device{bench}, devices(t, s), name)
	}
}

// What the program refuses, the table refuses from any other program too.
func TestDevicesTableHoldsItself(t *testing.T) {
	raw := rawOpen(t, newStore(t).Path())
	const insert = "INSERT INTO devices (name, low, high, due, retired) VALUES (?, ?, ?, ?, ?)"
	for _, row := range [][]any{
		{"", 5.0, 400.0, "", 0},
		{" ", 5.0, 400.0, "", 0},
		{"a", 400.0, 5.0, "", 0},
		{"a", -1.0, 5.0, "", 0},
		{"a", 5.0, nil, "", 0},
		{"a", "low", 400.0, "", 0},
		{"a", 5.0, 400.0, "soon", 0},
		{"a", 5.0, 400.0, "", 2},
	} {
		_, err := raw.ExecContext(t.Context(), insert, row...)
		require.Error(t, err, "%v", row)
	}
	_, err := raw.ExecContext(t.Context(), insert, "a", 5.0, 400.0, "2027-03-01", 0)
	require.NoError(t, err)
	_, err = raw.ExecContext(t.Context(), insert, "A", 5.0, 400.0, "", 1)
	require.Error(t, err, "one name, one device")
}
