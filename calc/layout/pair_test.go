package layout_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"drillstop/calc"
	"drillstop/calc/layout"
)

func TestMarksOfAPair(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		left, right mm
		want        layout.Marks
		level       calc.Level
	}{
		{812, 812, layout.Marks{}, ""},
		{812.5, 811.5, layout.Marks{Difference: 1, LeftOff: 0.5, RightOff: -0.5, Left: -0.5, Right: 0.5}, ""},
		{814, 811, layout.Marks{Difference: 3, LeftOff: 1.5, RightOff: -1.5, Left: -1.5, Right: 1.5}, calc.Caution},
		{811, 814, layout.Marks{Difference: -3, LeftOff: -1.5, RightOff: 1.5, Left: 1.5, Right: -1.5}, calc.Caution},
		{800, 805, layout.Marks{Difference: -5, LeftOff: -2.5, RightOff: 2.5, Left: 2.5, Right: -2.5}, calc.Caution},
		{800, 805.1, layout.Marks{}, calc.Stop},
	} {
		got, err := layout.PairMarks(c.left, c.right)
		require.NoError(t, err)
		if c.level == "" {
			assert.Empty(t, got.Findings)
		} else {
			require.Len(t, got.Findings, 1)
			assert.Equal(t, c.level, got.Findings[0].Level)
		}
		if c.level == calc.Stop {
			continue
		}
		got.Findings = nil
		assert.Equal(t, c.want, got)
		assert.InDelta(t, float64(c.left+got.Left), float64(c.right+got.Right), 1e-9, "corrected, both lie alike")
	}
	got, err := layout.PairMarks(811, 814)
	require.NoError(t, err)
	assert.Equal(t, "The mount marks differ by 3.0 mm, so the right boot would sit that far in front of the other. Measure both again from the tail; if it stays, mount the left ski 1.5 mm forward of its mark and the right ski 1.5 mm back.", got.Findings[0].Text)
}

func TestMarksThatAreNone(t *testing.T) {
	t.Parallel()
	for _, bad := range []mm{0, 81.2, 1501, mm(math.NaN())} {
		_, err := layout.PairMarks(812, bad)
		assert.Equal(t, "right", faultOf(t, err).Field)
		_, err = layout.PairMarks(bad, 812)
		assert.Equal(t, "left", faultOf(t, err).Field)
	}
}

func TestMountPoints(t *testing.T) {
	t.Parallel()
	// A ski of 1760 mm: its middle at 880; 8.5 cm back is 795 mm from the tail.
	point, err := layout.FromCentre(1760, -85)
	require.NoError(t, err)
	assert.Equal(t, layout.MountPoint{FromTail: 795, FromCentre: -85}, point)
	assert.Equal(t, "795 mm from the tail, 8.5 cm back of the middle", point.String())

	same, err := layout.FromTail(1760, 795)
	require.NoError(t, err)
	assert.Equal(t, point, same)

	moved, err := point.Moved(1760, 4.5)
	require.NoError(t, err)
	assert.Equal(t, "799.5 mm from the tail, 8.05 cm back of the middle", moved.String())

	middle, err := layout.FromCentre(1700, 0)
	require.NoError(t, err)
	assert.Equal(t, "850 mm from the tail, in the middle", middle.String())
	front, err := layout.FromCentre(1700, 10)
	require.NoError(t, err)
	assert.Equal(t, "860 mm from the tail, 1 cm in front of the middle", front.String())
}

func TestMountPointsThatAreNone(t *testing.T) {
	t.Parallel()
	for want, call := range map[string]func() (layout.MountPoint, error){
		"A ski of 176 mm is none: 600 mm to 2300 mm is possible.":                                                 func() (layout.MountPoint, error) { return layout.FromTail(176, 79) },
		"A ski of NaN mm is none: 600 mm to 2300 mm is possible.":                                                 func() (layout.MountPoint, error) { return layout.FromCentre(mm(math.NaN()), 0) },
		"A mount point 79.5 mm from the tail of a ski of 1760 mm lies at its end: 176 mm to 1584 mm is possible.": func() (layout.MountPoint, error) { return layout.FromTail(1760, 79.5) },
		"A mount point 1730 mm from the tail of a ski of 1760 mm lies at its end: 176 mm to 1584 mm is possible.": func() (layout.MountPoint, error) { return layout.FromCentre(1760, 850) },
	} {
		_, err := call()
		assert.Equal(t, want, faultOf(t, err).Sentence)
	}
}
