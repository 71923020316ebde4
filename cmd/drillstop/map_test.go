package main

import (
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"

	"drillstop/workflow"
)

// toTheMountPoint works a re-mount up to the mount point, with old holes 6 mm
// away from the new ones.
func (d *technician) toTheMountPoint() *rows {
	d.t.Helper()
	d.begins("remount")
	d.sees("T-0001")
	left := &rows{left: sheetNamed(d.t, "remount_clash.json").Steps}
	for _, id := range []workflow.StepID{"skier", "boots", "skis", "binding", "fit", "old-holes"} {
		step, _ := d.desk.Checklist().Step(id)
		d.sees(step.Title + "]")
		d.answers(1, left.next(d.t, id))
		d.sees("kept: " + step.Title)
	}
	d.sees("mount point]")
	return left
}

// The map shows the clash, finds the nearest shift that clears, and hands it to
// the form; nothing is kept before the form is.
func TestTheMapFindsAClearShift(t *testing.T) {
	t.Parallel()
	for name, size := range map[string][2]int{"80x24": {80, 24}, "120x40": {120, 40}} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			d := sits(t, filepath.Join(t.TempDir(), "shop.db"), size[0], size[1])
			left := d.toTheMountPoint()
			d.types("mark\r0\r")
			d.press("f3")
			d.sees("mount point: map of holes", "on the mark", "c takes the nearest")
			d.golden("map-clash-" + name)
			d.press("left")
			d.sees("midsole 1.0 mm back")
			d.press("up")
			d.sees("midsole 4.0 mm forward")
			d.types("c")
			d.sees("used again")
			d.types("c")
			d.sees("midsole 16.0 mm forward")
			d.types("c")
			d.sees("midsole 4.0 mm back")
			d.types("c")
			d.sees("midsole 5.5 mm forward", "used again")
			d.golden("map-clear-" + name)
			d.press("enter")
			d.sees("[5.5 mm", "mount point]", "SHIFT 5.5 mm forward")
			job := d.job(1)
			_, kept := job.Answered("mount-point")
			assert.False(t, kept)
			row := left.next(t, "mount-point")
			row.Answers["offset"], row.Answers["tail.left"], row.Answers["tail.right"] = "5.5", "825", "825"
			d.press("up")
			d.answers(1, row)
			d.sees("kept: mount point")
			assert.Equal(t, "5.5 mm", d.job(1).Text("mount-point", "offset", workflow.Both))
			d.answers(1, left.next(t, "template"))
			d.sees("bit and stop]")
			d.answers(1, left.next(t, "bit"))
			d.sees("holes drilled and gauged]")
			d.press("f3")
			d.sees("esc back   s other ski")
			d.golden("map-drilling-" + name)
			d.press("esc")
			d.sees("holes drilled and gauged]")
			d.leaves()
		})
	}
}
