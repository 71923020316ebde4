package workflow_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"drillstop/calc"
	"drillstop/calc/quantity"
	"drillstop/workflow"
)

func fieldsOfEachKind() map[workflow.FieldKind]workflow.Field {
	return map[workflow.FieldKind]workflow.Field{
		workflow.Text:   {ID: "f", Label: "Words", Kind: workflow.Text},
		workflow.Number: {ID: "f", Label: "Depth", Kind: workflow.Number, Unit: quantity.MM, Min: 3, Max: 15},
		workflow.List:   {ID: "f", Label: "Readings", Kind: workflow.List, Unit: quantity.NM, Min: 1, Max: 300, Count: 3},
		workflow.Choice: {ID: "f", Label: "Type", Kind: workflow.Choice, Options: []workflow.Option{{Value: "I"}, {Value: "II"}, {Value: "III", Label: "third"}}},
		workflow.Seen:   {ID: "f", Label: "Eyes", Kind: workflow.Seen},
		workflow.Date:   {ID: "f", Label: "Due", Kind: workflow.Date},
	}
}

func TestAcceptByKind(t *testing.T) {
	tests := []struct {
		kind        workflow.FieldKind
		typed, want string
	}{
		{workflow.Text, "  Tarn 98\r", "Tarn 98"},
		{workflow.Number, "9", "9 mm"},
		{workflow.Number, "0,9 cm", "9 mm"},
		{workflow.Number, "3", "3 mm"},
		{workflow.List, "49; 51; 52", "49, 51, 52 Nm"},
		{workflow.Choice, "i", "I"},
		{workflow.Choice, "II", "II"},
		{workflow.Choice, "Third", "III"},
		{workflow.Choice, "t", "III"},
		{workflow.Seen, "Y", "yes"},
		{workflow.Seen, "ok", "yes"},
		{workflow.Date, "25.11.2026", "2026-11-25"},
		{workflow.Date, "2026-11-25", "2026-11-25"},
	}
	for _, tt := range tests {
		t.Run(string(tt.kind)+" "+tt.typed, func(t *testing.T) {
			got, err := fieldsOfEachKind()[tt.kind].Accept(workflow.Shop{}, tt.typed)
			require.NoError(t, err)
			assert.Equal(t, tt.want, got)
		})
	}
}

func TestAcceptRefuses(t *testing.T) {
	tests := []struct {
		kind        workflow.FieldKind
		typed, code string
		says        string
	}{
		{workflow.Text, strings.Repeat("x", workflow.MaxText+1), "field.long", "at most 400"},
		{workflow.Number, "2.9", "field.range", "Depth 2.9 mm is outside 3 to 15 mm."},
		{workflow.Number, "9 kg", "quantity.unit", "length"},
		{workflow.Number, "NaN", "quantity.number", "NaN"},
		{workflow.List, "49; 51", "quantity.count", "3"},
		{workflow.List, "49; 51; 301", "field.range", "301 Nm"},
		{workflow.Choice, "IV", "field.choice", `"IV" is none of I, II, III.`},
		{workflow.Seen, "no", "field.seen", "yes does"},
		{workflow.Date, "tomorrow", "field.date", "25.11.2026"},
		{workflow.Date, "31.2.2026", "field.date", "31.2.2026"},
	}
	for _, tt := range tests {
		t.Run(string(tt.kind)+" "+tt.typed[:min(8, len(tt.typed))], func(t *testing.T) {
			_, err := fieldsOfEachKind()[tt.kind].Accept(workflow.Shop{}, tt.typed)
			var fault *calc.Fault
			require.ErrorAs(t, err, &fault)
			assert.Equal(t, tt.code, fault.Code)
			assert.Contains(t, fault.Sentence, tt.says)
		})
	}
}

func TestEmptyIsAFaultUnlessOptional(t *testing.T) {
	for kind, f := range fieldsOfEachKind() {
		for _, typed := range []string{"", " ", "\t\r\n"} {
			_, err := f.Accept(workflow.Shop{}, typed)
			var fault *calc.Fault
			require.ErrorAs(t, err, &fault, "%s", kind)
			assert.Equal(t, "field.empty", fault.Code)
			assert.Equal(t, "f", fault.Field)
			optional := f
			optional.Optional = true
			got, err := optional.Accept(workflow.Shop{}, typed)
			require.NoError(t, err)
			assert.Empty(t, got)
		}
	}
}

// An ambiguous beginning is not guessed.
func TestChoiceTakesOnlyAClearBeginning(t *testing.T) {
	f := workflow.Field{ID: "f", Label: "Drag", Kind: workflow.Choice, Options: []workflow.Option{{Value: "slides"}, {Value: "stuck"}}}
	_, err := f.Accept(workflow.Shop{}, "s")
	assert.Error(t, err)
	got, err := f.Accept(workflow.Shop{}, "sl")
	require.NoError(t, err)
	assert.Equal(t, "slides", got)
}

// What was kept is taken again as it stands: a draft may begin from the record.
func TestCanonicalTextReadsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		kinds := []workflow.FieldKind{workflow.Text, workflow.Number, workflow.List, workflow.Choice, workflow.Seen, workflow.Date}
		f := fieldsOfEachKind()[rapid.SampledFrom(kinds).Draw(t, "kind")]
		typed := rapid.OneOf(rapid.String(), rapid.SampledFrom([]string{"9,25", "i", "y", "1.2.2027", "50 51 52", "ft 3"})).Draw(t, "typed")
		kept, err := f.Accept(workflow.Shop{}, typed)
		if err != nil {
			return
		}
		again, err := f.Accept(workflow.Shop{}, kept)
		require.NoError(t, err)
		require.Equal(t, kept, again)
	})
}

func TestParseKind(t *testing.T) {
	for typed, want := range map[string]workflow.Kind{
		"mount": workflow.NewMount, "New mount": workflow.NewMount, "remount": workflow.ReMount,
		"adj": workflow.Adjustment, "rental": workflow.Rental, "periodic": workflow.Inspection,
	} {
		got, err := workflow.ParseKind(typed)
		require.NoError(t, err, typed)
		assert.Equal(t, want, got)
	}
	for _, typed := range []string{"", "re", "paint"} {
		_, err := workflow.ParseKind(typed)
		assert.Error(t, err, typed)
	}
}

func TestFindOption(t *testing.T) {
	norms := []workflow.Option{{Value: "ISO 5355 A", Label: "ISO 5355 A, adult"}, {Value: "ISO 5355 C"}, {Value: "ISO 9523"}, {Value: "none"}}
	for typed, want := range map[string]int{
		"ISO 9523": 2, "iso 9523": 2, "n": 3, " none ": 3, "9523": 2, "952": 2, "5355 a": 0, "iso 5355 a, ADULT": 0,
		"": -1, "ISO": -1, "5355": -1, "95": -1, "23": -1, "x": -1, "adu": 0, "ß": -1,
	} {
		assert.Equal(t, want, workflow.FindOption(norms, typed), "%q", typed)
	}
}
