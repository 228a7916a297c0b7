package pen_test

import (
	"bytes"
	"image"
	"image/color"
	"image/draw"
	"math"
	"testing"
	"time"

	"pgregory.net/rapid"
	"underfall/app/pen"
	"underfall/assets"
	"underfall/geometry/placing"
	"underfall/geometry/plan"
)

func fonts(t *testing.T) *pen.Fonts {
	t.Helper()
	f, err := pen.NewFonts(assets.TextFont(), assets.BoldFont())
	if err != nil {
		t.Fatal(err)
	}
	return f
}

func sheetOf(wide, high int) *image.RGBA {
	img := image.NewRGBA(image.Rect(0, 0, wide, high))
	draw.Draw(img, img.Rect, image.White, image.Point{}, draw.Src)
	return img
}

// filled keeps what is filled.
type filled struct {
	pen.Pen
	rings [][]placing.Point
}

func (f *filled) Fill(rings [][]placing.Point, _ color.RGBA) { f.rings = append(f.rings, rings...) }

// A triangle within a box is what the two share: as large as the plan's own clipping makes it, and nowhere outside the box.
func TestWithinFillsWhatIsShared(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		const wide, high, left, top = 60.0, 50.0, 17.0, 23.0
		at := rapid.Custom(func(t *rapid.T) placing.Point {
			return placing.Point{rapid.Float64Range(-80, 140).Draw(t, "x"), rapid.Float64Range(-80, 130).Draw(t, "y")}
		})
		ring := rapid.SliceOfN(at, 3, 3).Draw(t, "triangle")
		to := &filled{}
		pen.Within(to, placing.Box{Low: placing.Point{left, top}, High: placing.Point{left + wide, top + high}}).Fill([][]placing.Point{ring}, color.RGBA{})
		area := 0.0
		for _, r := range to.rings {
			for i, q := range r {
				n := r[(i+1)%len(r)]
				area += (q[0]*n[1] - n[0]*q[1]) / 2
				if q[0] < left-1e-9 || q[0] > left+wide+1e-9 || q[1] < top-1e-9 || q[1] > top+high+1e-9 {
					t.Fatalf("%v lies outside of the box", q)
				}
			}
		}
		var outline plan.Ring
		for _, q := range ring {
			outline = append(outline, plan.Point{q[0], q[1]})
		}
		shared := plan.FromRing(outline)
		for _, in := range []func(plan.Point) float64{plan.Point.X, plan.Point.Y,
			func(p plan.Point) float64 { return wide - p.X() }, func(p plan.Point) float64 { return high - p.Y() }} {
			shared = shared.Where(in)
		}
		if want := shared.Area(); math.Abs(math.Abs(area)-want) > 1e-3*(1+want) {
			t.Fatalf("%v is filled of %v", math.Abs(area), want)
		}
	})
}

// Strokes are cut at the box's edges: a line across it, 40 long in it and 2 wide, blackens 80 pixels, and one beside it none.
func TestWithinCutsStrokes(t *testing.T) {
	page := sheetOf(100, 100)
	in := pen.Within(fonts(t).On(page), placing.Box{Low: placing.Point{30, 30}, High: placing.Point{70, 70}})
	in.Stroke([]placing.Straight{{{-500, 10}, {500, 10}}, {{-5, -50}, {-5, 90}}, {{41, 0}, {300, 90}}}, 2, color.RGBA{0, 0, 0, 255})
	black := 0
	for y := range 100 {
		for x := range 100 {
			if c := page.RGBAAt(x, y); c.R == 0 {
				black++
			} else if c.R < 255 {
				t.Errorf("half marked at %d, %d", x, y)
			}
		}
	}
	if black != 80 {
		t.Errorf("%d pixels are black, want 80", black)
	}
}

// A text that would run over an edge is left out, one inside is written.
func TestWithinLeavesOutTextsOverItsEdge(t *testing.T) {
	for _, c := range []struct {
		at   placing.Point
		want bool
	}{{placing.Point{5, 30}, true}, {placing.Point{-1, 30}, false}, {placing.Point{60, 30}, false}, {placing.Point{5, 8}, false}} {
		page := sheetOf(100, 100)
		in := pen.Within(fonts(t).On(page), placing.Box{Low: placing.Point{10, 10}, High: placing.Point{90, 90}})
		in.Text("Trap", c.at, 12, pen.Bold, color.RGBA{0, 0, 0, 255})
		blank := bytes.Equal(page.Pix, sheetOf(100, 100).Pix)
		if blank == c.want {
			t.Errorf("a text at %v is written: %v, want %v", c.at, !blank, c.want)
		}
	}
}

// The same pages make the same file, and texts are as wide on paper as their glyphs are: Noto Sans has an advance
// of 572 for a figure, in units of a thousandth of the size.
func TestPDFIsTheSameAndMeasures(t *testing.T) {
	made := time.Date(2026, 3, 4, 5, 6, 7, 0, time.UTC)
	write := func() []byte {
		p := pen.NewPDF(assets.TextFont(), assets.BoldFont(), "Sheet", "en-GB", made)
		p.Page(300, 200)
		p.Text("0123", placing.Point{10, 20}, 10, pen.Regular, color.RGBA{0, 0, 0, 255})
		if got := p.TextWidth("0123", 10, pen.Regular); math.Abs(got-4*5.72) > 0.01 {
			t.Errorf("four figures of 10 points are %v wide", got)
		}
		var out bytes.Buffer
		if err := p.Write(&out); err != nil {
			t.Fatal(err)
		}
		return out.Bytes()
	}
	if one, other := write(), write(); !bytes.Equal(one, other) || len(one) < 1000 {
		t.Errorf("%d and %d bytes, not the same", len(one), len(other))
	}
}
