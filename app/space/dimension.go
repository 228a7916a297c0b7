package space

import (
	"image"
	"math"
	"slices"

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

// sections are a result's on cut planes, as long as all of these stay the same.
type sections struct {
	generation int
	stage      buildup.Stage
	cuts       []solid.Cut
	drawings   []section.Drawing
}

// of are those of a wish, whatever it is looked at from.
func (s *sections) of(w *wish) []section.Drawing {
	if s.drawings == nil || s.generation != w.generation || s.stage != w.frame.Stage || !slices.Equal(s.cuts, w.cuts) {
		*s = sections{w.generation, w.frame.Stage, w.cuts, sectionsOn(w.result, w.frame.Stage, w.cuts)}
	}
	return s.drawings
}

// sectionsOn are the sections on cut planes: of two, only what shows where they meet.
func sectionsOn(r geometry.Result, stage buildup.Stage, cuts []solid.Cut) []section.Drawing {
	out := make([]section.Drawing, len(cuts))
	for i, cut := range cuts {
		if out[i] = section.Of(r, cut, stage); len(cuts) > 1 {
			out[i] = out[i].Within(cuts[1-i])
		}
	}
	return out
}

// inSpace are sections on cut planes as a camera sees them.
func inSpace(drawings []section.Drawing, c viewer.Camera, cuts []solid.Cut, width, height int) []paint.Overlay {
	var out []paint.Overlay
	for i, d := range drawings {
		out = append(out, paint.Overlay{Drawing: d, To: viewer.InSpace{Camera: c, Cut: cuts[i], Width: width, Height: height}})
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
	style := theme.New(f.Dark, b.Drawn()).PaintStyle(math.Max(1, float64(f.Height)/800), r.Settled.Units, "")
	painter.Annotate(img, style, paint.Over{}, inSpace(sectionsOn(r, f.Stage, f.Caps.Cuts), f.Camera, f.Caps.Cuts, f.Width, f.Height)...)
	return nil
}
