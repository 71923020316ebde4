package steps

import (
	"context"
	"fmt"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"drillstop/calc/quantity"
	"drillstop/calc/simulated"
	"drillstop/workflow"
)

// atDesk is a technician with a pair on invented bindings, who answers through
// the desk what the bindings do and what the steps ask for.
type atDesk struct {
	t           require.TestingT
	desk        *workflow.Desk
	store       *memory
	job         workflow.Job
	left, right onSki
	round       int
}

func sitsDown(t require.TestingT, left, right onSki) *atDesk {
	shop, tokens := testShop(t), 0
	list, err := Checklist()
	require.NoError(t, err)
	store := &memory{jobs: map[workflow.Ticket][]workflow.Entry{}}
	a := &atDesk{t: t, store: store, left: left, right: right}
	a.desk = workflow.NewDesk(workflow.DeskOptions{
		Checklist: list, Store: store, Shop: shop, Person: workflow.Person{Name: "MB"}, Describe: Describe,
		Now: func() time.Time { return shop.Now }, Token: func() string { tokens++; return fmt.Sprint("token ", tokens) },
	})
	a.job, err = a.desk.NewJob(context.Background(), workflow.Inspection, "")
	require.NoError(t, err)
	return a
}

// answers keeps the usual answers of a step, but for these.
func (a *atDesk) answers(step workflow.StepID, keysAndValues ...string) {
	b := &bench{t: a.t, list: a.desk.Checklist(), shop: a.desk.Shop(), job: a.job}
	typed := b.usual(step)
	for key, value := range b.typed(step, keysAndValues) {
		typed[key] = value
	}
	next, err := a.desk.Answer(context.Background(), a.job, step, typed)
	require.NoError(a.t, err, "%s", step)
	a.job = next
}

// goesOn answers step after step where the desk leads, until the job is handed
// over or a cause is sought that is not in the forward pressure.
func (a *atDesk) goesOn() (led []workflow.StepID) {
	for range 60 {
		here := a.desk.View(a.job).Here
		if here == "" {
			return led
		}
		led = append(led, here)
		switch here {
		case ReleaseTest:
			a.answers(here, a.reads()...)
		case Correction:
			typed, known := a.mends()
			if !known {
				return led
			}
			a.answers(here, typed...)
		case ForwardPressure:
			a.answers(here, a.presses()...)
		default:
			a.answers(here)
		}
	}
	require.Fail(a.t, "it does not end", "%v", led)
	return nil
}

func (a *atDesk) ski(side workflow.Side) *onSki {
	if side == workflow.Left {
		return &a.left
	}
	return &a.right
}

func (a *atDesk) reads() (typed []string) {
	a.round++
	for i, m := range measurements() {
		for _, side := range workflow.Sides {
			r, err := a.ski(side).Readings(simulated.Releases()[i], a.ski(side).State, a.round)
			require.NoError(a.t, err)
			typed = append(typed, workflow.Key(m.field, side), fmt.Sprintf("%.1f; %.1f; %.1f", float64(r[0]), float64(r[1]), float64(r[2])))
		}
	}
	return typed
}

// mends does what the correction suggests: by hand on the binding, and as an
// answer. Where a cause is sought it looks at the forward pressure first, once.
func (a *atDesk) mends() (typed []string, known bool) {
	for _, side := range workflow.Sides {
		what := advice(a.desk.Shop(), a.job, side)
		typed = append(typed, workflow.Key("what", side), what)
		switch what {
		case seekTheCause:
			if a.ski(side).PressureOff == 0 {
				return nil, false
			}
			typed = append(typed, workflow.Key("cause", side), "forward-pressure")
		case setTheScale:
			for i, setting := range []*float64{&a.ski(side).State.Toe, &a.ski(side).State.Heel} {
				to, asked, err := target(a.desk.Shop(), a.job, side, scales()[i])
				require.NoError(a.t, err)
				if asked {
					*setting = to
					typed = append(typed, workflow.Key(scales()[i].to, side), plainNumber(to))
				}
			}
		}
	}
	return typed, true
}

// presses reads the indicator. The first time it is taken to stand right, as a
// hurried eye takes it; when the release test leads back to it, it is seen to.
func (a *atDesk) presses() (typed []string) {
	if _, before := a.job.Answered(ForwardPressure); !before {
		return nil
	}
	for _, side := range workflow.Sides {
		if a.ski(side).PressureOff == 0 || !soughtOn(a.job, side, "forward-pressure") {
			continue
		}
		found, turns := tooMuch, "-1"
		if a.ski(side).PressureOff < 0 {
			found, turns = tooLittle, "1"
		}
		a.ski(side).PressureOff = 0
		typed = append(typed, workflow.Key("found", side), found, workflow.Key("turns", side), turns)
	}
	return typed
}

// The pair leaves its range, the desk leads back to the forward pressure, which
// had become stale, and then on to a correction of the other ski and to the end.
func TestTheDeskLeadsThroughTheLoop(t *testing.T) {
	left, right := asPromised(), asPromised()
	left.PressureShare, left.PressureOff = 0.2, 2
	right.Binding.Toe.Gain = 1.2
	a := sitsDown(t, left, right)
	require.Equal(t, []workflow.StepID{
		Skier, Boots, Skis, Binding, Fit, SoleLength, ForwardPressure, ToeHeight, ReleaseValue,
		ReleaseTest, Correction, ForwardPressure, ReleaseTest, Recentering, LastLook, HandOver,
	}, a.goesOn())
	require.Equal(t, workflow.Finished, a.job.State)
	require.Equal(t, 5.0, a.right.State.Toe)
	record, err := a.store.Entries(t.Context(), a.job.Ticket)
	require.NoError(t, err)
	marks := record[11].Stale
	require.Equal(t, []workflow.StepID{ReleaseTest, ForwardPressure}, []workflow.StepID{marks[0].Step, marks[1].Step})
	for _, e := range record {
		require.Equal(t, "MB", e.By)
		require.False(t, e.At.IsZero())
	}
	again, err := workflow.Fold(record)
	require.NoError(t, err)
	require.Equal(t, a.job, again)
}

// Whatever the two bindings are, the desk leads to an end: handed over with every
// direction in range, or a cause to be sought that nobody found yet, and then
// nothing is handed over.
func TestTheDeskAlwaysEnds(t *testing.T) {
	handedOver, held := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		left, right := asPromised(), asPromised()
		for i, ski := range []*onSki{&left, &right} {
			ski.Binding.Toe.Gain = rapid.Float64Range(0.6, 1.6).Draw(t, fmt.Sprint("toe ", i))
			ski.Binding.Heel.Gain = rapid.Float64Range(0.6, 1.6).Draw(t, fmt.Sprint("heel ", i))
			ski.PressureShare = 0.1
			ski.PressureOff = quantity.Millimetre(rapid.IntRange(-2, 2).Draw(t, "pressure off"))
			ski.Noise, ski.Seed = rapid.Float64Range(0, 0.02).Draw(t, "noise"), rapid.Uint64().Draw(t, "seed")
		}
		a := sitsDown(t, left, right)
		a.goesOn()
		if a.job.State != workflow.Finished {
			held++
			view := a.desk.View(a.job)
			require.Equal(t, Correction, view.Here)
			sv, _ := view.Step(LastLook)
			require.NotEmpty(t, sv.Held)
			return
		}
		handedOver++
		for _, side := range workflow.Sides {
			for _, m := range measurements() {
				v, err := m.verdict(a.desk.Shop(), a.job, side, a.job.Answers(ReleaseTest))
				require.NoError(t, err)
				require.Equal(t, workflow.MarkKept, markOf(v))
			}
		}
	})
	require.Positive(t, handedOver)
	require.Positive(t, held)
}
