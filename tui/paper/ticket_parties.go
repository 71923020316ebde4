package paper

import (
	"slices"

	"drillstop/workflow"
)

// equipment are the answers that name what the values are for; the rest stands
// in the record of the work, and the ends of the scale in its picture.
var equipment = map[workflow.StepID][]workflow.FieldID{
	stepBoots:   {fieldName, fieldNorm, fieldSole},
	stepSkis:    {fieldName, fieldSerial, fieldLength},
	stepBinding: {fieldName, fieldSerial, fieldKind},
}

// parties writes the skier's data and the equipment beside each other.
func (s *ticketSheet) parties() {
	const label, half, wide = 0.205, 0.505, 0.49
	sides := [2][][2]string{s.told(stepSkier, nil)}
	for _, id := range []workflow.StepID{stepBoots, stepSkis, stepBinding} {
		sides[1] = append(sides[1], s.told(id, equipment[id])...)
	}
	top, bottom := s.y, s.y
	for j, lines := range sides {
		s.y = top
		at := half * float64(j)
		for _, line := range lines {
			s.row(s.body, column{at, label - 0.01, "", line[0]}, column{at + label, wide - label, "", line[1]})
			if s.y < top { // it went on on the next sheet
				top, bottom = s.y, s.y
			}
		}
		bottom = max(bottom, s.y)
	}
	s.y = bottom
}

// told are the labels and answers of a step, of some of its fields or of all.
func (s *ticketSheet) told(id workflow.StepID, some []workflow.FieldID) (lines [][2]string) {
	sv, ok := s.View.Step(id)
	if !ok {
		return nil
	}
	given := s.View.Job.Answers(id)
	for _, f := range sv.Step.Asked(s.View.Job) {
		text := given.Text(f.ID, workflow.Both)
		if f.PerSki {
			text = forSkis(given.Text(f.ID, workflow.Left), given.Text(f.ID, workflow.Right))
		}
		if text != "" && (some == nil || slices.Contains(some, f.ID)) {
			lines = append(lines, [2]string{f.Label, text})
		}
	}
	return lines
}

// forSkis says once what holds for both skis, and apart what does not.
func forSkis(left, right string) string {
	switch {
	case left == right:
		return left
	case left == "":
		return "right " + right
	case right == "":
		return "left " + left
	}
	return "left " + left + ", right " + right
}
