package steps

import (
	"testing"

	"github.com/stretchr/testify/require"

	"drillstop/workflow"
)

func TestHandOverIsRefusedWhileAnythingIsOpen(t *testing.T) {
	b := newJob(t, workflow.NewMount)
	for _, s := range b.list.Steps() {
		if s.ID == HandOver {
			break
		}
		sv, _ := b.list.View(b.shop, b.job).Step(s.ID)
		if sv.Mark == workflow.MarkApart {
			continue
		}
		refusal := b.refused(HandOver)
		require.NotEmpty(t, refusal.Held, "before %s", s.ID)
		require.Equal(t, workflow.Open, b.job.State)
		b.change(s.ID)
	}
	b.change(HandOver)
	require.Equal(t, workflow.Finished, b.job.State)
	require.NotEmpty(t, b.held(HandOver), "a job is handed over once")
}

// Every step that can become stale keeps the job back once it is, and says so.
func TestHandOverIsRefusedWhileAnythingIsStale(t *testing.T) {
	for _, c := range []struct {
		name string
		act  func(*bench)
		want string
	}{
		{"heavier skier", func(b *bench) { b.change(Skier, "mass", "73") }, "First fit check must be answered again."},
		{"toe height", func(b *bench) { b.change(ToeHeight, "found", "stuck") }, "First forward pressure must be answered again."},
		{"a scale", func(b *bench) { b.change(ReleaseValue, "toe_set.left", "5.5") },
			"The job is held at release value: Toe left reads 5.5; computed 6: set it and read it again."},
		{"forward pressure turned", func(b *bench) { b.change(ForwardPressure, "turns.left", "1") }, "First release test must be answered again."},
		{"holes", func(b *bench) { b.change(Holes, "depth", "9.1") }, "First deburr and clean must be answered again."},
		{"test that fails", func(b *bench) { b.change(ReleaseTest, "twist_left", "60; 60; 60") }, "The job is held at release test"},
	} {
		t.Run(c.name, func(t *testing.T) {
			b := newJob(t, workflow.NewMount).through(LastLook)
			require.Empty(t, b.held(HandOver))
			c.act(b)
			require.Contains(t, b.refused(HandOver).Held, c.want)
		})
	}
}

// A stop that a supervisor waived no longer holds; the waiver stays in the job.
func TestHandOverAfterAWaiver(t *testing.T) {
	b := newJob(t, workflow.Adjustment).upTo(ReleaseTest).change(ReleaseTest, "twist_left.left", "60; 60; 60").
		waive("moment.high", "spring renewed next week, skier told")
	b.upTo(HandOver).change(HandOver)
	require.Equal(t, workflow.Finished, b.job.State)
}

func TestHandOverNextCheck(t *testing.T) {
	b := newJob(t, workflow.Adjustment).upTo(HandOver) // on 2026-11-25
	for _, bad := range []string{"2026-11-25", "2026-11-24", "1926-12-01", "0001-01-01"} {
		faults := b.refused(HandOver, "next_due", bad).Fields
		require.Len(t, faults, 1, bad)
		require.Equal(t, "hand-over.next-due", faults[0].Fault.Code)
		require.Contains(t, faults[0].Fault.Sentence, bad)
		require.Contains(t, faults[0].Fault.Sentence, "2026-11-25")
	}
	require.Equal(t, "field.date", b.refused(HandOver, "next_due", "next autumn").Fields[0].Fault.Code)

	for due, want := range map[string][]string{
		"2026-11-26": {},
		"2027-12-30": {}, // 400 days
		"2027-12-31": {"caution hand-over.next-due"},
		"9999-12-31": {"caution hand-over.next-due"},
	} {
		b := newJob(t, workflow.Adjustment).upTo(HandOver).change(HandOver, "next_due", due)
		require.Equal(t, workflow.Finished, b.job.State, "a caution does not hold")
		require.Equal(t, want, b.codes(HandOver), due)
	}
}

func TestHandOverTellsTouringSkiersOfTheLock(t *testing.T) {
	alpine := newJob(t, workflow.Adjustment).upTo(HandOver)
	require.NotContains(t, alpine.usual(HandOver), "told_touring")
	touring := touringJob(t).upTo(HandOver)
	require.Equal(t, workflow.FieldID("told_touring"), touring.refused(HandOver, "told_touring", "").Fields[0].Field)
	touring.change(HandOver)
	require.Equal(t, workflow.Finished, touring.job.State)
}

func TestHandOverNeedsBothNames(t *testing.T) {
	b := newJob(t, workflow.Adjustment).upTo(HandOver)
	require.Len(t, b.refused(HandOver, "technician", " ", "skier", "").Fields, 2)
	s, _ := b.list.Step(HandOver)
	due, _ := s.Field("next_due")
	require.Equal(t, "2027-11-25", due.Suggest(b.shop, b.job, workflow.Both))
	name, _ := s.Field("skier")
	require.Equal(t, "Ida Fjelde", name.Suggest(b.shop, b.job, workflow.Both))
}

// Nothing is left out: with any one step open that applies, the job is not
// handed over.
func TestHandOverNeedsEveryStep(t *testing.T) {
	full := newJob(t, workflow.NewMount).upTo(HandOver)
	require.Empty(t, full.held(HandOver))
	for _, s := range All() {
		if sv, _ := full.list.View(full.shop, full.job).Step(s.ID); s.ID == HandOver || sv.Mark == workflow.MarkApart {
			continue
		}
		sv, _ := full.list.View(full.shop, full.job.Without(s.ID)).Step(HandOver)
		require.NotEmpty(t, sv.Held, s.ID)
	}
}
