package steps

import (
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"drillstop/calc/quantity"
	"drillstop/calc/release"
	"drillstop/workflow"
)

func TestSkierIsKeptInUnitsOfTheChart(t *testing.T) {
	tests := []struct{ field, typed, want string }{
		{"mass", "72", "72 kg"},
		{"mass", "165 lb", "74.84 kg"},  // 165 x 0.45359237 = 74.842741 (international pound, 1959)
		{"mass", "48.5 lb", "21.99 kg"}, // 21.99923: stays below 22 kg
		{"mass", "72,29", "72.29 kg"},
		{"height", "5'10\"", "177.8 cm"}, // 70 x 2.54 (international inch)
		{"height", "1,75", "175 cm"},
		{"age", "34", "34 years"},
		{"age", "1992-11-25", "34 years"}, // a birthday on the day of the clock
		{"age", "26.11.1992", "33 years"}, // one day before it
		{"type", "iii", "III"},
	}
	for _, tt := range tests {
		t.Run(tt.typed, func(t *testing.T) {
			b := newJob(t, workflow.Adjustment).change(Skier, tt.field, tt.typed)
			assert.Equal(t, tt.want, b.job.Text(Skier, workflow.FieldID(tt.field), workflow.Both))
		})
	}
}

func TestSkierRefusals(t *testing.T) {
	tests := []struct{ name, field, typed, code, says string }{
		{"pounds without their unit are not seen, tonnes are", "mass", "720", "quantity.mass-range", "not a skier's mass"},
		{"height as mass", "mass", "175 cm", "quantity.unit", "a length"},
		{"height in feet as a decimal", "height", "5.10", "quantity.height-range", "feet and inches"},
		{"a birth date to come", "age", "2027-01-01", "quantity.date-future", "future"},
		{"half a year", "age", "8.5", "quantity.age-whole", "whole number"},
		{"type by the technician's word", "type", "good", "field.choice", "I, II, III"},
		{"a request without its reason", "request_toe", "higher", "skier.request-reason", "needs its reason"},
		{"lower as well", "request_heel", "lower", "skier.request-reason", "needs its reason"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			r := newJob(t, workflow.Adjustment).refused(Skier, tt.field, tt.typed)
			require.Len(t, r.Fields, 1)
			assert.Equal(t, tt.code, r.Fields[0].Fault.Code)
			assert.Contains(t, r.Fields[0].Fault.Sentence, tt.says)
		})
	}
	b := newJob(t, workflow.Adjustment).change(Skier, "request_toe", "lower", "request_reason", "careful style")
	assert.True(t, b.job.Is(Skier, "request_toe", workflow.Both, "lower"))
}

// What the chart refuses of the skier alone is said before anything else is
// carried to the bench, and nobody waives it.
func TestSkierOutsideTheChart(t *testing.T) {
	tests := []struct {
		name  string
		typed []string
		code  string // "" for nothing
	}{
		{"usual", nil, ""},
		{"a short sole is not the skier's fault", []string{"mass", "110", "height", "190"}, ""},
		{"type III at 21 kg: common practice", []string{"mass", "21", "height", "115", "age", "8", "type", "III"}, "release.light-type"},
		{"type III at 22 kg", []string{"mass", "22", "height", "115", "age", "8", "type", "III"}, ""},
		{"higher at 21 kg", []string{"mass", "21", "height", "115", "age", "8", "request_heel", "higher", "request_reason", "r"}, "release.light-wish"},
		{"lower at 21 kg", []string{"mass", "21", "height", "115", "age", "8", "request_heel", "lower", "request_reason", "r"}, ""},
		{"below row A of the chart, 10 to 13 kg", []string{"mass", "9", "height", "80", "age", "2", "type", "I"}, "release.mass-range"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			b := newJob(t, workflow.Adjustment).change(Skier, tt.typed...)
			if tt.code == "" {
				assert.Empty(t, b.codes(Skier))
				return
			}
			require.Equal(t, []string{"stop " + tt.code}, b.codes(Skier))
			f := b.finding(tt.code)
			assert.True(t, f.Never)
			assert.NotEmpty(t, f.Source)
			assert.Contains(t, b.held(Boots), "The job is held at skier")
		})
	}
}

func TestChartIsNeededForAValue(t *testing.T) {
	b := newJob(t, workflow.Adjustment)
	b.shop.Chart = nil
	b.change(Skier)
	assert.Equal(t, []string{"stop release.no-chart"}, b.codes(Skier))
}

// A shop's own chart may begin at a longer sole than the shortest there is: that
// is not the skier's fault either.
func TestShortestColumnIsNotTheSkiersFault(t *testing.T) {
	text, err := os.ReadFile("../../calc/release/chart_default.csv")
	require.NoError(t, err)
	own := strings.Replace(string(text), ",<=250,", ",200-250,", 1)
	require.NotEqual(t, string(text), own)
	b := newJob(t, workflow.Adjustment)
	b.shop.Chart, err = release.Load(strings.NewReader(own))
	require.NoError(t, err)
	assert.Empty(t, b.change(Skier).codes(Skier))
}

// A mass with two decimals stays what it is, whatever its bits.
func TestMassOfTwoDecimalsIsKept(t *testing.T) {
	for n := 800; n <= 25000; n++ {
		typed := quantity.Print(float64(n)/100, quantity.KG)
		kept, err := readMass(workflow.Shop{}, typed)
		require.NoError(t, err)
		require.Equal(t, typed, kept)
	}
}

func TestBoots(t *testing.T) {
	tests := []struct {
		name  string
		typed []string
		want  []string
	}{
		{"usual", nil, []string{}},
		{"no shell size", []string{"shell", ""}, []string{}},
		{"the shell size in mm as sole length", []string{"sole", "275"}, []string{"stop fit.shell-for-sole"}},
		{"on one boot", []string{"sole.right", "275"}, []string{"stop fit.shell-for-sole"}},
		{"an unlikely pair", []string{"sole", "348"}, []string{"caution fit.shell-unlikely"}},
		{"damaged", []string{"condition", "damaged"}, []string{"stop fit.boot-damaged"}},
		{"worn, not measured", []string{"condition", "worn"}, []string{"caution boots.worn"}},
		{"one boot damaged", []string{"condition.left", "damaged"}, []string{"stop fit.boot-damaged"}},
		{"worn apart", []string{"condition", "worn", "wear.left", "2"}, []string{"caution boots.worn"}},
		{"worn and measured", []string{"condition", "worn", "wear", "2.4"}, []string{}},
		// Mean toe wear 4.8 mm in the injured group of DOI 10.1111/sms.13391.
		{"worn as in the study", []string{"condition", "worn", "wear", "4.9"}, []string{"caution fit.toe-worn"}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			b := newJob(t, workflow.Adjustment).upTo(Boots).change(Boots, tt.typed...)
			assert.Equal(t, tt.want, b.codes(Boots))
		})
	}
}

func TestBootsRefusals(t *testing.T) {
	b := newJob(t, workflow.Adjustment).upTo(Boots)
	r := b.refused(Boots, "sole.left", "27.5")
	require.Len(t, r.Fields, 1)
	assert.Equal(t, "quantity.shell-size", r.Fields[0].Fault.Code)
	assert.Equal(t, workflow.Left, r.Fields[0].Side)
	assert.Contains(t, r.Error(), "shell size; the sole length is the three-digit number")
	assert.Contains(t, b.refused(Boots, "norm", "ISO 5355").Error(), "none of")
	assert.Contains(t, b.refused(Boots, "name", "").Error(), "Boot: not answered yet")
	assert.Contains(t, b.refused(Boots, "midsole", "yes").Error(), "no field", "nothing is laid out in an adjustment")
	assert.Contains(t, newJob(t, workflow.NewMount).upTo(Boots).refused(Boots, "midsole.right", "").Error(), "choose yes, no")
	assert.Contains(t, b.refused(Boots, "wear", "16").Error(), "outside 0 to 15 mm")
	assert.Contains(t, b.refused(Boots, "shell", "275").Error(), "outside 15 to 35")
}

func TestBootsNameTheSideOnlyWhereItMatters(t *testing.T) {
	b := newJob(t, workflow.Adjustment).upTo(Boots).change(Boots, "sole.right", "275")
	f := b.finding("fit.shell-for-sole")
	assert.Equal(t, workflow.Right, f.Side)
	assert.Contains(t, f.Text, "Right boot: ")
	b.change(Boots, "sole.left", "275")
	f = b.finding("fit.shell-for-sole")
	assert.Equal(t, workflow.Both, f.Side)
	assert.Contains(t, f.Text, "300 mm to 330 mm")
}

func TestMidsoleMark(t *testing.T) {
	b := newJob(t, workflow.NewMount).upTo(Boots).change(Boots, "midsole.left", "no")
	f := b.finding("boots.midsole")
	require.NotNil(t, f)
	assert.Equal(t, workflow.Left, f.Side)
	assert.Equal(t, "Left boot: No midsole mark: halve the sole length 318 mm, mark the middle yourself, and measure it from both ends.", f.Text)
	assert.Equal(t, []string{"caution boots.midsole"}, b.codes(Boots))
}

func TestSkierNumbersThatHardlyBelongTogether(t *testing.T) {
	b := newJob(t, workflow.Adjustment).change(Skier, "mass", "110", "height", "175")
	assert.Equal(t, []string{"caution release.mass-height"}, b.codes(Skier), "110 lb, say")
	b.through(Fit)
	assert.NotContains(t, b.codes(Fit), "caution release.mass-height", "it is said once")
	assert.Empty(t, newJob(t, workflow.Adjustment).change(Skier, "mass", "93.7").codes(Skier), "25 % above 75 kg")
	assert.NotEmpty(t, newJob(t, workflow.Adjustment).change(Skier, "mass", "93.8").codes(Skier))
}

func TestRisersNeedABindingThatTours(t *testing.T) {
	for kind, refused := range map[string]bool{"alpine": true, "system track": true, "hybrid": false, "pin": false, "frame": false} {
		b := newJob(t, workflow.Adjustment).upTo(Binding)
		if !refused {
			b.change(Binding, "kind", kind, "risers", "2")
			continue
		}
		r := b.refused(Binding, "kind", kind, "risers", "3")
		require.Len(t, r.Fields, 1, kind)
		assert.Equal(t, workflow.FieldID("risers"), r.Fields[0].Field)
		assert.Equal(t, "binding.risers", r.Fields[0].Fault.Code)
		assert.Contains(t, r.Error(), "binding has no heel risers: choose hybrid, pin or frame, or leave it empty.")
		b.change(Binding, "kind", kind, "risers", "0").change(Binding, "risers", "")
	}
}

func TestSkis(t *testing.T) {
	tests := []struct {
		name  string
		kind  workflow.Kind
		typed []string
		want  []string
	}{
		{"usual", workflow.NewMount, nil, []string{}},
		{"damaged", workflow.NewMount, []string{"condition", "damaged"}, []string{"stop skis.damaged"}},
		{"worn", workflow.Adjustment, []string{"condition", "worn"}, []string{"caution skis.worn"}},
		{"old holes in a new mount", workflow.NewMount, []string{"old_holes", "yes"}, []string{"caution skis.old-holes"}},
		{"old holes in a re-mount", workflow.ReMount, []string{"old_holes", "yes"}, []string{"caution skis.old-holes"}},
		{"a re-mount without old holes", workflow.ReMount, nil, []string{"caution skis.no-old-holes"}},
		{"one ski damaged", workflow.NewMount, []string{"condition.right", "damaged"}, []string{"stop skis.damaged"}},
		{"a pair within a millimetre", workflow.NewMount, []string{"thickness_toe.left", "15.2"}, []string{}},
		{"unlike at the toe", workflow.NewMount, []string{"thickness_toe.left", "15.3"}, []string{"caution skis.thickness"}},
		{"unlike at the heel", workflow.NewMount, []string{"thickness_heel.right", "9"}, []string{"caution skis.thickness"}},
		{"only the marking known", workflow.NewMount, []string{"construction", ""}, []string{}},
		{"only the construction known", workflow.NewMount, []string{"marked", ""}, []string{}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			b := newJob(t, tt.kind).upTo(Skis).change(Skis, tt.typed...)
			assert.Equal(t, tt.want, b.codes(Skis))
		})
	}
	b := newJob(t, workflow.NewMount).upTo(Skis)
	assert.Contains(t, b.refused(Skis, "construction", "", "marked", "").Error(), "give one of the two")
	assert.Contains(t, b.refused(Skis, "marked", "9 x 3.5").Error(), "diameter")
	assert.Contains(t, b.refused(Skis, "waist", "9.8").Error(), "outside 50 to 150 mm")
	b.change(Skis, "marked", "4,1/9", "waist", "9.8 cm")
	assert.Equal(t, "4.1 x 9 mm", b.job.Text(Skis, "marked", workflow.Both))
	assert.Equal(t, "98 mm", b.job.Text(Skis, "waist", workflow.Both))
}

func TestBindingNorms(t *testing.T) {
	for typed, want := range map[string]string{
		"ISO 5355 A":                    "ISO 5355 A",
		"9523; 5355 a":                  "ISO 5355 A, ISO 9523",
		"iso9523,ISO 23223 A,ISO 9523,": "ISO 9523, ISO 23223 A",
	} {
		b := newJob(t, workflow.Adjustment).upTo(Binding).change(Binding, "norms", typed)
		assert.Equal(t, want, b.job.Text(Binding, "norms", workflow.Both))
	}
	b := newJob(t, workflow.Adjustment).upTo(Binding)
	assert.Contains(t, b.refused(Binding, "norms", "5355").Error(), "ISO 5355 A or ISO 5355 C")
	assert.Contains(t, b.refused(Binding, "norms", "ISO 5355 A, DIN").Error(), `"DIN" is no sole norm`)
	assert.Contains(t, b.refused(Binding, "norms", ", ;").Error(), "No sole norm")
	assert.Contains(t, b.refused(Binding, "norms", "ISO").Error(), `"ISO" is no sole norm`)
}

func TestBindingRefusals(t *testing.T) {
	tests := []struct {
		name  string
		typed []string
		field workflow.FieldID
		says  string
	}{
		{"a scale upside down", []string{"scale_min", "10", "scale_max", "3"}, "scale_max", "from 10 to 3"},
		{"a scale of one value", []string{"scale_min", "3", "scale_max", "3"}, "scale_max", "from 3 to 3"},
		{"a template upside down", []string{"sole_min", "371"}, "sole_max", "from 371 mm to 370 mm"},
		{"half a track", []string{"track_max", ""}, "track_max", "two ends"},
		{"the other half", []string{"track_min", ""}, "track_min", "two ends"},
		{"screws in parts", []string{"screws_toe", "4.5"}, "screws_toe", "whole number"},
		{"too many screws", []string{"screws_heel", "11"}, "screws_heel", "outside 2 to 10"},
		{"a scale in Nm", []string{"scale_max", "10 Nm"}, "scale_max", "plain number"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			r := newJob(t, workflow.NewMount).upTo(Binding).refused(Binding, tt.typed...)
			require.Len(t, r.Fields, 1)
			assert.Equal(t, tt.field, r.Fields[0].Field)
			assert.Contains(t, r.Error(), tt.says)
		})
	}
	b := newJob(t, workflow.NewMount).upTo(Binding).change(Binding, "track_min", "", "track_max", "", "brake", "", "risers", "")
	assert.Empty(t, b.codes(Binding))
}

func TestSystemTrackIsNotDrilled(t *testing.T) {
	for kind, want := range map[workflow.Kind][]string{
		workflow.NewMount: {"stop binding.track-mount"}, workflow.Adjustment: {}, workflow.Rental: {},
	} {
		b := newJob(t, kind).upTo(Binding).change(Binding, "kind", "system track", "used", "used")
		assert.Equal(t, want, b.codes(Binding), "%s", kind)
		assert.NotNil(t, b.finding("binding.used"))
	}
}
