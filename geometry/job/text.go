package job

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// How long the words of a job may be: far more than a label or a page needs,
// and little enough to be laid out at once.
const (
	mostNameRunes  = 120
	mostNotesRunes = 8000
)

// turnsText tells whether a character is invisible and changes how the text
// around it is read or printed: control characters, and marks that turn its
// direction round. Unicode 16, general category Cc and Bidi_Control.
func turnsText(r rune) bool {
	return unicode.IsControl(r) || unicode.Is(unicode.Bidi_Control, r) || r == '\u2028' || r == '\u2029' || r == utf8.RuneError
}

// text checks words that a person typed.
func (v *validator) text(path, s string, mostRunes int, lines bool) {
	if n := utf8.RuneCountInString(s); n > mostRunes {
		v.add(path, "is %d characters long; at most %d", n, mostRunes)
		return
	}
	if s != cleanText(s, mostRunes, lines) {
		v.add(path, "holds characters that cannot be seen and change how it is read; remove them")
	}
}

// CleanName is a name without what a name may not hold: characters that
// cannot be seen, line ends, and what is too long.
func CleanName(s string) string { return cleanText(s, mostNameRunes, false) }

// CleanNotes are notes without what notes may not hold.
func CleanNotes(s string) string { return cleanText(s, mostNotesRunes, true) }

func cleanText(s string, mostRunes int, lines bool) string {
	s = strings.ReplaceAll(strings.ReplaceAll(s, "\r\n", "\n"), "\r", "\n")
	var b strings.Builder
	n := 0
	for _, r := range s {
		switch {
		case r == '\n' && lines:
		case r == '\n' || r == '\t':
			r = ' '
		case turnsText(r):
			continue
		}
		if n++; n > mostRunes {
			break
		}
		b.WriteRune(r)
	}
	return b.String()
}
