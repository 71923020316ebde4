package steps

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"drillstop/calc"
	"drillstop/workflow"
)

func withDevices(b *bench) *bench {
	b.shop.Devices = []workflow.Device{
		{Name: "Bench arm 1", Low: 5, High: 300, CalibrationDue: "2027-03-01"},
		{Name: "Bench arm 2", Low: 5, High: 200, CalibrationDue: "2026-11-24"},
		{Name: "Hand lever"},
	}
	return b
}

func TestDeviceIsOneOfTheShop(t *testing.T) {
	for _, c := range []struct{ typed, kept string }{
		{"Bench arm 1", "Bench arm 1"}, {"bench ARM 2", "Bench arm 2"}, {"hand", "Hand lever"},
	} {
		b := withDevices(tested(t)).change(ReleaseTest, "device", c.typed)
		assert.Equal(t, c.kept, b.job.Text(ReleaseTest, "device", workflow.Both))
	}
	for _, typed := range []string{"bench", "another one", ""} {
		r := withDevices(tested(t)).refused(ReleaseTest, "device", typed)
		require.Len(t, r.Fields, 1)
		assert.Equal(t, "release-test.device", r.Fields[0].Fault.Code)
		assert.Contains(t, r.Fields[0].Fault.Sentence, "Bench arm 1, Bench arm 2, Hand lever", "it names them")
	}
	assert.Empty(t, tested(t).change(ReleaseTest, "device", "any words").codes(ReleaseTest), "a shop without a list")
}

// The clock stands at 2026-11-25.
func TestDeviceIsCalibratedAndReachesFarEnough(t *testing.T) {
	for _, c := range []struct {
		device string
		want   []string
	}{
		{"Bench arm 1", []string{}},
		{"Bench arm 2", []string{"caution release-test.calibration"}},
		{"Hand lever", []string{"caution release-test.calibration"}}, // nobody knows; nor its range
	} {
		assert.Equal(t, c.want, withDevices(tested(t)).change(ReleaseTest, "device", c.device).codes(ReleaseTest), c.device)
	}
	b := withDevices(tested(t)).change(ReleaseTest, "device", "Bench arm 2")
	assert.Equal(t, "The calibration of Bench arm 2 was due on 2026-11-24: have it calibrated, and take these readings with doubt until then.",
		b.finding("release-test.calibration").Text)
	b.shop.Devices[1].CalibrationDue = "2026-11-25"
	assert.Nil(t, b.finding("release-test.calibration"), "due today is not over yet")
	b.change(ReleaseTest, "forward_lean.right", "194; 201; 220")
	assert.Equal(t, "Right ski, forward lean: 201, 220 Nm outside the range of Bench arm 2, 5 Nm to 200 Nm: another device is needed to trust it.",
		b.finding("release-test.device-range").Text)
	b.shop.Devices = nil
	assert.Nil(t, b.finding("release-test.device-range"), "the list is not asked about what it has no more")
}

// No device: no readings, a stop that a supervisor waives, and plain words for
// the skier.
func TestNotReleaseTested(t *testing.T) {
	none := []string{"tested", "no device", "device", "", "exercised", "", "twist_left", "", "twist_right", "", "forward_lean", ""}
	b := tested(t).change(ReleaseTest, none...)
	assert.Equal(t, []string{"stop release-test.not-tested"}, b.codes(ReleaseTest))
	assert.False(t, b.finding("release-test.not-tested").Never)
	assert.Contains(t, b.finding("release-test.not-tested").Text, "Not release-tested")
	assert.Contains(t, b.held(Recentering), "held at release test")
	assert.Equal(t, ReleaseTest, b.list.View(b.shop, b.job).Here, "there is nothing to correct")
	b.waive("release-test.not-tested", "the device is away; the skier knows and comes back").upTo(HandOver)
	assert.Equal(t, "NOT RELEASE-TESTED", figure(t, b.change(HandOver), HandOver, "tested").Value)
	assert.Equal(t, workflow.Finished, b.job.State)
	assert.Equal(t, workflow.Yes, b.job.Text(HandOver, "told_untested", workflow.Both))

	b = tested(t).change(ReleaseTest, none...).waive("release-test.not-tested", "r").upTo(HandOver)
	assert.Equal(t, workflow.FieldID("told_untested"), b.refused(HandOver, "told_untested", "").Fields[0].Field)
	assert.NotContains(t, tested(t).upTo(HandOver).usual(HandOver), "told_untested")
}

func TestNobodyMeasuresWithoutADevice(t *testing.T) {
	for _, c := range []struct{ key, value string }{
		{"device", "invented tester"}, {"twist_left.left", "50; 50; 50"}, {"exercised.right", "yes"}, {"lubricated.left", "50; 50; 50"},
	} {
		typed := []string{"tested", "no device", "device", "", "exercised", "", "twist_left", "", "twist_right", "", "forward_lean", "", c.key, c.value}
		r := tested(t).refused(ReleaseTest, typed...)
		require.Len(t, r.Fields, 1, c.key)
		assert.Equal(t, "release-test.no-device", r.Fields[0].Fault.Code)
	}
	r := tested(t).refused(ReleaseTest, "tested", "", "twist_left", "")
	assert.Len(t, r.Fields, 3, "without an answer the readings are needed")
}

// Clean against lubricated within 20 %: ASTM F1063-09(2014) 3.1.1. The clean
// middle value is 51 Nm.
func TestLubricated(t *testing.T) {
	for _, c := range []struct {
		readings string
		want     []string
	}{
		{"", []string{}},
		{"41; 41; 41", []string{}}, // 19.6 % less
		{"40; 40; 40", []string{"caution moment.lubricated"}},
		{"61; 61; 61", []string{}},
		{"62; 62; 62", []string{"caution moment.lubricated"}},
	} {
		b := tested(t).change(ReleaseTest, "twist_left", "49; 51; 52", "lubricated.left", c.readings)
		assert.Equal(t, c.want, b.codes(ReleaseTest), c.readings)
	}
	b := tested(t).change(ReleaseTest, "lubricated.right", "35; 36; 35")
	f := b.finding("moment.lubricated")
	assert.Equal(t, workflow.Right, f.Side)
	assert.Equal(t, calc.Caution, f.Level)
	assert.Contains(t, f.Text, "Right ski, twist to the left: the lubricated sole releases at 35 Nm")
	assert.Contains(t, f.Source, "ASTM F1063-09(2014) 3.1.1")
}
