package paint

import "underfall/geometry/section"

// SheetOf is the picture of a view as drawings are lettered on it, and Seen a drawing on it.
func SheetOf(p *Painter, v View, s Style) section.Sheet {
	return (&canvas{pen: p.fonts.On(nil), view: v, to: v, style: s}).sheet()
}

// SeenIn is a drawing as it lies on the picture of a view.
func SeenIn(d *section.Drawing, v View) section.Seen { return seen(d, v) }
