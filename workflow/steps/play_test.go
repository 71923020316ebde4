package steps

import (
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"drillstop/calc"
	"drillstop/calc/release"
	"drillstop/workflow"
)

// bench answers one job through the decisions of the checklist, without a
// store: as the screens and the sheets do.
type bench struct {
	t       require.TestingT
	list    *workflow.Checklist
	shop    workflow.Shop
	job     workflow.Job
	entries []workflow.Entry
}

// usual are the answers of an invented job in which nothing is wrong, by field
// and for both skis alike: 72 kg, 175 cm, 34 years, type II, sole 318 mm -> 6,
// reference moments 50 Nm and 194 Nm (row L of the chart).
var usual = map[workflow.StepID]map[workflow.FieldID]string{
	Skier: {
		"name": "Ida Fjelde", "mass": "72 kg", "height": "175 cm", "age": "34", "type": "II",
		"request_toe": "none", "request_heel": "none", "consent": "yes",
	},
	Boots: {
		"name": "Kamp 90 / 27.5", "norm": "ISO 5355 A", "sole": "318", "shell": "27.5", "midsole": "yes", "inserts": "no", "condition": "good",
	},
	Skis: {
		"name": "Tarn 98 / 178", "length": "178", "waist": "98", "condition": "good",
		"construction": "wood", "marked": "3.5 x 9", "thickness_toe": "14.2", "thickness_heel": "13.6",
		"marks": "yes", "old_holes": "no",
	},
	Binding: {
		"name": "Orlo 10", "kind": "alpine", "norms": "ISO 5355 A", "scale_min": "3", "scale_max": "10",
		"indicator_step": "0.5", "sole_min": "270", "sole_max": "370", "track_min": "280", "track_max": "360",
		"brake": "105", "toe_height": "adjustable", "risers": "0", "used": "new",
		"screws_toe": "4", "screws_heel": "4", "bite_toe": "7.5", "bite_heel": "7.5", "locking_screw": "yes",
	},
	OldHoles:   {"holes": "-400 0 4.1 9 plugged"},
	MountPoint: {"reference": "mark", "offset": "0", "tail": "820", "aligned": "yes"},
	Template:   {"sole_set": "318", "centred": "yes", "clamped": "yes"},
	Bit:        {"bit": "3.5", "stop": "9", "eyes": "yes"},
	Holes:      {"drilled": "8", "depth": "9"},
	Clean:      {"deburred": "yes", "cleared": "yes", "tapped": "yes"},
	Glue:       {"kind": "wood glue", "holes": "8"},
	Screws: {
		"locking_first": "yes", "half_first": "yes", "drive": "driver", "torque": "4.5",
		"driven": "8", "stripped": "0", "way_out": "none",
	},
	Brake:           {"fitted": "yes", "moves": "yes", "track": "yes"},
	SoleLength:      {"set": "318"},
	ForwardPressure: {"found": "in window", "indicator": "in window", "gap": "as the maker says", "turns": "0"},
	ToeHeight:       {"found": "drags", "set": "drags", "moves": "yes"},
	ReleaseValue:    {"toe_set": "6", "heel_set": "6"},
	ReleaseTest: {
		"tested": "yes", "device": "invented tester", "exercised": "yes",
		"twist_left": "49; 51; 52", "twist_right": "50; 50; 51", "forward_lean": "190; 194; 196",
	},
	Recentering: {"toe": "returns", "heel": "returns"},
	Touring: {
		"brake_held": "yes", "heel_free": "yes", "each_riser": "yes", "toe_locked": "yes", "toe_released": "yes",
		"ski_mode": "yes", "values_again": "unchanged",
	},
	LastLook: {"scales": "yes", "heads": "yes", "brakes": "yes", "clean": "yes"},
	HandOver: {
		"told_untested": "yes", "told_corrected": "yes", "told_values": "yes", "told_care": "yes", "told_touring": "yes", "told_waived": "yes", "next_due": "2027-10-01",
		"technician": "MB", "skier": "Ida Fjelde",
	},
}

func testShop(t require.TestingT) workflow.Shop {
	chart, err := release.Default()
	require.NoError(t, err)
	return workflow.Shop{
		Name: "Nordhang workshop", Chart: chart, Patterns: testPatterns(), Now: time.Date(2026, 11, 25, 17, 4, 0, 0, time.UTC),
	}
}

// newJob opens a job of a kind.
func newJob(t require.TestingT, kind workflow.Kind) *bench {
	list, err := Checklist()
	require.NoError(t, err)
	b := &bench{t: t, list: list, shop: testShop(t)}
	e := workflow.Begin(kind, "", b.stamp())
	e.Ticket = 417
	b.apply(e)
	return b
}

func (b *bench) stamp() workflow.Stamp {
	return workflow.Stamp{By: workflow.Person{Name: "MB", Supervisor: true}, At: b.shop.Now}
}

func (b *bench) apply(e workflow.Entry) {
	next, err := b.job.Apply(e)
	require.NoError(b.t, err)
	b.job = next
	b.entries = append(b.entries, e)
}

// change answers a step as it stands, or as usual, but for these keys and
// values by turns; a key without a side speaks for both skis where the field is
// asked for each. It fails the test on a refusal.
func (b *bench) change(step workflow.StepID, keysAndValues ...string) *bench {
	e, err := b.list.Answer(b.shop, b.job, step, b.changed(step, keysAndValues), b.stamp())
	require.NoError(b.t, err, "%s", step)
	b.apply(e)
	return b
}

// refused is change where a refusal is expected; nothing is written.
func (b *bench) refused(step workflow.StepID, keysAndValues ...string) *workflow.Refusal {
	_, err := b.list.Answer(b.shop, b.job, step, b.changed(step, keysAndValues), b.stamp())
	require.Error(b.t, err, "%s took %q", step, keysAndValues)
	var refusal *workflow.Refusal
	require.ErrorAs(b.t, err, &refusal)
	return refusal
}

// upTo answers as usual every step before this one that the job has, that is
// not answered and fresh, in order. What becomes stale on the way is left so.
func (b *bench) upTo(step workflow.StepID) *bench {
	for _, s := range b.list.Steps() {
		if s.ID == step {
			return b
		}
		if sv, _ := b.list.View(b.shop, b.job).Step(s.ID); sv.Mark == workflow.MarkApart || b.job.Fresh(s.ID) {
			continue
		}
		b.change(s.ID)
	}
	return b
}

// through is upTo and the step itself.
func (b *bench) through(step workflow.StepID) *bench { return b.upTo(step).change(step) }

// waive waives the stop of that code, of whichever step.
func (b *bench) waive(code, reason string) *bench {
	for _, f := range b.list.Findings(b.shop, b.job) {
		if f.Code == code && f.Holds() {
			e, err := b.list.Waive(b.shop, b.job, f, reason, b.stamp())
			require.NoError(b.t, err)
			b.apply(e)
			return b
		}
	}
	require.Failf(b.t, "no such stop", "%s", code)
	return b
}

// finding returns the finding of that code; nil if the job has none.
func (b *bench) finding(code string) *workflow.Finding {
	for _, f := range b.list.Findings(b.shop, b.job) {
		if f.Code == code {
			return &f
		}
	}
	return nil
}

// codes are the codes of the findings of a step that weigh at least a caution,
// in order.
func (b *bench) codes(step workflow.StepID) []string {
	codes := []string{}
	for _, f := range b.list.Findings(b.shop, b.job) {
		if f.Step == step && f.Level != calc.Note {
			codes = append(codes, string(f.Level)+" "+f.Code)
		}
	}
	return codes
}

// stale says why a step is stale; "" where it is not.
func (b *bench) stale(step workflow.StepID) string {
	a, _ := b.job.Answered(step)
	return a.Stale
}

// held says why a step cannot be answered; "" where it can.
func (b *bench) held(step workflow.StepID) string {
	sv, ok := b.list.View(b.shop, b.job).Step(step)
	require.True(b.t, ok)
	return sv.Held
}

func (b *bench) changed(step workflow.StepID, keysAndValues []string) workflow.Answers {
	typed := b.job.Answers(step).Clone()
	if len(typed) == 0 {
		typed = b.usual(step)
	}
	for key, value := range b.typed(step, keysAndValues) {
		typed[key] = value
	}
	return typed
}

// usual are the usual answers of the fields that the job asks.
func (b *bench) usual(step workflow.StepID) workflow.Answers {
	s, ok := b.list.Step(step)
	require.True(b.t, ok, "%s", step)
	typed := workflow.Answers{}
	for _, f := range s.Asked(b.job) {
		for _, key := range f.Keys() {
			if value, ok := usual[step][f.ID]; ok {
				typed[key] = value
			}
		}
	}
	return typed
}

func (b *bench) typed(step workflow.StepID, keysAndValues []string) workflow.Answers {
	require.Zero(b.t, len(keysAndValues)%2, "a key without a value")
	s, ok := b.list.Step(step)
	require.True(b.t, ok, "%s", step)
	typed := workflow.Answers{}
	for pair := range slices.Chunk(keysAndValues, 2) {
		keys := []string{pair[0]}
		if f, ok := s.Field(workflow.FieldID(pair[0])); ok && !strings.Contains(pair[0], ".") {
			keys = f.Keys()
		}
		for _, key := range keys {
			typed[key] = pair[1]
		}
	}
	return typed
}

func TestUsualJobIsHandedOver(t *testing.T) {
	for _, kind := range []workflow.Kind{
		workflow.NewMount, workflow.ReMount, workflow.Adjustment, workflow.Inspection, workflow.Rental,
	} {
		t.Run(string(kind), func(t *testing.T) {
			b := newJob(t, kind).through(HandOver)
			require.Equal(t, workflow.Finished, b.job.State, "%v", b.list.Findings(b.shop, b.job))
			for _, f := range b.list.Findings(b.shop, b.job) {
				if f.Code == "skis.no-old-holes" {
					continue // the usual pair was never drilled
				}
				require.Equal(t, calc.Note, f.Level, "%s: %s", f.Step, f.Text)
			}
			again, err := workflow.Fold(b.entries)
			require.NoError(t, err)
			require.Equal(t, b.job, again)
		})
	}
}
