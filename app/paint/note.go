package paint

import (
	"image"
	"math"

	"underfall/geometry/plan"
	"underfall/geometry/section"
)

// Sizes of a note on paper, in points.
const (
	noteLead   = 16  // from the outermost layer to the foot of its texts
	noteTick   = 8   // from the upright to a text
	noteLine   = 14  // from a text to the next
	noteDot    = 1.8 // half the dot in a layer
	noteFarOff = 150 // how far out a note may be moved to find room
)

// note names the layers along the first of its places that has room for all of its
// texts, on either side; one without room comes when one zooms in.
func (c *canvas) note(n section.Note) {
	size := textSize * c.style.Scale
	texts, widest := make([]string, len(n.Texts)), 0.0
	for i, t := range n.Texts {
		texts[i] = c.style.Book.Say(t)
		widest = math.Max(widest, c.textWidth(texts[i], size))
	}
	for _, points := range n.Places {
		for far := 0.0; far <= noteFarOff; far += 2 * noteLine {
			for _, side := range [2]float64{1, -1} {
				if c.noteAt(points, texts, widest, side, (noteLead+far)*c.style.Scale) {
					return
				}
			}
		}
	}
}

// noteAt writes a note along one of its places, with its texts on a side of the upright
// that stands so far beyond the outermost layer; false where there is no room.
func (c *canvas) noteAt(points []plan.Point, texts []string, widest, side, lead float64) bool {
	s := c.style.Scale
	fx, fy := c.to.ToPixel(points[0])
	lx, ly := c.to.ToPixel(points[len(points)-1])
	dx, dy := fx-lx, fy-ly
	if l := math.Hypot(dx, dy); l > 0 {
		dx, dy = dx/l, dy/l
	} else {
		dx, dy = 0, -1
	}
	if math.Abs(dx) > 0.5 && side*dx < 0 {
		return false // its texts would lie back over the wall
	}
	footX, footY := fx+dx*lead, fy+dy*lead
	height := noteLine * s * float64(len(texts)-1)
	half := textSize * s * 0.65
	from, to := footX, footX+side*(noteTick*s+widest+4*s)
	box := image.Rect(int(math.Min(from, to)), int(footY-height-half), int(math.Ceil(math.Max(from, to))), int(math.Ceil(footY+half)))
	line := image.Rect(int(math.Min(lx, footX)), int(math.Min(ly, footY)), int(math.Max(lx, footX))+1, int(math.Max(ly, footY))+1)
	if !box.In(image.Rect(0, 0, c.view.Width, c.view.Height)) || !c.free(box) || !c.free(line) {
		return false
	}
	strokes := [][2][2]float64{{{lx, ly}, {footX, footY}}, {{footX, footY}, {footX, footY - height}}}
	for i := range texts {
		y := footY - height + float64(i)*noteLine*s
		strokes = append(strokes, [2][2]float64{{footX, y}, {footX + side*noteTick*s, y}})
	}
	c.strokes(strokes, 0.7*s, c.style.Ink)
	for _, p := range points {
		x, y := c.to.ToPixel(p)
		r := noteDot * s
		c.fill([][][2]float64{{{x - r, y - r}, {x + r, y - r}, {x + r, y + r}, {x - r, y + r}}}, c.style.Ink)
	}
	for i, text := range texts {
		y := footY - height + float64(i)*noteLine*s
		c.text(text, footX+side*(noteTick*s+4*s+c.textWidth(text, textSize*s)/2), y, textSize*s, c.style.Ink)
	}
	c.taken = append(c.taken, line)
	return true
}
