package paint_test

import (
	"bytes"
	"image"
	"image/color"
	"math"
	"testing"

	"fyne.io/fyne/v2/theme"
	"pgregory.net/rapid"
	"underfall/app/paint"
	"underfall/app/words"
	"underfall/assets"
	"underfall/geometry/material"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/section"
	"underfall/geometry/unit"
)

var (
	white = color.RGBA{255, 255, 255, 255}
	black = color.RGBA{0, 0, 0, 255}
	red   = color.RGBA{200, 0, 0, 255}
)

func style(units unit.System) paint.Style {
	shelf, err := words.Load(assets.Words())
	if err != nil {
		panic(err) // a test of the catalogues says so as well
	}
	return paint.Style{Paper: white, Ink: black, Soft: black, Accent: red, Scale: 1, Book: shelf.Book(words.British, units, nil),
		Fill: func(material.Material) color.RGBA { return color.RGBA{200, 220, 255, 255} }}
}

func painter(t testing.TB) *paint.Painter {
	t.Helper()
	p, err := paint.NewPainter(assets.TextFont())
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func board() section.Drawing {
	r := plan.Rectangle(plan.Point{0, 0}, plan.Point{400, 200})
	return section.Drawing{Areas: []section.Area{{PartID: "board", Material: material.Plastic, Region: r, Cut: true}}, Low: plan.Point{0, 0}, High: plan.Point{400, 200}}
}

// A rectangle of 400 × 200 at half a pixel a millimetre fills 200 × 100 pixels.
func TestAreaIsTrueToScale(t *testing.T) {
	img := image.NewRGBA(image.Rect(0, 0, 300, 200))
	v := paint.View{Centre: plan.Point{200, 100}, PixelsPerMM: 0.5, Width: 300, Height: 200}
	painter(t).Draw(img, board(), v, style(unit.Metric))
	n := 0
	for i := 0; i < len(img.Pix); i += 4 {
		if img.Pix[i] != 255 || img.Pix[i+1] != 255 {
			n++
		}
	}
	if n < 200*100 || n > 202*102 {
		t.Errorf("%d pixels, want 20 000 and the outline", n)
	}
}

// Pixels and drawing turn into each other.
func TestViewRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := rapid.Float64Range(-5000, 5000)
		v := paint.View{Centre: plan.Point{f.Draw(t, "x"), f.Draw(t, "y")}, PixelsPerMM: rapid.Float64Range(0.01, 40).Draw(t, "scale"), Width: 800, Height: 500}
		p := plan.Point{f.Draw(t, "px"), f.Draw(t, "py")}
		x, y := v.ToPixel(p)
		if d := v.ToDrawing(x, y).Sub(p).Len(); d > 1e-6 {
			t.Fatalf("%v comes back %v off", p, d)
		}
	})
}

// Fit shows the whole with room to spare.
func TestFit(t *testing.T) {
	v := paint.Fit(plan.Point{0, 0}, plan.Point{2000, 300}, 800, 300, 1)
	for _, p := range []plan.Point{{0, 0}, {2000, 300}} {
		if x, y := v.ToPixel(p); x < 10 || x > 790 || y < 10 || y > 290 {
			t.Errorf("%v lies at %.0f, %.0f", p, x, y)
		}
	}
	if v := paint.Fit(plan.Point{}, plan.Point{}, 800, 300, 1); math.IsNaN(v.PixelsPerMM) || v.PixelsPerMM <= 0 {
		t.Errorf("nothing fits at %v", v.PixelsPerMM)
	}
}

// A dimension too small to read is left out, and comes when one zooms in.
func TestSmallDimensionsWait(t *testing.T) {
	d := board()
	d.Dimensions = []section.Dimension{{From: plan.Point{400, 0}, To: plan.Point{400, 20}, Text: message.Of("dimension.length", message.Fine("length", 20)), Row: 1, Side: plan.Point{1, 0}}}
	beside := func(scale float64) int {
		img := image.NewRGBA(image.Rect(0, 0, 400, 300))
		painter(t).Draw(img, d, paint.View{Centre: plan.Point{400, 10}, PixelsPerMM: scale, Width: 400, Height: 300}, style(unit.Metric))
		n := 0
		for y := range 300 {
			for x := 204; x < 400; x++ {
				if img.RGBAAt(x, y) != white {
					n++
				}
			}
		}
		return n
	}
	if far, close := beside(0.3), beside(2); far > 0 || close < 60 {
		t.Errorf("%d inked pixels beside it from afar, %d close by", far, close)
	}
}

// The drawing of anything, however close or far, does not panic.
func TestAnyScale(t *testing.T) {
	p := painter(t)
	d := board()
	d.Areas[0].Material = material.Concrete
	d.Marks = []section.Mark{{At: plan.Point{0, 200}, LevelMM: 200, Of: section.MarkTile}}
	for _, scale := range []float64{0.005, 0.1, 1, 40} {
		img := image.NewRGBA(image.Rect(0, 0, 200, 100))
		p.Draw(img, d, paint.View{Centre: plan.Point{200, 100}, PixelsPerMM: scale, Width: 200, Height: 100}, style(unit.Imperial))
	}
}

// Drawings are lettered as the window is.
func TestTheFontIsTheWindows(t *testing.T) {
	if !bytes.Equal(assets.TextFont(), theme.DefaultTextFont().Content()) {
		t.Error("the font in assets is not the one that Fyne brings: copy it, with its licence")
	}
}

func TestNewPainterRefusesNoFont(t *testing.T) {
	if _, err := paint.NewPainter([]byte("not a font")); err == nil {
		t.Error("a painter without a font")
	}
}
