package space

import (
	"image"
	"math"

	"underfall/app/paint"
	"underfall/app/theme"
	"underfall/app/words"
	"underfall/assets"
	"underfall/geometry"
	"underfall/geometry/buildup"
	"underfall/geometry/section"
	"underfall/geometry/solid"
	"underfall/viewer"
)

// inSpace are the sections on the cut planes as a camera sees them: of two, only
// what shows where they meet.
func inSpace(r geometry.Result, stage buildup.Stage, c viewer.Camera, cuts []solid.Cut, width, height int) []paint.Overlay {
	var out []paint.Overlay
	for i, cut := range cuts {
		d := section.Of(r, cut, stage)
		if len(cuts) > 1 {
			d = d.Within(cuts[1-i])
		}
		out = append(out, paint.Overlay{Drawing: d, To: viewer.InSpace{Camera: c, Cut: cut, Width: width, Height: height}})
	}
	return out
}

// Dimension draws the dimensions and levels of the cuts over a picture of it, on
// light paper unless the frame is dark.
func Dimension(img *image.RGBA, r geometry.Result, f viewer.Frame, b words.Book) error {
	painter, err := paint.NewPainter(assets.TextFont())
	if err != nil {
		return err
	}
	style := theme.New(f.Dark, b).PaintStyle(math.Max(1, float64(f.Height)/800), r.Settled.Units, "")
	painter.Annotate(img, style, paint.Over{}, inSpace(r, f.Stage, f.Camera, f.Caps.Cuts, f.Width, f.Height)...)
	return nil
}
