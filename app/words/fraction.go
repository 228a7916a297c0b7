package words

import "strings"

// Drawn is the book for what is drawn with the program's own fonts, which carry halves, quarters and eighths: 4 1/2 is
// written 4½. Sixteenths and finer stay in full figures, as they are typed: small ones cannot be read on a drawing.
func (b Book) Drawn() Book {
	b.drawn = true
	return b
}

// fractions writes the halves, quarters and eighths in a number as one character, close behind what they belong to.
func fractions(text string) string {
	slash := strings.IndexByte(text, '/')
	if slash < 0 {
		return text
	}
	from, to := slash, slash+1
	for from > 0 && isDigit(text[from-1]) {
		from--
	}
	for to < len(text) && isDigit(text[to]) {
		to++
	}
	one := fraction(text[from:to])
	if one == "" {
		return text[:to] + fractions(text[to:])
	}
	before := text[:from]
	if n := len(before); n > 1 && before[n-1] == ' ' && isDigit(before[n-2]) {
		before = before[:n-1]
	}
	return before + one + fractions(text[to:])
}

func isDigit(c byte) bool { return c >= '0' && c <= '9' }

// fraction is the character of a fraction; empty for what has none.
func fraction(typed string) string {
	switch typed {
	case "1/2":
		return "½"
	case "1/4":
		return "¼"
	case "3/4":
		return "¾"
	case "1/8":
		return "⅛"
	case "3/8":
		return "⅜"
	case "5/8":
		return "⅝"
	case "7/8":
		return "⅞"
	}
	return ""
}
