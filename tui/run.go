package tui

import (
	"context"
	"errors"
	"io"
	"os"
	"strings"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/lipgloss"
	"github.com/muesli/termenv"

	"drillstop/calc"
	_ "drillstop/tui/quiet" // before the terminal library: ask the terminal nothing
)

// framesPerSecond is the fastest clock the terminal library takes: a key shows
// within one frame.
const framesPerSecond = 120

// Run opens the bench on a terminal and returns when it is closed.
func Run(ctx context.Context, session *Session, in io.Reader, out io.Writer) error {
	app := New(session)
	_, err := tea.NewProgram(app,
		tea.WithContext(ctx), tea.WithInput(in), tea.WithOutput(out),
		tea.WithAltScreen(), tea.WithFPS(framesPerSecond), tea.WithoutSignalHandler(),
	).Run()
	if errors.Is(err, tea.ErrProgramKilled) && ctx.Err() != nil {
		err = nil // told to end, from outside
	}
	return errors.Join(err, app.Close())
}

// Terminal is what the environment tells of the terminal; nothing is asked of
// the terminal itself.
type Terminal struct {
	Renderer *lipgloss.Renderer
	ASCII    bool
}

// NewTerminal reads TERM, COLORTERM, NO_COLOR and the locale. It refuses a
// terminal that cannot move its cursor.
func NewTerminal(out *os.File, getenv func(string) string) (Terminal, error) {
	if term := getenv("TERM"); term == "" || term == "dumb" {
		return Terminal{}, calc.Faultf("terminal.dumb",
			"The bench needs a terminal that can move its cursor; TERM is %q. The commands value, judge, run and ticket work here.", term)
	}
	r := lipgloss.NewRenderer(out, termenv.WithUnsafe())
	r.SetColorProfile(profile(getenv))
	r.SetHasDarkBackground(true) // the styles suit both; asking would cost time
	return Terminal{Renderer: r, ASCII: !unicodeLocale(getenv)}, nil
}

func profile(getenv func(string) string) termenv.Profile {
	term := getenv("TERM")
	switch {
	case getenv("NO_COLOR") != "":
		return termenv.Ascii
	case getenv("COLORTERM") == "truecolor", getenv("COLORTERM") == "24bit":
		return termenv.TrueColor
	case strings.Contains(term, "256color"):
		return termenv.ANSI256
	}
	return termenv.ANSI
}

func unicodeLocale(getenv func(string) string) bool {
	for _, name := range []string{"LC_ALL", "LC_CTYPE", "LANG"} {
		if value := getenv(name); value != "" {
			value = strings.ToUpper(value)
			return strings.Contains(value, "UTF-8") || strings.Contains(value, "UTF8")
		}
	}
	return false
}
