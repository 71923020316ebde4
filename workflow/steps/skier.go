package steps

import (
	"slices"
	"strings"

	"drillstop/calc"
	"drillstop/calc/quantity"
	"drillstop/workflow"
)

// What the skier may ask of the release value.
const (
	requestNone   = "none"
	requestLower  = "lower"
	requestHigher = "higher"
	requestRisk   = "own risk"
)

var requests = []workflow.Option{
	{Value: requestNone},
	{Value: requestLower, Label: "lower, up to 15 %"},
	{Value: requestHigher, Label: "higher, up to 15 %"},
	{Value: requestRisk, Label: "own risk, two rows higher"},
}

var skierTypes = []workflow.Option{
	{Value: "I", Label: "I cautious, gentle slopes"},
	{Value: "II", Label: "II between the two"},
	{Value: "III", Label: "III fast, steep or hard"},
}

// skierFacts are the answers that the release value is computed from.
var skierFacts = []workflow.FieldID{"mass", "height", "age", "type", "request_toe", "request_heel"}

func skierStep() workflow.Step {
	return workflow.Step{
		ID: Skier, Phase: workflow.Intake, Title: "skier",
		Why: "Mass, height, age, the type the skier states and the sole length are all that the release value is made of. " +
			"A slip here is the one that no later check can see: every number after it will agree with it. " +
			"The type is the skier's to state, since it shares out the risk between a release that comes too early and one that comes too late; " +
			"ask, and write down the words, not your own estimate.",
		Cautions: []string{
			"Ask for the mass as the skier stands there today, without boots; a guess of 10 kg is a row of the chart, and a knee.",
		},
		Fields: skierFields(),
		Verify: verifySkier,
		Check:  checkSkier,
	}
}

func skierFields() []workflow.Field {
	return []workflow.Field{
		{ID: "name", Label: "Name", Lasts: true, Kind: workflow.Text, Hint: "who skis on this pair"},
		{ID: "contact", Label: "Contact", Lasts: true, Kind: workflow.Text, Optional: true, Hint: "phone or mail, to call back"},
		{
			ID: "mass", Label: "Mass", Kind: workflow.Number, Unit: quantity.KG, Min: 8, Max: 250,
			Read: readMass, Hint: "72, 165 lb or 11 st 11 lb",
		},
		{
			ID: "height", Label: "Height", Kind: workflow.Number, Unit: quantity.CM, Min: 60, Max: 230,
			Read: readHeight, Hint: "175, 1.75 m or 5 ft 9 in",
		},
		{
			ID: "age", Label: "Age or birth date", Kind: workflow.Number, Unit: quantity.Years, Min: 2, Max: 110,
			Read: readAge, Hint: "34, or 1992-03-30",
		},
		{
			ID: "type", Label: "Type, as the skier says", Kind: workflow.Choice, Options: skierTypes,
			Hint: "the skier states it; who cannot say is I",
		},
		{
			ID: "request_toe", Label: "Asked for at the toe", Kind: workflow.Choice, Options: requests,
			Hint: "none unless the skier asks",
		},
		{
			ID: "request_heel", Label: "Asked for at the heel", Kind: workflow.Choice, Options: requests,
			Hint: "may differ from the toe",
		},
		{
			ID: "request_reason", Label: "Reason of the request", Kind: workflow.Text, Optional: true,
			Hint: "in the skier's words; needed with a request",
		},
		{
			ID: "consent", Label: "Skier knows and agrees", Kind: workflow.Seen, Optional: true,
			Hint: "to higher, or to toe and heel apart: said aloud",
		},
	}
}

// verifySkier asks for the reason of a request, and for the skier's consent to
// one that can keep a boot in, or lets toe and heel differ. Source: ISO
// 8061:2004, 4.3.4 to 4.3.6 name the reasons that make one acceptable; the
// consent is our rule.
func verifySkier(_ workflow.Shop, _ workflow.Job, a workflow.Answers) []workflow.FieldFault {
	toe, heel := a.Text("request_toe", workflow.Both), a.Text("request_heel", workflow.Both)
	var faults []workflow.FieldFault
	if (toe != requestNone || heel != requestNone) && strings.TrimSpace(a.Text("request_reason", workflow.Both)) == "" {
		faults = append(faults, onField("request_reason", workflow.Both, "skier.request-reason",
			"A request for another value needs its reason: releases that came too early for higher, a careful style for lower."))
	}
	if (raises(toe) || raises(heel) || toe != heel) && !a.Is("consent", workflow.Both, workflow.Yes) {
		faults = append(faults, onField("consent", workflow.Both, "skier.consent",
			"Toe %s, heel %s: say what it means, a later release or one unlike the other, and confirm that the skier agrees.", toe, heel))
	}
	return faults
}

func raises(request string) bool { return request == requestHigher || request == requestRisk }

// checkSkier says at once what the chart refuses of this skier, and which numbers
// hardly belong to one person, before boots, skis and binding are carried to the
// bench.
func checkSkier(shop workflow.Shop, job workflow.Job) []workflow.Finding {
	r, err := skierAlone(shop, job)
	if err != nil {
		return []workflow.Finding{workflow.FromFault(workflow.Both, chartEdition(shop), err)}
	}
	var found []calc.Finding
	for _, f := range r.Findings {
		if slices.Contains(ofSkierAlone, f.Code) {
			found = append(found, f)
		}
	}
	found = append(found, riskAhead(job)...)
	return append(workflow.On(workflow.Both, found), skierSinceLast(job)...)
}

// riskAhead says at the counter that the skier's own choice will hold the job
// until a supervisor signs for it: the numbers are said at the fit check, once
// the boots are known.
func riskAhead(job workflow.Job) []calc.Finding {
	if !job.Is(Skier, "request_toe", workflow.Both, requestRisk) && !job.Is(Skier, "request_heel", workflow.Both, requestRisk) {
		return nil
	}
	return []calc.Finding{calc.Cautionf("skier.own-risk", "more than 15 %, at the skier's own risk: ISO 8061:2004, 4.3.6",
		"More than a request may raise, at the skier's own risk: the fit check will hold the job until a supervisor has signed for the numbers.")}
}
