package paper

import (
	"encoding/binary"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"drillstop/workflow"
	"drillstop/workflow/steps"
)

func TestTheNamesATicketKnowsAreDeclared(t *testing.T) {
	t.Parallel()
	list, err := steps.Checklist()
	require.NoError(t, err)
	for step, fields := range map[workflow.StepID][]workflow.FieldID{
		stepSkier: {fieldName}, stepBoots: equipment[stepBoots], stepSkis: append(equipment[stepSkis], fieldWaist),
		stepBinding: append(equipment[stepBinding], fieldScaleMin, fieldScaleMax, fieldScaleStep), stepFit: nil, stepOldHoles: {fieldHoles}, stepMountPoint: {fieldOffset},
		stepBit: nil, stepPressure: {fieldFound, fieldIndicator}, stepRelease: {scaleFields[0].set, scaleFields[1].set},
		stepCorrection:  {scaleFields[0].corrected, scaleFields[1].corrected},
		stepReleaseTest: append(readingFields[:], fieldDevice, fieldTested), stepHandOver: {fieldNextDue, fieldTechnician, fieldSkier, fieldTouring},
	} {
		declared, ok := list.Step(step)
		require.True(t, ok, "%s", step)
		for _, id := range fields {
			_, ok := declared.Field(id)
			assert.True(t, ok, "%s of %s", id, step)
		}
	}
}

func TestTheAnswerThatNobodyTestedIsDeclared(t *testing.T) {
	t.Parallel()
	list, err := steps.Checklist()
	require.NoError(t, err)
	step, _ := list.Step(stepReleaseTest)
	field, _ := step.Field(fieldTested)
	assert.True(t, slices.ContainsFunc(field.Options, func(o workflow.Option) bool { return o.Value == answerNoDevice }))
}

// has reads the font's table of letters (cmap, format 4).
func has(font []byte) func(r rune) bool {
	u16 := func(at int) int { return int(binary.BigEndian.Uint16(font[at:])) }
	u32 := func(at int) int { return int(binary.BigEndian.Uint32(font[at:])) }
	for i := range u16(4) {
		if entry := 12 + 16*i; string(font[entry:entry+4]) == "cmap" {
			table := u32(entry + 8)
			for j := range u16(table + 2) {
				sub := table + u32(table+8+8*j)
				if u16(sub) != 4 {
					continue
				}
				n := u16(sub+6) / 2
				return func(r rune) bool {
					for k := range n {
						end, start := u16(sub+14+2*k), u16(sub+16+2*n+2*k)
						if int(r) >= start && int(r) <= end {
							return true
						}
					}
					return false
				}
			}
		}
	}
	return nil
}

func TestTheFontHasEveryLetterThatItIsTrustedWith(t *testing.T) {
	t.Parallel()
	for name, font := range map[string][]byte{"regular": regularFont, "bold": boldFont} {
		in := has(font)
		require.NotNil(t, in)
		assert.False(t, in('雪'))
		for _, stretch := range lettered {
			for r := stretch[0]; r <= stretch[1]; r++ {
				assert.True(t, in(r), "%s: %U", name, r)
			}
		}
	}
}

func TestValuesOfOneScale(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		values string
		side   workflow.Side
		piece  string
		want   string
	}{
		{"toe 6  heel 6.5", workflow.Left, "toe", "6"},
		{"toe 6  heel 6.5", workflow.Right, "heel", "6.5"},
		{"left toe 6  heel 6; right toe 5.5  heel 7", workflow.Left, "heel", "6"},
		{"left toe 6  heel 6; right toe 5.5  heel 7", workflow.Right, "toe", "5.5"},
		{"left toe 6  heel 6; right toe 5.5  heel 7", workflow.Right, "heel", "7"},
		{"", workflow.Left, "toe", ""},
		{"left toe", workflow.Left, "toe", ""},
	} {
		assert.Equal(t, c.want, onSki(c.values, c.side, c.piece), "%q, %s %s", c.values, c.side, c.piece)
	}
}

func TestHolesOfARecord(t *testing.T) {
	t.Parallel()
	assert.Equal(t, []LayoutHole{{N: 1, X: -124.5, Y: 18, Diameter: 4.1, Depth: 9}, {N: 2, X: -124.5, Y: -18, Diameter: 4.1}},
		recorded("-124.5 18 4.1 9 plugged; -124.5 -18 4.1 open"))
	assert.Empty(t, recorded(""))
	assert.Empty(t, recorded("no hole; 1 2; 1e9 2 3; NaN 1 2"))
}
