package steps

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"drillstop/calc/layout"
	"drillstop/workflow"
)

// The old hole lies 6 mm in front of hole 2 (189, 18). Moved by s, hole 2 is
// |s - 6| away: it clears from 10 mm on, for s <= -4 and s >= 16, and uses the
// old hole again within 0.5 mm, for 5.5 <= s <= 6.5. The old hole is 36 mm
// beside hole 3 and everything else is farther away.
const sixAhead = "195 18 3.5 9 open"

func TestMountPointNamesTheClash(t *testing.T) {
	b := withPattern(t, "holes.left", sixAhead, "holes.right", "-400 0 4.1 9 plugged").change(MountPoint)
	assert.Equal(t, []string{"stop layout.old-hole", "caution layout.open"}, b.codes(MountPoint))
	f := b.finding("layout.old-hole")
	assert.Equal(t, "Hole 2 left lies 6.0 mm from old hole 1 (needs 10.0 mm). Shift 0 mm; nearest clear: 4.0 mm back, or 5.5 mm forward.", f.Text)
	assert.Equal(t, workflow.Left, f.Side)
	assert.False(t, f.Never)
	assert.Contains(t, b.held(Template), "held at mount point")
	assert.Empty(t, b.waive("layout.old-hole", "the old hole is an insert").held(Template))

	// A waiver is good for one place: 6 mm away on the other side is another stop.
	b.change(MountPoint, "offset", "12")
	assert.Equal(t, "Hole 2 left lies 6.0 mm from old hole 1 (needs 10.0 mm). Shift 12.0 mm forward; nearest clear: 16.0 mm forward, or 6.5 mm forward.",
		b.finding("layout.old-hole").Text)
	assert.Contains(t, b.held(Template), "held at mount point")

	for offset, want := range map[string][]string{
		"-4": {"caution layout.open"}, "-3.9": {"stop layout.old-hole", "caution layout.open"}, "6": {}, "16": {"caution layout.open"},
	} {
		assert.Equal(t, want, b.change(MountPoint, "offset", offset).codes(MountPoint), offset)
	}
	assert.Equal(t, "1 old hole on the left ski is used again: look at the wood in it before it holds a screw.", noteOf(b.change(MountPoint, "offset", "6"), "layout.re-used"))
}

func noteOf(b *bench, code string) string {
	if f := b.finding(code); f != nil {
		return f.Text
	}
	return ""
}

func TestEveryHoleOfAClashIsNamedOnce(t *testing.T) {
	b := withPattern(t, "holes", "", "former_pattern", "orlo 10", "former_sole", "318", "former_shift", "7").change(MountPoint)
	assert.Equal(t, []string{"stop layout.old-hole", "caution layout.open"}, b.codes(MountPoint), "once for both skis")
	assert.Equal(t, workflow.Both, b.finding("layout.old-hole").Side)
	assert.Equal(t, "8 old holes on each ski are open and not used again: plug them before drilling.", b.finding("layout.open").Text)
	assert.Equal(t, "Hole 1 of both skis lies 7.0 mm from old hole 1 (needs 10.0 mm). So do holes 2, 3, 4, 5, 6, 7 and 8. "+
		"Shift 0 mm; nearest clear: 3.0 mm back, or 6.5 mm forward.", b.finding("layout.old-hole").Text)
	// On the former place every hole is used again.
	assert.Empty(t, b.change(MountPoint, "offset", "7").codes(MountPoint))
}

func TestNoShiftClears(t *testing.T) {
	// Each of these blocks 20 mm of shifts for hole 1, at 124 on the mark.
	b := withPattern(t, "holes", "107 3 6 9 plugged; 124 3 6 9 plugged; 141 3 6 9 plugged").change(MountPoint)
	f := b.finding("layout.blocked")
	require.NotNil(t, f)
	assert.Contains(t, f.Text, "No shift of -20.0 to 20.0 mm clears. From 20.0 mm back to ")
	assert.Contains(t, f.Text, "hole 1 left lies too near to old hole 1; From ")
	assert.NotContains(t, b.finding("layout.old-hole").Text, "nearest clear")
	assert.Equal(t, "none within -20.0 to 20.0 mm", figureOf(b, MountPoint, "nearest_clear_shift"))
}

func figureOf(b *bench, step workflow.StepID, name string) string {
	a, _ := b.job.Answered(step)
	for _, f := range a.Figures {
		if f.Name == name {
			return f.Value
		}
	}
	return ""
}

func TestPiecesOfTheBinding(t *testing.T) {
	// The toe reaches 80 mm back from the boot's toe, the heel 62 mm forward from
	// its heel: far apart with any sole. The template of the toe begins at 260 mm.
	b := newJob(t, workflow.NewMount).upTo(Boots).change(Boots, "sole", "256", "shell", "").upTo(Binding).
		change(Binding, "pattern", "orlo 10", "sole_min", "240", "track_min", "240").upTo(MountPoint).change(MountPoint)
	assert.Contains(t, b.codes(MountPoint), "stop layout.sole-range")
	f := b.finding("layout.sole-range")
	assert.Equal(t, "A sole of 256 mm is beyond the toe: its template takes 260 mm to 380 mm.", f.Text)
	assert.False(t, f.Never)

	// A ski of 50 mm: hole 2 lies 18 mm beside the middle, 7 mm from the edge.
	b = newJob(t, workflow.NewMount).upTo(Skis).change(Skis, "waist", "50").upTo(Binding).
		change(Binding, "pattern", "orlo 10", "brake", "65").upTo(MountPoint).change(MountPoint)
	f = b.finding("layout.edge")
	require.NotNil(t, f)
	assert.Equal(t, "Hole 2 of both skis lies 7.0 mm from the edge (needs 8.0 mm). So does hole 3.", f.Text)
}

// A toe and a heel that stand on each other hold no boot: nobody waives that.
func TestOverlapIsNeverWaived(t *testing.T) {
	b := withPattern(t)
	long := *b.shop.Patterns[0]
	long.Pieces = append([]layout.Piece{}, long.Pieces...)
	long.Pieces[0].From = -300
	b.shop.Patterns = []*layout.Pattern{&long}
	b.change(MountPoint)
	f := b.finding("layout.overlap")
	require.NotNil(t, f)
	assert.Equal(t, "Toe and heel piece overlap by 44.0 mm with a sole of 318 mm.", f.Text)
	assert.True(t, f.Never)
}

func TestMountPointFigures(t *testing.T) {
	b := withPattern(t, "holes", sixAhead)
	s, _ := b.list.Step(MountPoint)
	figures := s.Figures(b.shop, b.job) // before the answer: on the mark
	var said []string
	for _, f := range figures {
		said = append(said, f.Name+": "+f.Value)
	}
	// The heel is drilled for 318 mm: 12 mm forward for a shorter boot, 10 mm
	// back for a longer one.
	assert.Equal(t, []string{
		"pattern: Orlo 10 holes", "shift: 0 mm", "heel_track: 12 mm forward, 10 mm back",
		"other_boots: 306 to 328 mm", "nearest_clear_shift: 4.0 mm back, or 5.5 mm forward",
	}, said)
	b.change(MountPoint, "offset", "-0.55 cm")
	assert.Equal(t, "-5.5 mm", b.job.Text(MountPoint, "offset", workflow.Both))
	assert.Equal(t, "5.5 mm back (0.55 cm)", figureOf(b, MountPoint, "shift"))
	assert.Equal(t, "5.5 mm back", figureOf(b, MountPoint, "nearest_clear_shift"), "the present one clears")
	assert.Empty(t, newJob(t, workflow.NewMount).through(MountPoint).job.Answers(MountPoint)["pattern"])
	none, _ := newJob(t, workflow.NewMount).through(MountPoint).job.Answered(MountPoint)
	assert.Empty(t, none.Figures, "without a pattern all stays as it was")
}

func TestUnlikeMarksSayWhatToDo(t *testing.T) {
	b := withPattern(t).change(MountPoint, "tail.left", "822")
	assert.Equal(t, []string{"caution mount-point.apart"}, b.codes(MountPoint))
	assert.Equal(t, "The mount points lie 822 mm from the tail on the left ski, 820 mm on the right: better within 1 mm. "+
		"As it is, the left boot would sit 1.0 mm forward of the middle of both, the right 1.0 mm back. "+
		"If it stays so, mount the left ski 1.0 mm back of its mark, the right 1.0 mm forward.", b.finding("mount-point.apart").Text)
	b.change(MountPoint, "tail.left", "824")
	assert.Contains(t, b.finding("mount-point.unlike").Text, "measure both again. As it is, the left boot would sit 2.0 mm forward")
	assert.NotContains(t, b.finding("mount-point.unlike").Text, "If it stays")
}

func TestChord(t *testing.T) {
	// Half of 1650 is 825, moved by -5 it is 820.
	b := newJob(t, workflow.NewMount).upTo(MountPoint).change(MountPoint, "reference", "chord centre", "chord", "165 cm", "offset", "-5")
	assert.Empty(t, b.codes(MountPoint))
	assert.Equal(t, "820 mm", figureOf(b, MountPoint, "mount_from_tail"))
	a, _ := b.job.Answered(MountPoint)
	assert.Equal(t, "820 mm from the tail, 0.5 cm back of the middle", a.Figures[0].Path)
	assert.Equal(t, []string{"caution mount-point.chord", "caution mount-point.chord"}, b.change(MountPoint, "chord", "1654").codes(MountPoint))
	assert.Equal(t, []string{"stop mount-point.chord"}, b.change(MountPoint, "chord", "1650", "chord.right", "1657").codes(MountPoint))
	assert.Equal(t, "Right ski: by its chord the mount point lies 823.5 mm from the tail, measured were 820 mm: they may differ by 3 mm at most; measure both again.",
		b.finding("mount-point.chord").Text)
	assert.Empty(t, b.change(MountPoint, "reference", "mark").codes(MountPoint), "from a mark the chord says nothing")
	assert.Contains(t, b.refused(MountPoint, "chord", "165").Error(), "outside 600 to 2300 mm")
}

func TestOldHolesAndMountPointHaveOneOrigin(t *testing.T) {
	b := withPattern(t, "holes", "-400 0 4.1 9 plugged").change(MountPoint, "reference", "chord centre")
	assert.Equal(t, []string{"stop layout.origin"}, b.codes(MountPoint))
	b.change(Skis, "marks", "no")
	assert.Equal(t, []string{"caution layout.origin"}, b.codes(MountPoint))
}

func TestUnlikeSolesAreSaid(t *testing.T) {
	b := newJob(t, workflow.NewMount).upTo(Boots).change(Boots, "sole.right", "317").upTo(Binding).
		change(Binding, "pattern", "orlo 10").upTo(MountPoint).change(MountPoint)
	assert.Equal(t, "The boot soles are 318 mm and 317 mm long: the holes of both skis are laid out for 318 mm.", b.finding("layout.soles").Text)
}

// The map shows what is typed, before it is kept.
func TestMaps(t *testing.T) {
	b := withPattern(t, "holes", sixAhead)
	maps := func(id workflow.StepID, typed workflow.Answers) (layout.Spec, bool) {
		s, _ := b.list.Step(id)
		require.NotNil(t, s.Map, "%s", id)
		return s.Map(b.shop, b.job, typed)
	}
	spec, ok := maps(MountPoint, workflow.Answers{})
	require.True(t, ok)
	assert.Equal(t, layout.Mount{Sole: 318}, spec.Mount)
	assert.Equal(t, layout.Bit{Diameter: 3.5, Depth: 9}, spec.Bit)
	assert.Equal(t, layout.DefaultRules(), spec.Rules)
	assert.Len(t, spec.Left.Old, 1)
	spec, _ = maps(MountPoint, workflow.Answers{"offset": "-4 mm"})
	assert.InDelta(t, -4, float64(spec.Mount.Shift), 0)
	spec, _ = maps(OldHoles, workflow.Answers{"holes.right": "1 2 4.1 open; 3 4 4.1 open"})
	assert.Empty(t, spec.Left.Old)
	assert.Len(t, spec.Right.Old, 2)
	_, ok = maps(Bit, nil)
	assert.False(t, ok, "nothing is drilled before the mount point is kept")

	b.change(MountPoint, "offset", "-4").change(Template, "sole_set", "318.5")
	for _, id := range []workflow.StepID{Bit, Holes} {
		spec, ok = maps(id, nil)
		require.True(t, ok)
		assert.Equal(t, layout.Mount{Sole: 318.5, Shift: -4}, spec.Mount, "as the template is set")
	}
	b.shop.Rules = layout.Rules{Apart: 12, Same: 0.4, Wider: 0.1, Edge: 9}
	spec, _ = maps(MountPoint, nil)
	assert.Equal(t, b.shop.Rules, spec.Rules)
	b.shop.Patterns = nil
	_, ok = maps(MountPoint, nil)
	assert.False(t, ok)
	b = newJob(t, workflow.NewMount).through(Fit)
	_, ok = maps(MountPoint, nil)
	assert.False(t, ok, "no pattern was named")
}

// Holes are counted by the pattern, less those that are used again.
func TestHolesOfThePattern(t *testing.T) {
	b := withPattern(t).upTo(Holes).change(Holes, "drilled.left", "7")
	assert.Equal(t, "Left ski: 7 holes drilled, the pattern wants 8 (toe 4, the rest 4): drill what is missing, plug what is too many.",
		b.finding("holes.count").Text)
	assert.Equal(t, "8 on each ski", figureOf(b, Holes, "holes"))
	a, _ := b.job.Answered(Holes)
	assert.Equal(t, "toe 1 to 4 (1 first, to lock it), heel 5 to 8", a.Figures[0].Path)

	again := withPattern(t, "holes.left", "189 18 3.5 9 open", "holes.right", "-400 0 4 plugged").upTo(Holes).change(Holes)
	assert.Equal(t, "Left ski: 8 holes drilled, the pattern wants 7 new ones (toe 3, the rest 4) and uses 1 old ones again: drill what is missing, plug what is too many.",
		again.finding("holes.count").Text)
	again.change(Holes, "drilled.left", "7").upTo(Glue)
	assert.Empty(t, again.codes(Holes))
	a, _ = again.job.Answered(Holes)
	assert.Equal(t, "7 on the left ski, 8 on the right", a.Figures[0].Value)
	assert.Equal(t, "toe 1 to 4 (1 first, to lock it), heel 5 to 8; left used again: 2", a.Figures[0].Path)
	again.change(Glue, "holes.left", "7")
	assert.Equal(t, "Left ski: 7 holes glued, 7 drilled and 1 used again: every hole gets glue before its screw.", again.finding("glue.count").Text)
	again.change(Glue, "holes.left", "8").change(Screws, "driven.left", "7")
	assert.Equal(t, "Left ski: 7 screws driven, 7 holes drilled and 1 used again: every hole holds a screw.", again.finding("screws.count").Text)
	assert.Empty(t, again.change(Screws, "driven.left", "8").codes(Screws))
	assert.Equal(t, "8 on each ski", figureOf(again, Screws, "screws"))
}

func TestPatternThatLocksIsRemembered(t *testing.T) {
	b := newJob(t, workflow.NewMount).upTo(Binding).change(Binding, "pattern", "orlo 10", "locking_screw", "no").
		waive("binding.pattern-locking", "hidden under a cap").through(Screws)
	assert.Equal(t, []string{"caution screws.locking"}, b.codes(Screws))
}

// The sentence offers what the layout itself calls clear, wherever the old
// holes lie; and what it calls clear has no clash.
func TestOfferedShiftsClear(t *testing.T) {
	base := withPattern(t, "holes", sixAhead)
	rapid.Check(t, func(r *rapid.T) {
		b := *base
		var holes []layout.OldHole
		for range rapid.IntRange(1, 12).Draw(r, "holes") {
			holes = append(holes, layout.OldHole{
				X: mmOf(rapid.IntRange(-240, 240).Draw(r, "x")), Y: mmOf(rapid.IntRange(-30, 30).Draw(r, "y")), Diameter: 4,
			})
		}
		list := printHoleList(together(b.shop, nil, holes))
		b.entries = nil
		b.change(OldHoles, "holes", list).change(MountPoint, "offset", rapid.SampledFrom([]string{"0", "-3.5", "12", "30"}).Draw(r, "offset"))
		spec, ok := mountSpec(b.shop, b.job)
		require.True(r, ok)
		plan, err := spec.Plan()
		require.NoError(r, err)
		stop := false
		for _, code := range b.codes(MountPoint) {
			stop = stop || code == "stop layout.old-hole" || code == "stop layout.wide-hole"
		}
		require.Equal(r, !plan.Clear(), stop)
		shifts, err := spec.Shifts(shiftWindow(spec.Mount.Shift))
		require.NoError(r, err)
		offer, some := shifts.Nearest(spec.Mount.Shift)
		require.Equal(r, some, nearestClear(shifts, spec.Mount.Shift) != "")
		require.Equal(r, !some, b.finding("layout.blocked") != nil)
		if some {
			spec.Mount.Shift = offer
			plan, err = spec.Plan()
			require.NoError(r, err)
			require.True(r, plan.Clear())
		}
	})
}
