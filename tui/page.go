package tui

import (
	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"
)

// page is one screen. The root gives it its size, its keys and its messages;
// it draws the body between the head line and the notice line.
type page interface {
	// Init starts the page; Resume is called when it is on top again.
	Init() tea.Cmd
	Resume() tea.Cmd
	// Update takes every message that the root does not take itself, and may
	// ask for another page. Moving is part of the same update, so that a key
	// typed right after never reaches the page that was left.
	Update(msg tea.Msg) (tea.Cmd, move)
	// View draws the body; what exceeds the size is cut by the root.
	View() string
	Resize(width, height int)
	// Head is the first line: where we are, and whose it is.
	Head() (left, right string)
	// Next says in a few words what comes after this page; "": nothing.
	Next() string
	// Keys are the bindings of the footer and the help, most useful first.
	Keys() []key.Binding
	// Capturing reports whether letters belong to a text being typed.
	Capturing() bool
	// Busy reports whether the page waits for the store; what is typed
	// meanwhile is kept for the page that comes out of it.
	Busy() bool
	// Leave hands what is typed to the drafts and returns the command that
	// saves it; nil: there is nothing.
	Leave() tea.Cmd
}

// move says which page comes next. The zero move stays.
type move struct {
	back int     // so many pages back; all: to the bench
	on   []page  // then these on top
	then tea.Msg // then this to the page on top
}

// all goes back to the bench.
const all = 1 << 10

var stay = move{}

func push(pages ...page) move { return move{on: pages} }
func pop() move               { return move{back: 1} }
func toBench() move           { return move{back: all} }
