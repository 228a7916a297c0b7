package paint_test

import (
	"image"
	"slices"
	"testing"

	"underfall/app/paint"
	"underfall/geometry/material"
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

// A floor 40 thick lies to the left of a build-up 30 high, which begins 10 beside the line of the floor's
// note. At no scale and in no picture do its five lines stand on the build-up, which they do not
// name, nor on the wall behind it; where there is room anywhere, they stand there, led to.
func TestNotesKeepOffWhatTheyDoNotName(t *testing.T) {
	at := func(x0, y0, x1, y1 float64) section.Area {
		return section.Area{Material: material.Plastic, Region: plan.Rectangle(plan.Point{x0, y0}, plan.Point{x1, y1}), Cut: true}
	}
	d := section.Drawing{Areas: []section.Area{at(0, -40, 400, 0), at(400, 0, 700, 30), at(700, -40, 760, 500)}}
	line := message.Of("layer.screed")
	named := d
	named.Notes = []section.Note{{Places: []section.NotePlace{{Texts: []message.Message{line, line, line, line, line}, Points: []plan.Point{{390, -10}, {390, -20}}}}}}
	written := 0
	for _, width := range [...]int{260, 400, 640} {
		for _, height := range [...]int{120, 200, 330} {
			for _, scale := range [...]float64{0.3, 0.6, 1} {
				for _, middle := range [...]plan.Point{{350, 0}, {500, 60}, {600, 200}} {
					v := paint.View{Centre: middle, PixelsPerMM: scale, Width: width, Height: height}
					draw := func(d section.Drawing) *image.RGBA {
						img := image.NewRGBA(image.Rect(0, 0, width, height))
						painter(t).Draw(img, d, v, style(unit.Metric))
						return img
					}
					plain, got := draw(d), draw(named)
					over, changed := 0, 0
					for y := range height {
						for x := range width {
							if plain.RGBAAt(x, y) == got.RGBAAt(x, y) {
								continue
							}
							changed++
							if p := v.ToDrawing(float64(x)+0.5, float64(y)+0.5); d.Areas[1].Region.Contains(p, -2/scale) || d.Areas[2].Region.Contains(p, -2/scale) {
								over++
							}
						}
					}
					if over > 0 {
						t.Errorf("%d by %d, %v a mm about %v: %d points over what is not named", width, height, scale, middle, over)
					}
					if changed > 0 {
						written++
					}
				}
			}
		}
	}
	if written < 30 {
		t.Errorf("only %d notes are written", written)
	}
}
