package paint_test

import (
	"image"
	"testing"

	"underfall/app/paint"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/section"
	"underfall/geometry/unit"
)

// painted is a picture of a drawing, a pixel a millimetre about its origin.
func painted(t *testing.T, d section.Drawing) *image.RGBA {
	t.Helper()
	img := image.NewRGBA(image.Rect(0, 0, 400, 400))
	painter(t).Draw(img, d, paint.View{Centre: plan.Point{0, 0}, PixelsPerMM: 1, Width: 400, Height: 400}, style(unit.Metric))
	return img
}

// A mark and a dimension each stand in the middle of a heavy line otherwise: they leave all of it
// to be seen, as they have room beside it. What runs both ways leaves them none, and they are
// written all the same.
func TestTextsKeepOffLines(t *testing.T) {
	text := message.Of("dimension.length", message.MM("length", 300))
	upright := section.Dimension{From: plan.Point{-30, -150}, To: plan.Point{-30, 150}, Text: text, Row: 1, Side: plan.Point{1, 0}}
	level := section.Dimension{From: plan.Point{-150, 0}, To: plan.Point{150, 0}, Text: text, Row: 1, Side: plan.Point{0, -1}}
	texts := map[string]section.Drawing{
		"a mark":                 {Marks: []section.Mark{{At: plan.Point{0, 0}, LevelMM: 116, Of: section.MarkTile}}},
		"an upright's dimension": {Dimensions: []section.Dimension{upright}},
		"a level dimension":      {Dimensions: []section.Dimension{level}},
	}
	line := section.Line{Points: []plan.Point{{0, -60}, {0, 60}}, Weight: section.Heavy}
	for name, d := range texts {
		without := painted(t, d)
		d.Lines = []section.Line{line}
		with := painted(t, d)
		covered := 0
		for y := 142; y < 258; y++ {
			if c := with.RGBAAt(200, y); c == white {
				covered++
			}
		}
		if covered > 0 {
			t.Errorf("%s covers %d pixels of a line", name, covered)
		}
		if inked(without, 0, 400) < 100 || inked(with, 0, 400) < inked(without, 0, 400)+100 {
			t.Errorf("%s: %d pixels inked without the line, %d with it", name, inked(without, 0, 400), inked(with, 0, 400))
		}
		for x := -200.0; x < 200; x += 5 {
			d.Lines = append(d.Lines, section.Line{Points: []plan.Point{{x, -200}, {x, 200}}, Weight: section.Heavy})
		}
		bare := d
		bare.Marks, bare.Dimensions = nil, nil
		if a, b := inked(painted(t, d), 0, 400), inked(painted(t, bare), 0, 400); a == b {
			t.Errorf("%s is not written where there are lines everywhere", name)
		}
	}
}

// Three rows beside a board of 1000 by 200, and two below it, stand on the picture with their
// texts: a row upright takes 20 and 64 for each before it, and 60 for its text.
func TestRowsStandOnThePicture(t *testing.T) {
	d := section.Drawing{FocusLow: plan.Point{0, 0}, FocusHigh: plan.Point{1000, 200}}
	beside := section.Dimension{From: plan.Point{0, 0}, To: plan.Point{0, 200}, Side: plan.Point{-1, 0}}
	for beside.Row = 1; beside.Row <= 3; beside.Row++ {
		d.Dimensions = append(d.Dimensions, beside)
	}
	below := section.Dimension{From: plan.Point{0, 0}, To: plan.Point{1000, 0}, Row: 2, Side: plan.Point{0, -1}}
	d.Dimensions = append(d.Dimensions, below)
	v := paint.FitTo(&d, 800, 300, 1)
	if x, y := v.ToPixel(d.FocusLow); x < 20+2*64+60-1e-3 || y > 300-40 {
		t.Errorf("the board begins at %v, %v", x, y)
	}
	if x, y := v.ToPixel(d.FocusHigh); x > 770+1e-3 || y < 40 || x < 765 {
		t.Errorf("the board ends at %v, %v", x, y)
	}
	// A dimension of what is not looked at takes no room.
	d.Dimensions[2].From, d.Dimensions[2].To = plan.Point{-500, 0}, plan.Point{-500, 200}
	if w := paint.FitTo(&d, 800, 300, 1); w.PixelsPerMM <= v.PixelsPerMM {
		t.Errorf("%v pixels a millimetre without the third row, %v with it", w.PixelsPerMM, v.PixelsPerMM)
	}
}

// The text of a dimension that runs off the picture stands on what shows of it: of 0 to 1000 the
// picture has 0 to 200, and its middle is at 100.
func TestDimensionsRunOffThePicture(t *testing.T) {
	text := message.Of("dimension.length", message.MM("length", 1000))
	long := section.Dimension{From: plan.Point{0, 0}, To: plan.Point{1000, 0}, Text: text, Row: 1, Side: plan.Point{0, -1}, Key: "room"}
	d := section.Drawing{Dimensions: []section.Dimension{long}}
	img := image.NewRGBA(image.Rect(0, 0, 400, 400))
	placed := painter(t).Draw(img, d, paint.View{PixelsPerMM: 1, Width: 400, Height: 400}, style(unit.Metric))
	if len(placed) != 1 || placed[0].Box.Min.X < 250 || placed[0].Box.Max.X > 350 {
		t.Errorf("written at %+v", placed)
	}
}
