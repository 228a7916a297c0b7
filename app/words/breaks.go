package words

import (
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Apart are the parts of a text between which a line may end: its words, with what goes on with a number as one with it, and words
// between which the text has a space that does not break.
func Apart(text string) (out []string) {
	const kept = '\u00a0'
	for _, w := range strings.FieldsFunc(text, func(r rune) bool { return unicode.IsSpace(r) && r != kept }) {
		w = strings.ReplaceAll(w, string(kept), " ")
		if last := len(out) - 1; last >= 0 && oneNumber(out[last], w) {
			out[last] += " " + w
			continue
		}
		out = append(out, w)
	}
	return out
}

// oneNumber tells that a word goes on with the number that another ends with, and so stays on its line: with
// its fraction, the inches over its feet, or its unit.
func oneNumber(before, next string) bool {
	first, _ := utf8.DecodeRuneInString(next)
	feet, isFeet := strings.CutSuffix(before, "'")
	last, _ := utf8.DecodeLastRuneInString(feet)
	switch {
	case !unicode.IsNumber(last): // fractions among them
		return false
	case isFeet:
		return unicode.IsNumber(first)
	}
	over, _, isFraction := strings.Cut(next, "/")
	if _, err := strconv.Atoi(over); isFraction && err == nil {
		return true
	}
	switch strings.TrimRight(next, ".,;:)") {
	case "mm", "m", "mm²", "m²", "ft", "in²", "ft²", "mm/m", "in/ft", "%", "l", "ml", "gal", "kg", "lb", "°C", "°F",
		"l/s", "l/min", "gpm", "m/s", "ft/s", "min":
		return true
	}
	return false
}
