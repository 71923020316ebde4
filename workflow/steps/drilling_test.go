package steps

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"drillstop/workflow"
)

func TestMountPoint(t *testing.T) {
	tests := []struct {
		name  string
		typed []string
		want  []string
	}{
		{"usual", nil, []string{}},
		{"1 mm apart", []string{"tail.left", "821"}, []string{}},
		{"1.1 mm apart", []string{"tail.left", "821.1"}, []string{"caution mount-point.apart"}},
		{"3 mm apart", []string{"tail.right", "823"}, []string{"caution mount-point.apart"}},
		{"3.1 mm apart", []string{"tail.right", "823.1"}, []string{"stop mount-point.unlike"}},
		{"moved by 20 mm", []string{"offset", "-20"}, []string{}},
		{"moved by more", []string{"offset", "-20.5"}, []string{"caution mount-point.offset"}},
		// 35 to 60 % of 1780 mm are 623 to 1068 mm.
		{"as far back as is likely", []string{"tail", "623"}, []string{}},
		{"as far forward as is likely", []string{"tail", "1068"}, []string{}},
		{"too far back", []string{"tail", "600"}, []string{"caution mount-point.unlikely", "caution mount-point.unlikely"}},
		{"too far forward", []string{"tail", "1400"}, []string{"caution mount-point.unlikely", "caution mount-point.unlikely"}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			b := newJob(t, workflow.NewMount).upTo(MountPoint).change(MountPoint, tt.typed...)
			assert.Equal(t, tt.want, b.codes(MountPoint))
		})
	}
	b := newJob(t, workflow.NewMount).upTo(MountPoint)
	assert.Contains(t, b.refused(MountPoint, "offset", "61").Error(), "outside -60 to 60 mm")
	assert.Contains(t, b.refused(MountPoint, "aligned.left", "").Error(), "look, then confirm")
}

func TestMountPointAgainstTheSki(t *testing.T) {
	b := newJob(t, workflow.NewMount).upTo(Skis).change(Skis, "marks.right", "no").upTo(MountPoint).change(MountPoint)
	f := b.finding("mount-point.no-mark")
	require.NotNil(t, f)
	assert.Equal(t, workflow.Right, f.Side)
	b.change(MountPoint, "reference", "chord centre")
	assert.Empty(t, b.codes(MountPoint))

	b = newJob(t, workflow.NewMount).upTo(Skis).change(Skis, "length", "80 cm").upTo(MountPoint).change(MountPoint)
	f = b.finding("mount-point.beyond")
	require.NotNil(t, f)
	assert.Equal(t, "Left ski: 820 mm from the tail lies beyond the tip of a ski of 800 mm: measure again; 280 to 480 mm is likely.", f.Text)
}

func TestTemplate(t *testing.T) {
	b := newJob(t, workflow.NewMount).upTo(Template).change(Template)
	assert.Empty(t, b.codes(Template))
	assert.Empty(t, b.change(Template, "sole_set", "319").codes(Template))
	assert.Equal(t, []string{"stop template.sole"}, b.change(Template, "sole_set", "316.9").codes(Template))
	b.change(Template, "sole_set", "308")
	f := b.finding("template.sole")
	require.NotNil(t, f)
	assert.Equal(t, "The template is set to 308 mm, the boot sole is 318 mm long: set it within 1 mm of both boots before the first hole.", f.Text)
	assert.True(t, f.Never)
	assert.Contains(t, b.held(Bit), "held at template in place")
	assert.Contains(t, b.refused(Template, "sole_set", "27.5").Error(), "shell size")
	assert.Contains(t, b.refused(Template, "clamped.right", "").Error(), "Clamped, does not shift")

	b = newJob(t, workflow.NewMount).upTo(Boots).change(Boots, "sole.right", "316").through(Template)
	f = b.finding("template.sole")
	assert.Equal(t, workflow.Right, f.Side)
	assert.Empty(t, b.change(Template, "sole_set", "317").codes(Template), "between two boots that are 2 mm apart")
}

func TestTemplateSuggestsTheSole(t *testing.T) {
	s, _ := newJob(t, workflow.NewMount).list.Step(Template)
	f, _ := s.Field("sole_set")
	b := newJob(t, workflow.NewMount).through(Boots)
	assert.Equal(t, "318 mm", f.Suggest(b.shop, b.job, workflow.Both))
}

func TestBit(t *testing.T) {
	tests := []struct {
		name  string
		typed []string
		want  []string
	}{
		{"usual", nil, []string{}},
		{"3.6 does for 3.5", []string{"bit", "3.6"}, []string{}},
		{"the bit for metal", []string{"bit", "4.1"}, []string{"stop bore.bit-wide"}},
		{"too narrow", []string{"bit", "3.2"}, []string{"stop bore.bit-narrow"}},
		{"stop within 0.3 mm", []string{"stop", "9.3"}, []string{}},
		{"stop too deep", []string{"stop", "9.4"}, []string{"stop bore.stop-deep"}},
		{"stop too shallow", []string{"stop", "8.6"}, []string{"stop bore.stop-shallow"}},
		{"stop through the thinner place", []string{"stop", "13.8"}, []string{"stop bore.stop-through"}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			b := newJob(t, workflow.NewMount).upTo(Bit).change(Bit, tt.typed...)
			assert.Equal(t, tt.want, b.codes(Bit))
		})
	}
	b := newJob(t, workflow.NewMount).through(Bit)
	a, _ := b.job.Answered(Bit)
	assert.Len(t, a.Figures, 2, "bit and stop stand large")
	assert.Contains(t, b.refused(Bit, "eyes", "").Error(), "Eye protection on")
}

func TestTapIsAskedWhereAThreadIsCut(t *testing.T) {
	b := newJob(t, workflow.NewMount).through(Clean)
	_, asked := b.job.Answers(Clean)["tapped.left"]
	assert.False(t, asked, "wood is not tapped")

	b = newJob(t, workflow.NewMount).upTo(Skis).change(Skis, "construction", "metal", "marked", "").
		upTo(Bit).change(Bit, "bit", "4.1").upTo(Clean)
	assert.Contains(t, b.refused(Clean, "tapped", "").Error(), "Every hole tapped")
	b.change(Clean)
	assert.True(t, b.job.Is(Clean, "tapped", workflow.Right, workflow.Yes))
}

func TestHoles(t *testing.T) {
	tests := []struct {
		name  string
		typed []string
		want  []string
	}{
		{"one depth for all", nil, []string{}},
		{"one for each", []string{"depth", "9; 9.1; 9; 8.9; 9; 9; 9.2; 9"}, []string{}},
		{"one missing", []string{"drilled.left", "7"}, []string{"stop holes.count"}},
		{"one too many on both", []string{"drilled", "9"}, []string{"stop holes.count", "stop holes.count"}},
		{"all a little deep", []string{"depth.left", "9.4"}, []string{"caution bore.deep"}},
		{"all too deep", []string{"depth", "9.6"}, []string{"stop bore.deep", "stop bore.deep"}},
		{"one too shallow", []string{"depth.right", "9; 9; 9; 9; 9; 9; 8.4; 9"}, []string{"stop bore.shallow"}},
		{"shallow until the screw meets its bottom", []string{"depth.right", "7.6"}, []string{"stop bore.shallow", "stop bore.bottoms"}},
		// 14.2 mm at the toe, 13.6 mm at the heel: the same depth is through at one of them only.
		{"through at the heel", []string{"depth.left", "9; 9; 9; 9; 13.6; 9; 9; 9"}, []string{"stop bore.through"}},
		{"not through at the toe", []string{"depth.left", "13.6; 9; 9; 9; 9; 9; 9; 9"}, []string{"stop bore.deep", "stop bore.thin"}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			b := newJob(t, workflow.NewMount).upTo(Holes).change(Holes, tt.typed...)
			assert.Equal(t, tt.want, b.codes(Holes))
		})
	}
}

func TestNobodyWaivesAMissingHole(t *testing.T) {
	b := newJob(t, workflow.NewMount).upTo(Holes).change(Holes, "drilled.left", "7")
	assert.True(t, b.finding("holes.count").Never)
	b.change(Holes, "drilled.left", "9")
	assert.False(t, b.finding("holes.count").Never)
}

func TestHolesAreNamed(t *testing.T) {
	b := newJob(t, workflow.NewMount).upTo(Holes).change(Holes, "depth.right", "9; 9.7; 9; 9; 9.7; 9; 9; 9")
	f := b.finding("bore.deep")
	require.NotNil(t, f)
	assert.Equal(t, workflow.Right, f.Side)
	assert.Equal(t, "Right ski, hole 2, hole 5: The hole is gauged 9.7 mm deep, 0.7 mm more than the planned 9 mm: "+
		"set the stop again before the next hole; whether this one may stay is for a supervisor to say.", f.Text)
	assert.False(t, f.Never)
	assert.Empty(t, b.waive("bore.deep", "measured under the hole").held(Clean))

	b.change(Holes, "depth.right", "9; 9; 9; 9; 14; 9; 9; 9")
	f = b.finding("bore.through")
	require.NotNil(t, f)
	assert.True(t, f.Never, "nobody waives a hole through the base")
	assert.Contains(t, f.Text, "hole 5")
}

func TestHolesRefuseDepthsThatDoNotMatch(t *testing.T) {
	b := newJob(t, workflow.NewMount).upTo(Holes)
	r := b.refused(Holes, "depth.left", "9; 9")
	require.Len(t, r.Fields, 1)
	assert.Equal(t, workflow.Left, r.Fields[0].Side)
	assert.Equal(t, "Left ski: 2 depths for 8 holes: give one that holds for all, or one for each.", r.Error())
	assert.Len(t, b.refused(Holes, "drilled", "-1").Fields, 2)
	assert.Len(t, b.refused(Holes, "depth.right", "41").Fields, 1)
}

// What the hands did on the ski rests on what was known of it.
func TestLayoutAndDrillingBecomeStale(t *testing.T) {
	tests := []struct {
		change
		stale []workflow.StepID // of those below, in order
	}{
		{change{Skier, []string{"mass", "73"}}, nil},
		{change{Boots, []string{"sole", "319"}}, []workflow.StepID{MountPoint, Template}},
		{change{Boots, []string{"shell", "28"}}, nil},
		{change{Skis, []string{"length", "179"}}, []workflow.StepID{MountPoint, Template, Bit, Holes, Clean}},
		{change{Skis, []string{"thickness_toe.left", "14"}}, []workflow.StepID{Bit, Holes}},
		{change{Skis, []string{"marked", "3.6 x 9"}}, []workflow.StepID{Bit, Holes, Clean}},
		{change{Binding, []string{"name", "Orlo 12"}}, []workflow.StepID{MountPoint, Template, Holes}},
		{change{Binding, []string{"screws_heel", "5"}}, []workflow.StepID{Holes}},
		{change{Binding, []string{"bite_toe", "7"}}, []workflow.StepID{Bit, Holes}},
		{change{MountPoint, []string{"tail.left", "821"}}, []workflow.StepID{Template, Holes}},
		{change{Bit, []string{"stop", "9.1"}}, []workflow.StepID{Holes}},
		{change{Holes, []string{"depth.left", "9.1"}}, []workflow.StepID{Clean}},
		{change{Holes, nil}, nil},
	}
	for _, tt := range tests {
		b := newJob(t, workflow.NewMount).through(Clean).change(tt.step, tt.typed...)
		var stale []workflow.StepID
		for _, id := range []workflow.StepID{MountPoint, Template, Bit, Holes, Clean} {
			if b.stale(id) != "" {
				stale = append(stale, id)
			}
		}
		assert.Equal(t, tt.stale, stale, "%s %q", tt.step, tt.typed)
	}
}

func TestTemplateSetAnewMakesHolesStale(t *testing.T) {
	b := newJob(t, workflow.NewMount).through(Holes).change(Boots, "sole", "320").upTo(Template).change(Template, "sole_set", "320")
	assert.Equal(t, "the template was set anew after the holes were drilled", b.stale(Holes))
}
