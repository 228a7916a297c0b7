package paint

import (
	"cmp"
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

// uncut tells whether a box stands over nothing that is cut: texts would hide what they do not
// name.
func (c *canvas) uncut(box image.Rectangle) bool {
	of := plan.Rectangle(c.view.ToDrawing(float64(box.Min.X), float64(box.Max.Y)), c.view.ToDrawing(float64(box.Max.X), float64(box.Min.Y)))
	const hairMM2 = 1e-6
	return !slices.ContainsFunc(c.cut, func(r plan.Region) bool { return plan.SharedArea(r, of) > hairMM2 })
}

// note names the layers along the first of its places that has room for all of its
// texts, in the first form that fits, or led aside; one without room comes when one zooms in.
func (c *canvas) note(n section.Note) {
	said := make([]notePlace, len(n.Places))
	for i, at := range n.Places {
		said[i].points = at.Points
		for _, t := range at.Texts {
			text := c.style.Book.Say(t)
			said[i].texts, said[i].widest = append(said[i].texts, text), math.Max(said[i].widest, c.textWidth(text, textSize*c.style.Scale))
		}
	}
	sides := []noteForm{{1, 1}, {-1, 1}, {0, 1}, {1, noteSmall}, {-1, noteSmall}, {0, noteSmall}}
	// Over lines of the drawing only where it is full of them.
	for _, good := range [...]func(image.Rectangle) bool{c.clear, c.free} {
		for _, form := range sides {
			for _, at := range said {
				for far := 0.0; far <= noteFarOff; far += 2 * noteLine {
					if c.noteAt(at, form, noteFoot{lead: (noteLead + far) * c.style.Scale}, good) {
						return
					}
				}
			}
		}
		for _, form := range sides {
			for _, foot := range c.noteFeet() {
				if len(said) > 0 && c.noteAt(said[0], form, foot, good) {
					return
				}
			}
		}
	}
}

// noteFoot is where the foot of a note's texts stands: so far beyond the outermost layer, and so
// far to the right of there.
type noteFoot struct{ lead, aside float64 }

// noteFeet are the feet of notes that are led aside, the nearest first: as far as the picture is wide.
func (c *canvas) noteFeet() (out []noteFoot) {
	const step = 40
	s := c.style.Scale
	for far := 0.0; far <= noteFarOff; far += 2 * noteLine {
		for aside := step * s; aside < float64(c.view.Width); aside += step * s {
			out = append(out, noteFoot{(noteLead + far) * s, aside}, noteFoot{(noteLead + far) * s, -aside})
		}
	}
	slices.SortStableFunc(out, func(a, b noteFoot) int { return cmp.Compare(a.lead+math.Abs(a.aside), b.lead+math.Abs(b.aside)) })
	return out
}

// noteAt writes a note along one of its places, from a foot on; false where there is no room, or
// its texts would stand on what they do not name.
func (c *canvas) noteAt(at notePlace, form noteForm, foot noteFoot, good func(image.Rectangle) bool) bool {
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
	if level := math.Abs(dx) > 0.5; level && (form.side*dx <= 0 || foot.aside != 0) {
		return false // its texts would lie back over the wall
	}
	turnX, turnY := fx+dx*foot.lead, fy+dy*foot.lead
	footX, footY := turnX+foot.aside, turnY
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
	line, aside := boxOf(lx, ly, turnX, turnY), boxOf(turnX, turnY, footX, footY)
	if !box.In(image.Rect(0, 0, c.view.Width, c.view.Height)) || !c.unwritten(line) || !c.unwritten(aside) || !good(box) || !c.uncut(box) {
		return false
	}
	strokes := [][2][2]float64{{{lx, ly}, {turnX, turnY}}, {{turnX, turnY}, {footX, footY}}, {{footX, footY}, {footX, footY - height}}}
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
	c.taken = append(c.taken, line, aside)
	return true
}

// boxOf is what a straight takes.
func boxOf(ax, ay, bx, by float64) image.Rectangle {
	return image.Rect(int(math.Min(ax, bx)), int(math.Min(ay, by)), int(math.Max(ax, bx))+1, int(math.Max(ay, by))+1)
}
