// Package demo holds an invented shop: its people, skis, bindings and jobs are
// nobody's. The jobs are answer sheets; the program plays them as it plays any
// other sheet.
package demo

import (
	"bytes"
	"embed"
	"encoding/json"
	"fmt"
	"regexp"
	"strconv"
	"time"

	"drillstop/workflow"
)

// Shop is the name of the invented shop.
const Shop = "Nordhang workshop (demo, invented)"

//go:embed cards.json devices.json jobs/*.json
var files embed.FS

// Job is one job of the demo.
type Job struct {
	By         string          `json:"by"`
	Supervisor bool            `json:"supervisor"`
	HoursAgo   float64         `json:"hours_ago"` // when it was opened, before now
	Void       string          `json:"void"`      // the reason for which it ends so; "" if it does not
	Sheet      json.RawMessage `json:"sheet"`
}

// Answers reads the job's answer sheet.
func (j Job) Answers() (workflow.Sheet, error) { return workflow.ReadSheet(bytes.NewReader(j.Sheet)) }

// Cards returns the library of the shop.
func Cards() ([]workflow.Card, error) {
	data, err := files.ReadFile("cards.json")
	if err != nil {
		return nil, err
	}
	var cards []workflow.Card
	err = json.Unmarshal(data, &cards)
	return cards, err
}

// Devices returns the test devices of the shop. Days in them count from now.
func Devices(now time.Time) ([]workflow.Device, error) {
	data, err := files.ReadFile("devices.json")
	if err != nil {
		return nil, err
	}
	var devices []workflow.Device
	err = json.Unmarshal(dated(data, now), &devices)
	return devices, err
}

// Jobs returns the jobs in the order in which they were opened. Days in them
// count from now.
func Jobs(now time.Time) ([]Job, error) {
	entries, err := files.ReadDir("jobs")
	if err != nil {
		return nil, err
	}
	jobs := make([]Job, len(entries))
	for i, e := range entries {
		data, err := files.ReadFile("jobs/" + e.Name())
		if err != nil {
			return nil, err
		}
		if err := json.Unmarshal(dated(data, now), &jobs[i]); err != nil {
			return nil, fmt.Errorf("%s: %w", e.Name(), err)
		}
	}
	return jobs, nil
}

var day = regexp.MustCompile(`\$day([+-]\d+)`)

// dated writes days in the place of $day+3: three days from now.
func dated(data []byte, now time.Time) []byte {
	return day.ReplaceAllFunc(data, func(mark []byte) []byte {
		n, err := strconv.Atoi(string(mark[len("$day"):]))
		if err != nil {
			return mark
		}
		return []byte(now.AddDate(0, 0, n).Format(time.DateOnly))
	})
}
