package steps

import (
	"fmt"
	"slices"
	"strings"

	"drillstop/calc"
	"drillstop/workflow"
)

const sinceLastSource = "what ages is asked again, and held against last time: " + ourRule

// lasting marks all fields but these as holding from season to season.
func lasting(fields []workflow.Field, except ...workflow.FieldID) []workflow.Field {
	for i := range fields {
		fields[i].Lasts = !slices.Contains(except, fields[i].ID)
	}
	return fields
}

// lastOf is what the job was made from, where it is about the same skier.
func lastOf(job workflow.Job) (*workflow.Last, bool) {
	last, ok := job.Last()
	if !ok || !strings.EqualFold(last.Text(Skier, "name", workflow.Both), job.Text(Skier, "name", workflow.Both)) {
		return nil, false
	}
	return last, true
}

// skierSinceLast holds the skier's numbers against those of last time.
func skierSinceLast(job workflow.Job) []workflow.Finding {
	last, same := lastOf(job)
	if !same {
		return notTheSameSkier(job)
	}
	var changed, kept []string
	for _, f := range skierFields() {
		if !slices.Contains(skierFacts, f.ID) {
			continue
		}
		was, is := last.Text(Skier, f.ID, workflow.Both), job.Text(Skier, f.ID, workflow.Both)
		name := strings.ReplaceAll(string(f.ID), "_", " ")
		switch {
		case was == is:
			kept = append(kept, name)
		case was != "":
			changed = append(changed, fmt.Sprintf("%s %s -> %s", name, was, is))
		}
	}
	text := "nothing has changed"
	if len(changed) > 0 {
		text = strings.Join(changed, ", ")
		if len(kept) > 0 {
			text += "; as it was: " + strings.Join(kept, ", ")
		}
	}
	return workflow.On(workflow.Both, []calc.Finding{calc.Notef("skier.since-last", sinceLastSource, "%s: %s.", since(last), text)})
}

func since(last *workflow.Last) string { return fmt.Sprintf("Since %s of %s", last.Ticket, last.Day) }

// notTheSameSkier doubts what was taken over from the job of somebody else.
func notTheSameSkier(job workflow.Job) []workflow.Finding {
	last, made := job.Last()
	if !made {
		return nil
	}
	return workflow.On(workflow.Both, []calc.Finding{calc.Cautionf("skier.another", sinceLastSource,
		"This job was made from %s of %s, and the skier is now %s: look at everything that was taken over from it, boots and skis too.",
		last.Ticket, last.Text(Skier, "name", workflow.Both), job.Text(Skier, "name", workflow.Both))})
}

// solesSinceLast doubts a sole that has another length than last time while the
// boot has the same name.
func solesSinceLast(job workflow.Job) []workflow.Finding {
	last, same := lastOf(job)
	if !same || !strings.EqualFold(last.Text(Boots, "name", workflow.Both), job.Text(Boots, "name", workflow.Both)) {
		return nil
	}
	return onEach(func(side workflow.Side) []calc.Finding {
		was, is := last.Text(Boots, "sole", side), job.Text(Boots, "sole", side)
		if was == "" || is == "" || was == is {
			return nil
		}
		return []calc.Finding{calc.Cautionf("boots.sole-since-last", sinceLastSource,
			"The %s boot has the name it had in %s, and its sole length was %s then and is %s now: read it once more; another pair is likely.",
			side, last.Ticket, was, is)}
	})
}

// valueSinceLast holds the computed value against that of last time.
func valueSinceLast(shop workflow.Shop, job workflow.Job) []workflow.Finding {
	last, same := lastOf(job)
	now := valueFigures(shop, job)
	if !same || len(now) == 0 {
		return nil
	}
	then, ok := figureNamed(last.Figures[ReleaseValue], "release_value")
	if !ok {
		return nil
	}
	text := fmt.Sprintf("computed %s then and now", then.Value)
	if then.Value != now[0].Value {
		text = fmt.Sprintf("computed %s then, %s now", then.Value, now[0].Value)
	}
	if set, ok := lastSet(last); ok {
		text += "; the scales were left at " + set.Value
	}
	if chart, ok := figureNamed(last.Figures[ReleaseValue], "chart"); ok && shop.Chart != nil {
		if is := chartFigure(shop.Chart.Identity()); is.Record != chart.Record {
			text += fmt.Sprintf("; by the chart %s then, %s now", chart.Value, is.Value)
		}
	}
	return workflow.On(workflow.Both, []calc.Finding{calc.Notef("release-value.since-last", sinceLastSource, "%s: %s.", since(last), text)})
}

// lastSet is where the scales stood when the last job ended.
func lastSet(last *workflow.Last) (workflow.Figure, bool) {
	for _, step := range []workflow.StepID{HandOver, LastLook, Touring} {
		if f, ok := figureNamed(last.Figures[step], "set"); ok {
			return f, true
		}
	}
	return workflow.Figure{}, false
}

func figureNamed(figures []workflow.Figure, name string) (workflow.Figure, bool) {
	at := slices.IndexFunc(figures, func(f workflow.Figure) bool { return f.Name == name })
	if at < 0 {
		return workflow.Figure{}, false
	}
	return figures[at], true
}
