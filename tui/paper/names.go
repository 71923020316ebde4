package paper

import "drillstop/workflow"

// The names of steps, fields and figures that a ticket puts in a place of its
// own. A name once used never changes its meaning; whatever a ticket does not
// know by name stands on it in the order in which it was asked. A test holds
// them against the declarations of the steps.
const (
	stepSkier       workflow.StepID = "skier"
	stepBoots       workflow.StepID = "boots"
	stepSkis        workflow.StepID = "skis"
	stepBinding     workflow.StepID = "binding"
	stepFit         workflow.StepID = "fit"
	stepOldHoles    workflow.StepID = "old-holes"
	stepMountPoint  workflow.StepID = "mount-point"
	stepBit         workflow.StepID = "bit"
	stepPressure    workflow.StepID = "forward-pressure"
	stepRelease     workflow.StepID = "release-value"
	stepReleaseTest workflow.StepID = "release-test"
	stepCorrection  workflow.StepID = "correction"
	stepHandOver    workflow.StepID = "hand-over"

	fieldName       workflow.FieldID = "name"
	fieldSerial     workflow.FieldID = "serial"
	fieldSole       workflow.FieldID = "sole"
	fieldWaist      workflow.FieldID = "waist"
	fieldOffset     workflow.FieldID = "offset"
	fieldScaleMin   workflow.FieldID = "scale_min"
	fieldScaleMax   workflow.FieldID = "scale_max"
	fieldScaleStep  workflow.FieldID = "indicator_step"
	fieldNorm       workflow.FieldID = "norm"
	fieldLength     workflow.FieldID = "length"
	fieldKind       workflow.FieldID = "kind"
	fieldForward    workflow.FieldID = "forward_lean"
	fieldFound      workflow.FieldID = "found"
	fieldIndicator  workflow.FieldID = "indicator"
	fieldHoles      workflow.FieldID = "holes"
	fieldDevice     workflow.FieldID = "device"
	fieldTested     workflow.FieldID = "tested"
	fieldNextDue    workflow.FieldID = "next_due"
	fieldTechnician workflow.FieldID = "technician"
	fieldSkier      workflow.FieldID = "skier"
	fieldTouring    workflow.FieldID = "told_touring"

	figureValue    = "release_value"
	figureSetTo    = "set_to"
	figureChart    = "chart"
	figureTwist    = "twist_reference"
	figureForward  = "forward_lean_reference"
	figureMiddle   = "middle_" // and the key of the readings
	figureHoles    = "holes"
	figurePattern  = "pattern"
	figureBit      = "bit"
	figureStop     = "stop"
	answerNoDevice = "no device"
	codeKeep       = "release-test.keep"
)

// readingFields are the readings of a release test that every ski needs.
var readingFields = [...]workflow.FieldID{"twist_left", "twist_right", fieldForward}

// scaleFields are the release scales of a ski: where each was set, and where it
// was set to after a test.
var scaleFields = [...]struct {
	piece          string
	set, corrected workflow.FieldID
}{
	{"toe", "toe_set", "toe_to"},
	{"heel", "heel_set", "heel_to"},
}
