package control

import (
	"slices"
	"strings"
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

// A line is as full as it may be: it stays within the width but where it is one word, and the next word would not have; put together
// the lines say what the text says, bold what leads it, and a line ends wherever the text has one end. Without a width nothing else ends
// one.
func TestLinesAreAsFullAsTheyMayBe(t *testing.T) {
	test.NewTempApp(t)
	said := NewWrapped("AVAWA To. Ty, falls 1:40 towards the drain, which is let into the deck between joists 2 and 3;\n" +
		"an incomprehensibilities-long word, and the 12 mm that are left\nat the end")
	said.Lead = "Where it goes:"
	const size = 13
	for width := float32(20); width < 700; width += 3.7 {
		lines := broken(said.words(), width, size)
		var all []string
		for i, l := range lines {
			var of []string
			for _, p := range l.pieces {
				if of = append(of, p.text); p.bold != strings.Contains(said.Lead, p.text) {
					t.Fatalf("%v wide: %q is bold: %v", width, p.text, p.bold)
				}
			}
			text, last := strings.Join(of, " "), l.pieces[len(l.pieces)-1]
			if l.width > width && (len(l.pieces) > 1 || len(wordsIn(text)) > 1) {
				t.Errorf("%v wide: %q is %v", width, text, l.width)
			}
			if i+1 < len(lines) && !strings.HasSuffix(text, "3;") && !strings.HasSuffix(text, "left") {
				next := lines[i+1].pieces[0]
				more := last.x + wide(last.text+" "+wordsIn(next.text)[0], size, last.bold)
				if last.bold != next.bold {
					more = l.width + wide(" ", size, next.bold) + wide(wordsIn(next.text)[0], size, next.bold)
				}
				if more <= width {
					t.Errorf("%v wide: %q would have had room behind %q", width, wordsIn(next.text)[0], text)
				}
			}
			all = append(all, text)
		}
		if !slices.Equal(wordsIn(strings.Join(all, " ")), wordsIn(said.Lead+" "+said.Text)) {
			t.Fatalf("%v wide it says %q", width, all)
		}
	}
	if n := len(broken(said.words(), 0, size)); n != 3 {
		t.Errorf("without a width it has %d lines", n)
	}
}

// wordsIn are the texts of a text's words.
func wordsIn(text string) (out []string) {
	for _, w := range NewText(text).words() {
		out = append(out, w.text)
	}
	return out
}
