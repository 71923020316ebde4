package main

import (
	"path/filepath"

	"drillstop/calc"
)

// dataDir returns the folder for this user's shop files: XDG_DATA_HOME or
// ~/.local/share, and on macOS and Windows the platform's own place. It makes
// nothing. Without a place it fails with the code "data-folder".
func dataDir(goos string, getenv func(string) string) (string, error) {
	home, variable, below := getenv("HOME"), "HOME", filepath.Join(".local", "share")
	switch goos {
	case "windows":
		home, variable, below = getenv("LocalAppData"), "LocalAppData", ""
	case "darwin":
		below = filepath.Join("Library", "Application Support")
	default:
		// The base directory specification: a path that is not absolute is
		// as good as none.
		if data := getenv("XDG_DATA_HOME"); filepath.IsAbs(data) {
			return filepath.Join(data, "drillstop"), nil
		}
	}
	switch {
	case home == "":
		return "", calc.Faultf("data-folder",
			"There is no place for the shop file: %s is not set. Set it, or name a shop file with --db FILE.", variable)
	case !filepath.IsAbs(home):
		return "", calc.Faultf("data-folder",
			"There is no place for the shop file: %s is %q, which is not a full path. Set it, or name a shop file with --db FILE.", variable, home)
	}
	return filepath.Join(home, below, "drillstop"), nil
}
