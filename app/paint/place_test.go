package paint_test

import (
	"image"
	"testing"

	"underfall/app/paint"
	"underfall/geometry/buildup"
	"underfall/geometry/demotest"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/section"
	"underfall/geometry/unit"
)

// painted is a picture of a drawing, a pixel a millimetre about its origin.
func painted(t *testing.T, d section.Drawing) *image.RGBA {
	t.Helper()
	img, _ := placed(t, d)
	return img
}

// placed is that with the texts on it that can be typed on.
func placed(t *testing.T, d section.Drawing) (*image.RGBA, []paint.Placed) {
	t.Helper()
	img := image.NewRGBA(image.Rect(0, 0, 400, 400))
	view := paint.View{Centre: plan.Point{0, 0}, PixelsPerMM: 1, Width: 400, Height: 400}
	return img, painter(t).Draw(img, d, view, style(unit.Metric))
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

// The lengths along a section stand at its foot on the picture of a window, whatever the floor is: the lines that those are written on
// which it shows have half a text, nine pixels, under them of the 215 that a window of 1280 by 800 has for it.
func TestLengthsAtTheFootShow(t *testing.T) {
	const wide, high, halfText = 620, 215, 9
	for _, r := range demotest.Shown(t) {
		d, err := section.Through(r, section.Cutting{Of: section.CutDrain}, buildup.StageTile)
		if err != nil {
			t.Fatal(err)
		}
		v := paint.FitTo(&d, wide, high, 1)
		told := 0
		for _, m := range d.Dimensions {
			from, y := v.ToPixel(m.From)
			to, _ := v.ToPixel(m.To)
			if m.Row != 1 || m.Side != (plan.Point{0, -1}) || to < 0 || from > wide {
				continue
			}
			if told++; y+m.OffPoints(m.Side) > high-halfText {
				t.Errorf("%s: %v stands at %v", r.Settled.Name, m.Text, y+m.OffPoints(m.Side))
			}
		}
		if told < 2 {
			t.Errorf("%s: %d lengths are told at the foot", r.Settled.Name, told)
		}
	}
}

// The text of a dimension that runs off the picture stands on what shows of it: of 0 to 1000 the
// picture has 0 to 200, and its middle is at 100.
func TestDimensionsRunOffThePicture(t *testing.T) {
	text := message.Of("dimension.length", message.MM("length", 1000))
	long := section.Dimension{From: plan.Point{0, 0}, To: plan.Point{1000, 0}, Text: text, Row: 1, Side: plan.Point{0, -1}, Key: "room"}
	_, written := placed(t, section.Drawing{Dimensions: []section.Dimension{long}})
	if len(written) != 1 || written[0].Box.Min.X < 250 || written[0].Box.Max.X > 350 {
		t.Errorf("written at %+v", written)
	}
}

// What a window lays over a drawing, a straight and something that can be dragged, hides no text,
// also where lines everywhere leave no good place: within 6 of either nothing is written.
func TestTextsKeepOffWhatIsLaidOver(t *testing.T) {
	text := message.Of("dimension.length", message.MM("length", 300))
	level := section.Dimension{From: plan.Point{-150, 20}, To: plan.Point{150, 20}, Text: text, Row: 1, Side: plan.Point{0, -1}}
	texts := map[string]section.Drawing{
		"a mark":      {Marks: []section.Mark{{At: plan.Point{0, -34}, LevelMM: 116, Of: section.MarkTile}}},
		"a dimension": {Dimensions: []section.Dimension{level}},
		"a note":      {Notes: []section.Note{{Places: []section.NotePlace{{Texts: []message.Message{text}, Points: []plan.Point{{-20, -16}}}}}}},
	}
	lines := []section.Line{}
	for x := -200.0; x < 200; x += 5 {
		lines = append(lines, section.Line{Points: []plan.Point{{x, -200}, {x, 200}}, Weight: section.Heavy})
	}
	over := map[string]section.Drawing{
		"a straight": {Over: [][2]plan.Point{{{0, -200}, {0, 200}}}},
		"a handle":   {Handles: []section.Handle{{At: plan.Point{0, 0}}}},
	}
	for what, d := range texts {
		for laid, o := range over {
			d.Over, d.Handles = o.Over, o.Handles
			for _, d.Lines = range [][]section.Line{nil, lines} {
				bare := section.Drawing{Lines: d.Lines}
				with, without := painted(t, d), painted(t, bare)
				if n := inkedIn(with, with.Bounds()); n == inkedIn(without, with.Bounds()) {
					t.Errorf("%s with %s is not written", what, laid)
				}
				hidden := 0
				for y := 194; y < 206; y++ {
					for x := 195; x < 206; x++ {
						if with.RGBAAt(x, y) != without.RGBAAt(x, y) {
							hidden++
						}
					}
				}
				// The lines of a mark and a dimension may pass there, the paper of a text not.
				if hidden > 30 {
					t.Errorf("%s lies under %s: %d pixels", what, laid, hidden)
				}
			}
		}
	}
}

// A dimension from 0 to 1000 on a picture that shows −200 to 200 is broken near its right rim and
// not at its left end, which shows; one that shows whole is not broken.
func TestDimensionsOffThePictureAreBroken(t *testing.T) {
	text := message.Of("dimension.length", message.MM("length", 1000))
	aside := func(to float64) int {
		long := section.Dimension{From: plan.Point{0, 0}, To: plan.Point{to, 0}, Text: text, Row: 1, Side: plan.Point{0, -1}}
		// The line lies 20 under the middle of the picture; past the text and before the rim.
		img := painted(t, section.Drawing{Dimensions: []section.Dimension{long}})
		return inkedIn(img, image.Rect(380, 212, 400, 219)) + inkedIn(img, image.Rect(380, 222, 400, 228))
	}
	if n := aside(1000); n < 4 {
		t.Errorf("a line that runs off is not broken: %d pixels beside it", n)
	}
	if n := aside(150); n > 0 {
		t.Errorf("a line that ends before has %d pixels there", n)
	}
}
