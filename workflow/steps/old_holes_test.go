package steps

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"drillstop/calc/layout"
	"drillstop/workflow"
)

func TestPatternIsNamed(t *testing.T) {
	shop := testShop(t)
	for typed, want := range map[string]string{
		"Orlo 10 holes": "Orlo 10 holes", "ORLO 10 HOLES": "Orlo 10 holes", "orlo 12": "Orlo 12 holes",
	} {
		got, err := readPattern(shop, typed)
		require.NoError(t, err)
		assert.Equal(t, want, got)
	}
	_, err := readPattern(shop, "orlo")
	assert.EqualError(t, err, `"orlo" can be Orlo 10 holes, Orlo 12 holes: write which.`)
	_, err = readPattern(shop, "kvist")
	assert.EqualError(t, err, `The shop has no hole pattern "kvist"; it has Orlo 10 holes, Orlo 12 holes.`)
	_, err = readPattern(workflow.Shop{}, "orlo")
	assert.EqualError(t, err, "The shop has no hole pattern yet: import one, or leave this empty.")

	many := workflow.Shop{}
	for _, name := range []string{"a", "b", "c", "d", "e", "f", "g", "h"} {
		many.Patterns = append(many.Patterns, &layout.Pattern{Name: name})
	}
	_, err = readPattern(many, "x")
	assert.ErrorContains(t, err, "it has a, b, c, d, e, f, 2 more.")
	_, err = readPattern(workflow.Shop{Patterns: []*layout.Pattern{{Name: "Orlo"}, {Name: "Orlo 12"}}}, "orlo")
	assert.NoError(t, err, "a whole name wins over a beginning")
}

func TestPatternAgainstTheBinding(t *testing.T) {
	tests := []struct {
		name  string
		typed []string
		want  []string
	}{
		{"none", nil, []string{}},
		{"its own", []string{"pattern", "orlo 10"}, []string{}},
		{"invented, and of another binding", []string{"pattern", "orlo 12"}, []string{
			"caution binding.pattern-invented", "stop binding.pattern-screws", "stop binding.pattern-locking",
		}},
		{"screws miscounted", []string{"pattern", "orlo 10", "screws_toe", "5"}, []string{"stop binding.pattern-screws"}},
		{"screws miscounted at the heel", []string{"pattern", "orlo 10", "screws_heel", "3"}, []string{"stop binding.pattern-screws"}},
		{"no centre screw seen", []string{"pattern", "orlo 10", "locking_screw", "no"}, []string{"stop binding.pattern-locking"}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			b := newJob(t, workflow.NewMount).upTo(Binding).change(Binding, tt.typed...)
			assert.Equal(t, tt.want, b.codes(Binding))
		})
	}
	b := newJob(t, workflow.NewMount).upTo(Binding).change(Binding, "pattern", "orlo 10", "screws_toe", "3")
	assert.Equal(t, `The hole pattern "Orlo 10 holes" has 4 holes at the toe and 4 at the heel (0 more under brake or plate), `+
		"the binding 3 and 4 screws: count them again, or take its own pattern.", b.finding("binding.pattern-screws").Text)
	b.waive("binding.pattern-screws", "one hole is not used")
}

// A pattern that left the library is missed aloud, and the job goes on by hand.
func TestPatternThatIsGone(t *testing.T) {
	b := withPattern(t, "holes", "195 18 4.1 9 open").change(MountPoint)
	assert.NotEmpty(t, b.codes(MountPoint))
	b.shop.Patterns = nil
	assert.Equal(t, []string{"caution binding.pattern-gone"}, b.codes(Binding))
	assert.Empty(t, b.codes(MountPoint))
}

func TestOldHolesAreAskedWhereThereAreSome(t *testing.T) {
	b := newJob(t, workflow.ReMount).through(Fit)
	sv, _ := b.list.View(b.shop, b.job).Step(OldHoles)
	assert.Equal(t, workflow.MarkApart, sv.Mark)
	b = newJob(t, workflow.NewMount).upTo(Skis).change(Skis, "old_holes", "yes").upTo(OldHoles)
	assert.Equal(t, "First old holes must be answered.", b.held(MountPoint))
	b.change(OldHoles)
	assert.Empty(t, b.held(MountPoint))
	assert.Equal(t, "-400 0 4.1 9 plugged", b.job.Text(OldHoles, "holes", workflow.Left))
	assert.Equal(t, "Old holes: 1 on each ski.", b.finding("old-holes.count").Text)
}

func TestOldHolesVerify(t *testing.T) {
	b := newJob(t, workflow.ReMount).upTo(Skis).change(Skis, "old_holes", "yes").upTo(OldHoles)
	former := []string{"holes", "", "former_pattern", "orlo 10", "former_sole", "318", "former_shift", "-6"}
	b.change(OldHoles, former...)
	assert.Equal(t, "Old holes: 8 on each ski.", b.finding("old-holes.count").Text)
	for i := 2; i < len(former); i += 2 {
		less := append([]string{}, former...)
		less[i+1] = ""
		r := b.refused(OldHoles, less...)
		require.Len(t, r.Fields, 1)
		assert.Equal(t, workflow.FieldID(less[i]), r.Fields[0].Field)
		assert.Equal(t, "old-holes.former", r.Fields[0].Fault.Code)
	}
	none := []string{"holes", "", "former_pattern", "", "former_sole", "", "former_shift", ""}
	assert.Equal(t, "Write the old holes down, or name the former mount by pattern, sole length and shift.", b.refused(OldHoles, none...).Error())
	assert.Equal(t, "old-holes.none", b.refused(OldHoles, append(none, "former_state", "open")...).Fields[0].Fault.Code)
	assert.Equal(t, "old-holes.former", b.refused(OldHoles, append(none, "former_state", "open", "holes.left", "1 2 4")...).Fields[0].Fault.Code)
	assert.Contains(t, b.refused(OldHoles, "holes.right", "1 2 4; 1 412 4").Error(), "The y of old hole 2 is 412 mm")
	b.change(OldHoles, append(none, "holes.left", "-400 0 4.1")...)
	assert.Equal(t, []string{"caution old-holes.one-ski"}, b.codes(OldHoles))
	assert.Equal(t, "Old holes: 1 on the left ski, 0 on the right; look at both skis once more, a pair is drilled alike.", b.finding("old-holes.one-ski").Text)
}

func TestFormerPatternThatIsGone(t *testing.T) {
	b := withPattern(t, "holes", "", "former_pattern", "orlo 12", "former_sole", "300", "former_shift", "0")
	b.shop.Patterns = b.shop.Patterns[:1]
	f := b.finding("old-holes.pattern-gone")
	require.NotNil(t, f)
	assert.True(t, f.Never)
	assert.Contains(t, b.held(MountPoint), "held at old holes")
	b.change(OldHoles, "former_pattern", "", "former_sole", "", "former_shift", "", "holes", "-400 0 4.1")
	assert.Empty(t, b.held(MountPoint))
}

// What rests on the old holes is asked again when they change, and only then.
func TestOldHolesAndPatternRests(t *testing.T) {
	tests := []struct {
		change
		stale []workflow.StepID // of those below, in order
	}{
		{change{OldHoles, []string{"holes.left", "-401 0 4.1 9 plugged"}}, []workflow.StepID{MountPoint, Holes}},
		{change{OldHoles, nil}, nil},
		{change{Skis, []string{"serial", "TN 1"}}, []workflow.StepID{OldHoles, MountPoint, Template, Bit, Holes, Screws}},
		{change{Skis, []string{"waist", "99"}}, []workflow.StepID{MountPoint}},
		{change{Binding, []string{"pattern", ""}}, []workflow.StepID{MountPoint, Template, Holes, Screws}},
		{change{Binding, []string{"pattern", "Orlo 10 holes"}}, nil},
		{change{Boots, []string{"sole", "319"}}, []workflow.StepID{MountPoint, Template}},
		{change{MountPoint, []string{"offset", "2"}}, []workflow.StepID{Template, Holes}},
	}
	for _, tt := range tests {
		b := withPattern(t, "holes", "-400 0 4.1 9 plugged").through(Screws).change(tt.step, tt.typed...)
		var stale []workflow.StepID
		for _, id := range []workflow.StepID{OldHoles, MountPoint, Template, Bit, Holes, Screws} {
			if b.stale(id) != "" {
				stale = append(stale, id)
			}
		}
		assert.Equal(t, tt.stale, stale, "%s %q", tt.step, tt.typed)
	}
	// Holes that are found later are written down, and the mount point is looked at again.
	b := withPattern(t).through(Template).change(Skis, "old_holes", "yes").change(Fit).change(OldHoles)
	assert.NotEmpty(t, b.stale(MountPoint))
	// Holes that were none after all count no more.
	b = withPattern(t, "holes", "195 18 4.1 9 open").change(MountPoint)
	assert.Equal(t, []string{"stop layout.old-hole", "caution layout.open"}, b.codes(MountPoint))
	b.change(Skis, "old_holes", "no")
	assert.Empty(t, b.codes(MountPoint))
	assert.NotEmpty(t, b.stale(MountPoint))
}
