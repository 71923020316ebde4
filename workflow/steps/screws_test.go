package steps

import (
	"testing"

	"github.com/stretchr/testify/require"

	"drillstop/calc"
	"drillstop/workflow"
)

func TestScrews(t *testing.T) {
	for _, c := range []struct {
		name  string
		typed []string
		want  []string
	}{
		{"as usual", nil, []string{}},
		{"by hand", []string{"drive", "hand", "torque", ""}, []string{}},
		{"at the ends of the window", []string{"torque", "4"}, []string{}},
		{"at the other end", []string{"torque", "5 Nm"}, []string{}},
		{"weak driver", []string{"torque", "3.9"}, []string{"caution screws.torque"}},
		{"strong driver", []string{"torque", "5.1"}, []string{"caution screws.torque"}},
		{"one screw left over", []string{"driven.left", "7"}, []string{"stop screws.count"}},
		{"one too many", []string{"driven", "9"}, []string{"stop screws.count", "stop screws.count"}},
		{"stripped and plugged", []string{"stripped.right", "1", "way_out", "plug"}, []string{"caution bore.stripped-plug"}},
		{"stripped, insert", []string{"stripped", "1", "way_out", "insert"}, []string{"caution bore.stripped-plug", "caution bore.stripped-plug"}},
		{"given up", []string{"stripped.left", "4", "way_out", "other ski"}, []string{"stop screws.other-ski"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			b := newJob(t, workflow.NewMount).upTo(Screws).change(Screws, c.typed...)
			require.Equal(t, c.want, b.codes(Screws))
		})
	}
}

func TestScrewsSayTheNumbers(t *testing.T) {
	b := newJob(t, workflow.NewMount).upTo(Screws).change(Screws, "driven.right", "7", "torque", "6")
	require.Equal(t, "Right ski: 7 screws driven, 8 holes drilled: every hole holds a screw.", b.finding("screws.count").Text)
	require.Equal(t, "The driver was set to 6 Nm, outside 4 to 5 Nm: a thread may strip; try each screw by hand.", b.finding("screws.torque").Text)
	require.Equal(t, commonPractice, b.finding("screws.torque").Source)
	require.True(t, b.finding("screws.count").Never, "a hole without a screw")
	require.False(t, b.change(Screws, "driven.right", "9").finding("screws.count").Never)

	b.change(Screws, "driven", "8", "stripped.left", "2", "way_out", "other ski")
	f := b.finding("screws.other-ski")
	require.True(t, f.Never)
	require.Equal(t, calc.Stop, f.Level)
	require.Contains(t, b.held(Brake), "2 screws stripped and the ski is given up")
}

func TestScrewsCompareTheirAnswers(t *testing.T) {
	b := newJob(t, workflow.NewMount).upTo(Screws)
	for _, c := range []struct {
		name, code string
		typed      []string
	}{
		{"a driver has a torque", "screws.torque", []string{"torque", ""}},
		{"stripped needs a way out", "screws.way-out", []string{"stripped.left", "1"}},
		{"a way out needs a stripped screw", "screws.way-out", []string{"way_out", "insert"}},
		{"more stripped than driven", "screws.stripped", []string{"stripped.left", "9", "way_out", "insert"}},
		{"half a screw", "field.whole", []string{"driven.left", "7.5"}},
		{"a torque beyond a screw", "field.range", []string{"torque", "45"}},
		{"all at once", "field.seen", []string{"half_first", "no"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			faults := b.refused(Screws, c.typed...).Fields
			require.Len(t, faults, 1)
			require.Equal(t, c.code, faults[0].Fault.Code)
		})
	}
}

func TestCentreScrewIsAskedWhereThereIsOne(t *testing.T) {
	with := newJob(t, workflow.NewMount).upTo(Screws)
	require.Equal(t, workflow.FieldID("locking_first"), with.refused(Screws, "locking_first", "").Fields[0].Field)
	without := newJob(t, workflow.NewMount).upTo(Binding).change(Binding, "locking_screw", "no").upTo(Screws)
	require.NotContains(t, without.usual(Screws), "locking_first")
	without.change(Screws)
	require.Empty(t, without.codes(Screws))
}

func TestScrewsRest(t *testing.T) {
	for _, c := range []struct {
		name  string
		act   func(*bench)
		stale bool
	}{
		{"glue as it is", func(b *bench) { b.change(Glue) }, false},
		{"another glue", func(b *bench) { b.change(Glue, "kind", "epoxy") }, true},
		{"holes drilled deeper", func(b *bench) { b.change(Holes, "depth.left", "9.2") }, true},
		{"other screws", func(b *bench) { b.change(Binding, "bite_heel", "7") }, true},
		{"another waist", func(b *bench) { b.change(Skis, "waist", "99") }, false},
	} {
		t.Run(c.name, func(t *testing.T) {
			b := newJob(t, workflow.NewMount).through(Screws)
			c.act(b)
			require.Equal(t, c.stale, b.stale(Screws) != "", b.stale(Screws))
		})
	}
}
