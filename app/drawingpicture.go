package app

import (
	"image"

	"fyne.io/fyne/v2/theme"
	"underfall/app/paint"
	"underfall/app/words"
	"underfall/geometry"
	"underfall/geometry/buildup"
	"underfall/geometry/section"
	"underfall/geometry/solid"
)

// drawingKind is which drawing a view shows.
type drawingKind int

const (
	drawSection drawingKind = iota
	drawPlan
	drawLong
	drawBed
	drawBoards
)

// of is the drawing of a result; only a section needs a cut.
func (k drawingKind) of(r geometry.Result, cut func() solid.Cut, stage buildup.Stage) section.Drawing {
	switch k {
	case drawPlan:
		return section.PlanOf(r)
	case drawLong:
		return section.LongOf(r)
	case drawBed:
		return section.BedOf(r)
	case drawBoards:
		return section.BoardsOf(r)
	}
	return section.Of(r, cut(), stage)
}

// DrawingRequest is a drawing asked for as a picture.
type DrawingRequest struct {
	// Plan, Long, Bed and Boards ask for the plan, the run along the waste, the bed under the
	// base, or the cutting plan; none of them for the section at Cut.
	Plan, Long, Bed, Boards bool
	Cut                     solid.Cut
	Stage                   buildup.Stage
	Width, Height           int // pixels
	Dark                    bool
}

// Drawn paints a drawing of a result as the window shows it.
func Drawn(r geometry.Result, q DrawingRequest, b words.Book) (*image.RGBA, error) {
	painter, err := paint.NewPainter(theme.DefaultTextFont().Content())
	if err != nil {
		return nil, err
	}
	kind := drawSection
	switch {
	case q.Plan:
		kind = drawPlan
	case q.Long:
		kind = drawLong
	case q.Bed:
		kind = drawBed
	case q.Boards:
		kind = drawBoards
	}
	d := kind.of(r, func() solid.Cut { return q.Cut }, q.Stage)
	img := image.NewRGBA(image.Rect(0, 0, q.Width, q.Height))
	style := newAppTheme(q.Dark, b).paintStyle(1, r.Settled.Units, "")
	painter.Draw(img, d, paint.FitTo(&d, q.Width, q.Height, style.Scale), style)
	return img, nil
}
