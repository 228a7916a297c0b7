package paint

import (
	"image"
	"strings"

	"underfall/app/words"
	"underfall/geometry/message"
)

// Say writes a message over the top of a picture, broken into lines.
func (p *Painter) Say(img *image.RGBA, s Style, m message.Message) {
	c := p.on(img, s)
	c.say(m)
}

func (c *canvas) say(m message.Message) {
	size := sayPoints * c.style.Scale
	margin := size
	y := margin + size
	for _, line := range c.inLines(c.style.Book.Say(m), size, float64(c.view.Width)-2*margin) {
		c.text(line, margin+c.textWidth(line, size)/2, y, size, c.style.Accent)
		y += 1.4 * size
	}
}

// inLines is a text in lines of a width at most; a word that is longer has a line of its own.
func (c *canvas) inLines(text string, size, most float64) (lines []string) {
	for _, paragraph := range strings.Split(text, "\n") {
		line := ""
		for _, word := range words.Apart(paragraph) {
			if longer := strings.TrimSpace(line + " " + word); line == "" || c.textWidth(longer, size) <= most {
				line = longer
				continue
			}
			lines = append(lines, line)
			line = word
		}
		if line != "" {
			lines = append(lines, line)
		}
	}
	return lines
}

// sayPoints is the size of words over a picture.
const sayPoints = 13
