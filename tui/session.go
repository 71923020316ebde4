// Package tui draws the bench: everything that is shown, nothing that is
// decided. One root model (App) owns the window and a stack of pages; each page
// is one file; forms are made in the room form, pictures in the room draw.
package tui

import (
	"context"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"drillstop/workflow"
)

// ioTimeout bounds every reading and writing that a screen waits for.
const ioTimeout = 10 * time.Second

// Session is what the pages of one technician's terminal share.
type Session struct {
	Desk     *workflow.Desk
	ShopFile string // path, shown on first start
	First    bool   // the shop file was made by this start
	Demo     bool   // the shop is invented
	Now      func() time.Time
	Theme    Theme
	ASCII    bool // the terminal shows no more than ASCII

	drafts *drafts
}

// do runs io outside the update loop, with a timeout, and sends what it returns.
func do(io func(ctx context.Context) tea.Msg) tea.Cmd {
	return func() tea.Msg {
		ctx, cancel := context.WithTimeout(context.Background(), ioTimeout)
		defer cancel()
		return io(ctx)
	}
}

// noticeMsg puts one sentence into the notice line.
type noticeMsg struct {
	mark workflow.Mark
	text string
}
