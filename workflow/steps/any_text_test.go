package steps

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"drillstop/workflow"
)

// typedText draws what a hand, a scanner or a pasted cell can bring: any text,
// and text that is nearly an answer.
func typedText() *rapid.Generator[string] {
	return rapid.OneOf(
		rapid.String(),
		rapid.StringMatching(`-?[0-9]{0,12}([.,][0-9]{0,12})?( ?(mm|cm|kg|Nm|turns|lb))?`),
		rapid.StringMatching(`[0-9]{1,4}-[0-9]{1,3}-[0-9]{1,3}`),
		rapid.SampledFrom([]string{
			"", " ", "yes", "no", "NaN", "Inf", "-0", "1e400", "0x10", "50; 50; 50", "1;;2", "in window", "too", "drags",
			"stuck", "slides", "orlo", "Orlo 10 holes", "-124.5 18 4.1 9 plugged; 0 0 4", "1 2 3 4 5", "open", "hand", "driver", "none", "insert", "unchanged", "changed", "returns", "\x00", "\xff\xfe", "9999-12-31",
		}),
	)
}

// Whatever is typed into whichever step, the job answers with an entry or with
// a refusal that says something, and can be looked at afterwards.
func TestNoTextBreaksAStep(t *testing.T) {
	ready := newJob(t, workflow.NewMount).upTo(Binding).change(Binding, "kind", "hybrid", "risers", "2").through(LastLook)
	alpine := newJob(t, workflow.Adjustment).through(ReleaseTest)
	empty := newJob(t, workflow.NewMount)
	looped := inTheLoop(t)
	rapid.Check(t, func(r *rapid.T) {
		b := *rapid.SampledFrom([]*bench{ready, alpine, empty, looped}).Draw(r, "job")
		s := rapid.SampledFrom(All()).Draw(r, "step")
		for range rapid.IntRange(1, 3).Draw(r, "answers") {
			typed := b.job.Answers(s.ID).Clone()
			for _, f := range s.Fields {
				for _, key := range f.Keys() {
					if rapid.Bool().Draw(r, "change "+key) {
						typed[key] = typedText().Draw(r, key)
					}
				}
			}
			b.list.Preview(b.shop, b.job, s.ID, typed)
			e, err := b.list.Answer(b.shop, b.job, s.ID, typed, b.stamp())
			if err != nil {
				require.NotEmpty(r, err.Error())
				continue
			}
			next, err := b.job.Apply(e)
			require.NoError(r, err)
			b.job = next
			for _, f := range b.list.View(b.shop, b.job).Findings {
				require.NotEmpty(r, f.Text)
				require.NotEmpty(r, f.Source, "%s: %s", f.Step, f.Text)
			}
		}
	})
}

// Checks and figures bear a job whose record holds anything at all: another
// program, or an older one, may have written it.
func TestNoRecordBreaksAStep(t *testing.T) {
	ready := newJob(t, workflow.NewMount).upTo(Binding).change(Binding, "kind", "hybrid", "risers", "2").through(LastLook)
	looped := inTheLoop(t)
	rapid.Check(t, func(r *rapid.T) {
		ready := rapid.SampledFrom([]*bench{ready, looped}).Draw(r, "job")
		job := ready.job
		for range rapid.IntRange(1, 3).Draw(r, "entries") {
			s := rapid.SampledFrom(All()).Draw(r, "step")
			answers := job.Answers(s.ID).Clone()
			for _, f := range s.Fields {
				for _, key := range f.Keys() {
					if rapid.Bool().Draw(r, "change "+key) {
						answers[key] = typedText().Draw(r, key)
					}
				}
			}
			e := workflow.Entry{Ticket: job.Ticket, Seq: job.Seq + 1, Kind: workflow.EntryAnswered, Step: s.ID, Answers: answers}
			next, err := job.Apply(e)
			require.NoError(r, err)
			for _, other := range All() {
				for _, rest := range other.Rests {
					if rest.Disturbed != nil {
						rest.Disturbed(job.Answers(rest.On), next.Answers(rest.On))
						rest.Disturbed(nil, next.Answers(rest.On))
					}
				}
			}
			job = next
		}
		shop := ready.shop
		if rapid.Bool().Draw(r, "no chart") {
			shop.Chart = nil
		}
		for _, s := range All() {
			if s.Figures != nil {
				s.Figures(shop, job)
			}
			if s.Verify != nil {
				s.Verify(shop, job, job.Answers(s.ID))
			}
			if s.Picture != nil {
				s.Picture(shop, job, job.Answers(s.ID))
			}
			if s.Stales != nil {
				s.Stales(shop, job, job.Answers(s.ID))
			}
			for _, f := range s.Fields {
				if f.Suggest != nil {
					f.Suggest(shop, job, workflow.Left)
				}
			}
		}
		for _, f := range ready.list.View(shop, job).Findings {
			require.NotEmpty(r, f.Text)
		}
	})
}

// inTheLoop is a job of a skier who came back, with a scale corrected on one ski
// and a cause sought on the other, tested again and in its second round.
func inTheLoop(t *testing.T) *bench {
	t.Helper()
	b := again(t).upTo(ReleaseTest)
	left, right := asPromised(), asPromised()
	left.Binding.Toe.Gain, right.Binding.Heel.Gain = 1.2, 1.5
	b.measures(left, right).
		change(Correction, "what.left", setTheScale, "toe_to.left", "5", "what.right", seekTheCause, "cause.right", contaminatedBoot).
		change(Boots, "washed", "yes")
	b.upTo(ReleaseTest)
	return b.measures(left, right)
}
