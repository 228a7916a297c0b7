package control

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"
	"underfall/app/theme"
)

// Card is a sheet with round corners; its left edge may be thick, in the colour of a standing.
type Card struct {
	widget.BaseWidget
	Content fyne.CanvasObject
	// Fill and Edge are the roles of the sheet and of its edge; Left of its thick left edge,
	// where it has one.
	Fill, Edge theme.Role
	Left       theme.Role
	Thick      bool
	// EdgeWidth is how wide the edge is, Pad what is left free inside, both in units.
	EdgeWidth, Pad float32
	// Of the content, as Covered was told.
	coveredFrom, coveredTo float32
}

// NewCard makes a sheet for a content.
func NewCard(content fyne.CanvasObject) *Card {
	c := &Card{Content: content, Fill: theme.Sheet, Edge: theme.Line, EdgeWidth: theme.EdgeWidth, Pad: theme.Space3}
	c.ExtendBaseWidget(c)
	return c
}

// Standing is the card with a thick left edge in a role's colour.
func (c *Card) Standing(r theme.Role) *Card {
	c.Left, c.Thick = r, true
	c.Refresh()
	return c
}

// Covered tells from how far down the content on something in it covers all of the sheet, down to how far above its foot: what is
// not seen is not painted, as painting takes its time where no graphics card does it. From nought on is for nothing.
func (c *Card) Covered(from, aboveFoot float32) {
	if c.coveredFrom != from || c.coveredTo != aboveFoot {
		c.coveredFrom, c.coveredTo = from, aboveFoot
		c.Refresh()
	}
}

// Inside is the content.
func (c *Card) Inside() []fyne.CanvasObject { return []fyne.CanvasObject{c.Content} }

// CreateRenderer draws the sheet.
func (c *Card) CreateRenderer() fyne.WidgetRenderer {
	r := &cardRenderer{c: c, plate: newPlate()}
	r.Refresh()
	return r
}

type cardRenderer struct {
	c     *Card
	plate plate
}

func (r *cardRenderer) Destroy() {}

func (r *cardRenderer) thick() float32 {
	if !r.c.Thick {
		return 0
	}
	return theme.Of(r.c).Unit(theme.StandWidth)
}

func (r *cardRenderer) MinSize() fyne.Size {
	pad := theme.Of(r.c).Unit(r.c.Pad)
	return r.c.Content.MinSize().AddWidthHeight(2*pad+r.thick(), 2*pad)
}

func (r *cardRenderer) Layout(size fyne.Size) {
	pad := theme.Of(r.c).Unit(r.c.Pad)
	l := r.plate.look
	if l.coverFrom, l.strip, l.coverTo = 0, 0, 0; r.c.coveredFrom > 0 {
		const under = 2 // the sheet reaches so far under what covers it, so that no line of pixels is left out
		l.coverFrom, l.strip, l.coverTo = r.c.coveredFrom+pad+under, pad+under, r.c.coveredTo+pad+under
	}
	r.plate.place(fyne.Position{}, size, r.thick())
	r.c.Content.Move(fyne.NewPos(pad+r.thick(), pad))
	r.c.Content.Resize(size.SubtractWidthHeight(2*pad+r.thick(), 2*pad))
}

func (r *cardRenderer) Objects() []fyne.CanvasObject { return append(r.plate.objects(), r.c.Content) }

func (r *cardRenderer) Refresh() {
	t := theme.Of(r.c)
	left := color.Color(color.Transparent)
	if r.c.Thick {
		left = t.Role(r.c.Left)
	}
	r.plate.show(t.Role(r.c.Fill), t.Role(r.c.Edge), r.c.EdgeWidth, t.Unit(theme.Radius), left, r.thick())
	r.Layout(r.c.Size())
	canvas.Refresh(r.c)
}
