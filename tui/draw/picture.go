package draw

import "drillstop/workflow"

// Picture draws whatever a picture holds, every line exactly width columns wide;
// nothing where it holds nothing. See Scale, Bands and Window.
func Picture(p workflow.Picture, width int, ink Ink) []string {
	var lines []string
	if p.Scale != nil {
		lines = append(lines, Scale(*p.Scale, width, ink)...)
	}
	if p.Bands != nil {
		lines = append(lines, Bands(*p.Bands, width, ink)...)
	}
	if p.Window != nil {
		lines = append(lines, Window(*p.Window, width, ink)...)
	}
	return lines
}

// PictureTitle is the title of what a picture holds, "" where it has none.
func PictureTitle(p workflow.Picture) string {
	switch {
	case p.Scale != nil:
		return p.Scale.Title
	case p.Bands != nil:
		return p.Bands.Title
	case p.Window != nil:
		return p.Window.Title
	}
	return ""
}

// Legends name the marks of the pictures, a line for each kind that is there.
func Legends(pictures []workflow.Picture) []string {
	var scale, bands, window bool
	for _, p := range pictures {
		scale, bands, window = scale || p.Scale != nil, bands || p.Bands != nil, window || p.Window != nil
	}
	var lines []string
	if scale {
		lines = append(lines, ScaleLegend)
	}
	if bands {
		lines = append(lines, BandsLegend)
	}
	if window {
		lines = append(lines, WindowLegend)
	}
	return lines
}
