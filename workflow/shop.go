package workflow

import (
	"time"

	"drillstop/calc/release"
)

// Shop is what a check may know beside the job.
type Shop struct {
	Name  string
	Chart *release.Chart // the chart in force
	Now   time.Time
}

// Person is who answers.
type Person struct {
	Name       string
	Supervisor bool // may waive a stop
}
