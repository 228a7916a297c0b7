package layout_test

import (
	"fmt"
	"testing"

	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/plan"
)

// timberLine is where a timber of the floor is to lie.
type timberLine struct {
	member        layout.Member
	number, piece int
	from, to      plan.Point
}

// whole is a timber that runs along X through all of the room, 2400 long.
func whole(member layout.Member, number int, y float64) timberLine {
	return timberLine{member, number, 0, plan.Point{0, y}, plan.Point{2400, y}}
}

// holdTimbers holds the timbers of a floor against where they are to lie, in any frame.
func holdTimbers(t *testing.T, f frame, l layout.Layout, want []timberLine) {
	t.Helper()
	if len(l.Joists) != len(want) {
		t.Fatalf("%d timbers, want %d", len(l.Joists), len(want))
	}
	for i, w := range want {
		x, name := &l.Joists[i], fmt.Sprintf("timber %d, ", i)
		if x.Index != i || x.Member != w.member || x.Number != w.number || x.Piece != w.piece || x.WidthMM != 47 {
			t.Errorf("%s%+v, want %+v", name, x, w)
		}
		nearPoint(t, name+"start", x.Origin.Add(x.Along.Mul(x.FromMM)), f.point(w.from))
		nearPoint(t, name+"end", x.Origin.Add(x.Along.Mul(x.ToMM)), f.point(w.to))
		near(t, name+"area", x.Footprint.Area(), 47*w.to.Sub(w.from).Len())
	}
}

// Joists along X at y = 200, 600 … 1800, 47 wide. The third is cut for an opening of x from
// 800 to 1400: its pieces end at the trimmers' backs, 47 further out. The second joists
// lie against the second and the fourth, on the opening's side: middles at 600 + 47 and
// 1400 − 47. The trimmers run between them, from 600 + 23.5 + 47 to 1400 − 70.5.
func TestTrimmersByHand(t *testing.T) {
	inEveryFrame(t, func(t *testing.T, f frame) {
		j := timber()
		j.Floor.Joists.FirstOffsetMM = 200
		j.Floor.Joists.Trims = []job.Trim{{Joist: 3, FromMM: 800, ToMM: 1400}}
		l := place(t, f.job(j))
		holdTimbers(t, f, l, []timberLine{
			whole(layout.CommonJoist, 1, 200),
			whole(layout.TrimmingJoist, 2, 600),
			{layout.CutJoist, 3, 1, plan.Point{0, 1000}, plan.Point{753, 1000}},
			{layout.CutJoist, 3, 2, plan.Point{1447, 1000}, plan.Point{2400, 1000}},
			whole(layout.TrimmingJoist, 4, 1400),
			whole(layout.CommonJoist, 5, 1800),
			whole(layout.SecondJoist, 1, 647),
			whole(layout.SecondJoist, 2, 1353),
			{layout.Trimmer, 1, 0, plan.Point{776.5, 670.5}, plan.Point{776.5, 1329.5}},
			{layout.Trimmer, 2, 0, plan.Point{1423.5, 670.5}, plan.Point{1423.5, 1329.5}},
		})
		if len(l.CutOuts) != 1 || l.CutOuts[0].Joist != 3 || l.CutOuts[0].Which != 1 || l.CutOuts[0].Carriers != [2]int{2, 4} {
			t.Fatalf("cut out: %+v", l.CutOuts)
		}
		near(t, "cut out", l.CutOuts[0].LengthMM, 600+2*47)
		nearPoint(t, "middle of it", l.CutOuts[0].Middle(), f.point(plan.Point{1100, 1000}))
		near(t, "area of it", plan.FromRing(l.CutOuts[0].Ring).Area(), 694*47)
		if hung := [2]bool{l.Joists[2].HungStart, l.Joists[2].HungEnd}; hung != [2]bool{false, true} {
			t.Errorf("the first piece hangs by %v", hung)
		}
	})
}

// Two openings in a joist, stated the last first, the first of which takes the joist's
// start: one piece hangs on trimmers at both ends. The joists beside are doubled once.
func TestTwoOpeningsInAJoist(t *testing.T) {
	j := timber()
	j.Floor.Joists.FirstOffsetMM = 200
	j.Floor.Joists.Trims = []job.Trim{{Joist: 2, FromMM: 1300, ToMM: 1600}, {Joist: 2, ToMM: 500}}
	l := place(t, j)
	holdTimbers(t, frame{}, l, []timberLine{
		whole(layout.TrimmingJoist, 1, 200),
		{layout.CutJoist, 2, 1, plan.Point{547, 600}, plan.Point{1253, 600}},
		{layout.CutJoist, 2, 2, plan.Point{1647, 600}, plan.Point{2400, 600}},
		whole(layout.TrimmingJoist, 3, 1000),
		whole(layout.CommonJoist, 4, 1400),
		whole(layout.CommonJoist, 5, 1800),
		whole(layout.SecondJoist, 1, 247),
		whole(layout.SecondJoist, 2, 953),
		{layout.Trimmer, 1, 0, plan.Point{523.5, 270.5}, plan.Point{523.5, 929.5}},
		{layout.Trimmer, 2, 0, plan.Point{1276.5, 270.5}, plan.Point{1276.5, 929.5}},
		{layout.Trimmer, 3, 0, plan.Point{1623.5, 270.5}, plan.Point{1623.5, 929.5}},
	})
	if got := [2]float64{l.CutOuts[0].LengthMM, l.CutOuts[1].LengthMM}; got != [2]float64{547, 394} {
		t.Errorf("cut out: %v", got)
	}
	if p := l.Joists[1]; !p.HungStart || !p.HungEnd {
		t.Errorf("the piece between hangs by %v, %v", p.HungStart, p.HungEnd)
	}
}

// The second and the third joist, at y = 600 and 1000, are cut for one opening of x from 800
// to 1400: it has two trimmers, across both bays and that beside, from the first joist's
// second one at 200 + 47 to the fourth's at 1400 − 47. Two pieces of each hang on them.
func TestTwoJoistsCutForOneOpening(t *testing.T) {
	inEveryFrame(t, func(t *testing.T, f frame) {
		j := timber()
		j.Floor.Joists.FirstOffsetMM = 200
		j.Floor.Joists.Trims = []job.Trim{{Joist: 2, Further: 1, FromMM: 800, ToMM: 1400}}
		l := place(t, f.job(j))
		holdTimbers(t, f, l, []timberLine{
			whole(layout.TrimmingJoist, 1, 200),
			{layout.CutJoist, 2, 1, plan.Point{0, 600}, plan.Point{753, 600}},
			{layout.CutJoist, 2, 2, plan.Point{1447, 600}, plan.Point{2400, 600}},
			{layout.CutJoist, 3, 1, plan.Point{0, 1000}, plan.Point{753, 1000}},
			{layout.CutJoist, 3, 2, plan.Point{1447, 1000}, plan.Point{2400, 1000}},
			whole(layout.TrimmingJoist, 4, 1400),
			whole(layout.CommonJoist, 5, 1800),
			whole(layout.SecondJoist, 1, 247),
			whole(layout.SecondJoist, 2, 1353),
			{layout.Trimmer, 1, 0, plan.Point{776.5, 270.5}, plan.Point{776.5, 1329.5}},
			{layout.Trimmer, 2, 0, plan.Point{1423.5, 270.5}, plan.Point{1423.5, 1329.5}},
		})
		for i, c := range l.CutOuts {
			if c.Joist != 2+i || c.Which != 1 || c.Carriers != [2]int{1, 4} || len(l.CutOuts) != 2 {
				t.Errorf("cut out: %+v", c)
			}
			near(t, "cut out", c.LengthMM, 694)
			nearPoint(t, "middle of it", c.Middle(), f.point(plan.Point{1100, 600 + 400*float64(i)}))
		}
	})
}

// The wall at the joists' starts runs from (0, 0) to (400, 2000), so that joists at y = 600
// and 1000 start at x = 120 and 200. An opening from 600 along the first of them begins at
// x = 720 in both; one from its start on cuts each back to its own, and leaves no trimmer
// there. 280 on from 120 it ends at 400, its trimmer at 447.
func TestOpeningAtASlantingWall(t *testing.T) {
	j := timber()
	j.Room.Outline = []plan.Point{{0, 0}, {2400, 0}, {2400, 2000}, {400, 2000}}
	j.Floor.Joists.FirstOffsetMM = 200
	pieces := func(trim job.Trim) (out []plan.Interval, trimmers int) {
		j.Floor.Joists.Trims = []job.Trim{trim}
		for _, x := range place(t, j).Joists {
			switch x.Member {
			case layout.CutJoist:
				out = append(out, plan.Interval{From: x.FromMM, To: x.ToMM})
			case layout.Trimmer:
				trimmers++
			}
		}
		return out, trimmers
	}
	for _, c := range []struct {
		from, to float64
		trimmers int
		want     []plan.Interval
	}{
		{600, 1000, 2, []plan.Interval{{From: 120, To: 673}, {From: 1167, To: 2400}, {From: 200, To: 673}, {From: 1167, To: 2400}}},
		{0, 280, 1, []plan.Interval{{From: 447, To: 2400}, {From: 447, To: 2400}}},
	} {
		got, trimmers := pieces(job.Trim{Joist: 2, Further: 1, FromMM: c.from, ToMM: c.to})
		if len(got) != len(c.want) || trimmers != c.trimmers {
			t.Fatalf("from %v: %v, %d trimmers", c.from, got, trimmers)
		}
		for i, w := range c.want {
			near(t, "from", got[i].From, w.From)
			near(t, "to", got[i].To, w.To)
		}
	}
	cuts := place(t, j).CutOuts
	near(t, "cut out of the first", cuts[0].LengthMM, 447-120)
	near(t, "cut out of the second", cuts[1].LengthMM, 447-200)
}
