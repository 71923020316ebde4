package steps

import (
	"testing"

	"github.com/stretchr/testify/require"

	"drillstop/workflow"
)

func TestSoleLength(t *testing.T) {
	for _, c := range []struct {
		name, left, right string
		want              []string
	}{
		{"as the boots", "318", "318", []string{}},
		{"a millimetre off is what a scale can show", "317", "318", []string{}},
		{"more than a millimetre", "316.9", "318", []string{"stop sole-length.set", "caution sole-length.unlike"}},
		{"both off alike", "320", "320", []string{"stop sole-length.set", "stop sole-length.set"}},
		{"each within a millimetre, apart from each other", "317", "319", []string{"caution sole-length.unlike"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			b := newJob(t, workflow.Adjustment).upTo(SoleLength)
			b.change(SoleLength, "set.left", c.left, "set.right", c.right)
			require.Equal(t, c.want, b.codes(SoleLength))
		})
	}
}

func TestSoleLengthFollowsEachBoot(t *testing.T) {
	b := newJob(t, workflow.Adjustment).upTo(Boots).change(Boots, "sole.left", "318", "sole.right", "321").upTo(SoleLength)
	b.change(SoleLength, "set.left", "318", "set.right", "321")
	require.Empty(t, b.codes(SoleLength), "two lengths for two boots")
	b.change(SoleLength, "set", "318")
	f := b.finding("sole-length.set")
	require.Equal(t, workflow.Right, f.Side)
	require.Equal(t, "Right ski is set to 318 mm, its boot sole is 321 mm: set it within 1 mm of the boot.", f.Text)
	require.True(t, f.Never)
}

func TestSoleLengthKnowsAShellSize(t *testing.T) {
	b := newJob(t, workflow.Adjustment).upTo(SoleLength)
	fault := b.refused(SoleLength, "set.left", "27.5").Fields[0]
	require.Equal(t, workflow.FieldID("set"), fault.Field)
	require.Equal(t, workflow.Left, fault.Side)
	require.Equal(t, "quantity.shell-size", fault.Fault.Code)
}

func TestSoleLengthRests(t *testing.T) {
	for _, c := range []struct {
		name  string
		act   func(*bench)
		stale bool
	}{
		{"boots as they are", func(b *bench) { b.change(Boots) }, false},
		{"another wear", func(b *bench) { b.change(Boots, "wear", "1") }, false},
		{"another sole", func(b *bench) { b.change(Boots, "sole.right", "319") }, true},
		{"another track", func(b *bench) { b.change(Binding, "track_max", "365") }, true},
		{"another step of the scale", func(b *bench) { b.change(Binding, "indicator_step", "0.25") }, false},
		{"heavier skier", func(b *bench) { b.change(Skier, "mass", "73") }, false},
	} {
		t.Run(c.name, func(t *testing.T) {
			b := newJob(t, workflow.Adjustment).through(SoleLength)
			c.act(b)
			require.Equal(t, c.stale, b.stale(SoleLength) != "", b.stale(SoleLength))
		})
	}
}

func TestAHeelPieceThatWasOffIsSetAgain(t *testing.T) {
	b := newJob(t, workflow.NewMount).through(LastLook)
	b.change(Brake)
	for step, because := range map[workflow.StepID]string{
		SoleLength: "the sole length was set", ForwardPressure: "forward pressure was read",
		ReleaseTest: "the release test", LastLook: "the last look",
	} {
		require.Equal(t, "brake and heel piece were fitted again after "+because, b.stale(step))
	}
	require.Empty(t, b.stale(ReleaseValue), "the value is what it was")
}
