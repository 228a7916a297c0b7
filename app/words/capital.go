package words

import (
	"unicode"
	"unicode/utf8"
)

// Capital is a text with its first letter large.
func Capital(s string) string {
	first, size := utf8.DecodeRuneInString(s)
	if size == 0 {
		return s
	}
	return string(unicode.ToUpper(first)) + s[size:]
}
