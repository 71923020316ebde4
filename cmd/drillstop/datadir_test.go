package main

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestDataDir(t *testing.T) {
	t.Parallel()
	for name, c := range map[string]struct {
		goos string
		env  map[string]string
		want string // "" where it fails
	}{
		"home":                    {"linux", map[string]string{"HOME": "/home/ida"}, "/home/ida/.local/share/drillstop"},
		"XDG wins":                {"linux", map[string]string{"HOME": "/home/ida", "XDG_DATA_HOME": "/data"}, "/data/drillstop"},
		"XDG without home":        {"linux", map[string]string{"XDG_DATA_HOME": "/data"}, "/data/drillstop"},
		"XDG relative is ignored": {"linux", map[string]string{"HOME": "/home/ida", "XDG_DATA_HOME": "data"}, "/home/ida/.local/share/drillstop"},
		"other unix":              {"freebsd", map[string]string{"HOME": "/home/ida"}, "/home/ida/.local/share/drillstop"},
		"macOS":                   {"darwin", map[string]string{"HOME": "/Users/ida", "XDG_DATA_HOME": "/data"}, "/Users/ida/Library/Application Support/drillstop"},
		"nothing":                 {"linux", nil, ""},
		"home empty":              {"linux", map[string]string{"HOME": ""}, ""},
		"home relative":           {"linux", map[string]string{"HOME": "ida"}, ""},
		"windows without":         {"windows", map[string]string{"HOME": "/home/ida"}, ""},
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			got, err := dataDir(c.goos, func(key string) string { return c.env[key] })
			if c.want == "" {
				require.ErrorContains(t, err, "There is no place for the shop file")
				assert.ErrorContains(t, err, "--db FILE")
				return
			}
			require.NoError(t, err)
			assert.Equal(t, c.want, got)
		})
	}
}
