package db

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"drillstop/workflow"
)

// fillBench opens one job for each summary, which keeps its names and state.
func fillBench(t *testing.T, s *Store, jobs ...workflow.Summary) {
	t.Helper()
	for i, job := range jobs {
		_, err := s.Begin(t.Context(), opening(strings.Repeat("x", i+1)), func(e workflow.Entry) (workflow.Summary, error) {
			sum := summaryOf(e)
			sum.Skier, sum.Ski, sum.Binding, sum.State = job.Skier, job.Ski, job.Binding, job.State
			return sum, nil
		})
		require.NoError(t, err)
	}
}

func tickets(t *testing.T, s *Store, q workflow.Query) []int {
	t.Helper()
	list, err := s.List(t.Context(), q)
	require.NoError(t, err)
	found := []int{}
	for _, sum := range list {
		found = append(found, int(sum.Ticket))
	}
	return found
}

func TestListFilters(t *testing.T) {
	s := newStore(t)
	fillBench(t, s,
		workflow.Summary{Skier: "Jörg Müller", Ski: "Firn 98", Binding: "Two-piece 12", State: workflow.Open},
		workflow.Summary{Skier: "ÉLODIE Durand", Ski: "Harsch 84", Binding: "Pin 10", State: workflow.Finished},
		workflow.Summary{Skier: "Mara O'Neill", Ski: "Firn 104", Binding: "Frame 13", State: workflow.Voided},
		workflow.Summary{Skier: "Анна Лис", Ski: "Sulz", Binding: "Two-piece 14", State: workflow.Open},
	)
	for _, c := range []struct {
		words  string
		states []workflow.State
		limit  int
		want   []int
	}{
		{"", nil, 0, []int{4, 3, 2, 1}},
		{"", []workflow.State{workflow.Open}, 0, []int{4, 1}},
		{"", []workflow.State{workflow.Finished, workflow.Voided}, 0, []int{3, 2}},
		{"", nil, 2, []int{4, 3}},
		{"firn", nil, 0, []int{3, 1}},
		{"FI", nil, 1, []int{3}},
		{"firn", []workflow.State{workflow.Open}, 0, []int{1}},
		{"muller", nil, 0, []int{1}},
		{"MÜL jor", nil, 0, []int{1}},
		{"élo", nil, 0, []int{2}},
		{"elodie d", nil, 0, []int{2}},
		{"анн", nil, 0, []int{4}},
		{"АННА", nil, 0, []int{4}},
		{"lodie", nil, 0, []int{}}, // not at the beginning of a word
		{"firn 10", nil, 0, []int{3}},
		{"firn pin", nil, 0, []int{}}, // every word
		{"two-p", nil, 0, []int{4, 1}},
		{"o'n", nil, 0, []int{3}},
		{"T-0002", nil, 0, []int{2}},
		{"t-000", nil, 0, []int{4, 3, 2, 1}},
		{"t3", nil, 0, []int{3}},
		{"0003", nil, 0, []int{3}},
		{"firn - ", nil, 0, []int{3, 1}},
		{"\" * ( firn", nil, 0, []int{3, 1}},
		{"fi\"rn", nil, 0, []int{}},
		{"skier:firn", nil, 0, []int{}},
		{"firn OR pin", nil, 0, []int{}},
		{"a\x00b \xff", nil, 0, []int{}},
		{strings.Repeat("firn ", 2000), nil, 0, []int{3, 1}},
		{strings.Repeat("f", 100_000), nil, 0, []int{}},
	} {
		got := tickets(t, s, workflow.Query{Words: c.words, States: c.states, Limit: c.limit})
		assert.Equal(t, c.want, got, "%.40q %v", c.words, c.states)
	}
}

func TestListFollowsTheLastEntry(t *testing.T) {
	s := newStore(t)
	begin(t, s, "a")
	e := answer(1, 2)
	sum := summaryOf(e)
	sum.Skier, sum.State, sum.Worst, sum.Stops = "Ona Vale", workflow.Voided, "A stop.", 2
	sum.Due, sum.Here, sum.Cautions, sum.Stales, sum.Mark = "2026-11-26", "Boots", 1, 3, workflow.MarkStop
	require.NoError(t, s.Append(t.Context(), e, sum))

	list, err := s.List(t.Context(), workflow.Query{States: []workflow.State{workflow.Voided}, Words: "vale"})
	require.NoError(t, err)
	assert.Equal(t, []workflow.Summary{sum}, list)
	assert.Empty(t, tickets(t, s, workflow.Query{Words: "edda"}), "the old name finds nothing")
	assert.Empty(t, tickets(t, s, workflow.Query{States: []workflow.State{workflow.Open}}))
	requireWhole(t, s)
}

func TestListStopsAtItsLimit(t *testing.T) {
	s := newStore(t)
	fillBench(t, s, make([]workflow.Summary, defaultLimit+1)...)
	assert.Len(t, tickets(t, s, workflow.Query{}), defaultLimit)
	assert.Len(t, tickets(t, s, workflow.Query{Limit: defaultLimit + 10}), defaultLimit+1)
}
