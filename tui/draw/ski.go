// Package draw makes pictures out of text: plain values in, lines out.
package draw

import (
	"fmt"
	"strings"

	"drillstop/workflow"
)

// Ink colours the parts of a picture; a nil function leaves them plain.
type Ink struct {
	Done  func(string) string
	Here  func(string) string
	Ahead func(string) string
	Stop  func(string) string
}

// Ski draws a job as a ski seen from above in one line, tail at the left and
// tip at the right: done is solid, the present phase is bracketed and named in
// full, ahead is dotted, a stop or something stale is a notch with its mark.
// here names the present step ("bit and stop"), "" draws no present phase.
type Ski struct {
	Phases []workflow.PhaseView
	Here   workflow.Phase
	Step   string // title of the present step, may be ""
	At     int    // its number within the phase, from 1
	Width  int
	Ink    Ink
}

// stretch is the part of the ski that one phase takes.
type stretch struct {
	name   string // as drawn, without fill
	before string // fill ahead of the name: solid once something is done
	after  string // fill behind it: solid when all is
	ink    func(string) string
}

// String draws the ski at exactly its width, or as narrow as it can be made.
func (s Ski) String() string {
	room := s.Width - 2 // tail and tip
	for _, names := range []func(workflow.PhaseView) string{s.full, s.near, s.lone, s.short, s.bare} {
		parts := s.stretches(names)
		if need := length(parts); need <= room {
			return "(" + spread(parts, room-need) + ">"
		}
	}
	return "(" + spread(s.stretches(s.bare), 0) + ">"
}

// full names the present phase with its step, and all others.
func (s Ski) full(p workflow.PhaseView) string {
	if p.Phase == s.Here {
		return s.present(p)
	}
	return string(p.Phase) + notch(p)
}

// near leaves three letters to all but the present phase.
func (s Ski) near(p workflow.PhaseView) string {
	if p.Phase == s.Here {
		return s.present(p)
	}
	return string(p.Phase)[:3] + notch(p)
}

// lone names nothing but the present phase.
func (s Ski) lone(p workflow.PhaseView) string {
	if p.Phase == s.Here {
		return s.present(p)
	}
	return notch(p)
}

// present names the phase in hand, how far it is, and the step; without a step
// it only points at the phase.
func (s Ski) present(p workflow.PhaseView) string {
	if s.Step == "" {
		return ">" + string(p.Phase) + notch(p)
	}
	return fmt.Sprintf("[%s %d of %d: %s]", p.Phase, s.At, p.Of, s.Step)
}

// short names the step alone, bare not even that.
func (s Ski) short(p workflow.PhaseView) string {
	if p.Phase == s.Here && s.Step != "" {
		return "[" + s.Step + "]"
	}
	return s.bare(p)
}

func (s Ski) bare(p workflow.PhaseView) string {
	switch {
	case p.Phase != s.Here:
		return notch(p)
	case s.Step == "":
		return s.present(p)
	}
	return "[" + string(p.Phase) + "]"
}

func notch(p workflow.PhaseView) string {
	switch p.Mark {
	case workflow.MarkStop, workflow.MarkStale, workflow.MarkCaution, workflow.MarkWaived:
		return string(p.Mark)
	case workflow.MarkAhead, workflow.MarkHere, workflow.MarkKept, workflow.MarkApart:
	}
	return ""
}

func (s Ski) stretches(name func(workflow.PhaseView) string) []stretch {
	parts := make([]stretch, 0, len(s.Phases))
	for _, p := range s.Phases {
		if p.Of == 0 {
			continue
		}
		part := stretch{name: name(p), before: ".", after: ".", ink: s.Ink.Ahead}
		if p.Done > 0 {
			part.before = "="
		}
		if p.Done == p.Of {
			part.after, part.ink = "=", s.Ink.Done
		}
		switch {
		case p.Mark == workflow.MarkStop:
			part.ink = s.Ink.Stop
		case p.Phase == s.Here:
			part.ink = s.Ink.Here
		}
		parts = append(parts, part)
	}
	return parts
}

func length(parts []stretch) int {
	n := 0
	for _, p := range parts {
		n += len([]rune(p.name)) + 1
	}
	return n
}

// spread lays the stretches out, each with at least one rune of fill ahead of
// its name, and gives what room is left to all alike.
func spread(parts []stretch, spare int) string {
	if len(parts) == 0 {
		return strings.Repeat(".", max(spare, 0))
	}
	var b strings.Builder
	each, rest := spare/len(parts), spare%len(parts)
	for i, p := range parts {
		extra := each
		if i < rest {
			extra++
		}
		before, after := 1+extra/2, extra-extra/2
		text := strings.Repeat(p.before, before) + p.name + strings.Repeat(p.after, after)
		if p.ink != nil {
			text = p.ink(text)
		}
		b.WriteString(text)
	}
	return b.String()
}
