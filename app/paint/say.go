package paint

import (
	"image"
	"strings"

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
	write := func(line string) {
		c.text(line, margin+c.textWidth(line, size)/2, y, size, c.style.Accent)
		y += 1.4 * size
	}
	for _, paragraph := range strings.Split(c.style.Book.Say(m), "\n") {
		line := ""
		for _, word := range strings.Fields(paragraph) {
			if longer := strings.TrimSpace(line + " " + word); line == "" || c.textWidth(longer, size) <= float64(c.view.Width)-2*margin {
				line = longer
				continue
			}
			write(line)
			line = word
		}
		if line != "" {
			write(line)
		}
	}
}

// sayPoints is the size of words over a picture.
const sayPoints = 13
