package paint

import (
	"image"
	"math"
	"slices"

	"underfall/geometry/plan"
	"underfall/geometry/section"
)

// Sizes of a note on paper, in points.
const (
	noteLead   = 16  // from the outermost layer to the foot of its texts
	noteTick   = 8   // from the upright to a text
	noteLine   = 14  // from a text to the next
	noteFarOff = 150 // how far out a note may be moved to find room
	noteSmall  = 0.8 // of the usual size, where there is little room
)

// noteForm is a way to write a note: on the right of its upright (1), the left (-1) or half on
// each side (0), and in which share of the usual size.
type noteForm struct{ side, size float64 }

// notePlace is a place of a note with its texts as they are said.
type notePlace struct {
	points []plan.Point
	texts  []string
	widest float64
}

// bare tells whether a box is clear and stands over nothing that is cut: texts would hide
// what they do not name.
func (c *canvas) bare(box image.Rectangle) bool {
	if !c.clear(box) {
		return false
	}
	middle := (box.Min.Y + box.Max.Y) / 2
	for _, y := range [...]int{box.Min.Y, middle, box.Max.Y} {
		for _, x := range [...]int{box.Min.X, (box.Min.X + box.Max.X) / 2, box.Max.X} {
			at := c.view.ToDrawing(float64(x), float64(y))
			if slices.ContainsFunc(c.cut, func(r plan.Region) bool { return r.Contains(at, 0) }) {
				return false
			}
		}
	}
	return true
}

// note names the layers along the first of its places that has room for all of its
// texts, in the first form that fits; one without room comes when one zooms in.
func (c *canvas) note(n section.Note) {
	said := make([]notePlace, len(n.Places))
	for i, at := range n.Places {
		said[i].points = at.Points
		for _, t := range at.Texts {
			text := c.style.Book.Say(t)
			said[i].texts, said[i].widest = append(said[i].texts, text), math.Max(said[i].widest, c.textWidth(text, textSize*c.style.Scale))
		}
	}
	for _, good := range [...]func(image.Rectangle) bool{c.bare, c.clear, c.free} {
		for _, form := range []noteForm{{1, 1}, {-1, 1}, {0, 1}, {1, noteSmall}, {-1, noteSmall}, {0, noteSmall}} {
			for _, at := range said {
				for far := 0.0; far <= noteFarOff; far += 2 * noteLine {
					if c.noteAt(at, form, (noteLead+far)*c.style.Scale, good) {
						return
					}
				}
			}
		}
	}
}

// noteAt writes a note along one of its places, its upright so far beyond the outermost
// layer; false where there is no room, or what its texts would stand on is not good for them.
func (c *canvas) noteAt(at notePlace, form noteForm, lead float64, good func(image.Rectangle) bool) bool {
	points, texts, widest := at.points, at.texts, at.widest
	s := c.style.Scale
	fx, fy := c.to.ToPixel(points[0])
	lx, ly := c.to.ToPixel(points[len(points)-1])
	dx, dy := fx-lx, fy-ly
	if l := math.Hypot(dx, dy); l > 0 {
		dx, dy = dx/l, dy/l
	} else {
		dx, dy = 0, -1
	}
	if math.Abs(dx) > 0.5 && form.side*dx <= 0 {
		return false // its texts would lie back over the wall
	}
	footX, footY := fx+dx*lead, fy+dy*lead
	lines := len(texts)
	if form.side == 0 {
		lines = (lines + 1) / 2
	}
	size, pitch := textSize*s*form.size, noteLine*s*form.size
	height, half := pitch*float64(lines-1), size*0.65
	reach := noteTick*s + widest*form.size + 4*s
	from, to := footX-reach, footX+reach
	if form.side > 0 {
		from = footX
	} else if form.side < 0 {
		to = footX
	}
	box := image.Rect(int(from), int(footY-height-half), int(math.Ceil(to)), int(math.Ceil(footY+half)))
	line := image.Rect(int(math.Min(lx, footX)), int(math.Min(ly, footY)), int(math.Max(lx, footX))+1, int(math.Max(ly, footY))+1)
	if !box.In(image.Rect(0, 0, c.view.Width, c.view.Height)) || !c.unwritten(line) || !good(box) {
		return false
	}
	strokes := [][2][2]float64{{{lx, ly}, {footX, footY}}, {{footX, footY}, {footX, footY - height}}}
	lineAt := func(i int) (side, y float64) {
		if side = form.side; side == 0 {
			side = 1
			if i >= lines {
				side, i = -1, i-lines
			}
		}
		return side, footY - height + float64(i)*pitch
	}
	for i := range texts {
		side, y := lineAt(i)
		strokes = append(strokes, [2][2]float64{{footX, y}, {footX + side*noteTick*s, y}})
	}
	c.strokes(strokes, 0.7*s, c.style.Ink)
	for _, p := range points {
		c.inkDot(c.to.ToPixel(p))
	}
	for i, text := range texts {
		side, y := lineAt(i)
		c.text(text, footX+side*(noteTick*s+4*s+c.textWidth(text, size)/2), y, size, c.style.Ink)
	}
	c.taken = append(c.taken, line)
	return true
}
