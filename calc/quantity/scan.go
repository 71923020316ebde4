package quantity

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"drillstop/calc"
)

// longest is how many characters one typed quantity may have. Our own limit.
const longest = 64

// part is one number as typed, with whatever stood behind it.
type part struct {
	number string // optional minus, digits, at most one point: safe for big.Rat
	whole  int    // digits of a number without a decimal sign, otherwise 0
	word   string // the unit as typed, trimmed; "" if there was none
}

// clean makes one kind of space, apostrophe, inch mark and minus out of the many
// that keyboards, scanners and pasted text bring, and trims the ends.
func clean(typed string) string {
	return strings.TrimSpace(strings.Map(func(r rune) rune {
		switch r {
		case '\u200b', '\ufeff', '\u2060':
			return ' ' // zero-width spaces, byte order mark
		case '\u2019', '\u2018', '\u2032', '\u00b4', '`':
			return '\''
		case '\u201d', '\u201c', '\u201e', '\u2033', '\u02dd':
			return '"'
		case '\u2212', '\u2013':
			return '-'
		}
		if unicode.IsSpace(r) {
			return ' '
		}
		return r
	}, typed))
}

// show quotes what was typed for a sentence, shortened and printable.
func show(typed string) string {
	runes := []rune(clean(typed))
	tail := ""
	if len(runes) > 40 {
		runes, tail = runes[:40], "..."
	}
	for i, r := range runes {
		if !unicode.IsPrint(r) {
			runes[i] = '?'
		}
	}
	return "\"" + string(runes) + tail + "\""
}

// scan cuts a typed text into numbers with their units. The text must begin
// with a number, and every word in it must be a unit.
func scan(typed string, limit int) ([]part, error) {
	text := clean(typed)
	if text == "" {
		return nil, calc.Faultf("quantity.empty", "Nothing was typed: a number is needed.")
	}
	if utf8.RuneCountInString(text) > limit {
		return nil, calc.Faultf("quantity.long", "%s is too long for one value: at most %d characters.", show(text), limit)
	}
	var parts []part
	for rest := text; rest != ""; {
		p, after, err := scanNumber(rest, text)
		if err != nil {
			return nil, err
		}
		end := wordEnd(after)
		p.word = strings.TrimSpace(after[:end])
		if _, known := unitOf(p.word); !known {
			return nil, calc.Faultf("quantity.unit", "%s in %s is not a unit known here: type the number with its unit or without.", show(p.word), show(text))
		}
		parts = append(parts, p)
		rest = after[end:]
	}
	return parts, nil
}

// scanNumber takes one decimal number off the front of text.
func scanNumber(text, whole string) (p part, rest string, err error) {
	refusal := calc.Faultf("quantity.number", "%s does not read as a number: type digits with one decimal point or comma, such as 318 or 31.8.", show(whole))
	rest = text
	switch rest[0] {
	case '-':
		p.number, rest = "-", rest[1:]
	case '+':
		rest = rest[1:]
	}
	front := digitRun(rest)
	p.number += "0" + rest[:front] // ".5" is as good as "0.5"
	rest = rest[front:]
	if rest == "" || !isDecimalSign(rest[0]) {
		if front == 0 {
			return part{}, "", refusal
		}
		p.whole = front
		return p, rest, nil
	}
	back := digitRun(rest[1:])
	if back == 0 {
		return part{}, "", refusal // "5." may be a half-typed 5.5
	}
	p.number += "." + rest[1:1+back]
	rest = rest[1+back:]
	if rest != "" && isDecimalSign(rest[0]) {
		return part{}, "", refusal // 1,234.5 or 23.4.1991
	}
	return p, rest, nil
}

// wordEnd finds where the unit ends and the next number begins.
func wordEnd(text string) int {
	for i := 0; i < len(text); i++ {
		if isDigit(text[i]) {
			return i
		}
		// A sign or a bare decimal sign opens a number only behind a space:
		// "5ft.10" is five feet ten, "49-51" is no number at all.
		opens := isDecimalSign(text[i]) || text[i] == '-' || text[i] == '+'
		if opens && i > 0 && text[i-1] == ' ' && i+1 < len(text) && (isDigit(text[i+1]) || isDecimalSign(text[i+1])) {
			return i
		}
	}
	return len(text)
}

func digitRun(text string) int {
	n := 0
	for n < len(text) && isDigit(text[n]) {
		n++
	}
	return n
}

func isDigit(b byte) bool       { return b >= '0' && b <= '9' }
func isDecimalSign(b byte) bool { return b == '.' || b == ',' }
