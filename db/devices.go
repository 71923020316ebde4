package db

import (
	"context"
	"database/sql"
	"math"
	"strings"
	"time"
	"unicode/utf8"

	"drillstop/calc"
	"drillstop/workflow"
)

// Devices returns the shop's test devices that are in service, by name.
func (s *Store) Devices(ctx context.Context) ([]workflow.Device, error) {
	rows, err := s.reader.QueryContext(ctx, "SELECT name, low, high, due FROM devices WHERE retired = 0 ORDER BY name")
	if err != nil {
		return nil, s.fault(err)
	}
	defer rows.Close()
	var list []workflow.Device
	for rows.Next() {
		var d workflow.Device
		if err := rows.Scan(&d.Name, &d.Low, &d.High, &d.CalibrationDue); err != nil {
			return nil, s.fault(err)
		}
		list = append(list, d)
	}
	return list, s.fault(rows.Err())
}

// SaveDevice keeps a test device, replacing the one of the same name in any
// case, and takes it back into service if it was retired.
//
// It refuses what CheckDevice refuses.
func (s *Store) SaveDevice(ctx context.Context, d workflow.Device) error {
	if err := CheckDevice(d); err != nil {
		return err
	}
	return s.write(ctx, func(tx *sql.Tx) error {
		_, err := tx.ExecContext(ctx, "INSERT OR REPLACE INTO devices (name, low, high, due) VALUES (?, ?, ?, ?)",
			d.Name, float64(d.Low), float64(d.High), d.CalibrationDue)
		return err
	})
}

// RetireDevice takes the test device of that name, in any case, out of service.
// What it measured stays on the record. A name that is not in service is a
// *calc.Fault with the code "device.unknown".
func (s *Store) RetireDevice(ctx context.Context, name string) error {
	return s.write(ctx, func(tx *sql.Tx) error {
		result, err := tx.ExecContext(ctx, "UPDATE devices SET retired = 1 WHERE name = ? AND retired = 0", name)
		if err != nil {
			return err
		}
		retired, err := result.RowsAffected()
		if err == nil && retired == 0 {
			return faultOfDevice("device.unknown", "name", "The shop has no test device %q in service: write its name as the list of devices does.", name)
		}
		return err
	})
}

// CheckDevice says whether a test device can be kept: its name is one line
// without space at its ends, its range rises from 0 Nm or more, its day is one of
// the calendar. A range of 0 to 0 Nm and an empty day stand for not known.
//
// Each refusal is a *calc.Fault with the code "device.name", "device.range",
// "device.due", or "db.text" for a name that is no text.
func CheckDevice(d workflow.Device) error {
	switch {
	case !utf8.ValidString(d.Name):
		return faultText("The name of the test device")
	case d.Name == "" || strings.TrimSpace(d.Name) != d.Name || strings.ContainsAny(d.Name, "\n\r\t\x00"):
		return faultOfDevice("device.name", "name", "%q is no name for a test device: write one line, without space at its ends.", d.Name)
	case utf8.RuneCountInString(d.Name) > workflow.MaxText:
		return faultOfDevice("device.name", "name", "The name of the test device has %d characters; at most %d fit.", utf8.RuneCountInString(d.Name), workflow.MaxText)
	case d.Low == 0 && d.High == 0:
	case !(d.Low >= 0) || !(d.High > d.Low) || math.IsInf(float64(d.High), 0):
		return faultOfDevice("device.range", "range", "Test device %s cannot measure from %s to %s: its range must rise from 0 Nm or more.", d.Name, d.Low, d.High)
	}
	if d.CalibrationDue == "" {
		return nil
	}
	if _, err := time.Parse(time.DateOnly, d.CalibrationDue); err != nil {
		return faultOfDevice("device.due", "due", "%q is no day for the calibration of %s; write it as 2026-11-25.", d.CalibrationDue, d.Name)
	}
	return nil
}

func faultOfDevice(code, field, format string, args ...any) *calc.Fault {
	f := calc.Faultf(code, format, args...)
	f.Field = field
	return f
}
