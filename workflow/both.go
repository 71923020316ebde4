package workflow

import (
	"slices"
	"strings"
)

// OnceForBoth says once what is true of both skis, number for number: of two
// findings whose sentences differ by the name of the ski alone it makes one.
func OnceForBoth(found []Finding) []Finding {
	var out []Finding
	for _, f := range found {
		at := slices.IndexFunc(out, func(o Finding) bool {
			return o.Code == f.Code && o.Text != f.Text && ofBoth(o.Text, "left") == ofBoth(f.Text, "right")
		})
		if at < 0 {
			out = append(out, f)
			continue
		}
		out[at].Side, out[at].Text = Both, ofBoth(f.Text, "right")
	}
	return out
}

// ofBoth makes a sentence about one ski one about both.
func ofBoth(text, side string) string {
	for _, said := range [...]struct{ one, both string }{
		{"on the " + side + " ski", "on each ski"}, {"of the " + side + " ski", "of both skis"}, {" " + side, " of both skis"},
	} {
		if strings.Contains(text, said.one) {
			return strings.Replace(text, said.one, said.both, 1)
		}
	}
	return text
}
