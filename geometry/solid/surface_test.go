package solid

import (
	"math"
	"testing"

	"github.com/go-gl/mathgl/mgl64"
	"underfall/geometry/message"
	"underfall/geometry/plan"
)

func TestPlanesByHand(t *testing.T) {
	// 12 at (100, 200), rising 1:40 along (0.6, 0.8).
	p := Through(plan.Point{100, 200}, 12, plan.Point{0.6, 0.8}, 1.0/40)
	for q, want := range map[plan.Point]float64{{100, 200}: 12, {124, 232}: 13, {76, 168}: 11, {108, 194}: 12} {
		if got := p.At(q); math.Abs(got-want) > 1e-9 {
			t.Errorf("at %v it lies at %v, want %v", q, got, want)
		}
	}
	if got := p.Gradient(); math.Abs(got-0.025) > 1e-12 {
		t.Errorf("its gradient is %v", got)
	}
	if got := (Plane{5, 0.3, -0.4}).Raised(2); got != (Plane{7, 0.3, -0.4}) {
		t.Errorf("raised by 2: %v", got)
	}
	if got := (Plane{5, 0.3, -0.4}).less(Plane{1, 0.1, 0.2}); math.Abs(got.Level-4)+math.Abs(got.SlopeX-0.2)+math.Abs(got.SlopeY+0.6) > 1e-12 {
		t.Errorf("the one less the other: %v", got)
	}
}

// valley falls from both sides to x = 0 at level 10: by 1:10 from the left, by
// 1:20 from the right.
func valley() Surface { return Surface{{10, -0.1, 0}, {10, 0.05, 0}} }

func TestSurfacesByHand(t *testing.T) {
	s := valley()
	for x, want := range map[float64]float64{-50: 15, -1: 10.1, 0: 10, 1: 10.05, 100: 15} {
		q := plan.Point{x, 77}
		if got := s.At(q); math.Abs(got-want) > 1e-9 || math.Abs(s.PlaneAt(q).At(q)-want) > 1e-9 {
			t.Errorf("at x = %v it lies at %v, its plane at %v; want %v", x, got, s.PlaneAt(q).At(q), want)
		}
		if got := s.Raised(3).At(q); math.Abs(got-want-3) > 1e-9 {
			t.Errorf("raised by 3 it lies at %v, want %v", got, want+3)
		}
	}
	// Where two planes carry it the first does.
	if got := s.PlaneAt(plan.Point{}); got != s[0] {
		t.Errorf("in the valley it is carried by %v", got)
	}
	if got := Level(-3).At(plan.Point{9, 9}); got != -3 {
		t.Errorf("level −3 lies at %v", got)
	}
	if got := (Surface{{Level: 1}, {Level: 3}, {Level: 2}}).At(plan.Point{}); got != 3 {
		t.Errorf("the highest of 1, 3 and 2 is %v", got)
	}
}

// Volumes over a board from x = −100 to 100, 50 wide. By hand: over the left
// half the mean is 15, over the right 12.5: (15 + 12.5)·100·50 = 137 500.
func TestIntegralsByHand(t *testing.T) {
	board := plan.Rectangle(plan.Point{-100, 0}, plan.Point{100, 50})
	v := valley()
	for name, c := range map[string]struct {
		s    Surface
		want float64
	}{
		"valley":                 {v, 137500},
		"the other way round":    {Surface{v[1], v[0]}, 137500},
		"each plane twice":       {Surface{v[0], v[1], v[0], v[1]}, 137500},
		"with a level below":     {Surface{v[0], {Level: 9}, v[1]}, 137500},
		"level":                  {Level(7), 70000},
		"below zero":             {Level(-7), -70000},
		"level twice":            {Surface{{Level: 7}, {Level: 7}}, 70000},
		"one level over another": {Surface{{Level: 7}, {Level: 8}}, 80000},
		// The level 12.5 carries it from x = −25 to 50; outside, means of 16.25 and
		// 13.75: (16.25·75 + 12.5·75 + 13.75·50)·50.
		"a floor in the valley": {Surface{v[0], {Level: 12.5}, v[1]}, (16.25*75 + 12.5*75 + 13.75*50) * 50},
	} {
		if got := c.s.Integral(board); math.Abs(got-c.want) > 1e-6 {
			t.Errorf("%s: %v, want %v", name, got, c.want)
		}
	}
	if got := Level(7).Integral(plan.Rectangle(plan.Point{}, plan.Point{1, 1})); got != 7 {
		t.Errorf("over a square millimetre: %v", got)
	}
	if got := v.Integral(nil); got != 0 {
		t.Errorf("over nothing: %v", got)
	}
}

// The parts of a board that each plane carries, by hand: x from −100 to 0 and to
// 100. Of equal planes the first has it all; one below everywhere has nothing.
func TestCellsByHand(t *testing.T) {
	board := plan.Rectangle(plan.Point{-100, 0}, plan.Point{100, 50})
	v := valley()
	for name, c := range map[string]struct {
		s    Surface
		want []float64
	}{
		"valley":                   {v, []float64{5000, 5000}},
		"a floor in the valley":    {Surface{v[0], {Level: 12.5}, v[1]}, []float64{3750, 3750, 2500}},
		"equal":                    {Surface{{Level: 1}, {Level: 1}}, []float64{10000, 0}},
		"one over another":         {Surface{{Level: 1}, {Level: 1.001}}, []float64{0, 10000}},
		"one under another":        {Surface{{Level: 1.001}, {Level: 1}}, []float64{10000, 0}},
		"they cross far off right": {Surface{{0, 0.01, 0}, {-900, 1, 0}}, []float64{10000, 0}},
		"they cross far off left":  {Surface{{0, 0.01, 0}, {900, 1, 0}}, []float64{0, 10000}},
		"far off, nearly level":    {Surface{{0.3, 0.001, 0}, {0, 0, 0}}, []float64{10000, 0}},
		"the other over that":      {Surface{{0, 0, 0}, {0.3, 0.001, 0}}, []float64{0, 10000}},
		"they cross just beside":   {Surface{{0, 0, 0}, {-101, 1, 0}}, []float64{10000, 0}},
		"they cross in the board":  {Surface{{0, 0, 0}, {-99, 1, 0}}, []float64{9950, 50}},
		"on the skew":              {Surface{{0, 0, 0}, {-25, 1, 1}}, []float64{5000, 5000}},
		"one alone":                {Level(4), []float64{10000}},
	} {
		var sh plan.Shaper
		cells := c.s.Cells(&sh, board, message.Of("shape.board"))
		if sh.Err() != nil || len(cells) != len(c.want) {
			t.Errorf("%s: %d cells, %v", name, len(cells), sh.Err())
			continue
		}
		for i, cell := range cells {
			if math.Abs(cell.Area()-c.want[i]) > 1e-2 {
				t.Errorf("%s: plane %d carries %v, want %v", name, i, cell.Area(), c.want[i])
			}
			for _, poly := range cell {
				for _, q := range poly.Outer {
					if c.s.At(q)-c.s[i].At(q) > 1e-3 {
						t.Errorf("%s: at %v plane %d lies under the surface", name, q, i)
					}
				}
			}
		}
	}
	var sh plan.Shaper
	if cells := v.Cells(&sh, nil, message.Of("shape.nothing")); len(cells) != 2 || len(cells[0])+len(cells[1]) != 0 || sh.Err() != nil {
		t.Errorf("of nothing: %v, %v", cells, sh.Err())
	}
}

func TestFramesByHand(t *testing.T) {
	if got := WorldFrame().Point(mgl64.Vec3{1, 2, 3}); got != (mgl64.Vec3{1, 2, 3}) {
		t.Errorf("the world's own: %v", got)
	}
	// Local x along (0.6, 0.8), y up, z to the right: (0.8, −0.6).
	f := UprightFrame(mgl64.Vec3{10, 20, 30}, plan.Point{0.6, 0.8})
	for local, want := range map[mgl64.Vec3]mgl64.Vec3{
		{}:        {10, 20, 30},
		{5, 0, 0}: {13, 24, 30},
		{0, 7, 0}: {10, 20, 37},
		{0, 0, 5}: {14, 17, 30},
		{5, 7, 5}: {17, 21, 37},
	} {
		got := f.Point(local)
		if !near3(got, want) || !near3(f.Local(want), local) {
			t.Errorf("%v lies at %v and comes back as %v, want %v", local, got, f.Local(want), want)
		}
	}
	if !near3(f.U.Cross(f.V), f.W) {
		t.Errorf("it is not right-handed: %+v", f)
	}
}
