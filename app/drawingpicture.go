package app

import (
	"image"

	fynetheme "fyne.io/fyne/v2/theme"
	"underfall/app/paint"
	"underfall/app/theme"
	"underfall/app/words"
	"underfall/geometry"
	"underfall/geometry/buildup"
	"underfall/geometry/section"
	"underfall/geometry/solid"
)

// DrawingKind is which drawing a view shows.
type DrawingKind int

// The drawings.
const (
	DrawSection DrawingKind = iota // at a cut
	DrawPlan
	DrawLong   // the run along the waste
	DrawBed    // under the base
	DrawBoards // the cutting plan
)

// of is the drawing of a result; only a section needs a cut.
func (k DrawingKind) of(r geometry.Result, cut func() solid.Cut, stage buildup.Stage) section.Drawing {
	switch k {
	case DrawPlan:
		return section.PlanOf(r)
	case DrawLong:
		return section.LongOf(r)
	case DrawBed:
		return section.BedOf(r)
	case DrawBoards:
		return section.BoardsOf(r)
	}
	return section.Of(r, cut(), stage)
}

// DrawingRequest is a drawing asked for as a picture.
type DrawingRequest struct {
	Kind          DrawingKind
	Cut           solid.Cut // of a section
	Stage         buildup.Stage
	Width, Height int // pixels
	Dark          bool
}

// Drawn paints a drawing of a result as the window shows it.
func Drawn(r geometry.Result, q DrawingRequest, b words.Book) (*image.RGBA, error) {
	painter, err := paint.NewPainter(fynetheme.DefaultTextFont().Content())
	if err != nil {
		return nil, err
	}
	d := q.Kind.of(r, func() solid.Cut { return q.Cut }, q.Stage)
	img := image.NewRGBA(image.Rect(0, 0, q.Width, q.Height))
	style := theme.New(q.Dark, b).PaintStyle(1, r.Settled.Units, "")
	painter.Draw(img, d, paint.FitTo(&d, q.Width, q.Height, style.Scale), style)
	return img, nil
}
