// Package still draws a job's drawings as pictures and writes pictures into files: all that needs no
// window.
package still

import (
	"image"

	"underfall/app/paint"
	"underfall/app/words"
	"underfall/assets"
	"underfall/geometry"
	"underfall/geometry/buildup"
	"underfall/geometry/section"
	"underfall/geometry/solid"
)

// Kind is which drawing it is.
type Kind int

// The drawings.
const (
	Section Kind = iota // at a cut
	Plan
	Long   // the run along the waste
	Bed    // under the base
	Boards // the cutting plan
	Level  // all that is at a level
)

// Of is the drawing of a result; only a section and what is at a level need a cut.
func (k Kind) Of(r geometry.Result, cut func() solid.Cut, stage buildup.Stage) section.Drawing {
	switch k {
	case Plan:
		return section.PlanOf(r)
	case Long:
		return section.LongOf(r)
	case Bed:
		return section.BedOf(r)
	case Boards:
		return section.BoardsOf(r)
	}
	return section.Of(r, cut(), stage)
}

// Request is a drawing asked for as a picture.
type Request struct {
	Kind          Kind
	Cut           section.Cutting // of a section
	Stage         buildup.Stage
	Width, Height int // pixels
	Dark          bool
}

// Drawn paints a drawing of a result as the window shows it.
func Drawn(r geometry.Result, q Request, b words.Book) (*image.RGBA, error) {
	painter, err := paint.NewPainter(assets.TextFont())
	if err != nil {
		return nil, err
	}
	d, err := q.drawing(r)
	if err != nil {
		return nil, err
	}
	img := image.NewRGBA(image.Rect(0, 0, q.Width, q.Height))
	style := paint.Usual(q.Dark, 1, b, r.Settled.Units)
	painter.Draw(img, d, paint.FitTo(&d, q.Width, q.Height, style.Scale), style)
	return img, nil
}

// drawing is what is asked for; an error is why nothing is cut.
func (q Request) drawing(r geometry.Result) (section.Drawing, error) {
	if q.Kind == Section {
		return section.Through(r, q.Cut, q.Stage)
	}
	return q.Kind.Of(r, nil, q.Stage), nil
}
