package steps

import (
	"slices"
	"strings"
	"time"

	"drillstop/calc"
	"drillstop/calc/moment"
	"drillstop/calc/quantity"
	"drillstop/workflow"
)

// Whether the pair was release-tested.
const (
	testedYes = "yes"
	noDevice  = "no device"
)

// lubricated is where readings with a lubricated sole are typed.
const lubricated workflow.FieldID = "lubricated"

const (
	deviceSource      = "device model and its calibration belong on the record: " + commonPractice
	deviceRangeSource = "a device measures within its range: " + ourRule
	notTestedSource   = "a pair that was not measured is not handed over as one that was: " + ourRule
)

// isNotTested reports whether the answers say that there was no device.
func isNotTested(a workflow.Answers) bool { return a.Is("tested", workflow.Both, noDevice) }

// notTested is the stop of a pair that nobody measured. A supervisor may let it
// go, and the skier is told.
func notTested() calc.Finding {
	return calc.Stopf("release-test.not-tested", notTestedSource,
		"Not release-tested: there was no test device, and what this pair releases at is not known. "+
			"It leaves like this only with a supervisor's waiver, and the skier is told so.")
}

// readDevice reads the name of a test device: one of the shop's list where it
// has one, by a beginning that fits just one of them.
func readDevice(shop workflow.Shop, typed string) (string, error) {
	name, err := workflow.Field{ID: "device", Label: "Test device", Kind: workflow.Text}.Accept(shop, typed)
	if err != nil || len(shop.Devices) == 0 {
		return name, err
	}
	var begin []string
	for _, d := range shop.Devices {
		if strings.EqualFold(d.Name, name) {
			return d.Name, nil
		}
		if strings.HasPrefix(strings.ToLower(d.Name), strings.ToLower(name)) {
			begin = append(begin, d.Name)
		}
	}
	if len(begin) == 1 {
		return begin[0], nil
	}
	return "", calc.Faultf("release-test.device", "%q is none of the shop's test devices: %s.", name, deviceNames(shop))
}

func deviceNames(shop workflow.Shop) string {
	names := make([]string, len(shop.Devices))
	for i, d := range shop.Devices {
		names[i] = d.Name
	}
	return strings.Join(names, ", ")
}

// verifyReleaseTest lets nobody answer both that there was no device and what it
// read, nor leave out which one it was where the shop has a list.
func verifyReleaseTest(shop workflow.Shop, _ workflow.Job, a workflow.Answers) []workflow.FieldFault {
	if !isNotTested(a) {
		if a.Text("device", workflow.Both) == "" && len(shop.Devices) > 0 {
			return []workflow.FieldFault{onField("device", workflow.Both, "release-test.device",
				"Which test device measured this? The shop has %s.", deviceNames(shop))}
		}
		return nil
	}
	var faults []workflow.FieldFault
	for _, f := range releaseTestFields() {
		if f.ID == "tested" {
			continue
		}
		for _, side := range []workflow.Side{workflow.Both, workflow.Left, workflow.Right} {
			if a.Text(f.ID, side) != "" {
				faults = append(faults, onField(f.ID, side, "release-test.no-device",
					"%s: without a device nothing was measured; leave this empty, or say that it was tested.", f.Label))
			}
		}
	}
	return faults
}

// checkDevice looks at the device: which one it is, and whether its calibration
// still holds.
func checkDevice(shop workflow.Shop, job workflow.Job) []calc.Finding {
	name := job.Text(ReleaseTest, "device", workflow.Both)
	if name == "" {
		return []calc.Finding{calc.Cautionf("release-test.device", deviceSource,
			"No test device is named: write down which one measured these moments, and when it was calibrated.")}
	}
	d, ok := shop.Device(name)
	switch today := shop.Now.Format(time.DateOnly); {
	case !ok:
		return nil // of a shop without a list, or of one that has it no more
	case d.CalibrationDue == "":
		return []calc.Finding{calc.Cautionf("release-test.calibration", deviceSource,
			"Nobody wrote down when %s is due for calibration: look at its label, and put it on the list.", name)}
	case d.CalibrationDue < today:
		return []calc.Finding{calc.Cautionf("release-test.calibration", deviceSource,
			"The calibration of %s was due on %s: have it calibrated, and take these readings with doubt until then.", name, d.CalibrationDue)}
	}
	return nil
}

// checkReach names the directions in which a device was read outside of what it
// measures.
func checkReach(shop workflow.Shop, job workflow.Job, side workflow.Side) []calc.Finding {
	d, ok := shop.Device(job.Text(ReleaseTest, "device", workflow.Both))
	if !ok || d.High <= d.Low {
		return nil
	}
	var found []calc.Finding
	for _, m := range measurements() {
		beyond := slices.DeleteFunc(job.List(ReleaseTest, m.field, side, quantity.NM), func(r float64) bool {
			return quantity.NewtonMetre(r) >= d.Low && quantity.NewtonMetre(r) <= d.High
		})
		if len(beyond) > 0 {
			found = append(found, calc.Cautionf("release-test.device-range", deviceRangeSource,
				"%s, %s: %s outside the range of %s, %s to %s: another device is needed to trust it.",
				skiWord(side), m.words, quantity.PrintList(beyond, quantity.NM), d.Name, d.Low, d.High))
		}
	}
	return found
}

// lubricatedTwist is the direction that is read with a lubricated sole: one is
// enough to see what rubs.
func lubricatedTwist() measurement { return measurements()[0] }

// checkLubricated compares the lubricated sole with the clean one, and asks for
// it where a contaminated boot was to be looked for.
func checkLubricated(shop workflow.Shop, job workflow.Job, side workflow.Side) []calc.Finding {
	m, a := lubricatedTwist(), job.Answers(ReleaseTest)
	if a.Text(lubricated, side) == "" {
		if !soughtOn(job, side, contaminatedBoot) {
			return nil
		}
		return []calc.Finding{calc.Cautionf("release-test.lubricated", lubricatedSource,
			"%s: a contaminated boot was suspected: read %s with a lubricated sole as well, to compare.", skiWord(side), m.words)}
	}
	clean, errClean := m.verdict(shop, job, side, a)
	wet, errWet := m.verdictOn(lubricated, shop, job, side, a)
	if errClean != nil || errWet != nil {
		return nil // said with the readings
	}
	found := moment.Lubricated(clean, wet)
	for i := range found {
		found[i].Text = skiWord(side) + ", " + m.words + ": " + bare(m.direction, found[i].Text)
	}
	return found
}

const lubricatedSource = "clean against lubricated, within 20 %: ASTM F1063-09(2014) 3.1.1; when it is read: " + ourRule

// asksForAnotherRound makes a correction stale when the readings after it ask for
// more.
func asksForAnotherRound(shop workflow.Shop, job workflow.Job, _ workflow.Answers) []workflow.StaleMark {
	for _, f := range checkReleaseTest(shop, job) {
		f.Step = ReleaseTest
		if asksForMore(job, f) {
			return []workflow.StaleMark{{Step: Correction, Because: "the release test after it asks for another round"}}
		}
	}
	return nil
}
