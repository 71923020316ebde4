package steps

import (
	"maps"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"drillstop/calc"
	"drillstop/workflow"
)

// oddTexts are what hands type, scanners send and sheets hold, right and wrong.
func oddTexts() *rapid.Generator[string] {
	return rapid.OneOf(
		rapid.SampledFrom([]string{
			"", "0", "-1", "1", "2", "4", "8", "9", "9.0", "14,2", "27.5", "60", "98", "105", "250", "275", "318", "318 mm", "400",
			"1e9", "NaN", "yes", "no", "none", "higher", "lower", "I", "III", "pin", "hybrid", "system track", "frame", "metal", "junior",
			"ISO 9523", "ISO 5355 C", "damaged", "worn", "stuck", "drags", "rattles", "too little", "adjustable", "fixed", "automatic",
			"9; 9; 9; 9; 9; 9; 9; 9", "49 51 52", "4.1 x 9", "9 x 9", "chord centre", "insert", "other ski", "hand", "sticks", "changed",
			"2026-12-01", "1.1.2030", "21 kg", "165 lb", "5'10\"", "\x00", "\u00b5", "5355 A; 9523",
			"orlo 10", "Orlo 12 holes", "32 1 4.1 9; 40 -18 4.1 open", "1 2", "12 cm", "open",
		}),
		rapid.String(),
	)
}

// Whatever is typed in whatever order: nothing panics, every finding can be
// shown, an answer kept is an answer that reads back, and the record replays to
// the same job.
func TestRandomJobs(t *testing.T) {
	var chart = testShop(t).Chart
	rapid.Check(t, func(t *rapid.T) {
		kinds := []workflow.Kind{workflow.NewMount, workflow.ReMount, workflow.Adjustment, workflow.Inspection, workflow.Rental}
		b := newJob(t, rapid.SampledFrom(kinds).Draw(t, "kind"))
		if rapid.IntRange(0, 20).Draw(t, "no chart") == 0 {
			b.shop.Chart = nil
		}
		for range rapid.IntRange(20, 60).Draw(t, "acts") {
			actAtRandom(t, b)
		}
		requireShowable(t, b)
		again, err := workflow.Fold(b.entries)
		require.NoError(t, err)
		require.Equal(t, b.job, again)
		b.shop.Chart = chart
		requireShowable(t, b)
	})
}

// actAtRandom answers a step, most often the next one as usual but for a few
// fields.
func actAtRandom(t *rapid.T, b *bench) {
	view := b.list.View(b.shop, b.job)
	step := view.Here
	if step == "" || rapid.IntRange(0, 3).Draw(t, "elsewhere") == 0 {
		step = rapid.SampledFrom(b.list.Steps()).Draw(t, "step").ID
	}
	typed := b.usual(step)
	keys := slices.Sorted(maps.Keys(typed))
	for range rapid.SampledFrom([]int{0, 0, 0, 1, 1, 2}).Draw(t, "changes") {
		if len(keys) > 0 {
			typed[rapid.SampledFrom(keys).Draw(t, "key")] = oddTexts().Draw(t, "text")
		}
	}
	b.list.Preview(b.shop, b.job, step, typed)
	suggestAll(b, step)
	e, err := b.list.Answer(b.shop, b.job, step, typed, b.stamp())
	if err != nil {
		require.NotEmpty(t, err.Error())
		return
	}
	b.apply(e)
	requireReadsBack(t, b, step)
}

func suggestAll(b *bench, step workflow.StepID) {
	s, _ := b.list.Step(step)
	for _, f := range s.Fields {
		if f.Suggest != nil {
			f.Suggest(b.shop, b.job, workflow.Left)
			f.Suggest(b.shop, b.job, workflow.Right)
		}
	}
}

func requireReadsBack(t *rapid.T, b *bench, step workflow.StepID) {
	s, _ := b.list.Step(step)
	for _, f := range s.Asked(b.job) {
		for _, key := range f.Keys() {
			kept := b.job.Answers(step)[key]
			if kept == "" {
				continue
			}
			again, err := f.Accept(b.shop, kept)
			require.NoError(t, err, "%s %s %q", step, key, kept)
			require.Equal(t, kept, again, "%s %s", step, key)
		}
	}
}

func requireShowable(t *rapid.T, b *bench) {
	for _, f := range b.list.Findings(b.shop, b.job) {
		require.NotEmpty(t, f.Step)
		require.NotEmpty(t, f.Code)
		require.NotEmpty(t, f.Source, "%s: %s", f.Code, f.Text)
		require.Regexp(t, `^[A-Z0-9"].*\.$`, f.Text, "%s", f.Code)
		require.Contains(t, []calc.Level{calc.Note, calc.Caution, calc.Stop}, f.Level)
	}
	if b.job.State != workflow.Finished {
		return
	}
	for _, sv := range b.list.View(b.shop, b.job).Steps {
		require.NotContains(t, []workflow.Mark{workflow.MarkStop, workflow.MarkStale, workflow.MarkAhead}, sv.Mark,
			"handed over with %s at %s", sv.Mark.Word(), sv.Step.ID)
	}
}
