package main

import (
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"drillstop/calc/layout"
	"drillstop/db/pattern"
	"drillstop/workflow/steps"
)

// The README documents the answer sheet: every step and every field of it.
func TestReadmeNamesEveryField(t *testing.T) {
	t.Parallel()
	text, err := os.ReadFile("../../README.md")
	require.NoError(t, err)
	_, table, found := strings.Cut(string(text), "| step | field | asked as |")
	require.True(t, found)
	table, _, _ = strings.Cut(table, "\n\n")
	parts := strings.Split(table, "\n| ")
	step := ""
	documented := map[string]bool{}
	for _, row := range parts {
		cells := strings.Split(row, "|")
		if name := strings.TrimSpace(cells[0]); name != "" {
			step = name
		}
		if len(cells) > 1 {
			documented[step+" "+strings.Trim(cells[1], " `")] = true
		}
	}
	for _, s := range steps.All() {
		for _, f := range s.Fields {
			assert.True(t, documented[string(s.ID)+" "+string(f.ID)], "%s of step %s", f.ID, s.ID)
		}
	}
}

// What the README shows of a pattern file and of files of old holes can be read.
func TestReadmeFilesCanBeRead(t *testing.T) {
	t.Parallel()
	text, err := os.ReadFile("../../README.md")
	require.NoError(t, err)
	p, err := pattern.Read("README.md", []byte(shown(t, string(text), "## Hole patterns", 0)))
	require.NoError(t, err)
	assert.True(t, p.Invented)
	for i, name := range []string{"README.csv", "README.toml"} {
		old, err := pattern.ReadOld(name, []byte(shown(t, string(text), "## Old holes", i)))
		require.NoError(t, err)
		left, right, err := old.Holes(pattern.Find, layout.Bit{})
		require.NoError(t, err)
		assert.NotEmpty(t, left)
		assert.NotEmpty(t, right)
	}
}

// shown is what stands in the n-th fence below a heading, counted from 0.
func shown(t *testing.T, text, heading string, n int) string {
	t.Helper()
	_, below, found := strings.Cut(text, "\n"+heading+"\n")
	require.True(t, found, heading)
	fences := strings.Split(below, "\n```\n")
	require.Greater(t, len(fences), 2*n+1)
	return fences[2*n+1] + "\n"
}
