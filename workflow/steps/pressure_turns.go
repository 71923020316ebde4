package steps

import (
	"math"

	"drillstop/calc"
	"drillstop/calc/quantity"
	"drillstop/workflow"
)

// turnShown is the part of a turn that a hand can tell, to which suggested turns
// are rounded. Our own.
const turnShown = 0.25

// travelPerTurn is how far the heel piece moves, in mm, in one turn of its
// length screw; 0 where the card of the binding does not say it.
func travelPerTurn(job workflow.Job) float64 {
	v, _ := job.Number(Binding, "mm_per_turn", workflow.Both, quantity.MM)
	return v
}

func knowsTravel(job workflow.Job) bool { return pressesForward(job) && travelPerTurn(job) > 0 }

// turnsFor is how far the length screw is turned to bring the indicator into its
// window, + adds pressure; false where it is not known.
//
//	turns = -off / travel per turn, to a quarter of a turn
func turnsFor(job workflow.Job, a workflow.Answers, side workflow.Side) (float64, bool) {
	travel := travelPerTurn(job)
	off, ok := a.Number("off", side, quantity.MM)
	if !ok || travel <= 0 {
		return 0, false
	}
	turns := math.Round(-off/travel/turnShown) * turnShown
	return turns, turns != 0
}

// turnWords says turns with their direction: "1.75 turns (+, adds pressure)".
func turnWords(turns float64) string {
	if turns < 0 {
		return quantity.Print(-turns, quantity.Turn) + " (-, takes pressure off)"
	}
	return quantity.Print(turns, quantity.Turn) + " (+, adds pressure)"
}

// byTurns adds to a sentence by how much, while nothing was turned yet.
func byTurns(job workflow.Job, side workflow.Side) string {
	a := job.Answers(ForwardPressure)
	turned, _ := a.Number("turns", side, quantity.Turn)
	turns, ok := turnsFor(job, a, side)
	if !ok || turned != 0 {
		return ""
	}
	return ", about " + turnWords(turns) + ","
}

// verifyPressure compares the way in which the indicator was off with what it
// read.
func verifyPressure(_ workflow.Shop, _ workflow.Job, a workflow.Answers) []workflow.FieldFault {
	var faults []workflow.FieldFault
	for _, side := range workflow.Sides {
		off, ok := a.Number("off", side, quantity.MM)
		found := a.Text("found", side)
		if ok && (found == tooLittle && off >= 0 || found == tooMuch && off <= 0) {
			faults = append(faults, onField("off", side, "forward-pressure.off",
				"%s: the indicator was found %s, and %s says otherwise: - is too little, + is too much.",
				skiWord(side), found, quantity.Print(off, quantity.MM)))
		}
	}
	return faults
}

// checkWay doubts a screw that was turned away from the window and yet ended in
// it.
func checkWay(job workflow.Job, side workflow.Side) []calc.Finding {
	turned, ok := job.Number(ForwardPressure, "turns", side, quantity.Turn)
	found := job.Text(ForwardPressure, "found", side)
	if !ok || !(found == tooLittle && turned < 0 || found == tooMuch && turned > 0) {
		return nil
	}
	return []calc.Finding{calc.Cautionf("forward-pressure.way", ourRule,
		"%s: forward pressure was found %s and turned by %s: + adds pressure; see which way it was turned, and read the indicator once more.",
		skiWord(side), found, quantity.Print(turned, quantity.Turn))}
}

// windowPicture is the indicator of both skis, as found and as left, with what to
// do about what was found.
func windowPicture(_ workflow.Shop, job workflow.Job, a workflow.Answers) []workflow.Picture {
	if !pressesForward(job) {
		return nil
	}
	p := &workflow.WindowPicture{Title: "forward pressure"}
	for i, side := range workflow.Sides {
		p.Found[i], p.Left[i] = a.Text("found", side), a.Text("indicator", side)
		p.Advice[i] = pressureAdvice(job, a, side)
	}
	return []workflow.Picture{{Window: p}}
}

func pressureAdvice(job workflow.Job, a workflow.Answers, side workflow.Side) string {
	found := a.Text("found", side)
	if a.Text("indicator", side) == inWindow || found == inWindow || found == "" {
		return ""
	}
	if turns, ok := turnsFor(job, a, side); ok {
		return "turn by " + turnWords(turns)
	}
	if found == tooLittle {
		return "add pressure"
	}
	return "take pressure off"
}
