package steps

import (
	"testing"

	"github.com/stretchr/testify/require"

	"drillstop/workflow"
)

// stiff is a binding whose toe releases so much above the reference that its
// cause must be sought.
func stiff() onSki {
	ski := asPromised()
	ski.Binding.Toe.Gain = 1.5
	return ski
}

// A reading far outside is not washed away by another one: somebody must have
// seen to a cause, or a supervisor must say why.
func TestMeasuringAgainIsNoCause(t *testing.T) {
	b := tested(t).measures(stiff(), asPromised())
	require.NotEmpty(t, b.held(LastLook))
	b.measures(asPromised(), asPromised())
	require.Contains(t, b.codes(ReleaseTest), "stop release-test.unexplained")
	b.measures(asPromised(), asPromised())
	require.Contains(t, b.codes(ReleaseTest), "stop release-test.unexplained", "nor does a third one")
	require.NotEmpty(t, b.held(LastLook))

	b.change(ForwardPressure, "turns.left", "1").measures(asPromised(), asPromised())
	require.Equal(t, []string{"caution release-test.earlier-round"}, b.codes(ReleaseTest))
	require.Contains(t, b.finding("release-test.earlier-round").Text, "75 Nm")
	require.Equal(t, workflow.Finished, b.upTo(HandOver).change(HandOver).job.State)
}

// What was measured is not unknown.
func TestNoDeviceAfterAMeasuredRound(t *testing.T) {
	b := tested(t).measures(stiff(), asPromised())
	b.change(ReleaseTest, "tested", noDevice, "device", "", "exercised", "", "twist_left", "", "twist_right", "", "forward_lean", "")
	require.True(t, b.finding("release-test.measured-before").Never)
}

// A scale that was corrected and is set again is measured again, also where it
// reads what it read at first.
func TestSettingAgainAfterACorrectionAsksForTheTest(t *testing.T) {
	high := asPromised()
	high.Binding.Toe.Gain = 1.2
	b := tested(t).measures(high, high)
	b.change(Correction, "what", setTheScale, "toe_to", "5")
	high.State.Toe = 5
	b.measures(high, high)
	require.Empty(t, b.stale(ReleaseTest))
	b.change(ReleaseValue, "toe_set", "6", "heel_set", "6")
	require.Equal(t, "the scales were set anew after the release test", b.stale(ReleaseTest))
}
