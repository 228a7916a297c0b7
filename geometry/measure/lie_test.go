package measure_test

import (
	"fmt"
	"math"
	"testing"

	"underfall/geometry"
	"underfall/geometry/job"
	"underfall/geometry/plan"
)

// sampledLevel is the area of tiled floor that lies level, counted on a grid of 5 mm: the
// floor's level at the middle of each square, nothing where the drain is or where a wall
// is nearer than its finish. An answer of its own: it uses no planes and no clipping.
func sampledLevel(r geometry.Result) float64 {
	const step = 5.0
	low, high, _ := r.Layout.FallArea.Bounds()
	finish, area := r.Settled.Layers.Wall.ThicknessMM(), 0.0
	for x := low.X() + step/2; x < high.X(); x += step {
		for y := low.Y() + step/2; y < high.Y(); y += step {
			p := plan.Point{x, y}
			if !r.Layout.FallArea.Contains(p, 0) || r.Layout.Drain.Contains(p, 0) || r.Layout.Fall.At(p) > 1e-9 {
				continue
			}
			if near, _ := r.Layout.Clear(p); near > finish {
				area += step * step
			}
		}
	}
	return area
}

// What lies level agrees with counting squares, for drains along every side, across the
// middle and at a point, and for a drain that stands off the wall.
func TestLevelFloorAgainstCounting(t *testing.T) {
	for name, change := range map[string]func(*job.Job){
		"back":       func(*job.Job) {},
		"left":       func(j *job.Job) { j.Former.Fall = job.FallLeft; j.Drain.LengthMM = 500 },
		"front":      func(j *job.Job) { j.Former.Fall = job.FallFront },
		"right":      func(j *job.Job) { j.Former.Fall = job.FallRight; j.Drain.LengthMM, j.Drain.OffsetMM = 400, -150 },
		"mid":        func(j *job.Job) { j.Former.Fall = job.FallMid },
		"point":      func(j *job.Job) { j.Former.Fall = job.FallPoint },
		"stands off": func(j *job.Job) { j.Drain.WallClearanceMM = 63 },
		"no fall":    func(j *job.Job) { j.Former.Slope = 0 },
		"full":       func(j *job.Job) { j.Drain.LengthMM = 1400 - 2*13 },
	} {
		w := evaluated(t, change)
		want := sampledLevel(w)
		// Squares are right to half a step along every border.
		if got := w.Water.Level.AreaMM2; math.Abs(got-want) > 2.5*4000 {
			t.Errorf("%s: %.0f mm² lie level, counted %.0f", name, got, want)
		}
	}
}

// The drain of 800 stands in the middle of 1400, 13 off the back wall; finishes are 13
// thick. Pieces of 70 across lie 287 long at its left, up to the wall's tile, and 300 at
// its right. 63 off, 50 more lie level behind it, and the pieces are 120 across.
func TestLevelFloorByHand(t *testing.T) {
	for offMM, want := range map[float64][2]float64{13: {70 * 587, 70}, 63: {120*587 + 50*800, 120}} {
		w := evaluated(t, func(j *job.Job) { j.Drain.WallClearanceMM = offMM }).Water.Level
		if math.Abs(w.AreaMM2-want[0]) > 1e-3 || math.Abs(w.WidestMM-want[1]) > 1e-6 {
			t.Errorf("%v off the wall: %v mm², %v wide; want %v", offMM, w.AreaMM2, w.WidestMM, want)
		}
	}
	// A kerb of 100 stands on the end of the piece at the right.
	kerbed := evaluated(t, func(j *job.Job) { j.Shower.Kerb = &job.Kerb{HeightMM: 50, WidthMM: 100} }).Water.Level
	if want := 70.0 * 487; math.Abs(kerbed.AreaMM2-want) > 1e-3 {
		t.Errorf("with a kerb %v mm², want %v", kerbed.AreaMM2, want)
	}
}

// A square shower of 900 with a drain of 70 in its middle: planes of 1:80 fall square to
// each other, and along the diagonals they fall 1:80/√2, 1:113.
func squareFall(j *job.Job) {
	j.Shower.WidthMM, j.Shower.DepthMM = 900, 900
	j.Former.Fall, j.Former.Slope = job.FallPoint, 1.0/80
}

func TestCreasesOfASquareByHand(t *testing.T) {
	r := evaluated(t, squareFall)
	w := r.Water
	if len(w.Creases) != 4 {
		t.Fatalf("%d creases, want 4", len(w.Creases))
	}
	for i, c := range w.Creases {
		// From a corner, 450 off the middle both ways, to the drain's, 35 off.
		down := r.Layout.Fall.At(c.A) - r.Layout.Fall.At(c.B)
		if math.Abs(c.Slope-1/(80*math.Sqrt2)) > 1e-9 || math.Abs(c.LengthMM()-415*math.Sqrt2) > 1e-6 || math.Abs(down-415/80.0) > 1e-6 {
			t.Errorf("crease %d: %+v, falls %v", i+1, c, down)
		}
	}
	off := math.Hypot(2*math.Sqrt(1.25)/300, 2.0/415) // tiles of 200: the reach of a trowel
	if e := w.Evenness; !e.OnCrease || math.Abs(e.LeastFall-(1/(80*math.Sqrt2)-off)) > 1e-9 {
		t.Errorf("%+v", e)
	}
}

// Each plane of that square is a trapezium between 900 and 70 wide, 415 deep, whose sides
// close in by 2 for every 1: a tile of s by s needs 900 − 2s = s, so 300; one of s by s/2
// with its long side to the edge 900 − s = s, 450, the other way round less: 900 − 2s =
// s/2, 360. A hexagon of f between flats, which lie to the shower's sides: its flat on
// the edge's line is f/√3 wide and f/2 in it is its widest, 2f/√3, where the plane has
// 900 − f; at the top f/√3 of 900 − 2f: 900 / (1 + 2/√3) = 417.7 and 900 / (2 + 1/√3) =
// 349.2, the lesser. Lying the other way, its points f/√3 from the middle towards the
// edge: the flats end f/(2√3) beyond the middle, 3f/(2√3) in, where f of 900 − √3·f is
// left: 900 / (1 + √3) = 329.4. Herringbone lies both ways: the lesser.
func TestTilesInAPlaneByHand(t *testing.T) {
	for _, c := range []struct {
		long, wide float64
		bond       job.Bond
		fits       float64
	}{
		{600, 600, job.BondStack, 300}, {200, 200, job.BondStack, 300}, {600, 300, job.BondHalf, 450}, {600, 300, job.BondThird, 450},
		{600, 300, job.BondHerringbone, 360}, {200, 200, job.BondHexagon, 900 / (2 + 1/math.Sqrt(3))},
	} {
		fits := evaluated(t, func(j *job.Job) {
			squareFall(j)
			f := &j.Layers.Shower
			f.TileLengthMM, f.TileWidthMM, f.Bond = c.long, c.wide, c.bond
		}).Water.Tiles
		if len(fits) != 4 {
			t.Fatalf("%d planes with a fit, want 4", len(fits))
		}
		for _, f := range fits {
			if over := math.Max(0, c.long-c.fits); math.Abs(f.LengthMM-c.fits) > 1e-4 || math.Abs(f.OverMM-over) > 1e-4 || math.Abs(f.WidthMM-c.fits*c.wide/c.long) > 1e-4 {
				t.Errorf("%v × %v, %s: %+v, want %v", c.long, c.wide, c.bond, f, c.fits)
			}
		}
	}
	if fits := evaluated(t, func(j *job.Job) { j.Layers.Shower.TileLengthMM = 1200 }).Water.Tiles; len(fits) > 0 {
		t.Errorf("a single plane has no creases, but %+v", fits)
	}
}

// A floor without any fall is told to have none.
func TestLevelFloorFallsNought(t *testing.T) {
	r := evaluated(t, func(j *job.Job) { j.Former.Slope = 0 })
	for _, m := range r.Measured {
		if m.Quantity == "floor.fall" && m.Value == 0 {
			return
		}
	}
	t.Error(fmt.Sprint(len(r.Measured), " measurements, none of a floor without fall"))
}
