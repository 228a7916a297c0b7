// Package still draws a job's drawings as pictures and writes pictures into files: all that needs no
// window.
package still

import (
	"image"
	"io"
	"time"

	"underfall/app/paint"
	"underfall/app/pen"
	"underfall/app/words"
	"underfall/assets"
	"underfall/geometry"
	"underfall/geometry/buildup"
	"underfall/geometry/placing"
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

// Endings of what drawings can be written as, beside pictures.
const (
	EndingSVG = ".svg"
	EndingPDF = ".pdf"
	EndingDXF = ".dxf"
)

// Written writes a drawing of a result as vectors, in the form of an ending: a page as the window shows it, on white paper, or, as DXF,
// all of the drawing in millimetres of what is drawn.
func Written(to io.Writer, r geometry.Result, q Request, b words.Book, ending string) error {
	d, err := q.drawing(r)
	if err != nil {
		return err
	}
	fonts, err := pen.NewFonts(assets.TextFont(), assets.BoldFont())
	if err != nil {
		return err
	}
	if ending != EndingDXF { // which is read with fonts of all kinds
		b = b.Drawn()
	}
	style := paint.Usual(false, 1, b, r.Settled.Units)
	view := paint.FitTo(&d, q.Width, q.Height, style.Scale)
	wide, high := float64(q.Width), float64(q.Height)
	switch ending {
	case EndingSVG:
		page := pen.NewSVG(fonts, wide, high)
		paint.On(pen.Within(page, placing.Box{High: placing.Point{wide, high}}), d, view, style)
		return page.Write(to)
	case EndingDXF:
		view = paint.Fit(d.Low, d.High, q.Width, q.Height, style.Scale)
		place := func(p placing.Point) placing.Point {
			at := view.ToDrawing(p[0], p[1])
			return placing.Point{at.X(), at.Y()}
		}
		page, err := pen.NewDXF(fonts, place, view.PixelsPerMM, style.Paper)
		if err != nil {
			return err
		}
		paint.On(page, d, view, style)
		return page.Write(to)
	}
	doc := pen.NewPDF(assets.TextFont(), assets.BoldFont(), r.Settled.Name, b.Language(), time.Now())
	doc.Page(wide, high)
	paint.On(pen.Within(doc, placing.Box{High: placing.Point{wide, high}}), d, view, style)
	return doc.Write(to)
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
	style := paint.Usual(q.Dark, 1, b.Drawn(), r.Settled.Units)
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
