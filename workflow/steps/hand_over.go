package steps

import (
	"time"

	"drillstop/calc"
	"drillstop/workflow"
)

// longestInterval is how many days ahead the next check may lie without a word:
// a season and its summer. The check itself is due every 15 to 20 days on snow
// and before each season. Our own limit.
const longestInterval = 400

const nextCheckSource = "every 15 to 20 days on snow, at least before each season: press release of a standards body, 2004; 400 days: " + ourRule

// handOverStep tells the skier what to know, and ends the job.
func handOverStep() workflow.Step {
	return workflow.Step{
		ID: HandOver, Phase: workflow.HandOver, Title: "hand-over and signatures",
		Why: "The skier carries these values from now on, and nobody else will notice when they drift. Say the values and " +
			"what they rest on: a new weight, another boot or another way of skiing makes them wrong. Two names at the end " +
			"say that this was told and understood; they are what both sides hold on to if something happens.",
		Cautions: []string{
			"No binding releases in every fall. Do not promise it.",
			"A locked toe does not release: say it to every touring skier, each time.",
		},
		Fields: []workflow.Field{
			{ID: "told_values", Label: "Told: the values", Hint: "toe and heel, and what would change them", Kind: workflow.Seen},
			{ID: "told_care", Label: "Told: care and checks", Hint: "15-20 days on snow, each season; no heavy loads", Kind: workflow.Seen},
			{ID: "told_touring", Label: "Told: a locked toe holds", Hint: "locked, the toe does not release", Kind: workflow.Seen, When: hasTouringMode},
			{ID: "told_waived", Label: "Told: what was waived", Hint: "each stop let pass, and why", Kind: workflow.Seen, When: workflow.Job.Waived},
			{
				ID: "told_untested", Label: "Told: not release-tested", Hint: "nobody knows at what it lets go", Kind: workflow.Seen,
				When: func(job workflow.Job) bool { return isNotTested(job.Answers(ReleaseTest)) },
			},
			{
				ID: "told_corrected", Label: "Told: scale corrected", Hint: "it stands off the computed value, and why", Kind: workflow.Seen, When: anyCorrected,
			},
			{ID: "next_due", Label: "Next check due", Hint: "a day, 2026-11-25 or 25.11.2026", Kind: workflow.Date, Suggest: suggestNextCheck},
			{ID: "technician", Label: "Signed: technician", Hint: "name of who answers for the work", Kind: workflow.Text},
			{
				ID: "skier", Label: "Signed: skier", Hint: "who takes the skis; for a child its guardian", Kind: workflow.Text,
				Suggest: func(_ workflow.Shop, job workflow.Job, _ workflow.Side) string {
					return job.Text(Skier, "name", workflow.Both)
				},
			},
		},
		Figures: toldFigures,
		Verify:  verifyNextCheck,
		Check:   checkNextCheck,
		Closes:  true,
	}
}

// toldFigures are what the skier is told: where the scales stand, and where
// nobody tested them, that.
func toldFigures(shop workflow.Shop, job workflow.Job) []workflow.Figure {
	figures := setFigures(shop, job)
	if isNotTested(job.Answers(ReleaseTest)) {
		figures = append(figures, workflow.Figure{
			Name: "tested", Label: "release test", Value: "NOT RELEASE-TESTED",
			Path: "there was no test device: what these bindings release at was not measured",
		})
	}
	return figures
}

func suggestNextCheck(shop workflow.Shop, _ workflow.Job, _ workflow.Side) string {
	return shop.Now.AddDate(1, 0, 0).Format(time.DateOnly)
}

// daysUntilCheck counts from today to the day of the next check; false where
// that day is not known.
func daysUntilCheck(shop workflow.Shop, answers workflow.Answers) (int, bool) {
	due, err := time.Parse(time.DateOnly, answers.Text("next_due", workflow.Both))
	if err != nil {
		return 0, false
	}
	year, month, day := shop.Now.Date()
	today := time.Date(year, month, day, 0, 0, 0, 0, time.UTC)
	return int(due.Sub(today).Hours() / 24), true
}

// verifyNextCheck refuses a next check that is already over.
func verifyNextCheck(shop workflow.Shop, _ workflow.Job, answers workflow.Answers) []workflow.FieldFault {
	days, ok := daysUntilCheck(shop, answers)
	if !ok || days > 0 {
		return nil
	}
	return []workflow.FieldFault{{Field: "next_due", Fault: calc.Faultf("hand-over.next-due",
		"Next check %s is not after today, %s: give a day to come.", answers.Text("next_due", workflow.Both), shop.Now.Format(time.DateOnly))}}
}

func checkNextCheck(shop workflow.Shop, job workflow.Job) []workflow.Finding {
	days, ok := daysUntilCheck(shop, job.Answers(HandOver))
	if !ok || days <= longestInterval {
		return nil
	}
	return workflow.On(workflow.Both, []calc.Finding{calc.Cautionf("hand-over.next-due", nextCheckSource,
		"The next check is %d days away: at most %d lead before the next season, and after 15 to 20 days on snow it is due anyway.",
		days, longestInterval)})
}
