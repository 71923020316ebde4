package steps

import (
	"fmt"
	"math"

	"drillstop/calc"
	"drillstop/calc/fit"
	"drillstop/calc/quantity"
	"drillstop/workflow"
)

// mostAbove is how far, as a part of the computed value, a scale may be set above
// it before nobody may waive it. Our own limit; 15 % is what a skier may ask for
// (ISO 8061:2004, 4.3.4).
const mostAbove = 0.15

// lightSkier is the mass in kg below which no scale is set above the computed
// value. Source: nothing raises the value of the lightest skiers, common
// practice, no source.
const lightSkier = 22.0

const (
	scaleSource     = "read back from the scale: " + commonPractice
	correctedSource = "the release test decides, within 30 % of the computed value: " + ourRule
)

func checkScales(shop workflow.Shop, job workflow.Job, side workflow.Side) []calc.Finding {
	r, err := releaseFor(shop, job, side)
	if err != nil {
		return nil // chartSays says why, and holds the job
	}
	var found []calc.Finding
	for _, p := range scales() {
		found = append(found, checkScale(job, side, p, p.value(r))...)
	}
	if r.AboveTen {
		return found // said with the value
	}
	return append(found, checkAboveTen(job, side)...)
}

// checkScale compares one scale with its computed value.
func checkScale(job workflow.Job, side workflow.Side, p piece, computed float64) []calc.Finding {
	reads, ok := job.Number(ReleaseValue, p.set, side, quantity.Plain)
	if !ok {
		return nil
	}
	binding, name := bindingOf(job), p.title+" "+string(side)
	var found []calc.Finding
	for _, f := range fit.Scale(computed, binding, p.name+" "+string(side)) {
		if f.Level == calc.Stop { // its notes and cautions stand at the fit check
			found = append(found, f)
		}
	}
	if len(found) > 0 {
		return found // there is no place to set the scale to
	}
	switch {
	case reads < binding.ScaleMin-slack || reads > binding.ScaleMax+slack:
		return []calc.Finding{never(calc.Stopf("release-value.off-scale", scaleSource,
			"%s reads %s, and the scale of this binding goes from %s to %s: computed %s; set it and read it again.",
			name, plainNumber(reads), plainNumber(binding.ScaleMin), plainNumber(binding.ScaleMax), plainNumber(computed)))}
	case math.Abs(reads-markFor(job, computed)) > slack && !p.wasCorrectedTo(job, side, reads):
		return []calc.Finding{differs(job, name, reads, computed)}
	}
	return sayCorrected(job, side, p, computed)
}

// sayCorrected puts it before the eye where a release test sent a scale off its
// value: the value alone no longer says how the binding stands.
func sayCorrected(job workflow.Job, side workflow.Side, p piece, computed float64) []calc.Finding {
	now, _ := p.standing(job, side)
	if math.Abs(now-markFor(job, computed)) <= slack {
		return nil
	}
	return []calc.Finding{calc.Cautionf("release-value.corrected", correctedSource,
		"%s %s stands at %s and not at the computed %s, %s, because the release test asked for it: say it at the hand-over.",
		p.title, side, plainNumber(now), plainNumber(computed), offBy(now, computed))}
}

// differs is a scale that does not read its value. Nobody waives one that stands
// far above it, or above it at all for the lightest skiers.
func differs(job workflow.Job, name string, reads, computed float64) calc.Finding {
	why, source := "", scaleSource
	if mark := markFor(job, computed); math.Abs(mark-computed) > slack {
		why, source = ", and the nearest mark not above is "+plainNumber(mark), markSource
	}
	f := calc.Stopf("release-value.differs", source, "%s reads %s; computed %s%s: set it and read it again.",
		name, plainNumber(reads), plainNumber(computed), why)
	f.Never = reads > computed*(1+mostAbove)+slack || isLight(job) && reads > computed+slack
	return f
}

func isLight(job workflow.Job) bool {
	mass, ok := job.Number(Skier, "mass", workflow.Both, quantity.KG)
	return ok && mass < lightSkier
}

// offBy says how far a scale stands from its value: "17 % higher".
func offBy(reads, computed float64) string {
	way := "higher"
	if reads < computed {
		way = "lower"
	}
	return fmt.Sprintf("%.0f %% %s", 100*math.Abs(reads-computed)/computed, way)
}

func checkAboveTen(job workflow.Job, side workflow.Side) []calc.Finding {
	toe, _ := scales()[0].standing(job, side)
	heel, _ := scales()[1].standing(job, side)
	if max(toe, heel) <= aboveTen {
		return nil
	}
	return []calc.Finding{calc.Cautionf("release-value.above-ten", "values above 10 must stand out: ISO 13992:2014",
		"%s is set to toe %s, heel %s, above %s: make sure that it is meant.",
		skiWord(side), plainNumber(toe), plainNumber(heel), plainNumber(aboveTen))}
}
