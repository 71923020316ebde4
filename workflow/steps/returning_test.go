package steps

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"drillstop/calc"
	"drillstop/workflow"
)

// again is a job made from the usual one, handed over a season ago.
func again(t *testing.T) *bench {
	t.Helper()
	last := newJob(t, workflow.Adjustment).through(HandOver).job
	l := &workflow.Last{
		Ticket: 12, Day: "2025-11-20", Answers: map[workflow.StepID]workflow.Answers{}, Figures: map[workflow.StepID][]workflow.Figure{},
	}
	for _, id := range last.Steps() {
		a, _ := last.Answered(id)
		l.Answers[id], l.Figures[id] = a.Answers, a.Figures
	}
	b := &bench{t: t, shop: testShop(t)}
	b.list, _ = Checklist()
	e := workflow.Begin(workflow.Adjustment, "", b.stamp())
	e.Ticket, e.Last = 417, l
	b.apply(e)
	return b
}

func TestWhatChangedSinceLastTime(t *testing.T) {
	b := again(t).change(Skier)
	assert.Equal(t, "Since T-0012 of 2025-11-20: nothing has changed.", b.finding("skier.since-last").Text)
	b.change(Skier, "mass", "80", "age", "35", "type", "III")
	f := b.finding("skier.since-last")
	assert.Equal(t, calc.Note, f.Level)
	assert.Equal(t, "Since T-0012 of 2025-11-20: mass 72 kg -> 80 kg, age 34 years -> 35 years, type II -> III; "+
		"as it was: height, request toe, request heel.", f.Text)
	b.upTo(ReleaseValue).change(ReleaseValue, "toe_set", "7", "heel_set", "7")
	assert.Equal(t, "Since T-0012 of 2025-11-20: computed toe 6  heel 6 then, toe 7  heel 7 now; the scales were left at toe 6  heel 6.",
		b.finding("release-value.since-last").Text)
}

func TestNothingIsComparedWithSomebodyElse(t *testing.T) {
	b := again(t).change(Skier, "name", "Jonas Ekrem")
	assert.Nil(t, b.finding("skier.since-last"))
	assert.Equal(t, calc.Caution, b.finding("skier.another").Level)
	assert.Contains(t, b.finding("skier.another").Text, "made from T-0012 of Ida Fjelde, and the skier is now Jonas Ekrem")
	b.through(ReleaseValue)
	assert.Nil(t, b.finding("release-value.since-last"))
	assert.Nil(t, newJob(t, workflow.Adjustment).through(ReleaseValue).finding("skier.since-last"), "a job that was opened empty")
}

// A boot that has its name and another length is another boot, or was misread.
func TestASoleThatChanged(t *testing.T) {
	b := again(t).change(Skier).change(Boots, "sole.right", "313")
	assert.Equal(t, []string{"caution boots.sole-since-last"}, b.codes(Boots))
	assert.Contains(t, b.finding("boots.sole-since-last").Text, "its sole length was 318 mm then and is 313 mm now")
	assert.Empty(t, b.change(Boots, "name", "Lest 110 / 26.5", "sole", "313").codes(Boots))
}

// What ages, what a hand has to read off the thing, and what the last job itself
// changed is asked again.
func TestWhatLasts(t *testing.T) {
	again := map[workflow.StepID][]workflow.FieldID{
		Skier:   {"mass", "height", "age", "type", "request_toe", "request_heel", "request_reason", "consent"},
		Boots:   {"sole", "midsole", "condition", "wear", "washed"},
		Skis:    {"condition", "thickness_toe", "thickness_heel", "marks", "old_holes"},
		Binding: {"used", "looked_over"},
	}
	for _, s := range All() {
		var asked []workflow.FieldID
		for _, f := range s.Fields {
			switch {
			case s.Phase != workflow.Intake:
				assert.False(t, f.Lasts, "%s %s", s.ID, f.ID)
			case !f.Lasts:
				asked = append(asked, f.ID)
			}
		}
		assert.Equal(t, again[s.ID], asked, "%s", s.ID)
	}
}

// Higher, and toe and heel apart, need the skier's consent: our rule.
func TestConsent(t *testing.T) {
	for _, c := range []struct {
		toe, heel string
		needed    bool
	}{
		{"none", "none", false}, {"lower", "lower", false}, {"lower", "none", true}, {"none", "higher", true},
		{"higher", "higher", true}, {"own risk", "own risk", true},
	} {
		typed := []string{"request_toe", c.toe, "request_heel", c.heel, "request_reason", "careful style", "consent", ""}
		b := newJob(t, workflow.Adjustment)
		if !c.needed {
			b.change(Skier, typed...)
			continue
		}
		r := b.refused(Skier, typed...)
		require.Len(t, r.Fields, 1)
		assert.Equal(t, "skier.consent", r.Fields[0].Fault.Code)
	}
}

// The skier's own choice above a request holds the job at the fit check, with its
// numbers, and a waiver documents it. Row N at 318 mm has 8.5, from memory.
func TestOwnRiskIsWaivedAtTheFitCheck(t *testing.T) {
	b := newJob(t, workflow.NewMount).change(Skier, "request_toe", "own risk", "request_reason", "skis couloirs, has been told").
		upTo(Fit).change(Fit)
	assert.Equal(t, []string{"caution skier.own-risk"}, b.codes(Skier))
	f := b.finding("release.own-risk-toe")
	assert.Equal(t, Fit, f.Step)
	assert.Contains(t, f.Text, "8.5, is 42 % more than the computed 6")
	assert.Contains(t, b.held(MountPoint), "held at fit check", "before a hole is drilled")
	b.waive("release.own-risk-toe", "signed by the skier on the sheet").upTo(ReleaseValue).change(ReleaseValue, "toe_set", "8.5")
	assert.Empty(t, b.codes(ReleaseValue), "it is said once")
	assert.True(t, b.job.Waived())
	b.change(Skier, "request_toe", "none", "request_reason", "")
	assert.False(t, b.job.Waived(), "it was given for those numbers")
}

func TestOwnRiskIsNotForTheLightest(t *testing.T) {
	b := newJob(t, workflow.Adjustment).change(Skier, "mass", "21", "height", "115", "age", "11", "type", "I", "request_toe", "own risk", "request_reason", "r")
	require.Equal(t, []string{"stop release.light-wish"}, b.codes(Skier))
	require.True(t, b.finding("release.light-wish").Never)
}
