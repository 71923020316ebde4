package moment

// Cause is something other than the setting that moves a release moment.
type Cause struct {
	Code   string // stable, for records: "forward-pressure"
	Name   string // for the technician, within a sentence
	Look   string // what to look at, one sentence
	Step   string // plain name of the step of the job that checks it
	Source string
}

const (
	causePractice = "common practice, no formal source; its place in the order: our rule"
	causeOwn      = "our rule"
)

// Causes lists what may stand behind a moment that the indicator cannot set
// right, the likeliest first, each with the step of the job that it leads back
// to. The list is the caller's own.
//
// Source: forward pressure, toe height, gliding surface and sole: common
// practice, no formal source. The boot mistaken, dirty, or the binding worn, and
// the order: our rule.
func Causes() []Cause {
	return []Cause{
		{
			"forward-pressure", "forward pressure", "Read the indicator with the boot clicked in, and set it into its window.",
			"forward-pressure", causePractice,
		},
		{
			"toe-height", "toe height", "Draw a folded strip of paper out from under the sole: it must move with clear resistance.",
			"toe-height", causePractice,
		},
		{
			"gliding-surface", "worn or dirty gliding surface", "Clean the surface on which the sole glides; replace it when it is worn, loose or torn.",
			"toe-height", causePractice,
		},
		{
			"sole", "boot sole out of norm", "Measure toe and heel of the sole against its norm, both soles.",
			"boots", causePractice,
		},
		{
			"contaminated-boot", "contaminated boot", "Wash and dry both soles, then test clean and lubricated.",
			"boots", causeOwn,
		},
		{
			"wrong-boot", "wrong boot", "Compare name, size and sole length with the boot in the binding.",
			"boots", causeOwn,
		},
		{
			"worn-binding", "worn binding", "Work toe and heel by hand: play, cracks, a spring that does not return; worn out, it is replaced.",
			"binding", causeOwn,
		},
	}
}
