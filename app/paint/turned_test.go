package paint_test

import (
	"fmt"
	"image"
	"math"
	"testing"

	"underfall/app/golden"
	"underfall/app/paint"
	"underfall/geometry/buildup"
	"underfall/geometry/demotest"
	"underfall/geometry/plan"
	"underfall/geometry/section"
	"underfall/geometry/unit"
)

// What is seen from above in a room a metre wide and two long, of which 2000 by 1000 pixels are shown: turned once
// clockwise, what lies to its left comes to lie at the top, and it fits as its width and length are changed over.
func TestTurnedView(t *testing.T) {
	d := section.Drawing{FocusLow: plan.Point{0, 0}, FocusHigh: plan.Point{1000, 2000}}
	upright := paint.FitTo(&d, 2080, 1080, 1) // with margins of 40 over and under it, and 30 beside
	if got := upright.PixelsPerMM; math.Abs(got-0.5) > 1e-9 {
		t.Errorf("upright %v pixels a millimetre, want 0.5", got)
	}
	for turned, want := range map[plan.Quarters][2]float64{0: {0, 1}, 1: {1, 0}, 2: {0, -1}, 3: {-1, 0}} {
		v := paint.FitTurned(&d, turned, 2080, 1080, 1)
		if perMM := map[bool]float64{false: 0.5, true: 1}[turned%2 == 1]; math.Abs(v.PixelsPerMM-perMM) > 1e-9 {
			t.Errorf("%d quarters: %v pixels a millimetre, want %v", turned, v.PixelsPerMM, perMM)
		}
		x0, y0 := v.ToPixel(plan.Point{500, 1000})
		x, y := v.ToPixel(plan.Point{500, 1100}) // further on the way that is up in the drawing
		if long := 100 * v.PixelsPerMM; math.Abs(x-x0-want[0]*long) > 1e-9 || math.Abs(y0-y-want[1]*long) > 1e-9 || math.Abs(x0-1040) > 1e-9 || math.Abs(y0-540) > 1e-9 {
			t.Errorf("%d quarters: from %v, %v up leads to %v, %v", turned, x0, y0, x, y)
		}
		for _, p := range []plan.Point{{0, 0}, {1000, 2000}, {37, 1410}} {
			if back := v.ToDrawing(v.ToPixel(p)); back.Sub(p).Len() > 1e-6 {
				t.Errorf("%d quarters: %v comes back as %v", turned, p, back)
			}
		}
		low, high := v.Shown(0)
		for _, pixel := range [][2]float64{{0, 0}, {2080, 0}, {2080, 1080}, {0, 1080}} {
			if p := v.ToDrawing(pixel[0], pixel[1]); p.X() < low.X()-1e-6 || p.X() > high.X()+1e-6 || p.Y() < low.Y()-1e-6 || p.Y() > high.Y()+1e-6 {
				t.Errorf("%d quarters: a corner shows %v, not within %v and %v", turned, p, low, high)
			}
		}
	}
}

// fromAbove are the drawings of what is seen from above in the room, by what they are called.
func fromAbove(t testing.TB, of int) map[string]section.Drawing {
	t.Helper()
	r := demotest.Shown(t)[of]
	out := map[string]section.Drawing{"plan": section.PlanOf(r), "room": section.RoomOf(r, section.Lit{}), "bed": section.BedOf(r)}
	for _, of := range section.LevelCuts() {
		if d, err := section.Through(r, section.Cutting{Of: of}, buildup.StageTile); err == nil {
			out[string(of)] = d
		}
	}
	return out
}

// Turned by quarters, what is seen from above is lettered as it is upright: no text meets another, lies on what can
// be dragged or runs out, every wall has its letter, and about as much is said.
func TestTurnedTextsKeepApart(t *testing.T) {
	for i := range demotest.Shown(t) {
		for name, d := range fromAbove(t, i) {
			walls := 0
			for _, n := range d.Names {
				if n.Disc != 0 {
					walls++
				}
			}
			for _, size := range [][2]int{{430, 316}, {620, 420}} {
				said := [4]int{}
				for turned := range plan.Quarters(4) {
					for _, u := range []unit.System{unit.Metric, unit.Imperial} {
						where := fmt.Sprintf("demo %d, %s, %d quarters, %d by %d, %s", i, name, turned, size[0], size[1], u)
						v := paint.FitTurned(&d, turned, size[0], size[1], 1)
						l := section.Letter(paint.SheetOf(painter(t), v, style(u)), paint.SeenIn(&d, v))
						keptApart(t, where, &l, v)
						keptOff(t, where, &l, v, &d)
						said[turned] += len(l.Texts)
						discs := 0
						for _, disc := range l.Discs {
							if !disc.Ring {
								discs++
							}
						}
						if discs != walls {
							t.Errorf("%s: %d of %d walls have a letter", where, discs, walls)
						}
					}
				}
				for turned, n := range said {
					const few = 8 // of the same said close together one is left out, beside each other only
					if said[0] > few && n*3 < said[0]*2 {
						t.Errorf("demo %d, %s, %d by %d: %d texts after %d quarters, %d upright", i, name, size[0], size[1], n, turned, said[0])
					}
				}
			}
		}
	}
}

// What has to show of a drawing shows, turned or not: leaves that swing out of the room in whole, and the walls.
func TestSwingsShow(t *testing.T) {
	swings := 0
	for i := range demotest.Shown(t) {
		for name, d := range fromAbove(t, i) {
			for turned := range plan.Quarters(4) {
				v := paint.FitTurned(&d, turned, 430, 316, 1)
				for _, p := range append([]plan.Point{d.FocusLow, d.FocusHigh}, d.Shows...) {
					if x, y := v.ToPixel(p); x < 0 || y < 0 || x > 430 || y > 316 {
						t.Errorf("demo %d, %s, %d quarters: %v is at %v, %v", i, name, turned, p, x, y)
					}
				}
				swings += len(d.Shows)
			}
		}
	}
	if swings == 0 {
		t.Error("no leaf swings out of a room")
	}
}

// A plan that is turned, as a person has looked at it.
func TestTurnedAsSeen(t *testing.T) {
	d := section.PlanOf(demotest.Shown(t)[2])
	img := image.NewRGBA(image.Rect(0, 0, 620, 420))
	painter(t).Draw(img, d, paint.FitTurned(&d, 1, 620, 420, 1), paint.Usual(false, 1, style(unit.Metric).Book, unit.Metric))
	golden.Check(t, "turned", img)
}
