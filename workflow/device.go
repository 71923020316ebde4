package workflow

import "drillstop/calc/quantity"

// Device is a test device of the shop.
type Device struct {
	Name           string               `json:"name"`            // unique in the shop
	Low            quantity.NewtonMetre `json:"low_nm"`          // what it measures, in Nm, Low < High;
	High           quantity.NewtonMetre `json:"high_nm"`         // both 0: not known
	CalibrationDue string               `json:"calibration_due"` // a day, 2026-11-25; "": not known
}
