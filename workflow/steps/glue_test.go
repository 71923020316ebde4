package steps

import (
	"testing"

	"github.com/stretchr/testify/require"

	"drillstop/workflow"
)

func TestGlue(t *testing.T) {
	for _, c := range []struct {
		name  string
		typed []string
		want  []string
	}{
		{"every hole", nil, []string{}},
		{"epoxy is a kind of glue too", []string{"kind", "epoxy"}, []string{}},
		{"one hole left out", []string{"holes.left", "7"}, []string{"stop glue.count"}},
		{"none on one ski", []string{"holes.right", "0"}, []string{"stop glue.count"}},
		{"more than there are", []string{"holes", "9"}, []string{"stop glue.count", "stop glue.count"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			b := newJob(t, workflow.NewMount).upTo(Glue).change(Glue, c.typed...)
			require.Equal(t, c.want, b.codes(Glue))
		})
	}
}

func TestGlueSaysTheNumbers(t *testing.T) {
	b := newJob(t, workflow.NewMount).upTo(Glue).change(Glue, "holes.right", "7")
	f := b.finding("glue.count")
	require.Equal(t, workflow.Right, f.Side)
	require.Equal(t, "Right ski: 7 holes glued, 8 drilled: every hole gets glue before its screw.", f.Text)
	require.NotEmpty(t, f.Source)
	require.Contains(t, b.held(Screws), "The job is held at glue")
}

func TestGlueRefuses(t *testing.T) {
	b := newJob(t, workflow.NewMount).upTo(Glue)
	for _, bad := range []string{"7.5", "-1", "41", "eight", ""} {
		require.Len(t, b.refused(Glue, "holes.left", bad).Fields, 1, "%q", bad)
	}
	require.Len(t, b.refused(Glue, "kind", "spit").Fields, 1)
}

func TestGlueRests(t *testing.T) {
	b := newJob(t, workflow.NewMount).through(Glue)
	b.change(Holes, "depth", "9")
	require.Empty(t, b.stale(Glue), "nothing was drilled again")
	b.change(Holes, "depth", "9.1")
	require.Equal(t, "holes were drilled again after they were glued", b.stale(Glue))
	require.Equal(t, "First glue must be answered again.", b.held(Screws))
}

func TestGlueRestsOnTheThread(t *testing.T) {
	b := newJob(t, workflow.NewMount).upTo(Skis).change(Skis, "construction", "metal", "marked", "4.1 x 9").
		upTo(Bit).change(Bit, "bit", "4.1").through(Glue)
	b.change(Skis, "construction", "wood", "marked", "3.5 x 9").upTo(Bit).change(Bit, "bit", "3.5").change(Holes)
	b.change(Clean, "tapped", "")
	require.Equal(t, "holes were cleaned or tapped again after they were glued", b.stale(Glue))
}
