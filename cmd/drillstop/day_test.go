package main

import (
	"context"
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"drillstop/workflow"
)

var update = flag.Bool("update", false, "write the golden screens anew")

// workedExample is the sheet of a whole job: the screens are driven with the
// answers that `drillstop run` takes.
func workedExample(t *testing.T) workflow.Sheet { return sheetNamed(t, "worked_example.json") }

func sheetNamed(t *testing.T, name string) workflow.Sheet {
	t.Helper()
	f, err := os.Open(filepath.Join("..", "..", "testdata", "sheets", name))
	require.NoError(t, err)
	defer f.Close()
	sheet, err := workflow.ReadSheet(f)
	require.NoError(t, err)
	return sheet
}

// rows hands out a sheet's lines step by step.
type rows struct{ left []workflow.SheetStep }

func (r *rows) next(t *testing.T, id workflow.StepID) workflow.SheetStep {
	t.Helper()
	for i, row := range r.left {
		if row.Step == id {
			r.left = append(r.left[:i:i], r.left[i+1:]...)
			return row
		}
	}
	t.Fatalf("the sheet has no further answer for %q", id)
	return workflow.SheetStep{}
}

// begins opens a new job of a kind, promised for no day.
func (d *technician) begins(kind string) {
	d.t.Helper()
	d.types("n")
	d.sees("Kind of job")
	d.types(kind + "\r\r")
}

// works answers steps of the first job one after the other.
func (d *technician) works(left *rows, steps ...workflow.StepID) {
	d.t.Helper()
	for _, id := range steps {
		step, _ := d.desk.Checklist().Step(id)
		d.sees(step.Title)
		d.answers(1, left.next(d.t, id))
		d.sees("kept: " + step.Title)
	}
}

// mounts works through a whole job as the screen leads, and looks at every step.
func (d *technician) mounts(ticket workflow.Ticket, sheet workflow.Sheet, look func(workflow.StepID)) {
	d.t.Helper()
	d.sees(ticket.String())
	left := &rows{left: sheet.Steps}
	for {
		view := d.desk.View(d.job(ticket))
		if view.Here == "" {
			return
		}
		here, _ := view.Step(view.Here)
		d.sees(here.Step.Title)
		d.until("leave the step before", func(screen string) bool {
			return strings.Contains(screen, here.Step.Title+"]") || strings.Contains(screen, "["+string(here.Step.Phase))
		})
		look(view.Here)
		d.answers(ticket, left.next(d.t, view.Here))
		d.sees("kept: " + here.Step.Title)
	}
}

func TestANewcomerMountsAPair(t *testing.T) {
	t.Parallel()
	for name, size := range map[string][2]int{"80x24": {80, 24}, "120x40": {120, 40}} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			file := filepath.Join(t.TempDir(), "shop", "shop.db")
			d := sits(t, file, size[0], size[1])
			d.sees("The bench is empty", "New shop file")
			d.golden("bench-empty-" + name)
			d.press("f1")
			d.sees("Keys here")
			d.golden("help-" + name)
			d.press("esc")
			d.loses("Keys here")
			d.types("n")
			d.sees("Kind of job")
			d.golden("new-job-" + name)
			d.types("mount\r2026-11-26\r")
			met := map[workflow.StepID]int{}
			d.mounts(1, workedExample(t), func(step workflow.StepID) {
				again := strings.Repeat("-again", met[step])
				met[step]++
				d.golden("step-" + string(step) + again + "-" + name)
			})
			d.sees("handed over")
			d.golden("job-finished-" + name)
			d.types("r")
			d.sees("Ida Fjelde", "Opened")
			d.press("esc", "esc")
			d.sees("0 on the bench")
			d.types("v")
			d.sees("1 finished or void", "Ida Fjelde")
			d.golden("bench-finished-" + name)
			job := d.job(1)
			assert.Equal(t, workflow.Finished, job.State)
			d.leaves()
		})
	}
}

// The forward pressure is read before the toe height is set: the screen must
// say why it is stale, and lead back to it with empty fields.
func TestToeHeightMakesForwardPressureStale(t *testing.T) {
	t.Parallel()
	d := sits(t, filepath.Join(t.TempDir(), "shop.db"), 80, 24)
	d.begins("mount")
	sheet := workedExample(t)
	met := 0
	d.mounts(1, sheet, func(step workflow.StepID) {
		if step != "forward-pressure" {
			return
		}
		met++
		if met == 2 {
			d.sees("Again, please", "was in window")
			d.golden("step-forward-pressure-stale-80x24")
		}
	})
	assert.Equal(t, 2, met)
	d.leaves()
}

// What a hurried hand, or a scanner, sends before the screen has caught up must
// not be lost and not land anywhere else.
func TestAWholeJobInOneBurst(t *testing.T) {
	t.Parallel()
	d := sits(t, filepath.Join(t.TempDir(), "shop.db"), 120, 40)
	d.sees("The bench is empty")
	sheet := workedExample(t)
	d.types("n")
	d.types("mount\r2026-11-26\r")
	d.sees("intake 1 of 5: skier")
	left := &rows{left: sheet.Steps}
	for _, id := range []workflow.StepID{"skier", "boots", "skis"} {
		d.answers(1, left.next(t, id))
	}
	d.sees("kept: skis")
	job := d.job(1)
	assert.Equal(t, "70 kg", job.Text("skier", "mass", workflow.Both))
	assert.Equal(t, "305 mm", job.Text("boots", "sole", workflow.Right))
	assert.Equal(t, "TN-2206", job.Text("skis", "serial", workflow.Both))
	d.leaves()
}

func TestQuittingInTheMiddleLosesNothing(t *testing.T) {
	t.Parallel()
	file := filepath.Join(t.TempDir(), "shop.db")
	d := sits(t, file, 80, 24)
	d.sees("The bench is empty")
	d.begins("adjustment")
	d.sees("intake 1 of 5: skier")
	d.answers(1, workedExample(t).Steps[0])
	d.sees("kept: skier")
	d.types("ISO 5355 A\r31")
	d.sees("31")
	d.leaves()

	again := sits(t, file, 80, 24)
	again.sees("1 on the bench", "Ida Fjelde")
	again.press("enter")
	again.sees("what you had typed is back", "31")
	again.golden("step-boots-draft-80x24")
	assert.Equal(t, "70 kg", again.job(1).Text("skier", "mass", workflow.Both))
	again.leaves()
}

func TestAScannedTicketOpensItsJob(t *testing.T) {
	t.Parallel()
	d := sits(t, filepath.Join(t.TempDir(), "shop.db"), 80, 24)
	for range 3 {
		d.begins("inspection")
		d.sees("intake 1 of 5: skier")
		d.press("ctrl+s")
		d.sees("on the bench")
	}
	d.types("T-0002\r")
	d.sees("T-0002", "intake 1 of 5: skier")
	d.leaves()
}

func TestAJobIsVoidedWithAReason(t *testing.T) {
	t.Parallel()
	d := sits(t, filepath.Join(t.TempDir(), "shop.db"), 80, 24)
	d.begins("rental")
	d.sees("intake 1 of 5: skier")
	d.press("ctrl+s")
	d.sees("1 on the bench")
	d.types("x")
	d.sees("Void T-0001")
	d.types("\r")
	d.sees("not answered yet")
	d.types("the pair was withdrawn\r")
	d.sees("T-0001 is void", "0 on the bench")
	assert.Equal(t, workflow.Voided, d.job(1).State)
	d.leaves()
}

func TestAStopIsWaivedByASupervisorWithAReason(t *testing.T) {
	t.Parallel()
	d := sits(t, filepath.Join(t.TempDir(), "shop.db"), 80, 24)
	d.begins("mount")
	sheet := workedExample(t)
	sheet.Steps[3].Answers["brake"] = "95 mm"
	d.works(&rows{left: sheet.Steps}, "skier", "boots", "skis", "binding")
	d.sees("narrower than the waist")
	d.golden("step-fit-stop-80x24")
	d.press("f8")
	d.sees("Waive a stop")
	d.types("brake is bent out for this pair, seen\r")
	d.sees("Waived by MB")
	d.press("enter")
	d.sees("kept: fit check", "mount point")
	d.leaves()
}

func TestResizingKeepsWhatIsTyped(t *testing.T) {
	t.Parallel()
	d := sits(t, filepath.Join(t.TempDir(), "shop.db"), 80, 24)
	d.begins("adjustment")
	d.sees("intake 1 of 5: skier")
	d.types("Ida Fjelde")
	d.sees("Ida Fjelde")
	d.resizes(40, 20)
	d.loses("ctrl+s")
	d.sees("Ida Fjelde")
	d.golden("step-skier-40x20")
	d.resizes(30, 10)
	d.sees("window of at")
	d.resizes(120, 40)
	d.sees("Ida Fjelde", "ctrl+s")
	d.types("n\r")
	d.sees("Ida Fjelden")
	d.leaves()
}

// What is typed comes back at once, also where the page was left and entered
// again before the store had it.
func TestLeavingAStepAndComingBackAtOnce(t *testing.T) {
	t.Parallel()
	d := sits(t, filepath.Join(t.TempDir(), "shop.db"), 80, 24)
	d.begins("adjustment")
	d.sees("intake 1 of 5: skier")
	for _, name := range []string{"Ida", "Ida Fjelde", "Ida Fjelde the younger"} {
		d.press("ctrl+u")
		d.types(name)
		d.press("esc")
		d.sees("enter open step")
		d.press("enter")
		d.sees("what you had typed is back", name)
	}
	d.leaves()
}

// A waiver covers what is kept: with something typed beside it, it waits, and
// nothing typed is lost. What is typed can be forgotten by an own key.
func TestAWaiverWaitsForWhatIsTyped(t *testing.T) {
	t.Parallel()
	d := sits(t, filepath.Join(t.TempDir(), "shop.db"), 80, 24)
	d.begins("mount")
	sheet := workedExample(t)
	d.works(&rows{left: sheet.Steps}, "skier", "boots", "skis", "binding", "fit", "mount-point", "template")
	d.types("3.5\r12.5\ry\r")
	d.sees("3.5 mm more than the")
	d.press("up", "up")
	d.types("3.4")
	d.press("f8")
	d.sees("A waiver covers what is kept", "[3.4_")
	d.press("f7")
	d.sees("what was typed is forgotten", "[3.5 mm")
	d.press("f8")
	d.sees("Waive a stop")
	d.types("tried on a scrap too soft to count\r")
	d.sees("holes drilled and gauged")
	d.leaves()
}

// Killing the program at any moment loses no field that the hand has left.
func TestALeftFieldIsADraftAtOnce(t *testing.T) {
	t.Parallel()
	d := sits(t, filepath.Join(t.TempDir(), "shop.db"), 80, 24)
	d.begins("adjustment")
	d.sees("intake 1 of 5: skier")
	d.types("Ida Fjelde\r")
	d.until("have the draft in the shop file", func(string) bool {
		typed, err := d.desk.Draft(context.Background(), 1, "skier")
		return err == nil && typed.Text("name", workflow.Both) == "Ida Fjelde"
	})
	d.leaves()
}

func TestAScannedTicketInsideAJobGoesToTheBench(t *testing.T) {
	t.Parallel()
	d := sits(t, filepath.Join(t.TempDir(), "shop.db"), 80, 24)
	for _, count := range []string{"1 on the bench", "2 on the bench"} {
		d.begins("inspection")
		d.sees("intake 1 of 5: skier")
		d.press("ctrl+s")
		d.sees(count)
	}
	d.press("up", "enter")
	d.sees("T-0002", "intake 1 of 5: skier")
	d.press("esc")
	d.sees("enter open step")
	d.types("T-0001\r")
	d.sees("T-0001", "intake 1 of 5: skier")
	d.leaves()
}

// The last Enter of a job hands nothing over: an own key does.
func TestHandOverIsMeant(t *testing.T) {
	t.Parallel()
	d := sits(t, filepath.Join(t.TempDir(), "shop.db"), 80, 24)
	d.begins("mount")
	sheet := workedExample(t)
	last := sheet.Steps[len(sheet.Steps)-1]
	d.mounts(1, sheet, func(step workflow.StepID) {
		if step != last.Step {
			return
		}
		for range 7 {
			d.press("enter")
		}
		d.sees("ctrl+d hands over")
		assert.Equal(t, workflow.Open, d.job(1).State)
		d.press("up", "up", "up", "up", "up", "up", "up")
	})
	assert.Equal(t, workflow.Finished, d.job(1).State)
	d.leaves()
}
