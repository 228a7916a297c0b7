package sheet

import (
	"image/color"
	"strings"

	"underfall/app/pen"
	"underfall/app/words"
	"underfall/geometry/placing"
)

// Sizes of text on paper, in points.
const (
	titlePoints   = 15
	headingPoints = 9.5
	bodyPoints    = 8
	smallPoints   = 7
	figurePoints  = 14
	leading       = 1.35 // of a size, from line to line
)

// ink, softInk and rule are what is written and drawn with on paper: black, and greys that a black and white
// printer holds.
func ink() color.RGBA     { return color.RGBA{0x11, 0x14, 0x17, 0xff} }
func softInk() color.RGBA { return color.RGBA{0x55, 0x5b, 0x61, 0xff} }
func ruleInk() color.RGBA { return color.RGBA{0xb4, 0xb9, 0xbe, 0xff} }
func white() color.RGBA   { return color.RGBA{0xff, 0xff, 0xff, 0xff} }

// style is how a text is written.
type style struct {
	size float64
	face pen.Face
	soft bool
}

func (s style) ink() color.RGBA {
	if s.soft {
		return softInk()
	}
	return ink()
}

// wrapped breaks a text into lines no wider than there is room, between words and not within a figure with its fraction or unit; a word
// that is wider is broken where it must be.
func wrapped(to pen.Pen, text string, s style, wide float64) (lines []string) {
	fits := func(line string) bool { return to.TextWidth(line, s.size, s.face) <= wide }
	for paragraph := range strings.SplitSeq(text, "\n") {
		line := ""
		for _, word := range words.Apart(paragraph) {
			if longer := strings.TrimSpace(line + " " + word); fits(longer) {
				line = longer
				continue
			}
			if line != "" {
				lines = append(lines, line)
			}
			line = word
			for !fits(line) {
				n := cutPlace(line, fits)
				if n == len(line) {
					break
				}
				lines, line = append(lines, line[:n]), line[n:]
			}
		}
		lines = append(lines, line)
	}
	return lines
}

// oneLine is a text on one line: as much of it as there is room for, told to go on where that is not all.
func (m *maker) oneLine(text string, s style, wide float64) string {
	text = strings.Join(strings.Fields(text), " ")
	if m.to.TextWidth(text, s.size, s.face) <= wide {
		return text
	}
	const goesOn = "…"
	fits := func(part string) bool { return m.to.TextWidth(part+goesOn, s.size, s.face) <= wide }
	return strings.TrimSpace(text[:cutPlace(text, fits)]) + goesOn
}

// cutPlace is how many bytes of a word go onto a line: at least its first letter.
func cutPlace(word string, fits func(string) bool) int {
	n := len(word)
	for i := range word {
		if i > 0 && !fits(word[:i]) {
			return n
		}
		if i > 0 {
			n = i
		}
	}
	return n
}

// paragraph is a text in lines, one block a line so that it may go on to the next page.
func paragraph(to pen.Pen, text string, s style, wide float64) (out []block) {
	for _, line := range wrapped(to, text, s, wide) {
		out = append(out, block{high: s.size * leading, draw: func(to pen.Pen, at placing.Point) {
			to.Text(line, placing.Point{at[0], at[1] + s.size}, s.size, s.face, s.ink())
		}})
	}
	return inCompany(out)
}

// inCompany are the lines of a text or the rows of a table, of which neither the first nor the last is left alone on a page.
func inCompany(lines []block) []block {
	if n := len(lines); n > 1 {
		lines[0].keep, lines[n-2].keep = true, true
	}
	return lines
}

// heading is one over what follows.
func heading(to pen.Pen, text string, wide float64) []block {
	return headed(to, text, style{size: headingPoints, face: pen.Bold}, wide, 3)
}

// headed is a text that stays with what follows, so many points over it.
func headed(to pen.Pen, text string, s style, wide, apart float64) []block {
	out := paragraph(to, text, s, wide)
	for i := range out {
		out[i].keep = true
	}
	out[len(out)-1].high += apart
	return out
}

// heading is one over what follows, as wide as the page.
func (m *maker) heading(text string) []block { return heading(m.to, text, m.wide) }

// lines are a text as wide as the page.
func (m *maker) lines(text string, s style) []block { return paragraph(m.to, text, s, m.wide) }

// body and strong are how texts and what is over them are written.
func body() style   { return style{size: bodyPoints} }
func strong() style { return style{size: bodyPoints, face: pen.Bold} }
