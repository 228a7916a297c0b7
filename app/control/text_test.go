package control

import (
	"slices"
	"testing"

	"fyne.io/fyne/v2/test"
)

// A line never ends within a number: not between inches and their fraction, feet and inches, a figure and its
// unit. Where it may end is told here by bars, from how such numbers are written by hand; the text is as wide
// as a letter, so that it ends wherever it may.
func TestNumbersAreNotBroken(t *testing.T) {
	test.NewTempApp(t)
	for text, want := range map[string][]string{
		`+1 7/16" to +2 1/16"`:             {`+1 7/16"`, "to", `+2 1/16"`},
		`Shower 7' 10 1/2" wide, 4 joists`: {"Shower", `7' 10 1/2"`, "wide,", "4", "joists"},
		"636 mm is under 700 mm.":          {"636 mm", "is", "under", "700 mm."},
		"1 in 4 falls by 1/4 in/ft (2 %)":  {"1", "in", "4", "falls", "by", "1/4 in/ft", "(2 %)"},
		`½" of ¼ in/ft over 5' 10¾"`:       {`½"`, "of", "¼ in/ft", "over", `5' 10¾"`},
		`at 7' ½" or 1⅜"`:                  {"at", `7' ½"`, "or", `1⅜"`},
		"wall B\n12 of 2/3":                {"wall", "B", "12", "of", "2/3"},
		"the pipe's 3":                     {"the", "pipe's", "3"},
	} {
		var got []string
		for _, l := range broken(NewWrapped(text).words(), 1, 12) {
			for _, p := range l.pieces {
				got = append(got, p.text)
			}
		}
		if !slices.Equal(got, want) {
			t.Errorf("%s: %q, want %q", text, got, want)
		}
	}
}
