package paint

import (
	"image"
	"strings"
)

// Say writes a message over the top of a picture, broken into lines.
func (p *Painter) Say(img *image.RGBA, s Style, message string) {
	c := &canvas{Painter: p, image: img, style: s}
	c.say(message)
}

func (c *canvas) say(message string) {
	size := sayPoints * c.style.Scale
	margin := size
	y := margin + size
	write := func(line string) {
		c.text(line, margin+c.textWidth(line, size)/2, y, size, c.style.Accent)
		y += 1.4 * size
	}
	for _, paragraph := range strings.Split(message, "\n") {
		line := ""
		for _, word := range strings.Fields(paragraph) {
			if longer := strings.TrimSpace(line + " " + word); line == "" || c.textWidth(longer, size) <= float64(c.image.Rect.Dx())-2*margin {
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
