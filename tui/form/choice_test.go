package form

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"drillstop/workflow"
)

func TestChoosing(t *testing.T) {
	types := []workflow.Option{{Value: "I"}, {Value: "II"}, {Value: "III"}}
	pressure := []workflow.Option{{Value: "in window", Label: "in the window"}, {Value: "too little"}, {Value: "too much"}}
	norms := []workflow.Option{{Value: "5355 A"}, {Value: "9523"}, {Value: "2"}}
	for _, c := range []struct {
		name    string
		options []workflow.Option
		typed   string
		want    string
	}{
		{"nothing at first", types, "", ""},
		{"enter chooses nothing", types, "<enter>", ""},
		{"right begins at the first", types, "<right>", "I"},
		{"left begins at the last", types, "<left>", "III"},
		{"right goes on", types, "<right><right>", "II"},
		{"the end holds", types, "<left><right><right>", "III"},
		{"the start holds", types, "<right><left><left>", "I"},
		{"by number", types, "2", "II"},
		{"number after number is another text", types, "12", "12"},
		{"an exact value wins over longer ones", types, "i", "I"},
		{"values can be typed", types, "iii", "III"},
		{"no such number", types, "4", "4"},
		{"no zero", types, "0", "0"},
		{"no leading zero", types, "02", "02"},
		{"no sign", types, "+2", "+2"},
		{"first letter", pressure, "i", "in window"},
		{"the label counts", pressure, "in t", "in window"},
		{"the value counts", pressure, "IN W", "in window"},
		{"not by a letter of two", pressure, "t", "t"},
		{"by more letters", pressure, "too l", "too little"},
		{"spaces before are nothing", pressure, " too m", "too much"},
		{"a beginning wins over a number", norms, "9", "9523"},
		{"a value wins over a number", norms, "2", "2"},
		{"rubbing out takes all", types, "2<rub>", ""},
		{"and another can be typed", types, "2<rub>3", "III"},
		{"arrows end the text", types, "2<right>1", "I"},
		{"ctrl+u takes all", types, "2<ctrl+u>", ""},
		{"a scanned code is no choice", types, "4006381333931", "4006381333931"},
		{"nor is one that begins like one", types, "II-4006", "II-4006"},
	} {
		t.Run(c.name, func(t *testing.T) {
			m := open(Options{Step: workflow.Step{ID: "x", Fields: []workflow.Field{
				{ID: "a", Label: "A", Kind: workflow.Choice, Options: c.options},
				{ID: "b", Label: "B", Kind: workflow.Text},
			}}})
			press(m, c.typed)
			assert.Equal(t, c.want, m.Typed()["a"])
		})
	}
}

func TestChoiceTypedRuneByRuneIsTheSame(t *testing.T) {
	for _, code := range []string{"4006381333931", "II3", "i"} {
		at, burst := open(Options{Focus: "type"}), open(Options{Focus: "type"})
		oneByOne(at, code)
		press(burst, code)
		assert.Equal(t, burst.Typed(), at.Typed(), code)
	}
}

func TestAChoiceIsTypedAnewWhenTheHandComesBack(t *testing.T) {
	m := open(Options{Focus: "type", Draft: workflow.Answers{"type": "III"}})
	press(m, "1<down><up>2")
	assert.Equal(t, "II", m.Typed()["type"])
}

func TestChoiceOnTheScreen(t *testing.T) {
	m := open(Options{Focus: "type"})
	assert.Contains(t, m.View(), "< (choose)_ >")
	assert.Contains(t, m.View(), " I  II  III ", "all options at once")
	press(m, "<right><right>")
	assert.Contains(t, m.View(), "< II_       >")
	assert.Contains(t, m.View(), " I [II] III ", "and nothing moves")
	press(m, "<rub>9<enter><up>")
	assert.Contains(t, m.View(), "< 9_        >!")
	assert.Contains(t, m.View(), `! Skier type: "9" is none of I, II, III.`)

	many := make([]workflow.Option, 30)
	for i := range many {
		many[i].Value = strings.Repeat(string(rune('a'+i%26)), 9+i)
	}
	m = open(Options{Width: 60, Height: 10, Step: workflow.Step{ID: "x", Fields: []workflow.Field{{ID: "a", Label: "A", Kind: workflow.Choice, Options: many}}}})
	for _, o := range many {
		press(m, "<right>")
		assert.Contains(t, m.View(), "["+o.Value+"]", "the chosen one is always on the screen")
	}
}
