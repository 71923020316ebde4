package main

import (
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"drillstop/calc/layout"
	"drillstop/db/pattern"
	"drillstop/testdata/demo"
	"drillstop/workflow"
)

// The map of the demo is drawn by the pattern that a card names: a card whose
// screws were others would hold every mount at the binding.
func TestDemoBindingsFitTheirPatterns(t *testing.T) {
	t.Parallel()
	cards, err := demo.Cards()
	require.NoError(t, err)
	named, err := pattern.Invented()
	require.NoError(t, err)
	patterns := map[string]*layout.Pattern{}
	for _, n := range named {
		patterns[n.Pattern.Name] = n.Pattern
	}
	seen := 0
	for _, card := range cards {
		if card.Kind != workflow.BindingCard {
			continue
		}
		seen++
		p := patterns[card.Answers["pattern"]]
		require.NotNil(t, p, card.Name)
		toe := p.Piece(layout.Toe).Holes
		assert.Equal(t, strconv.Itoa(len(toe)), card.Answers["screws_toe"], card.Name)
		assert.Equal(t, strconv.Itoa(holesOf(p)-len(toe)), card.Answers["screws_heel"], card.Name)
		locks := workflow.No
		for _, h := range toe {
			if h.Locking {
				locks = workflow.Yes
			}
		}
		assert.Equal(t, locks, card.Answers["locking_screw"], card.Name)
	}
	assert.Equal(t, 4, seen)
}
