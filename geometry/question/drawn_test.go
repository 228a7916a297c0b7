package question_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"
	"underfall/geometry/job"
	"underfall/geometry/plan"
	"underfall/geometry/question"
)

// drawn is a sheet of a room drawn by its walls: lengths, 0 for one that is worked out, and the angles in
// the corners after them.
func drawn(p question.Practice, longMM, insideDeg []float64) question.Sheet {
	s := p.Begin()
	s.Room.Shape, s.Room.Drawn.N = question.WallByWall, len(longMM)
	for i, mm := range longMM {
		w := question.DrawnWall{UsualMM: 1000, InsideDeg: question.SquareDeg}
		if i < len(insideDeg) {
			w.InsideDeg = insideDeg[i]
		}
		if mm > 0 {
			w.Long = question.Given(mm)
		}
		s.Room.Drawn.Walls[i] = w
	}
	return s
}

// outlined holds the corners of a sheet's room against some worked out by hand, from where A begins on.
func outlined(t *testing.T, p question.Practice, s question.Sheet, want ...plan.Point) {
	t.Helper()
	got := p.Outline(s)
	if len(got) != len(want) {
		t.Fatalf("corners at %v, not %v", got, want)
	}
	for i := range want {
		if got[i].Sub(want[i]).Len() > 1e-6 {
			t.Fatalf("corners at %v, not %v", got, want)
		}
	}
}

// A room by the lengths of its walls: of each the last two that are not typed follow from the rest.
// Worked by hand with A along x from right to left, and the others clockwise.
func TestWallsClose(t *testing.T) {
	p := practice(t, "UK")
	root2 := math.Sqrt2
	for name, c := range map[string]struct {
		longMM, insideDeg []float64
		want              []plan.Point
		areaMM2           float64
	}{
		"a rectangle": {[]float64{2400, 1900, 0, 0}, nil, []plan.Point{{2400, 0}, {0, 0}, {0, 1900}, {2400, 1900}}, 2400 * 1900},
		// 3000 by 2500 less 1200 by 1000 at the far right: C 1800, D 1000 down, E 1200 on, F 1500 down.
		"an L": {[]float64{3000, 2500, 1800, 1000, 0, 0}, []float64{90, 90, 90, 270, 90},
			[]plan.Point{{3000, 0}, {0, 0}, {0, 2500}, {1800, 2500}, {1800, 1500}, {3000, 1500}}, 3000*2500 - 1200*1000},
		"an L, the first two open": {[]float64{0, 2500, 1800, 1000, 1200, 0}, []float64{90, 90, 90, 270, 90},
			[]plan.Point{{3000, 0}, {0, 0}, {0, 2500}, {1800, 2500}, {1800, 1500}, {3000, 1500}}, 3000*2500 - 1200*1000},
		// 500 each way cut off the corner across from AB at 45 degrees.
		"a wall at 45 degrees": {[]float64{2400, 1900, 1900, 0, 0}, []float64{90, 90, 135, 135},
			[]plan.Point{{2400, 0}, {0, 0}, {0, 1900}, {1900, 1900}, {2400, 1400}}, 2400*1900 - 500*500/2},
		"a wall at 45 degrees, itself measured": {[]float64{2400, 1900, 0, 500 * root2, 0}, []float64{90, 90, 135, 135},
			[]plan.Point{{2400, 0}, {0, 0}, {0, 1900}, {1900, 1900}, {2400, 1400}}, 2400*1900 - 500*500/2},
		// An equilateral triangle: its height is 3000·√3/2.
		"three walls": {[]float64{3000, 3000, 0}, []float64{60, 60, 60},
			[]plan.Point{{3000, 0}, {0, 0}, {1500, 1500 * math.Sqrt(3)}}, 3000 * 3000 * math.Sqrt(3) / 4},
	} {
		t.Run(name, func(t *testing.T) {
			s := drawn(p, c.longMM, c.insideDeg)
			outlined(t, p, s, c.want...)
			if got := math.Abs(plan.Ring(p.Outline(s)).SignedArea()); math.Abs(got-c.areaMM2) > 1 {
				t.Errorf("%v mm², not %v", got, c.areaMM2)
			}
			if notes := p.Notes(s); len(notes) > 0 || !p.RoomKnown(s) {
				t.Errorf("it closes, but %v", notes)
			}
		})
	}
}

// What was measured and does not close is said, with how much is lacking; the last wall is drawn as it
// closes. A room of 2400 by 1900 in which one wall was read 35 short.
func TestWallsThatDoNotClose(t *testing.T) {
	p := practice(t, "UK")
	for name, c := range map[string]struct {
		longMM []float64
		id     string
		wall   string
		lastMM float64
	}{
		"the last":                       {[]float64{2400, 1900, 2400, 1865}, "question.last-short", "D", 1900},
		"the last, too long":             {[]float64{2400, 1900, 2400, 1935}, "question.last-long", "D", 1900},
		"the one before":                 {[]float64{2400, 1900, 2365, 0}, "question.before-short", "C", math.Hypot(1900, 35)},
		"the one before, the last typed": {[]float64{2400, 1900, 2365, 1900}, "question.before-short", "C", math.Hypot(1900, 35)},
		"the one before, too long":       {[]float64{2400, 1900, 2435, 1900}, "question.before-long", "C", math.Hypot(1900, 35)},
	} {
		s := drawn(p, c.longMM, nil)
		notes := p.Notes(s)
		if len(notes) != 1 || string(notes[0].ID) != c.id || notes[0].String() == "" || p.RoomKnown(s) {
			t.Errorf("%s: %v", name, notes)
			continue
		}
		if got := argument(notes[0], "wall"); got != `"`+c.wall+`"` {
			t.Errorf("%s: wall %s, not %s", name, got, c.wall)
		}
		if got := argument(notes[0], "by"); got != "35 mm" {
			t.Errorf("%s: by %s", name, got)
		}
		ring := p.Outline(s)
		if got := ring[0].Sub(ring[3]).Len(); math.Abs(got-c.lastMM) > 1e-6 {
			t.Errorf("%s: the last wall is drawn %v long, not %v", name, got, c.lastMM)
		}
		if j := made(t, p, s); j.StandingOf("room.outline") != job.Assumed {
			t.Errorf("%s: the room is %q", name, j.StandingOf("room.outline"))
		}
	}
}

// A wall dragged across another: D from (1000, 1500) to (−500, 700) crosses B, which is x = 0, two thirds
// of the way along, at y = 1500 − 800·2/3.
func TestWallsThatCross(t *testing.T) {
	p := practice(t, "UK")
	s := drawn(p, []float64{2000, 1500, 1000, 500, 0}, []float64{90, 90, 90, 200})
	s = s.MoveCorner(3, plan.Point{-500, 700})
	wall, other, at, ok := p.Crossing(s)
	if !ok || wall != 1 || other != 3 || at.Sub(plan.Point{0, 1500 - 800*2.0/3}).Len() > 1e-6 {
		t.Errorf("%d and %d at %v, %v", wall, other, at, ok)
	}
	_, problems := p.Job(s)
	if len(problems) != 1 || problems[0].What.ID != "question.walls-cross" || argument(problems[0].What, "wall") != `"B"` || argument(problems[0].What, "other") != `"D"` {
		t.Errorf("%v", problems)
	}
	// All corners turned left, the room lies on the other side of its walls.
	out := drawn(p, []float64{2400, 1900, 2400, 0}, []float64{270, 270, 270})
	if _, problems := p.Job(out); len(problems) != 1 || problems[0].What.ID != "question.inside-out" {
		t.Errorf("%v", problems)
	}
}

// A corner put into a wall changes nothing by itself, and what is said of walls goes with them; taken out
// again, all is as it was.
func TestCornersPutInAndTakenOut(t *testing.T) {
	p := practice(t, "UK")
	s := p.Begin().With(question.RoomLong, question.Given(2400)).With(question.RoomWide, question.Given(1900))
	s.Shower.Stands, s.Shower.Wall = question.InCorner, 2 // CD
	s.Water = question.Water{To: question.GoesOutThroughWall, Wall: 3}
	s.Outside = s.Outside.With(3, true)
	s = p.Draw(s)
	outlined(t, p, s, plan.Point{2400, 0}, plan.Point{0, 0}, plan.Point{0, 1900}, plan.Point{2400, 1900})
	before := made(t, p, s)

	in := s.PutIn(1)
	outlined(t, p, in, plan.Point{2400, 0}, plan.Point{0, 0}, plan.Point{0, 950}, plan.Point{0, 1900}, plan.Point{2400, 1900})
	if in.Shower.Wall != 3 || in.Water.Wall != 4 || !in.Outside.Has(4) || in.Outside.Has(3) {
		t.Errorf("%+v, out through %d, outside %b", in.Shower, in.Water.Wall, in.Outside)
	}
	if after := made(t, p, in); after.ShowerCorners() != before.ShowerCorners() {
		t.Errorf("the shower went from %v to %v", before.ShowerCorners(), after.ShowerCorners())
	}
	out := in.TakeOut(1)
	outlined(t, p, out, p.Outline(s)...)
	if out.Shower != s.Shower || out.Water != s.Water || out.Outside != s.Outside {
		t.Errorf("%+v, %+v, outside %b", out.Shower, out.Water, out.Outside)
	}
	// In wall A the new wall is the last one; the door stays in A, where it was from AB.
	door := s.PutIn(0)
	outlined(t, p, door, plan.Point{1200, 0}, plan.Point{0, 0}, plan.Point{0, 1900}, plan.Point{2400, 1900}, plan.Point{2400, 0})
	if door.TakesOut(0) || door.TakesOut(4) || !door.TakesOut(3) {
		t.Error("wall A keeps its corners")
	}
	// The corner between the two is pulled out 300: a bay, by hand.
	bay := in.MoveCorner(1, plan.Point{-300, 950})
	outlined(t, p, bay, plan.Point{2400, 0}, plan.Point{0, 0}, plan.Point{-300, 950}, plan.Point{0, 1900}, plan.Point{2400, 1900})
	if got := math.Abs(plan.Ring(p.Outline(bay)).SignedArea()); math.Abs(got-(2400*1900+300*1900/2)) > 1e-3 {
		t.Errorf("%v mm²", got)
	}
}

// Where a wall leans over a shower it stands so far from the corner that it is clear of it: before a
// wall of an equilateral triangle of 4000, 600 deep, from 600/√3 to 4000 − 600/√3.
func TestAShowerBeforeAskewWalls(t *testing.T) {
	p := practice(t, "UK")
	s := drawn(p, []float64{4000, 4000, 0}, []float64{60, 60}).With(question.ShowerDeep, question.Given(600))
	s.Shower.Stands, s.Shower.Wall = question.AtWall, 1
	st := p.Stand(s)
	lean := 600 / math.Sqrt(3)
	if math.Abs(st.FreeFromMM-lean) > 1e-6 || math.Abs(st.MostLongMM-(4000-2*lean)) > 1e-6 {
		t.Errorf("free from %v, %v long", st.FreeFromMM, st.MostLongMM)
	}
	made(t, p, s)
	// Its own corners are not square.
	s.Shower.Stands = question.InCorner
	if _, problems := p.Job(s); len(problems) != 1 || problems[0].What.ID != "question.corner-not-square" {
		t.Errorf("%v", problems)
	}
	// In an L what stands out of the far right corner is in the way of a shower at A only where it is.
	l := drawn(p, []float64{3000, 2500, 1800, 1000, 0, 0}, []float64{90, 90, 90, 270, 90})
	l.Shower.Stands, l.Shower.Wall = question.InCorner, 1 // BC: C is 1800 long, the room 2500 deep there
	if st := p.Stand(l); st.MostLongMM != 2500 || math.Abs(st.MostDeepMM-1800) > 1e-6 {
		t.Errorf("in BC %v along B, %v deep", st.MostLongMM, st.MostDeepMM)
	}
}

// A rectangle or an L that is begun to be drawn is the same room with the same shower.
func TestDrawingBeginsWithTheRoom(t *testing.T) {
	p := practice(t, "UK")
	rapid.Check(t, func(t *rapid.T) {
		s := p.Begin().With(question.RoomLong, question.Given(rapid.Float64Range(1500, 6000).Draw(t, "long"))).
			With(question.RoomWide, question.Given(rapid.Float64Range(1500, 6000).Draw(t, "wide")))
		s.Room.Shape = question.Shape(rapid.IntRange(0, 1).Draw(t, "shape"))
		s.Room.Cut.At = question.Quarter(rapid.IntRange(0, 2).Draw(t, "at"))
		d := p.Draw(s)
		a, b := p.Outline(s), p.Outline(d)
		for i := range a {
			if a[i].Sub(b[i]).Len() > 1e-3 {
				t.Fatalf("%v became %v", a, b)
			}
		}
		if x, y := p.Stand(s), p.Stand(d); x.Wall != y.Wall || math.Abs(x.LongMM-y.LongMM) > 1e-3 || math.Abs(x.OffsetMM-y.OffsetMM) > 1e-3 {
			t.Fatalf("%+v became %+v", x, y)
		}
	})
}

// Whatever is done to a drawn room, it makes a job that means something, or says why not.
func TestAnyDrawnRoom(t *testing.T) {
	p := practice(t, "UK")
	rapid.Check(t, func(t *rapid.T) {
		s := p.Draw(p.Begin())
		s.Shower.Stands, s.Shower.Wall = question.Stands(rapid.IntRange(0, 2).Draw(t, "stands")), rapid.IntRange(0, 3).Draw(t, "wall")
		s.Water.To = question.GoesTo(rapid.IntRange(0, 4).Draw(t, "water"))
		for range rapid.IntRange(1, 12).Draw(t, "steps") {
			wall := rapid.IntRange(0, s.Room.Drawn.N-1).Draw(t, "at")
			switch rapid.IntRange(0, 4).Draw(t, "does") {
			case 0:
				s = s.WithWall(wall, question.Given(rapid.Float64Range(question.LeastWallMM, 5000).Draw(t, "mm")))
			case 1:
				s = s.WithWall(wall, question.Length{})
			case 2:
				s = s.WithAngle(wall, rapid.SampledFrom([]float64{90, 270, 135, 88.5, 180, 45}).Draw(t, "deg"))
			case 3:
				s = s.MoveCorner(wall, plan.Point{rapid.Float64Range(-1000, 4000).Draw(t, "x"), rapid.Float64Range(-1000, 4000).Draw(t, "y")})
			case 4:
				if s.PutsIn(wall) {
					s = s.PutIn(wall)
				} else if s.TakesOut(wall) {
					s = s.TakeOut(wall)
				}
			}
			p.Notes(s)
			p.Crossing(s)
			p.Stand(s)
			if j, problems := p.Job(s); len(problems) == 0 && len(j.Validate()) > 0 {
				t.Fatalf("%+v: %v", s, j.Validate())
			}
		}
	})
}

// A room without a square corner away from the door has its usual shower along the wall with most room.
func TestAShowerWithoutACorner(t *testing.T) {
	p := practice(t, "UK")
	s := drawn(p, []float64{4000, 4000, 0}, []float64{60, 60})
	if st := p.Stand(s); st.Corner >= 0 || st.Wall == 0 {
		t.Errorf("it stands at %+v", st)
	}
	made(t, p, s)
}
