package tui

import (
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"drillstop/tui/draw"
	"drillstop/workflow"
)

// indent is what stands before every line of a picture.
const indent = "   "

// pictures are what may be drawn beside the step, with what is typed so far.
func (p *stepPage) pictures() []workflow.Picture {
	if p.step.Step.Picture == nil || p.step.Held != "" {
		return nil
	}
	return p.s.Desk.Picture(p.job, p.step.Step.ID, p.form.Typed())
}

// drawn are the pictures that fit into height lines, each of them whole and the
// last followed by a blank line: all of them, or the one that the field in hand
// is about.
func (p *stepPage) drawn(height int) []string {
	pictures := p.pictures()
	lines := p.drawAll(pictures)
	if len(lines) > height && len(pictures) > 1 {
		lines = p.drawAll([]workflow.Picture{p.inHand(pictures)})
	}
	if len(lines) > height {
		return nil
	}
	return lines
}

func (p *stepPage) drawAll(pictures []workflow.Picture) []string {
	var lines []string
	for _, picture := range pictures {
		for _, line := range draw.Picture(picture, p.width-len(indent)-1, p.s.ink()) {
			lines = append(lines, indent+line)
		}
	}
	if len(lines) > 0 {
		lines = append(lines, "")
	}
	return lines
}

// inHand is the picture whose title the label of the field in hand begins with,
// and that of its ski where the two have pictures of their own; else the first.
func (p *stepPage) inHand(pictures []workflow.Picture) workflow.Picture {
	field := strings.ToLower(p.form.FocusedField().Label)
	right := strings.HasSuffix(p.form.FocusedKey(), "."+string(workflow.Right))
	best, weight := pictures[0], 0
	for _, picture := range pictures {
		what, ski, apart := strings.Cut(draw.PictureTitle(picture), ",")
		if !strings.HasPrefix(field, strings.ToLower(what)) {
			continue
		}
		fits := 1
		if apart && strings.Contains(ski, string(workflow.Right)) == right {
			fits = 2
		}
		if fits > weight {
			best, weight = picture, fits
		}
	}
	return best
}

// openPictures shows the pictures on a page of their own.
func (p *stepPage) openPictures() (tea.Cmd, move) {
	pictures := p.pictures()
	if len(pictures) == 0 {
		return sayNotice(workflow.MarkAhead, "There is no picture yet: what it is made of is not answered."), stay
	}
	return p.Leave(), push(newPictures(p.s, p.job, p.step.Step.Title, pictures))
}
