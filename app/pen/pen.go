// Package pen makes marks on pages: on pixels, on paper, in files of vectors. Whatever draws
// holds a Pen and does not know which.
package pen

import (
	"image"
	"image/color"

	"underfall/geometry/placing"
)

// Pen makes marks. Places and sizes are in the unit of its page, pixels or points of paper, across and
// down from the upper left corner.
type Pen interface {
	// Fill fills closed rings by the non-zero rule.
	Fill(rings [][]placing.Point, ink color.RGBA)
	// Box fills an upright box; on pixels every one that it touches.
	Box(b placing.Box, ink color.RGBA)
	// Stroke draws straights of one width, cut square at their ends; those without length are nothing.
	Stroke(lines []placing.Straight, width float64, ink color.RGBA)
	// Text writes on a line from its left end.
	Text(text string, at placing.Point, size float64, face Face, ink color.RGBA)
	// TextWidth is how wide a text is.
	TextWidth(text string, size float64, face Face) float64
	// Picture puts a picture into a box, stretched to fill it.
	Picture(img image.Image, b placing.Box)
}

// Face is one of the two that texts are written in.
type Face int

// The faces.
const (
	Regular Face = iota
	Bold
)
