package db

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"drillstop/workflow"
)

func TestDraftsComeAndGo(t *testing.T) {
	s := newStore(t)
	begin(t, s, "a")
	draft := func(step workflow.StepID, by string) workflow.Answers {
		t.Helper()
		typed, err := s.Draft(t.Context(), 1, step, by)
		require.NoError(t, err)
		return typed
	}
	save := func(step workflow.StepID, by string, typed workflow.Answers) {
		t.Helper()
		require.NoError(t, s.SaveDraft(t.Context(), 1, step, by, typed))
	}
	assert.Nil(t, draft("skier", "Ida"))
	save("skier", "Ida", workflow.Answers{"mass": "7"})
	save("skier", "Ida", workflow.Answers{"mass": "72", "name": ""})
	save("skier", "Bo", workflow.Answers{"mass": "80"})
	save("boots", "Ida", workflow.Answers{"sole.left": "318"})
	assert.Equal(t, workflow.Answers{"mass": "72", "name": ""}, draft("skier", "Ida"))

	waiver := answer(1, 2)
	waiver.Kind = workflow.EntryWaived
	appendTo(t, s, waiver)
	assert.NotNil(t, draft("skier", "Ida"), "a waiver is no answer")
	appendTo(t, s, answer(1, 3))
	assert.Nil(t, draft("skier", "Ida"), "the draft became the answer")
	assert.Equal(t, workflow.Answers{"mass": "80"}, draft("skier", "Bo"), "of somebody else")
	assert.Equal(t, workflow.Answers{"sole.left": "318"}, draft("boots", "Ida"), "of another step")

	save("boots", "Ida", workflow.Answers{})
	assert.Nil(t, draft("boots", "Ida"))
	requireFault(t, s.SaveDraft(t.Context(), 1, "boots", "Ida", workflow.Answers{"sole": "\xff"}), "db.text")
}

func TestConflictKeepsTheDraft(t *testing.T) {
	s := newStore(t)
	begin(t, s, "a")
	require.NoError(t, s.SaveDraft(t.Context(), 1, "skier", "Ida", workflow.Answers{"mass": "72"}))
	other := answer(1, 2)
	other.By = "Bo"
	appendTo(t, s, other)
	late := answer(1, 2)
	late.Token = "late"
	require.ErrorIs(t, s.Append(t.Context(), late, summaryOf(late)), workflow.ErrConflict)
	typed, err := s.Draft(t.Context(), 1, "skier", "Ida")
	require.NoError(t, err)
	assert.Equal(t, workflow.Answers{"mass": "72"}, typed)
}

func TestCards(t *testing.T) {
	s := newStore(t)
	for _, card := range []workflow.Card{
		{Kind: workflow.BindingCard, Name: "tourer", Answers: workflow.Answers{"kind": "pin"}},
		{Kind: workflow.BindingCard, Name: "Alpine 12", Answers: workflow.Answers{"kind": "frame"}},
		{Kind: workflow.SkiCard, Name: "tourer", Answers: workflow.Answers{"waist": "90 mm"}},
		{Kind: workflow.BindingCard, Name: "Alpine 12", Answers: workflow.Answers{"kind": "alpine"}},
	} {
		require.NoError(t, s.SaveCard(t.Context(), card))
	}
	cards, err := s.Cards(t.Context(), workflow.BindingCard)
	require.NoError(t, err)
	assert.Equal(t, []workflow.Card{
		{Kind: workflow.BindingCard, Name: "Alpine 12", Answers: workflow.Answers{"kind": "alpine"}},
		{Kind: workflow.BindingCard, Name: "tourer", Answers: workflow.Answers{"kind": "pin"}},
	}, cards)
	requireFault(t, s.SaveCard(t.Context(), workflow.Card{Kind: workflow.SkiCard, Name: "\xff"}), "db.text")
}
