package job

import (
	"strings"
	"unicode/utf8"

	"underfall/geometry/message"
)

// How long the words of a job may be: far more than a label or a page needs,
// and little enough to be laid out at once.
const (
	mostNameRunes     = 120
	mostNotesRunes    = 8000
	mostWallNameRunes = 40
)

// text checks words that a person typed.
func (v *validator) text(key, s string, mostRunes int, lines bool) {
	if n := utf8.RuneCountInString(s); n > mostRunes {
		v.add(key, "problem.too-long", message.No("is", n), message.No("most", mostRunes))
		return
	}
	if s != Visible(s, lines) {
		v.add(key, "problem.unseen-characters")
	}
}

// cleaned is a text without what it may not hold, cut to a length.
func cleaned(s string, mostRunes int, lines bool) string {
	r := []rune(Visible(s, lines))
	return string(r[:min(len(r), mostRunes)])
}

// Visible is a text without characters that cannot be seen and change how it is
// read. Line ends stay where there may be lines, else become spaces.
func Visible(s string, lines bool) string {
	s = strings.ReplaceAll(strings.ReplaceAll(s, "\r\n", "\n"), "\r", "\n")
	return strings.Map(func(r rune) rune {
		switch {
		case r == '\n' && lines:
			return r
		case r == '\n' || r == '\t':
			return ' '
		case message.Unseen(r):
			return -1
		}
		return r
	}, s)
}
