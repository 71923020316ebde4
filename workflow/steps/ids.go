package steps

import "drillstop/workflow"

// The steps of the whole job, in order. Answer sheets and records name them;
// a name once used never changes its meaning.
const (
	Skier   workflow.StepID = "skier"
	Boots   workflow.StepID = "boots"
	Skis    workflow.StepID = "skis"
	Binding workflow.StepID = "binding"
	Fit     workflow.StepID = "fit"

	OldHoles   workflow.StepID = "old-holes"
	MountPoint workflow.StepID = "mount-point"
	Template   workflow.StepID = "template"

	Bit   workflow.StepID = "bit"
	Holes workflow.StepID = "holes"
	Clean workflow.StepID = "clean"

	Glue   workflow.StepID = "glue"
	Screws workflow.StepID = "screws"
	Brake  workflow.StepID = "brake"

	SoleLength      workflow.StepID = "sole-length"
	ForwardPressure workflow.StepID = "forward-pressure"
	ToeHeight       workflow.StepID = "toe-height"
	ReleaseValue    workflow.StepID = "release-value"

	ReleaseTest workflow.StepID = "release-test"
	Correction  workflow.StepID = "correction"
	Recentering workflow.StepID = "recentering"
	Touring     workflow.StepID = "touring"

	LastLook workflow.StepID = "last-look"
	HandOver workflow.StepID = "hand-over"
)

// mounts are the kinds of job in which holes are drilled.
var mounts = []workflow.Kind{workflow.NewMount, workflow.ReMount}

// isMount reports whether holes are drilled in this job.
func isMount(job workflow.Job) bool {
	return job.Kind == workflow.NewMount || job.Kind == workflow.ReMount
}
