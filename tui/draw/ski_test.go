package draw_test

import (
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"drillstop/tui/draw"
	"drillstop/workflow"
)

func phases(done int, mark workflow.Mark) []workflow.PhaseView {
	out := make([]workflow.PhaseView, len(workflow.Phases))
	for i, p := range workflow.Phases {
		out[i] = workflow.PhaseView{Phase: p, Of: 3, Mark: workflow.MarkAhead}
		if i < done {
			out[i].Done, out[i].Mark = 3, workflow.MarkKept
		}
	}
	if done < len(out) {
		out[done].Mark, out[done].Done = mark, 1
	}
	return out
}

func TestSkiNamesThePresentStepInFull(t *testing.T) {
	got := draw.Ski{Phases: phases(2, workflow.MarkHere), Here: workflow.Drilling, Step: "bit and stop", At: 2, Width: 110}.String()
	assert.Equal(t, "(===intake=====layout=====[drilling 2 of 3: bit and stop].....mounting....adjusting....testing....hand-over..>", got)
	assert.Len(t, got, 110)
}

func TestSkiShortensToFit(t *testing.T) {
	for width, want := range map[int]string{
		80: "[drilling 2 of 3: bit and stop]",
		52: "[drilling 2 of 3: bit and stop]",
		34: "[bit and stop]",
		20: "[drilling]",
	} {
		got := draw.Ski{Phases: phases(2, workflow.MarkHere), Here: workflow.Drilling, Step: "bit and stop", At: 2, Width: width}.String()
		assert.Contains(t, got, want, "width %d", width)
		assert.Len(t, got, width)
	}
}

func TestSkiShowsAStopAsANotch(t *testing.T) {
	got := draw.Ski{Phases: phases(4, workflow.MarkStop), Width: 80}.String()
	assert.Contains(t, got, "adjusting#")
}

func TestSkiPointsAtThePhaseOfAJobOnTheBench(t *testing.T) {
	got := draw.Ski{Phases: phases(2, workflow.MarkStop), Here: workflow.Drilling, Width: 70}.String()
	assert.Equal(t, "(=intake==layout==>drilling#..mounting..adjusting..testing..hand-over>", got)
}

func TestSkiKeepsItsWidth(t *testing.T) {
	marks := []workflow.Mark{workflow.MarkHere, workflow.MarkStop, workflow.MarkStale, workflow.MarkCaution}
	rapid.Check(t, func(t *rapid.T) {
		done := rapid.IntRange(0, len(workflow.Phases)).Draw(t, "done")
		s := draw.Ski{
			Phases: phases(done, rapid.SampledFrom(marks).Draw(t, "mark")),
			Width:  rapid.IntRange(36, 200).Draw(t, "width"),
			Step:   rapid.StringMatching(`[a-z ]{0,20}`).Draw(t, "step"),
		}
		if done < len(workflow.Phases) {
			s.Here = workflow.Phases[done]
		}
		assert.Equal(t, s.Width, utf8.RuneCountInString(s.String()))
	})
}
