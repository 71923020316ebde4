package steps

import (
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"drillstop/workflow"
)

func TestStepsStandInTheOrderOfTheHands(t *testing.T) {
	var ids []workflow.StepID
	for _, s := range All() {
		ids = append(ids, s.ID)
	}
	assert.Equal(t, []workflow.StepID{
		"skier", "boots", "skis", "binding", "fit",
		"old-holes", "mount-point", "template",
		"bit", "holes", "clean",
		"glue", "screws", "brake",
		"sole-length", "forward-pressure", "toe-height", "release-value",
		"release-test", "correction", "recentering", "touring",
		"last-look", "hand-over",
	}, ids)
}

func TestDeclarationsFitTheScreenAndTheLearner(t *testing.T) {
	_, err := Checklist()
	require.NoError(t, err, "needs, rests and fields hold together")
	titles := map[string]bool{}
	for _, s := range All() {
		t.Run(string(s.ID), func(t *testing.T) {
			assert.False(t, titles[s.Title], "the title %q stands twice", s.Title)
			titles[s.Title] = true
			sentences := strings.Count(s.Why, ". ") + strings.Count(s.Why, "? ") + 1
			assert.True(t, sentences >= 2 && sentences <= 5, "%d sentences of why", sentences)
			for _, text := range append(s.Cautions, s.Why) {
				assertPlain(t, text)
			}
			labels := map[string]bool{}
			for _, f := range s.Fields {
				assert.False(t, labels[f.Label], "the label %q stands twice", f.Label)
				labels[f.Label] = true
				assert.LessOrEqual(t, utf8.RuneCountInString(f.Label), 26, "label %q", f.Label)
				assert.LessOrEqual(t, utf8.RuneCountInString(f.Hint), 50, "hint %q", f.Hint)
				assertPlain(t, f.Label+f.Hint)
				if f.Kind == workflow.Number || f.Kind == workflow.List {
					assert.Less(t, f.Min, f.Max, "%s has no range", f.ID)
				}
			}
			for _, r := range s.Rests {
				assertPlain(t, r.Because)
				assert.NotRegexp(t, `[.A-Z]$|^[A-Z]`, r.Because, "it stands behind a colon")
			}
		})
	}
}

// assertPlain holds texts to what every terminal and every printer shows.
func assertPlain(t *testing.T, text string) {
	t.Helper()
	for _, r := range text {
		assert.True(t, r >= ' ' && r < 0x7f, "%q in %q", r, text)
	}
}

func TestDangerousStepsSaySo(t *testing.T) {
	for _, s := range All() {
		switch s.ID {
		case Boots, Bit, Holes, Glue, ReleaseValue, Touring:
			assert.NotEmpty(t, s.Cautions, "%s", s.ID)
		}
	}
}

// A kind of job is a filter over the same steps.
func TestKindsOfJob(t *testing.T) {
	drilling := []workflow.StepID{MountPoint, Template, Bit, Holes, Clean, Glue, Screws, Brake}
	for _, o := range workflow.Kinds {
		kind := workflow.Kind(o.Value)
		b := newJob(t, kind).through(Binding)
		for _, sv := range b.list.View(b.shop, b.job).Steps {
			want := false // apart?
			for _, id := range drilling {
				want = want || id == sv.Step.ID && kind != workflow.NewMount && kind != workflow.ReMount
			}
			want = want || sv.Step.ID == Touring  // the usual binding does not tour
			want = want || sv.Step.ID == OldHoles // the usual ski has none
			want = want || sv.Step.ID == Correction
			assert.Equal(t, want, sv.Mark == workflow.MarkApart, "%s in %s", sv.Step.ID, kind)
		}
		_, asked := b.job.Answers(Skis)["thickness_toe.left"]
		assert.Equal(t, kind == workflow.NewMount || kind == workflow.ReMount, asked, "%s", kind)
	}
}

func TestSkiStepsNeedWhatPhysicallyComesFirst(t *testing.T) {
	b := newJob(t, workflow.NewMount).upTo(MountPoint)
	for step, first := range map[workflow.StepID]string{
		Template: "mount point", Bit: "template in place", Holes: "bit and stop", Clean: "holes drilled and gauged",
		Glue: "deburr and clean", Screws: "glue", Brake: "screws", SoleLength: "brake and heel track", HandOver: "mount point",
	} {
		assert.Equal(t, "First "+first+" must be answered.", b.held(step), "%s", step)
	}
	assert.Empty(t, b.held(MountPoint))
	assert.Equal(t, "First boots must be answered.", newJob(t, workflow.NewMount).through(Skier).held(Fit))
}

func TestDescribe(t *testing.T) {
	b := newJob(t, workflow.Adjustment)
	skier, ski, binding := Describe(b.job)
	assert.Empty(t, skier+ski+binding)
	skier, ski, binding = Describe(b.through(Binding).job)
	assert.Equal(t, []string{"Ida Fjelde", "Tarn 98 / 178", "Orlo 10"}, []string{skier, ski, binding})
}
