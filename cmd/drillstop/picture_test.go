package main

import (
	"context"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"drillstop/workflow"
)

// sizes are those of the goldens.
var sizes = map[string][2]int{"80x24": {80, 24}, "120x40": {120, 40}}

// played puts the job of a sheet into the shop file, as far as the step before
// until, and returns what is left of the sheet; "" plays all of it.
func (d *technician) played(sheet workflow.Sheet, until workflow.StepID) *rows {
	d.t.Helper()
	left := &rows{}
	for i, row := range sheet.Steps {
		if row.Step == until {
			sheet.Steps, left.left = sheet.Steps[:i], sheet.Steps[i:]
			break
		}
	}
	play, err := d.desk.Play(context.Background(), sheet)
	require.NoError(d.t, err)
	require.Empty(d.t, play.Refused)
	return left
}

// A skier comes back: the finished job is found by name, and the new one begins
// with what does not age; what does is asked again, with last time beside it.
func TestASkierComesBack(t *testing.T) {
	t.Parallel()
	for name, size := range sizes {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			d := sits(t, filepath.Join(t.TempDir(), "shop.db"), size[0], size[1])
			d.sees("The bench is empty")
			d.played(workedExample(t), "")
			d.types("/")
			d.sees("find: ")
			d.types("fjel")
			d.sees("0 found on the bench, 1 finished or void", "Ida Fjelde")
			d.press("enter")
			d.sees("handed over", "a again")
			d.types("a")
			d.sees("Again: Ida Fjelde", "taken over from T-0001")
			d.golden("again-" + name)
			d.types("adjustment\r\r")
			d.sees("T-0002", "intake 1 of", "what you had typed is back", "last time 70 kg")
			d.golden("step-skier-last-" + name)
			job := d.job(2)
			assert.Equal(t, workflow.Adjustment, job.Kind)
			last, ok := job.Last()
			require.True(t, ok)
			assert.Equal(t, workflow.Ticket(1), last.Ticket)
			_, kept := job.Answered("skier")
			assert.False(t, kept)
			d.press("esc", "esc")
			d.sees("1 on the bench", "> T-0002")
			d.leaves()
		})
	}
}

// What was found for a skier who has one job in hand opens that one with Enter.
func TestTheJobInHandIsMeant(t *testing.T) {
	t.Parallel()
	d := sits(t, filepath.Join(t.TempDir(), "shop.db"), 80, 24)
	d.sees("The bench is empty")
	d.played(workedExample(t), "")
	d.played(workedExample(t), "boots")
	d.types("/")
	d.sees("find: ")
	d.types("ida\r")
	d.sees("T-0002", "boots]")
	d.leaves()
}

// on answers a field of both skis.
func on(answers workflow.SheetAnswers, id workflow.FieldID, left, right string) {
	answers[workflow.Key(id, workflow.Left)], answers[workflow.Key(id, workflow.Right)] = left, right
}

// tested are readings of twist on the left ski, with all else in range, for
// references of 58 and 229 Nm.
func tested(left, right string) workflow.SheetStep {
	a := workflow.SheetAnswers{"tested": "yes", "device": "workshop tester"}
	on(a, "exercised", workflow.Yes, workflow.Yes)
	on(a, "twist_left", left, "59; 58; 60")
	on(a, "twist_right", right, "57; 58; 58")
	on(a, "forward_lean", "224; 229; 231", "226; 230; 228")
	return workflow.SheetStep{Step: "release-test", Answers: a}
}

// pressed are readings of the forward-pressure indicator of the left ski; that
// of the right one stands in its window.
func pressed(found, off, turns, left string) workflow.SheetStep {
	a := workflow.SheetAnswers{}
	on(a, "found", found, "in window")
	on(a, "off", off, "")
	on(a, "turns", turns, "")
	on(a, "indicator", left, "in window")
	return workflow.SheetStep{Step: "forward-pressure", Answers: a}
}

// corrected says what is done with the left ski; the right one is kept.
func corrected(what, toe, cause string) workflow.SheetStep {
	a := workflow.SheetAnswers{}
	on(a, "what", what, "keep")
	on(a, "toe_to", toe, "")
	on(a, "cause", cause, "")
	return workflow.SheetStep{Step: "correction", Answers: a}
}

// filled types the answers of a step, but for the last Enter that would keep
// them.
func (d *technician) filled(row workflow.SheetStep) {
	d.t.Helper()
	d.types(strings.TrimSuffix(d.burst(1, row), "\r"))
	d.sees("enter keep all")
}

// looks opens the page of pictures, and closes it again.
func (d *technician) looks(golden string, texts ...string) {
	d.t.Helper()
	d.press("f4")
	d.sees("esc back")
	d.sees(texts...)
	d.golden(golden)
	d.press("f4")
	d.sees("esc all steps")
}

// A ski goes far out of range: the cause is sought, forward pressure is found
// stale and too little, a first correction follows once it is right, and the
// last test ends in range. The pictures say all of it without colour.
func TestOutOfRangeAndBack(t *testing.T) {
	t.Parallel()
	for name, size := range sizes {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			d := sits(t, filepath.Join(t.TempDir(), "shop.db"), size[0], size[1])
			d.sees("The bench is empty")
			sheet := workedExample(t)
			sheet.Steps[3].Answers["mm_per_turn"] = "2 mm"
			left := d.played(sheet, "release-value")
			d.types("T-0001\r")
			d.sees("release value]")
			row := left.next(t, "release-value")
			row.Answers[workflow.Key("toe_set", workflow.Right)] = "7.5"
			row.Answers[workflow.Key("heel_set", workflow.Right)] = "8.0"
			d.filled(row)
			d.sees("8.0_")
			d.golden("picture-release-value-" + name)
			d.looks("picture-scales-"+name, "V computed", "7.5 # not at its value")
			d.press("up", "ctrl+u")
			d.types("8\r\r\r")
			d.sees("kept: release value", "release test]")

			d.filled(tested("36; 37; 36", "38; 37; 37"))
			d.looks("picture-bands-out-"+name, "36 37 36 -> 36 # cause", "59 58 60 -> 59 = kept", "# look for the cause")
			d.press("enter")
			d.sees("kept: release test", "correction]")
			d.golden("picture-cause-" + name)
			d.answers(1, corrected("seek the cause", "", "forward-pressure"))
			d.sees("kept: correction", "forward pressure]", "Again, please")

			d.filled(pressed("too little", "-3.5", "", ""))
			d.looks("picture-window-found-"+name, "found too little", "turn by 1.75 turns (+, adds pressure)")
			d.press("shift+tab", "shift+tab", "shift+tab")
			d.sees("> Turned by")
			d.types("1.75\r\rin window\r")
			d.sees("too little -> in window =", "enter keep all")
			d.golden("picture-window-left-" + name)
			d.press("enter")
			d.sees("kept: forward pressure", "release test]")
			assert.Equal(t, workflow.StepID("release-test"), d.desk.View(d.job(1)).Here)

			d.answers(1, tested("47; 48; 49", "48; 47; 48"))
			d.sees("kept: release test", "correction]")
			d.filled(corrected("set the scale", "9.5", ""))
			d.looks("picture-correction-"+name, "8 -> 9.5")
			d.press("enter")
			d.sees("kept: correction", "release test]")

			d.filled(tested("57; 58; 58", "58; 57; 57"))
			d.looks("picture-bands-in-"+name, "57 58 58 -> 58 = kept")
			d.press("enter")
			d.sees("kept: release test", "recentering]")
			d.leaves()
		})
	}
}
