package theme

import (
	"image"
)

// Broken is an edge of dashes round a box with round corners, as pixels: of what is assumed. A
// fine one, of what is worked out, is dotted. fill lies inside.
func (t *Theme) Broken(width, height, pixels float64, edge, fill Role, fine bool) *image.RGBA {
	w, h := int(width*pixels+0.5), int(height*pixels+0.5)
	p := &pen{img: image.NewRGBA(image.Rect(0, 0, max(1, w), max(1, h))), pixels: pixels}
	wide, dashes := 1.2, []float64{4, 3}
	if fine {
		wide, dashes = 1, []float64{1.5, 1.5}
	}
	inset := wide / 2
	shape := box(inset, inset, width-2*inset, height-2*inset, Radius*float64(t.times))
	p.fill(t.Role(fill), shape)
	p.broken(t.Role(edge), wide, dashes, append(shape, shape[0])...)
	return p.img
}
