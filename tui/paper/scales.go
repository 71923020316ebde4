package paper

import (
	"strings"

	"drillstop/workflow"
)

// ScaleFact is one of the four release scales. Values are as they stand in the
// record; "" where there is none.
type ScaleFact struct {
	Side      workflow.Side `json:"ski"`
	Piece     string        `json:"piece"`
	Computed  string        `json:"computed,omitempty"`
	SetTo     string        `json:"set_to,omitempty"`    // the mark, where the value lies between two
	Set       string        `json:"set,omitempty"`       // as read back
	Corrected string        `json:"corrected,omitempty"` // where the last correction after a test set it
	Stands    string        `json:"stands,omitempty"`    // where it stands now
	Stale     string        `json:"stale,omitempty"`     // why Set no longer holds
}

// scales are the four release scales, the left ski's first; none before a value
// was computed.
func (t Ticket) scales() []ScaleFact {
	value, computed := t.figure(figureValue, stepRelease, stepFit)
	set, read := t.View.Job.Answered(stepRelease)
	if !computed && !read {
		return nil
	}
	marks, _ := t.figure(figureSetTo, stepRelease)
	var all []ScaleFact
	for _, side := range workflow.Sides {
		for _, s := range scaleFields {
			fact := ScaleFact{
				Side: side, Piece: s.piece,
				Computed: onSki(value.Value, side, s.piece), SetTo: onSki(marks.Value, side, s.piece),
				Set: set.Answers.Text(s.set, side), Stale: set.Stale,
				Corrected: t.correctedTo(workflow.Key(s.corrected, side)),
			}
			if fact.Stands = fact.Set; fact.Corrected != "" {
				fact.Stands = fact.Corrected
			}
			all = append(all, fact)
		}
	}
	return all
}

// correctedTo is where a scale was set to after a test, by the key of its
// answer; "" where it still stands as it was set. A correction that was
// answered again before the next test replaced the one before it, and setting
// the scale anew ends all of them.
func (t Ticket) correctedTo(key string) string {
	tested, now := "", ""
	for _, e := range t.Entries {
		if e.Kind != workflow.EntryAnswered {
			continue
		}
		switch e.Step {
		case stepRelease:
			tested, now = "", ""
		case stepReleaseTest:
			tested = now
		case stepCorrection:
			if now = e.Answers[key]; now == "" {
				now = tested
			}
		}
	}
	return now
}

// onSki takes the value of one scale out of "toe 6  heel 6.5", or out of
// "left toe 6  heel 6; right toe 5.5  heel 6"; "" where it does not stand there.
func onSki(values string, side workflow.Side, piece string) string {
	words := strings.Fields(ofSki(values, side))
	for i := 0; i+1 < len(words); i += 2 {
		if words[i] == piece {
			return words[i+1]
		}
	}
	return ""
}

// ofSki takes what is said of one ski out of a figure: all of it, or the part
// behind the ski's name in "left 50 Nm; right 58 Nm".
func ofSki(values string, side workflow.Side) string {
	left, right, apart := strings.Cut(values, "; "+string(workflow.Right)+" ")
	left, named := strings.CutPrefix(left, string(workflow.Left)+" ")
	switch {
	case !apart || !named:
		return values
	case side == workflow.Right:
		return right
	}
	return left
}

// standing is where a scale stands, said only where one of them was corrected:
// until then each stands as it was set.
func (f Facts) standing(s ScaleFact) string {
	for _, other := range f.Scales {
		if other.Corrected != "" {
			return s.Stands
		}
	}
	return ""
}
