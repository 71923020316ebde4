package steps

import (
	"math"

	"drillstop/calc/quantity"
	"drillstop/workflow"
)

// corrections are the rounds of the loop in this job, newest first. An answer
// that was given again before anything was tested replaced the one before it: it
// is the same round, written down better.
func corrections(job workflow.Job) []workflow.Answered {
	var rounds []workflow.Answered
	for c := answered(job, Correction); c != nil; c = c.Before {
		if n := len(rounds); n == 0 || testedBetween(job, c.Seq, rounds[n-1].Seq) {
			rounds = append(rounds, *c)
		}
	}
	return rounds
}

// answered is the present answer of a step, nil where there is none.
func answered(job workflow.Job, step workflow.StepID) *workflow.Answered {
	a, ok := job.Answered(step)
	if !ok {
		return nil
	}
	return &a
}

func testedBetween(job workflow.Job, from, to int) bool {
	for t := answered(job, ReleaseTest); t != nil; t = t.Before {
		if from < t.Seq && t.Seq < to {
			return true
		}
	}
	return false
}

// testedAt is when the present release test was read, counted in entries; 0
// where there is none.
func testedAt(job workflow.Job) int {
	a, _ := job.Answered(ReleaseTest)
	return a.Seq
}

// standing is where a release scale stands now: as it was read last, be it when
// it was set or when a release test had it corrected. false while it was never
// read.
func (p piece) standing(job workflow.Job, side workflow.Side) (float64, bool) {
	return p.standingBefore(job, side, math.MaxInt)
}

// standingBefore is where the scale stood before that entry.
func (p piece) standingBefore(job workflow.Job, side workflow.Side, seq int) (float64, bool) {
	set, ok := job.Answered(ReleaseValue)
	if !ok {
		return 0, false
	}
	for _, c := range corrections(job) {
		if c.Seq < set.Seq {
			break
		}
		if to, ok := c.Answers.Number(p.to, side, quantity.Plain); ok && c.Seq < seq {
			return to, true
		}
	}
	return set.Answers.Number(p.set, side, quantity.Plain)
}

// rounds counts how often a scale was corrected before that entry, since it was
// set or a cause was last seen to on that ski.
func (p piece) rounds(job workflow.Job, side workflow.Side, seq int) int {
	set, _ := job.Answered(ReleaseValue)
	n := 0
	for _, c := range corrections(job) {
		if c.Seq < set.Seq || c.Answers.Is("what", side, seekTheCause) {
			break
		}
		if _, ok := c.Answers.Number(p.to, side, quantity.Plain); ok && c.Seq < seq {
			n++
		}
	}
	return n
}

// wasCorrectedTo reports whether the release test sent the scale to where it
// reads, and nothing that the correction rests on has changed since.
func (p piece) wasCorrectedTo(job workflow.Job, side workflow.Side, reads float64) bool {
	if !job.Fresh(Correction) {
		return false
	}
	for _, c := range corrections(job) {
		if to, ok := c.Answers.Number(p.to, side, quantity.Plain); ok {
			return math.Abs(to-reads) <= slack
		}
	}
	return false
}

// setFigures are where the four scales stand, for the steps in which they are
// read once more or told to the skier.
func setFigures(shop workflow.Shop, job workflow.Job) []workflow.Figure {
	if _, ok := job.Answered(ReleaseValue); !ok {
		return nil
	}
	f := workflow.Figure{
		Name: "set", Label: "set to",
		Value: forSkis(standingText(job, workflow.Left), standingText(job, workflow.Right)),
	}
	if anyCorrected(job) {
		f.Path = "corrected after a release test"
		if computed := valueFigures(shop, job); len(computed) > 0 {
			f.Path += "; computed " + computed[0].Value
		}
	}
	return []workflow.Figure{f}
}

func standingText(job workflow.Job, side workflow.Side) string {
	text := ""
	for i, p := range scales() {
		if i > 0 {
			text += "  "
		}
		reads := "?"
		if v, ok := p.standing(job, side); ok {
			reads = plainNumber(v)
		}
		text += p.name + " " + reads
	}
	return text
}

// anyCorrected reports whether a scale stands where a release test sent it.
func anyCorrected(job workflow.Job) bool {
	for _, side := range workflow.Sides {
		for _, p := range scales() {
			now, _ := p.standing(job, side)
			set, _ := job.Number(ReleaseValue, p.set, side, quantity.Plain)
			if math.Abs(now-set) > slack || p.wasCorrectedTo(job, side, now) {
				return true
			}
		}
	}
	return false
}
