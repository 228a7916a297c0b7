package unit

import (
	"fmt"
	"strconv"
	"strings"
	"unicode"

	"underfall/geometry/message"
)

// tokenKind is what a token is.
type tokenKind int

const (
	end     tokenKind = iota
	numeral           // digits with their marks as typed: 1 200,5
	glyph             // a fraction in one character: ½
	word              // letters, in lower case
	symbol            // one character
)

// token is one piece of what was typed.
type token struct {
	kind tokenKind
	// text is the piece in plain characters; spaces between the digits of a
	// numeral are single and plain.
	text string
	// over and under are the two numbers of a glyph.
	over, under float64
	// spaced tells that a space stands before it.
	spaced bool
	// at counts characters from the start of the text.
	at int
}

func (t token) is(symbols ...string) bool {
	if t.kind != symbol {
		return false
	}
	for _, s := range symbols {
		if t.text == s {
			return true
		}
	}
	return false
}

// fault says what is wrong with what was typed, and where.
type fault struct {
	at   int
	what message.Message
}

func faultAt(t token, id message.ID, args ...message.Arg) *fault {
	return &fault{t.at, message.Of(id, args...)}
}

// plain is a character in the form the readers know.
func plain(r rune) rune {
	switch r {
	case '″', '”', '“', '„', 'ʺ', '＂':
		return '"'
	case '′', '’', '‘', '´', '`', 'ʹ', '＇':
		return '\''
	case '−', '–', '‐', '‑', '﹣', '－':
		return '-'
	case '×', '·', '✕':
		return '*'
	case '÷', '⁄', '∕':
		return '/'
	case '∶':
		return ':'
	case 'º':
		return '°'
	}
	if unicode.IsSpace(r) {
		return ' '
	}
	return r
}

// glyphs are the fractions with a character of their own.
func glyphs(r rune) (over, under float64, ok bool) {
	const named = "½ 1/2 ⅓ 1/3 ⅔ 2/3 ¼ 1/4 ¾ 3/4 ⅕ 1/5 ⅖ 2/5 ⅗ 3/5 ⅘ 4/5 ⅙ 1/6 ⅚ 5/6 ⅐ 1/7 ⅛ 1/8 ⅜ 3/8 ⅝ 5/8 ⅞ 7/8 ⅑ 1/9 ⅒ 1/10"
	_, rest, found := strings.Cut(named, string(r)+" ")
	if r < 0x80 || !found {
		return 0, 0, false
	}
	value, _, _ := strings.Cut(rest, " ")
	_, err := fmt.Sscanf(value, "%g/%g", &over, &under)
	return over, under, err == nil
}

func digit(r rune) bool { return r >= '0' && r <= '9' }

// longest is how many characters a number may have.
const longest = 200

// scan takes text apart. The last token is always an end.
func scan(text string) ([]token, *fault) {
	typed := []rune(text)
	if len(typed) > longest {
		return nil, &fault{0, message.Of("reading.too-long")}
	}
	runes := make([]rune, 0, len(typed)+1)
	for _, r := range typed {
		runes = append(runes, plain(r))
	}
	runes = append(runes, 0) // so that the next character can always be looked at
	last := len(runes) - 1
	var out []token
	for i := 0; ; {
		t := token{at: i}
		for i < last && runes[i] == ' ' {
			i++
			t.spaced = true
		}
		if i == last {
			return append(out, t), nil
		}
		t.at = i
		r := runes[i]
		over, under, isGlyph := glyphs(r)
		switch {
		case digit(r) || (r == '.' || r == ',') && digit(runes[i+1]):
			t.kind = numeral
			t.text, i = scanNumeral(runes, i)
		case isGlyph:
			t.kind, t.over, t.under = glyph, over, under
			i++
		case unicode.IsLetter(r):
			t.kind = word
			start := i
			for unicode.IsLetter(runes[i]) {
				i++
			}
			t.text = strings.ToLower(string(runes[start:i]))
			// Abbreviated units may have their full stop: 4 in.
			if runes[i] == '.' && !digit(runes[i+1]) {
				i++
			}
		case r == '\'' && runes[i+1] == '\'':
			t.kind, t.text = symbol, `"`
			i += 2
		case strings.ContainsRune(`+-*/():%‰°'"=`, r):
			t.kind, t.text = symbol, string(r)
			i++
		default:
			return nil, faultAt(t, "reading.means-nothing", message.Name("typed", string(r)))
		}
		out = append(out, t)
	}
}

// scanNumeral takes the digits at i with the marks among them. A space stands
// between thousands when three digits follow it.
func scanNumeral(runes []rune, i int) (string, int) {
	var b strings.Builder
	start, marks := i, false
	for {
		for digit(runes[i]) {
			b.WriteRune(runes[i])
			i++
		}
		switch r := runes[i]; {
		case (r == '.' || r == ',') && digit(runes[i+1]):
			marks = true
		case (r == '.' || r == ',') && !marks && runes[i+1] != '.' && runes[i+1] != ',':
			// Half typed: 12.
			b.WriteRune(r)
			return b.String(), i + 1
		case r == ' ' && !marks && thousands(runes[start:i]) && i+4 < len(runes) &&
			digit(runes[i+1]) && digit(runes[i+2]) && digit(runes[i+3]) && !digit(runes[i+4]):
		default:
			return b.String(), i
		}
		b.WriteRune(runes[i])
		i++
	}
}

// thousands tells whether a group of three digits may follow.
func thousands(before []rune) bool {
	first := len(before)
	for i, r := range before {
		if r == ' ' {
			first = i
			break
		}
	}
	return first >= 1 && first <= 3 && before[0] != '0'
}

// read gives the value of a numeral when decimal is the decimal mark and the
// other mark, or a space, stands between thousands; whole tells that it has
// no decimals, and digits counts those before the mark.
func (t token) read(decimal byte) (value float64, whole bool, digits int, ok bool) {
	if decimal == eitherMark {
		a, aWhole, aDigits, aOK := t.read('.')
		b, bWhole, bDigits, bOK := t.read(',')
		if aOK && (!bOK || a == b) {
			return a, aWhole, aDigits, true
		}
		return b, bWhole, bDigits, bOK && !aOK
	}
	if t.kind != numeral {
		return 0, false, 0, false
	}
	other := "."
	if decimal == '.' {
		other = ","
	}
	before, after, _ := strings.Cut(t.text, string(decimal))
	if strings.ContainsAny(after, "., ") {
		return 0, false, 0, false
	}
	if strings.Contains(before, " ") {
		if strings.Contains(before, other) {
			return 0, false, 0, false
		}
		other = " "
	}
	groups := strings.Split(before, other)
	for i, g := range groups {
		if len(groups) > 1 && (i > 0 && len(g) != 3 || i == 0 && (len(g) < 1 || len(g) > 3 || g[0] == '0')) {
			return 0, false, 0, false
		}
	}
	before = strings.Join(groups, "")
	value, err := strconv.ParseFloat(before+"."+after, 64)
	return value, after == "", len(before), err == nil
}
