// Package quiet keeps the program from asking the terminal for its colours
// before the first screen.
//
// The terminal library asks for the background colour while packages are
// initialised and waits up to five seconds for a terminal that never answers.
// Go initialises packages that are ready in the order of their import paths;
// this one needs only the style library, sorts before the terminal library,
// and so answers the question before it is asked. The styles of this program
// are chosen to be readable on light and dark backgrounds alike.
package quiet

import "github.com/charmbracelet/lipgloss"

func init() { //nolint:gochecknoinits // the order of initialisation is the point
	lipgloss.SetHasDarkBackground(true)
}
