package main

import (
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

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
