package main

import (
	"os"

	"drillstop/calc/release"
)

// chartName is which chart gave a number; the names are a contract.
type chartName struct {
	Edition  string `json:"edition"`
	Source   string `json:"source"`
	Checksum string `json:"checksum"` // SHA-256 of the file
	Caveat   string `json:"caveat,omitempty"`
}

// shortSum is how much of a checksum people are shown.
const shortSum = 12

// String names the chart in one line.
func (c chartName) String() string {
	return c.Edition + " (" + c.Checksum[:min(shortSum, len(c.Checksum))] + ")"
}

func nameOf(chart *release.Chart) chartName {
	id := chart.Identity()
	return chartName{Edition: id.Edition, Source: id.Source, Checksum: id.Checksum, Caveat: chart.Caveat()}
}

// chart is the chart in force: the shop's own if --chart names one.
func (a *app) chart() (*release.Chart, error) {
	if a.chartFile == "" {
		return release.Default()
	}
	f, err := os.Open(a.chartFile)
	if err != nil {
		return nil, fileFault("chart.file", "release chart", a.chartFile, err)
	}
	defer f.Close()
	return release.Load(f)
}
