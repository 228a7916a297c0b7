package paint_test

import (
	"image"
	"slices"
	"testing"

	"underfall/app/paint"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/section"
	"underfall/geometry/unit"
)

// A note stands over the board of 400 by 200 where there is room for its three lines, and
// is left out where there is none.
func TestNotesFindRoom(t *testing.T) {
	d := board()
	drawn := func(d section.Drawing, height int) *image.RGBA {
		img := image.NewRGBA(image.Rect(0, 0, 400, height))
		v := paint.View{Centre: plan.Point{200, 100}, PixelsPerMM: 0.5, Width: 400, Height: height}
		painter(t).Draw(img, d, v, style(unit.Metric))
		return img
	}
	named := d
	line := message.Of("layer.screed")
	named.Notes = []section.Note{{Places: []section.NotePlace{{Texts: []message.Message{line, line, line}, Points: []plan.Point{{200, 150}, {200, 100}, {200, 50}}}}}}
	for _, c := range []struct {
		height int
		room   bool
	}{{300, true}, {112, false}} { // 112 leaves 6 over the board, too few for a line of text
		plain, got, changed := drawn(d, c.height), drawn(named, c.height), 0
		for y := range c.height/2 - 50 {
			for x := range 400 {
				if plain.RGBAAt(x, y) != got.RGBAAt(x, y) {
					changed++
				}
			}
		}
		if (changed > 100) != c.room || !c.room && !slices.Equal(plain.Pix, got.Pix) {
			t.Errorf("%d high: the note changed %d points over the board", c.height, changed)
		}
	}
}
