package words

import "strings"

// drawnOut puts a text in brackets and makes it 1.3 times as long, as some
// languages are.
func drawnOut(text string) string {
	n := len([]rune(text))
	return "[" + text + strings.Repeat("·", (n*3+9)/10) + "]"
}

// Outside is what of a text stands outside the brackets of the made-up language: what
// did not come from a catalogue.
func Outside(text string) string {
	depth := 0
	var out strings.Builder
	for _, r := range text {
		switch {
		case r == '[':
			depth++
		case r == ']':
			depth--
		case depth == 0:
			out.WriteRune(r)
		}
	}
	return out.String()
}
