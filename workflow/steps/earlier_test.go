package steps

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"drillstop/calc/layout"
	"drillstop/workflow"
)

// A re-mount with old holes 6 mm in front of every new one: it stops, is moved
// to the nearest shift that clears, 10 mm behind them, and is handed over.
func TestRemountClashIsShiftedAndHandedOver(t *testing.T) {
	p := playSheet(t, "remount_clash.json")
	require.Equal(t, []string{
		"skier", "boots", "skis caution skis.old-holes", "binding caution binding.pattern-invented", "fit", "old-holes",
		"mount-point stop layout.old-hole",
		"template held",
		"mount-point", "template", "bit", "holes", "clean", "glue", "screws", "brake",
		"sole-length", "toe-height", "forward-pressure", "release-value", "release-test", "recentering", "last-look", "hand-over",
	}, p.told())
	require.Equal(t, "Hole 1 of both skis lies 6.0 mm from old hole 1 (needs 10.0 mm). So do holes 2, 3, 4, 5, 6 and 7. "+
		"Shift 0 mm; nearest clear: 4.0 mm back, or 5.5 mm forward.", p.text(t, 7, "layout.old-hole"))
	require.Equal(t, workflow.Finished, p.Job.State)
	require.Empty(t, p.Refused)
	require.Equal(t, "-4 mm", p.Job.Text(MountPoint, "offset", workflow.Both))
	holes, _ := p.Job.Answered(Holes)
	require.Equal(t, "7 on each ski", holes.Figures[0].Value)
	require.True(t, strings.HasPrefix(holes.Figures[0].Record, "187 0 3.5 9 open; 131 19 3.5 9 open; "), holes.Figures[0].Record)
}

// later opens another job at the desk of a sheet that was played, on a ski as
// the sheet has it but for these answers.
func (p played) later(t *testing.T, changes map[string]string) workflow.Job {
	t.Helper()
	job, err := p.desk.NewJob(t.Context(), workflow.ReMount, "")
	require.NoError(t, err)
	for _, row := range readSheet(t, "remount_clash.json").Steps[:5] {
		typed := workflow.Answers(row.Answers)
		for key, value := range changes {
			if key, ok := strings.CutPrefix(key, string(row.Step)+"."); ok {
				typed[key] = value
			}
		}
		job, err = p.desk.Answer(t.Context(), job, row.Step, typed)
		require.NoError(t, err)
	}
	return job
}

// The next job on the pair finds all 14 holes of each ski, as they were drilled.
func TestHolesAreTakenOverFromAnEarlierJob(t *testing.T) {
	p := playSheet(t, "remount_clash.json")
	job := p.later(t, map[string]string{"skier.name": "Runa Solbakk"}) // it was sold since
	cards, err := p.desk.Cards(t.Context(), workflow.HolesCard, job)
	require.NoError(t, err)
	require.Len(t, cards, 1)
	assert.Equal(t, "T-0001", cards[0].Name)
	assert.Equal(t, workflow.HolesCard, cards[0].Kind)
	assert.Equal(t, "Tarn 98 / 178, Jonas Ekrem, 2026-11-25: 14 on each ski", cards[0].About)
	job, err = p.desk.Answer(t.Context(), job, OldHoles, cards[0].Answers)
	require.NoError(t, err)
	holes, err := parseHoleList(job.Text(OldHoles, "holes", workflow.Left))
	require.NoError(t, err)
	assert.Len(t, holes, 14)
	assert.Equal(t, layout.OldHole{X: 187, Diameter: 3.5, Depth: 9}, holes[0], "hole 1 at 191, 4 mm back, and open")
	assert.Equal(t, layout.OldHole{X: 197, Diameter: 3.5, Depth: 9, Plugged: true}, holes[7])

	spec, ok := p.desk.Map(job, MountPoint, workflow.Answers{"offset": "-4", "tail.left": "no number"})
	require.True(t, ok)
	plan, err := spec.Plan()
	require.NoError(t, err)
	assert.True(t, plan.Clear(), "on the place of the earlier mount every hole is used again")
	assert.Equal(t, 7, reusedHoles(plan, layout.Left))
	_, ok = p.desk.Map(job, Skier, nil)
	assert.False(t, ok, "it has no picture")

	// An answer sheet names the card by its ticket.
	again, err := p.desk.Play(t.Context(), withCard(t, "T-0001"))
	require.NoError(t, err)
	assert.Empty(t, again.Refused)
	assert.Equal(t, job.Text(OldHoles, "holes", workflow.Right), again.Job.Text(OldHoles, "holes", workflow.Right))
	again, err = p.desk.Play(t.Context(), withCard(t, "T-0099"))
	require.NoError(t, err)
	assert.Equal(t, []workflow.StepID{OldHoles}, again.Refused)
	assert.Equal(t, `There is no job "T-0099" on the same pair of skis whose holes are known.`, again.Events[5].Refusal.Error())
}

func withCard(t *testing.T, card string) workflow.Sheet {
	t.Helper()
	sheet := readSheet(t, "remount_clash.json")
	sheet.Steps = sheet.Steps[:6]
	sheet.Steps[5].Answers, sheet.Steps[5].Card = nil, card
	return sheet
}

func TestOnlyTheSamePairHasTheHoles(t *testing.T) {
	for name, c := range map[string]struct {
		changes map[string]string
		cards   int
	}{
		"the same serial":                      {nil, 1},
		"another serial":                       {map[string]string{"skis.serial": "TN-9999"}, 0},
		"no serial, the skier's ski":           {map[string]string{"skis.serial": ""}, 1},
		"no serial, another ski of the skier":  {map[string]string{"skis.serial": "", "skis.name": "Vidde 88"}, 0},
		"no serial, the same ski of another":   {map[string]string{"skis.serial": "", "skier.name": "Runa Solbakk"}, 0},
		"the serial in another way of writing": {map[string]string{"skis.serial": "tn-1907"}, 1},
	} {
		p := playSheet(t, "remount_clash.json")
		cards, err := p.desk.Cards(t.Context(), workflow.HolesCard, p.later(t, c.changes))
		require.NoError(t, err)
		assert.Len(t, cards, c.cards, name)
	}
}

// What was drilled is what the record says, whatever the pattern is today.
func TestEarlierHolesAreThoseOfTheRecord(t *testing.T) {
	drilled := withPattern(t).through(Holes)
	next := withPattern(t).job
	card, ok := holesOfEarlier(drilled.shop, next, drilled.job, drilled.entries)
	require.True(t, ok)
	assert.True(t, strings.HasPrefix(card.Answers["holes.left"], "124 0 3.5 9 open; 189 18 3.5 9 open; "), card.Answers["holes.left"])

	moved := *drilled.shop.Patterns[0]
	moved.Pieces = append([]layout.Piece{}, moved.Pieces...)
	moved.Pieces[1].Anchor, moved.Pieces[1].TrackSole = layout.BootMidsole, 318
	shop := drilled.shop
	for _, patterns := range [][]*layout.Pattern{{&moved}, nil} {
		shop.Patterns = patterns
		same, ok := holesOfEarlier(shop, next, drilled.job, drilled.entries)
		require.True(t, ok)
		assert.Equal(t, card, same)
	}
	// A record of an older program holds no places: they are computed.
	same, ok := holesOfEarlier(drilled.shop, next, drilled.job, nil)
	require.True(t, ok)
	assert.Equal(t, card, same)
	_, ok = holesOfEarlier(shop, next, drilled.job, nil)
	assert.False(t, ok)
}

func TestEarlierHolesOfAJobThatDidNotDrill(t *testing.T) {
	next := withPattern(t)
	b := withPattern(t, "holes.left", "-400 0 4.1", "holes.right", "").change(MountPoint)
	found, ok := holesOfEarlier(b.shop, next.job, b.job, b.entries)
	require.True(t, ok)
	assert.Equal(t, workflow.Answers{"holes.left": "-400 0 4.1 open"}, found.Answers)
	assert.Contains(t, found.About, "1 on the left ski, 0 on the right")
	b = withPattern(t).change(MountPoint)
	_, ok = holesOfEarlier(b.shop, next.job, b.job, b.entries)
	assert.False(t, ok, "it found nothing and left nothing")

	// Half of the holes is worse than none.
	b = withPattern(t, "holes.left", "-400 0 4.1", "former_pattern", "orlo 12", "former_sole", "300", "former_shift", "0")
	_, ok = holesOfEarlier(b.shop, next.job, b.job, b.entries)
	assert.True(t, ok)
	b.shop.Patterns = nil
	_, ok = holesOfEarlier(b.shop, next.job, b.job, b.entries)
	assert.False(t, ok)
}

func TestEarlierHolesStandOnceAndAllOfThem(t *testing.T) {
	next := withPattern(t)
	left := func(b *bench) int {
		card, ok := holesOfEarlier(b.shop, next.job, b.job, b.entries)
		require.True(t, ok)
		return strings.Count(card.Answers["holes.left"], ";") + 1
	}
	b := withPattern(t, "holes", "189.3 18 3.5 9 open").upTo(Holes).change(Holes, "drilled", "7")
	assert.Equal(t, 8, left(b), "one was used again")

	b = withPattern(t).through(Holes).change(Holes, "depth", "9.1")
	assert.Equal(t, 8, left(b), "gauged again, not drilled again")
	b.change(MountPoint, "offset", "11").change(Template).change(Bit).change(Holes)
	assert.Equal(t, 16, left(b), "drilled again, 11 mm ahead")
	b.change(Skis, "length", "179").upTo(Holes).change(Holes)
	assert.Equal(t, 8, left(b), "the others are in another pair")
}

func TestHolesAreNoCardOfTheLibrary(t *testing.T) {
	p := playSheet(t, "remount_clash.json")
	err := p.desk.SaveCard(t.Context(), workflow.Card{Kind: workflow.HolesCard, Name: "mine"})
	assert.ErrorContains(t, err, "Holes belong to one pair")
}
