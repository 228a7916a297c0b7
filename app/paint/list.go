package paint

import (
	"math"

	"underfall/geometry/message"
	"underfall/geometry/section"
)

// Sizes of a list on paper.
const (
	listPitch = 1.45 // of a line, in sizes of its text
	listGap   = 14   // between columns, in points
	listSmall = 0.7  // of the usual size, where columns are to find room
)

// columns are how the lines of a list stand: in a size of text, so many in a column, and as many of
// them as there is room for.
type columns struct {
	size        float64
	rows, shown int
	wide        []float64 // of each column
}

// columnsOf finds room for lines, so wide each in a size of text, in a box: as large as may be, in
// as many columns as that takes; where there is no room for all, in as many as there is.
func columnsOf(lines int, width func(line int, size float64) float64, boxWide, boxHigh, scale float64) (c columns) {
	for _, share := range [...]float64{nameSmall, listSmall} {
		c = columns{size: textSize * scale * share}
		most := int(boxHigh / (c.size * listPitch))
		if most < 1 {
			continue
		}
		c.rows = (lines + (lines+most-1)/most - 1) / max(1, (lines+most-1)/most)
		if c.fill(lines, width, boxWide, scale); c.shown == lines {
			return c
		}
		c.rows = most
		c.fill(lines, width, boxWide, scale)
	}
	return c
}

// fill takes columns of lines while the box is wide enough for them.
func (c *columns) fill(lines int, width func(int, float64) float64, boxWide, scale float64) {
	c.shown, c.wide = 0, nil
	for left := boxWide; c.shown < lines; {
		to, wide := min(lines, c.shown+c.rows), 0.0
		for i := c.shown; i < to; i++ {
			wide = math.Max(wide, width(i, c.size))
		}
		if wide > left {
			return
		}
		c.shown, c.wide = to, append(c.wide, wide)
		left -= wide + listGap*scale
	}
}

// list writes a drawing's list from its corner of the picture on; where there is no room for all of
// it, its last line says which are left out.
func (c *canvas) list(l section.List) {
	n := len(l.Lines)
	if n == 0 {
		return
	}
	s, right, foot := c.style.Scale, float64(c.view.Width), float64(c.view.Height)
	margin := 2 * patchSide * s
	x, y := c.to.ToPixel(l.At)
	x, y, right, foot = math.Max(x, margin), math.Max(y, margin), right-margin, foot-margin
	texts := make([]string, n)
	for i := range l.Lines {
		texts[i] = c.style.Book.Say(l.Lines[i].Text)
	}
	col := columnsOf(n, func(i int, size float64) float64 { return c.textWidth(texts[i], size) }, right-x, foot-y, s)
	more := func(from int) string {
		return c.style.Book.Say(message.Of("list.more", message.N("n", n-from), message.No("from", l.Lines[from].Number), message.No("to", l.Lines[n-1].Number)))
	}
	if col.shown == 0 {
		text := more(0)
		c.text(text, right-c.textWidth(text, col.size)/2, foot-col.size, col.size, c.style.Ink)
		return
	}
	if col.shown < n {
		texts[col.shown-1] = more(col.shown - 1)
	}
	pitch := col.size * listPitch
	for k, wide := range col.wide {
		for i := k * col.rows; i < min(col.shown, (k+1)*col.rows); i++ {
			width := c.textWidth(texts[i], col.size)
			c.text(texts[i], math.Min(x, right-width)+width/2, y+(float64(i-k*col.rows)+0.5)*pitch, col.size, c.style.Ink)
		}
		x += wide + listGap*s
	}
}
