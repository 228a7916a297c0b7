package words

import "strings"

// drawnOut puts a text in brackets and makes it 1.3 times as long, as some
// languages are. Its words do not grow without end: what is added to a long text
// stands in words of its own.
func drawnOut(text string) string {
	const longest = 12
	var out strings.Builder
	out.WriteString("[" + text)
	for i := range (len([]rune(text))*3 + 9) / 10 {
		if i%longest == longest-1 {
			out.WriteByte(' ')
		} else {
			out.WriteString("·")
		}
	}
	out.WriteByte(']')
	return out.String()
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
