package message

import (
	"unicode"
	"unicode/utf8"
)

// Unseen tells whether a character is invisible and changes how the text around it
// is read or printed: control characters, and marks that turn its direction round.
// Unicode 16, general category Cc and Bidi_Control.
func Unseen(r rune) bool {
	return unicode.IsControl(r) || unicode.Is(unicode.Bidi_Control, r) || r == '\u2028' || r == '\u2029' || r == utf8.RuneError
}
