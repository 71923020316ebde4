package paper

import (
	_ "embed" // the two fonts
	"strings"

	"codeberg.org/go-pdf/fpdf"
)

// The font of tickets and cards: the fonts that every reader has know the
// letters of Western Europe only, and names come from everywhere. Its licence
// lies beside it.
var (
	//go:embed font/DejaVuSansCondensed.ttf
	regularFont []byte
	//go:embed font/DejaVuSansCondensed-Bold.ttf
	boldFont []byte
)

const fontFamily = "sheet"

// lacking stands for a letter that the font does not have.
const lacking = "[?]"

// lettered are the stretches of Unicode that the font has every letter of and
// that are written letter by letter from left to right: Latin, Greek and
// Cyrillic with their accents, and the signs between words.
var lettered = [...][2]rune{
	{0x20, 0x7e}, {0xa0, 0x24f}, {0x300, 0x30f}, {0x386, 0x386}, {0x388, 0x38a}, {0x38c, 0x38c}, {0x38e, 0x3a1}, {0x3a3, 0x3ff},
	{0x400, 0x525}, {0x1e00, 0x1efb}, {0x2010, 0x2027}, {0x20a0, 0x20b5},
}

// useFont gives a sheet its letters.
func useFont(f *fpdf.Fpdf) {
	f.AddUTF8FontFromBytes(fontFamily, "", regularFont)
	f.AddUTF8FontFromBytes(fontFamily, "B", boldFont)
}

// printable returns a text as the font can write it, and whether all of it
// could be written.
func printable(text string) (string, bool) {
	if i := strings.IndexFunc(text, unlettered); i < 0 {
		return text, true
	}
	var out strings.Builder
	for _, r := range text {
		if unlettered(r) {
			out.WriteString(lacking)
		} else {
			out.WriteRune(r)
		}
	}
	return out.String(), false
}

func unlettered(r rune) bool {
	for _, stretch := range lettered {
		if r >= stretch[0] && r <= stretch[1] {
			return false
		}
	}
	return true
}
