package boarding_test

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
	"underfall/geometry"
	"underfall/geometry/boarding"
	"underfall/geometry/demotest"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/plan"
)

// laid is how the boards of the starting job lie, changed.
func laid(t *testing.T, change func(*job.Job)) (boarding.Plan, geometry.Result) {
	t.Helper()
	j := job.New()
	change(&j)
	r := geometry.Evaluate(j, demotest.Packs(t)[j.Region])
	if len(r.Problems) > 0 {
		t.Fatal(r.Problems)
	}
	p, err := r.Boarding()
	if err != nil {
		t.Fatal(err)
	}
	return p, r
}

// layer is the one whose name begins so.
func layer(t *testing.T, p boarding.Plan, name string) boarding.Layer {
	t.Helper()
	for _, l := range p.Layers {
		if strings.HasPrefix(l.Name.String(), name) {
			return l
		}
	}
	t.Fatalf("there is no layer %s", name)
	return boarding.Layer{}
}

// sawn is a piece as it is told: its length and width, and whether it is notched.
type sawn struct {
	long, wide float64
	notched    bool
}

func holdPieces(t *testing.T, name string, l boarding.Layer, want ...sawn) {
	t.Helper()
	if len(l.Pieces) != len(want) {
		t.Errorf("%s: %d pieces, want %d", name, len(l.Pieces), len(want))
		for _, p := range l.Pieces {
			t.Errorf("  %v × %v at %v, notched %v", p.LengthMM, p.WidthMM, p.CornerMM, p.Notched)
		}
		return
	}
	for i, p := range l.Pieces {
		if w := want[i]; math.Abs(p.LengthMM-w.long) > 1e-3 || math.Abs(p.WidthMM-w.wide) > 1e-3 || p.Notched != w.notched {
			t.Errorf("%s: piece %d is %v × %v, notched %v; want %+v", name, i+1, p.LengthMM, p.WidthMM, p.Notched, w)
		}
	}
}

// The starting job by hand. Its shower is 1400 by 900, its boards 1500 by 600: a row of 600
// from the front, y = 1000, and one of 300. The trap's hole is 130 wide and, at 1767, 133 deep to the
// back wall; the pipe's way 77 wide, from 1793.5 on, goes from it to the wall x = 0. So the second
// row is one notched piece and one behind the pipe, 635 by 29.5.
//
// Sheets: the first piece leaves 96 of the length; the second, on a sheet of its own, a strip of
// 1500 by 296 beside it, which the third comes from. Of two sheets 1 800 000 − 1 260 000 + 130·133 +
// 635·77 is left.
func TestBoardsByHand(t *testing.T) {
	p, _ := laid(t, func(*job.Job) {})
	l := layer(t, p, "part.base")
	holdPieces(t, "base", l, sawn{1400, 600, false}, sawn{1400, 300, true}, sawn{635, 29.5, false})
	if len(p.Stocks) != 1 || l.Stock != 0 {
		t.Fatalf("stocks %+v", p.Stocks)
	}
	s := p.Stocks[0]
	if want := 1800000.0 - 1260000 + 130*133 + 635*77; s.Sheets != 2 || math.Abs(s.LeftMM2-want) > 1 || math.Abs(s.ThicknessMM-69) > 1e-9 {
		t.Errorf("%+v, want two sheets 69 thick and %v left", s, want)
	}
	a, b, c := l.Pieces[0], l.Pieces[1], l.Pieces[2]
	if a.Sheet != 1 || b.Sheet != 2 || c.Sheet != 2 || c.OnSheetMM != (plan.Point{0, 304}) {
		t.Errorf("on sheets %d, %d and %d, the last at %v", a.Sheet, b.Sheet, c.Sheet, c.OnSheetMM)
	}
	// A screed and a former of mortar are not sawn.
	p, _ = laid(t, func(j *job.Job) { j.Base.Screed, j.Former.Mortar = true, true })
	if len(p.Layers)+len(p.Stocks) != 0 {
		t.Errorf("of mortar %+v is sawn", p.Layers)
	}
}

// wide makes the shower 2400 by 1300, its boards 1200 by 600.
func wide(j *job.Job) {
	j.SpotLevels, j.Shower.Screens = nil, nil
	j.Shower.OffsetMM, j.Shower.WidthMM, j.Shower.DepthMM = 0, 2400, 1300
	j.Base.BoardLengthMM = 1200
}

// Rows of 600, 600 and 100 over 2400: two whole boards, half a board first, two whole ones
// again. With 1250 the last row would be 50 wide: 325, 600 and 325. The joints keep a quarter of a board apart.
func TestJointsAreStaggered(t *testing.T) {
	for _, c := range []struct {
		deepMM float64
		rows   []float64
	}{{1300, []float64{600, 600, 100}}, {1250, []float64{325, 600, 325}}, {600, []float64{600}}} {
		p, _ := laid(t, func(j *job.Job) {
			wide(j)
			j.Shower.DepthMM = c.deepMM
		})
		l := layer(t, p, "part.base")
		at := map[float64][]float64{} // the starts of the pieces of each row, by its start
		for _, b := range l.Pieces {
			at[math.Round(b.CornerMM.Y())] = append(at[math.Round(b.CornerMM.Y())], b.CornerMM.X())
		}
		row := 1900 - c.deepMM
		for i, w := range c.rows[:len(c.rows)-1] { // the last has the channel in it
			want := [][]float64{{0, 1200}, {0, 600, 1800}}[i]
			if got := at[row]; len(got) != len(want) || math.Abs(got[1]-want[1]) > 1e-6 {
				t.Errorf("%v deep: row %d begins its pieces at %v, want %v", c.deepMM, i+1, got, want)
			}
			row += w
		}
	}
}

// Boards whose middle is kept are trimmed at both ends alike: of 1500 over 1400 each row loses 50
// first, so that one board of 1400 makes it.
func TestKeptBoardsAreTrimmed(t *testing.T) {
	p, _ := laid(t, func(j *job.Job) { j.Base.KeepZoneMM = 200; wide(j); j.Base.BoardLengthMM = 1300 })
	// Wider than the board: whole ones first in each row, 1300 and 1100.
	for _, b := range layer(t, p, "part.base").Pieces[:4] {
		if x := b.CornerMM.X(); x != 0 && math.Abs(x-1300) > 1e-6 {
			t.Errorf("a piece begins at %v", x)
		}
	}
}

// Let in between joists every 400, 47 wide, the pieces lie along them; their end joints
// come on noggins, which lie at thirds of the 900: of boards 500 long the first goes to 300. Without noggins
// joints lie loose.
func TestBoardsLetInEndOnNoggins(t *testing.T) {
	for spacing, loose := range map[float64]bool{300: false, 0: true} {
		p, r := laid(t, func(j *job.Job) {
			j.Floor.Kind, j.Base.Support = job.FloorTimber, job.BetweenJoists
			j.Base.BoardLengthMM, j.Base.NogginSpacingMM = 500, spacing
			j.Floor.Joists.DirectionDeg = 90
		})
		l := layer(t, p, "part.base-let-in")
		if (l.Loose > 0) != loose {
			t.Errorf("noggins every %v: %d loose joints", spacing, l.Loose)
		}
		if l.Along != r.Layout.JoistAlong {
			t.Errorf("boards lie along %v, the joists along %v", l.Along, r.Layout.JoistAlong)
		}
		for _, b := range l.Pieces {
			if b.WidthMM > 353+1e-6 || b.LengthMM > 500+1e-6 {
				t.Errorf("a piece of %v × %v in a bay of 353", b.LengthMM, b.WidthMM)
			}
		}
	}
}

// A former that comes 1200 by 1200 at most, over a fall of 817 and a width of 1400: pieces of 817
// along the fall by 1200 and by 200, from 20 to 36.34 thick. What lies level beside the
// drain, 83 deep, is 1200 long, notched for it, and 200.
func TestFormerByHand(t *testing.T) {
	p, _ := laid(t, func(j *job.Job) { j.Former.LongestMM, j.Former.WidestMM = 1200, 1200 })
	l := layer(t, p, "part.former")
	long, short := 0, 0
	for _, b := range l.Pieces {
		switch {
		case math.Abs(b.LengthMM-817) < 1e-3 && math.Abs(b.ThinMM-20) < 1e-6 && math.Abs(b.ThickMM-36.34) < 1e-6:
			long++
		case math.Abs(b.WidthMM-83) < 1e-3 && math.Abs(b.ThickMM-20) < 1e-6:
			short++
		default:
			t.Errorf("a piece of %v × %v, %v to %v thick", b.LengthMM, b.WidthMM, b.ThinMM, b.ThickMM)
		}
		if b.Sheet != 0 {
			t.Error("a piece of a former shares its board")
		}
	}
	if long != 2 || short != 2 || !l.Former {
		t.Errorf("%d pieces fall and %d lie level", long, short)
	}
	// In any size each is one.
	p, _ = laid(t, func(*job.Job) {})
	if got := layer(t, p, "part.former").Pieces; len(got) != 2 {
		t.Errorf("%d pieces of any size", len(got))
	}
}

// Each layer of a stack lies across the one below: of boards of 60 and 12 the lower ones run along the
// shower, the upper ones into the room.
func TestLayersCross(t *testing.T) {
	p, r := laid(t, func(j *job.Job) {
		j.Base.BoardsMM, j.Base.BetweenLeastMM, j.Base.BetweenGreatestMM = []float64{12, 60}, 2, 4
		j.Base.Height = job.HeightBuildable
	})
	lower, upper := layer(t, p, "part.numbered"), layer(t, p, "part.base")
	if lower.Along != r.Layout.ToRight || upper.Along != r.Layout.Into {
		t.Errorf("the lower board lies along %v, the upper along %v", lower.Along, upper.Along)
	}
	if len(p.Stocks) != 2 || p.Stocks[lower.Stock].ThicknessMM != 60 || math.Abs(p.Stocks[upper.Stock].ThicknessMM-12) > 1e-6 {
		t.Errorf("stocks %+v", p.Stocks)
	}
}

// What is left narrower than 20 is filled: behind a drain with falling ends lie 13.
func TestStripsAreFilled(t *testing.T) {
	p, _ := laid(t, func(j *job.Job) { j.Former.Ends, j.Drain.LengthMM = job.EndsFalling, 1200 })
	if l := layer(t, p, "part.former"); l.Strips != 1 {
		t.Errorf("%d strips are filled, want the one behind the drain", l.Strips)
	}
}

// Boards far too small for the floor are not laid out, and it is said.
func TestTooManyBoards(t *testing.T) {
	p, _ := laid(t, func(j *job.Job) { j.Base.BoardLengthMM, j.Base.BoardWidthMM = 100, 10 })
	if l := layer(t, p, "part.base"); !l.TooMany || len(l.Pieces) != 0 {
		t.Errorf("%d pieces, too many: %v", len(l.Pieces), l.TooMany)
	}
}

// Whatever the job: pieces cover their layer once, none is larger than a board, and none
// lies on another of its sheet or off it.
func TestPiecesAnyJob(t *testing.T) {
	packs := demotest.Packs(t)
	rapid.Check(t, func(t *rapid.T) {
		j := demotest.AnyJob(t)
		r := geometry.Evaluate(j, packs[j.Region])
		if len(r.Problems) > 0 {
			t.Skip(r.Problems)
		}
		p, err := r.Boarding()
		if err != nil {
			t.Skip(err)
		}
		type placed struct {
			stock, sheet int
			box          plan.Region
		}
		var all []placed
		for _, l := range p.Layers {
			sum := 0.0
			for _, b := range l.Pieces {
				sum += b.Region.Area()
				if l.Former {
					continue
				}
				s := p.Stocks[l.Stock]
				to := b.OnSheetMM.Add(plan.Point{b.LengthMM, b.WidthMM})
				if to.X() > s.LengthMM+0.01 || to.Y() > s.WidthMM+0.01 || b.Sheet < 1 || b.Sheet > s.Sheets {
					t.Fatalf("piece %d of %v × %v at %v of sheet %d", b.Number, b.LengthMM, b.WidthMM, b.OnSheetMM, b.Sheet)
				}
				box := plan.Rectangle(b.OnSheetMM, to)
				for _, o := range all {
					if o.stock == l.Stock && o.sheet == b.Sheet && plan.SharedArea(o.box, box) > 1 {
						t.Fatalf("piece %d lies on another of its sheet", b.Number)
					}
				}
				all = append(all, placed{l.Stock, b.Sheet, box})
			}
			// Strips that are filled are left out: a few of 20 by some metres.
			if area := l.Region.Area(); !l.TooMany && (sum > area+1e-3*area || sum < area-1e-3*area-float64(l.Strips)*20*20000) {
				t.Fatalf("%s: pieces take %v of %v", l.Name, sum, area)
			}
		}
	})
}

// What is sawn out of the second row's piece, by hand: the pipe's way with what lies behind it,
// 635 from the left wall and from 193.5 to the row's 300; the trap's hole, 130 on from there,
// from 167.
func TestWhatIsSawnOut(t *testing.T) {
	p, _ := laid(t, func(*job.Job) {})
	found := false
	for _, b := range layer(t, p, "part.base").Pieces {
		if !b.Notched {
			if len(b.Cuts) > 0 {
				t.Errorf("piece %d is whole, less %v", b.Number, b.Cuts)
			}
			continue
		}
		found = true
		want := []boarding.Cut{{AtMM: plan.Point{0, 193.5}, SizeMM: plan.Point{635, 106.5}}, {AtMM: plan.Point{635, 167}, SizeMM: plan.Point{130, 133}}}
		if len(b.Cuts) != len(want) {
			t.Fatalf("less %v, want %v", b.Cuts, want)
		}
		for i, c := range b.Cuts {
			if c.AtMM.Sub(want[i].AtMM).Len() > 1e-3 || c.SizeMM.Sub(want[i].SizeMM).Len() > 1e-3 {
				t.Errorf("less %v, want %v", c, want[i])
			}
		}
	}
	if !found {
		t.Error("no piece is notched")
	}
	// The drain, 800 by 70 in the middle of 1400, is left out of what lies level beside it; what is
	// cut askew, as the first demo's planes at the drain's ends are, is told by no rectangle.
	want := boarding.Cut{AtMM: plan.Point{300, 0}, SizeMM: plan.Point{800, 70}}
	left := 0
	for _, b := range layer(t, p, "part.former").Pieces {
		for _, c := range b.Cuts {
			left++
			if c.AtMM.Sub(want.AtMM).Len() > 1e-3 || c.SizeMM.Sub(want.SizeMM).Len() > 1e-3 {
				t.Errorf("the former is less %v, want %v", c, want)
			}
		}
	}
	mitred, err := demotest.Shown(t)[0].Boarding()
	if err != nil || left != 1 {
		t.Fatalf("%d cuts of the former, %v", left, err)
	}
	for _, b := range layer(t, mitred, "part.former").Pieces {
		if len(b.Cuts) > 0 {
			t.Errorf("a mitred piece is less %v", b.Cuts)
		}
	}
}

// Every piece, of a former's planes that fall another way as well, lies on its sheet with the corner of its rectangle at the sheet's, and
// what comes off it comes off that rectangle.
func TestPiecesAreToldFromTheirOwnCorner(t *testing.T) {
	for _, r := range demotest.Shown(t) {
		p, err := r.Boarding()
		if err != nil {
			t.Fatal(err)
		}
		for _, l := range p.Layers {
			for i := range l.Pieces {
				b := &l.Pieces[i]
				low, high, _ := b.Sawn(plan.Point{}).Bounds()
				if low.Len() > 0.01 || high.Sub(plan.Point{b.LengthMM, b.WidthMM}).Len() > 0.01 {
					t.Errorf("%s: no. %d of %.1f × %.1f reaches from %v to %v", r.Settled.Name, b.Number, b.LengthMM, b.WidthMM, low, high)
				}
			}
		}
	}
}

// What no rectangles tell is told by the wedges that come off the corners, or by all corners. By hand: 300 off the length of one edge
// of a board of 1000 by 600, and 100 by 60 off the corner across from it; the angles are those whose tangents are 300/600 and 60/100.
func TestAskewPiecesAreTold(t *testing.T) {
	piece := func(ring ...plan.Point) boarding.Piece {
		return boarding.Piece{Region: plan.FromRing(ring), Along: plan.Point{1, 0}, LengthMM: 1000, WidthMM: 600, Notched: true}
	}
	wedged := piece(plan.Point{300, 0}, plan.Point{1000, 0}, plan.Point{1000, 540}, plan.Point{900, 600}, plan.Point{0, 600})
	want := []boarding.Wedge{
		{CornerMM: plan.Point{1000, 600}, SizeMM: plan.Point{100, 60}}, {CornerMM: plan.Point{0, 0}, SizeMM: plan.Point{300, 600}}}
	got := wedged.Askew()
	if len(got) != len(want) {
		t.Fatalf("%v", got)
	}
	for i, w := range want {
		if got[i].String() != w.Message().String() {
			t.Errorf("%v, want %v", got[i], w.Message())
		}
	}
	for i, deg := range [...]float64{30.96, 26.57} {
		if math.Abs(want[i].OffSquareDeg()-deg) > 0.01 {
			t.Errorf("%v° off square, want %v", want[i].OffSquareDeg(), deg)
		}
	}
	// A dent in the middle of a side is no wedge at a corner.
	dented := piece(plan.Point{0, 0}, plan.Point{400, 0}, plan.Point{500, 80}, plan.Point{600, 0},
		plan.Point{1000, 0}, plan.Point{1000, 600}, plan.Point{0, 600})
	if got := dented.Askew(); len(got) != 1 || got[0].ID != "boarding.corners" || len(got[0].Args[0].Value.(message.List).Items) != 7 {
		t.Errorf("%v", got)
	}
	// A dent of less than a saw takes is none.
	nicked := piece(plan.Point{0, 0}, plan.Point{1000, 0}, plan.Point{1000, 100},
		plan.Point{999.7, 101}, plan.Point{1000, 400}, plan.Point{1000, 600}, plan.Point{0, 600})
	if got := nicked.Askew(); got != nil {
		t.Errorf("%v of a piece with a nick", got)
	}
	whole := boarding.Piece{Region: plan.Rectangle(plan.Point{}, plan.Point{1000, 600}), Along: plan.Point{1, 0}, LengthMM: 1000, WidthMM: 600}
	if got := whole.Askew(); got != nil {
		t.Errorf("%v of a whole piece", got)
	}
}
