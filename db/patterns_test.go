package db

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A small invented pattern.
const smallPattern = `name = "Tre (invented)"
unit = "mm"
invented = true

[[piece]]
kind = "toe"
anchor = "boot toe"
from = -40
to = 40
sole_min = 260
sole_max = 380
hole = [{ order = 1, x = 10, y = 0, diameter = 4.1, depth = 9, bite = 7.5, class = "marked" }]

[[piece]]
kind = "heel"
anchor = "boot heel"
from = -40
to = 40
sole_min = 260
sole_max = 380
hole = [{ order = 1, x = 10, y = 0, diameter = 4.1, depth = 9, bite = 7.5, class = "marked" }]
`

func TestPatterns(t *testing.T) {
	path := filepath.Join(t.TempDir(), "shop.db")
	s := openAt(t, path)
	list, err := s.Patterns(t.Context())
	require.NoError(t, err)
	assert.Empty(t, list)

	kept, replaced, err := s.SavePattern(t.Context(), "some/where/tre.toml", []byte(smallPattern), noon.Add(1234567), "Ida")
	require.NoError(t, err)
	assert.False(t, replaced)
	assert.Equal(t, "Tre (invented)", kept.Layout.Name)
	_, _, err = s.SavePattern(t.Context(), "en.toml", []byte(strings.Replace(smallPattern, "Tre", "En", 1)), noon, "Bo")
	require.NoError(t, err)
	require.NoError(t, s.Close())

	s = openAt(t, path)
	list, err = s.Patterns(t.Context())
	require.NoError(t, err)
	require.Len(t, list, 2)
	assert.Equal(t, "En (invented)", list[0].Layout.Name)
	assert.Equal(t, kept, list[1], "read back as it was kept")
	assert.Equal(t, smallPattern, list[1].Source)
	assert.Equal(t, noon.Add(time.Millisecond), list[1].At)

	// One name in another case is the same binding.
	moved := strings.NewReplacer("Tre", "TRE", "x = 10", "x = 12").Replace(smallPattern)
	_, replaced, err = s.SavePattern(t.Context(), "tre.toml", []byte(moved), noon, "Bo")
	require.NoError(t, err)
	assert.True(t, replaced)
	list, err = s.Patterns(t.Context())
	require.NoError(t, err)
	require.Len(t, list, 2)
	assert.Equal(t, "TRE (invented)", list[1].Layout.Name)
	assert.InDelta(t, 12, float64(list[1].Layout.Pieces[0].Holes[0].X), 0)
	requireWhole(t, s)
}

func TestBadPatternIsNotKept(t *testing.T) {
	s := newStore(t)
	_, _, err := s.SavePattern(t.Context(), "tre.toml", []byte(smallPattern), noon, "Ida")
	require.NoError(t, err)
	for name, text := range map[string]string{
		"no TOML":    "name = ",
		"empty":      "",
		"a bad hole": strings.Replace(smallPattern, "y = 0", "y = 99", 1),
		"no unit":    strings.Replace(smallPattern, "unit = \"mm\"\n", "", 1),
		"not UTF-8":  smallPattern + "# \xff",
	} {
		_, _, err := s.SavePattern(t.Context(), "shelf/"+name+".toml", []byte(text), noon, "Ida")
		requireFault(t, err, "pattern.file", name+".toml")
	}
	bad, err := filepath.Glob("../testdata/pattern/bad/*.toml")
	require.NoError(t, err)
	require.NotEmpty(t, bad)
	for _, file := range bad {
		text, err := os.ReadFile(file)
		require.NoError(t, err)
		_, _, err = s.SavePattern(t.Context(), file, text, noon, "Ida")
		requireFault(t, err, "pattern.file", filepath.Base(file))
	}
	_, _, err = s.SavePattern(t.Context(), "tre.toml", []byte(smallPattern), noon, "\xff")
	requireFault(t, err, "db.text", "who imports")
	list, err := s.Patterns(t.Context())
	require.NoError(t, err)
	require.Len(t, list, 1)
	assert.Equal(t, "Ida", list[0].By)
	assert.Equal(t, smallPattern, list[0].Source)
}
