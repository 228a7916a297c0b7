package layout_test

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"
	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/plan"
)

func falls() []job.FallKind {
	return []job.FallKind{job.FallBack, job.FallLeft, job.FallRight, job.FallFront, job.FallMid, job.FallPoint, job.FallRoom}
}

// anyJob draws a room of four or six corners with a shower at its back wall
// that lies within it, clear of the other walls or against them, and a drain
// within the shower.
func anyJob(t *rapid.T) job.Job {
	whole := func(name string, least, greatest int) float64 {
		return float64(rapid.IntRange(least, greatest).Draw(t, name))
	}
	wide, deep := whole("room's width", 2000, 4000), whole("room's depth", 2000, 4000)
	outline := []plan.Point{{0, 0}, {wide, 0}, {wide, deep}, {0, deep}}
	if rapid.Bool().Draw(t, "with a corner stepped in") {
		x, y := whole("step's width", 100, 400), whole("step's depth", 100, 400)
		outline = []plan.Point{{x, 0}, {wide, 0}, {wide, deep}, {0, deep}, {0, y}, {x, y}}
	}
	j := withOutline(timber(), whole("thickness", 50, 400), outline...)
	j.Shower = job.Shower{Wall: 2, WidthMM: whole("width", 800, 1500), DepthMM: whole("depth", 800, 1500)}
	j.Shower.OffsetMM = rapid.SampledFrom([]float64{0, 100, wide - j.Shower.WidthMM}).Draw(t, "offset")
	j.Former.Fall = rapid.SampledFrom(falls()).Draw(t, "fall")
	j.Former.Slope = whole("slope", 1, 100) / 1000
	j.Room.Edge, j.Room.RampRunMM = job.EdgeRamp, float64(rapid.IntRange(0, 3000).Draw(t, "ramp"))
	j.Drain.LengthMM, j.Drain.WidthMM = whole("drain's length", 100, 500), whole("drain's width", 40, 120)
	j.Drain.OffsetMM, j.Drain.TrapOffsetMM = whole("drain's shift", -100, 100), whole("trap's shift", -100, 100)
	j.Drain.OutletTurnDeg = whole("outlet", 0, 359)
	j.Floor.Joists.DirectionDeg, j.Floor.Joists.FirstOffsetMM = whole("joists", 0, 359), whole("first joist", -500, 900)
	j.Room.Doorways = []job.Doorway{{Wall: 1, OffsetMM: 100, WidthMM: whole("door", 500, 900), HeightMM: 2040, Leaf: job.LeafIn, HingeAtStart: rapid.Bool().Draw(t, "hinge")}}
	return j
}

// A room turned, moved or walked the other way round has everything in it where
// it was: lengths, areas and levels are the same, places move along.
func TestTurnedRoomIsTheSame(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j := anyJob(t)
		f := frame{turnDeg: rapid.Float64Range(-180, 180).Draw(t, "turn"), backward: rapid.Bool().Draw(t, "backward"),
			by: plan.Point{rapid.Float64Range(-9000, 9000).Draw(t, "x"), rapid.Float64Range(-9000, 9000).Draw(t, "y")}}
		// Joists that end in a corner to the last bit may end at either wall.
		j.Floor.Joists.DirectionDeg += 0.4871
		a, b := place(t, j), place(t, f.job(j))
		if len(a.Edges) != len(b.Edges) || len(a.Joists) != len(b.Joists) || len(a.Planes) != len(b.Planes) {
			t.Fatalf("edges %d, %d; joists %d, %d; planes %d, %d", len(a.Edges), len(b.Edges), len(a.Joists), len(b.Joists), len(a.Planes), len(b.Planes))
		}
		for i, e := range a.Edges {
			nearPoint(t, fmt.Sprintf("edge %d, start", i), b.Edges[i].A, f.point(e.A))
			nearPoint(t, fmt.Sprintf("edge %d, end", i), b.Edges[i].B, f.point(e.B))
			if b.Edges[i].Wall != f.wall(e.Wall, len(a.Walls)) {
				t.Errorf("edge %d is at wall %d, was at %d", i, b.Edges[i].Wall, e.Wall)
			}
		}
		if len(a.Ramps) != len(b.Ramps) {
			t.Fatalf("%d floors for ramps, were %d", len(b.Ramps), len(a.Ramps))
		}
		for i, r := range a.Ramps {
			nearArea(t, fmt.Sprintf("floor %d for ramps", i), b.Ramps[i].Region, r.Region.Area())
		}
		for i, x := range a.Joists {
			nearPoint(t, fmt.Sprintf("joist %d", i), b.Joists[i].Footprint.Centroid(), f.point(x.Footprint.Centroid()))
		}
		for i, p := range a.Planes {
			near(t, fmt.Sprintf("plane %d, slope", i), b.Planes[i].Gradient(), p.Gradient())
			nearArea(t, fmt.Sprintf("plane %d", i), b.Planes[i].Region, p.Region.Area())
		}
		for i, w := range a.Walls {
			k := f.wall(i, len(a.Walls))
			nearArea(t, fmt.Sprintf("wall %d", i), b.Walls[k].Footprint(), w.Footprint().Area())
			nearPoint(t, fmt.Sprintf("wall %d, way out", i), b.Walls[k].Outward, f.vector(w.Outward))
		}
		for name, p := range map[string][2]plan.Point{"drain": {a.DrainCentre, b.DrainCentre}, "drain's edge": {a.DrainEdge, b.DrainEdge},
			"trap": {a.TrapCentre, b.TrapCentre}, "outlet": {a.Outlet, b.Outlet}} {
			nearPoint(t, name, p[1], f.point(p[0]))
		}
		nearArea(t, "sweep over the fall", b.Doors[0].SweepFall, a.Doors[0].SweepFall.Area())
		nearArea(t, "sweep over the room", b.Doors[0].SweepRoom, a.Doors[0].SweepRoom.Area())
		near(t, "level in a corner", b.Fall.At(b.Corners[2]), a.Fall.At(a.Corners[2]))
	})
}

// Areas add up, and the stretches of a side's edges make the whole side.
func TestPartsMakeTheWhole(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j := anyJob(t)
		l := place(t, j)
		nearArea(t, "rest", l.Rest, l.Room.Area()-l.FallArea.Area())
		nearArea(t, "floor round the drain", l.OpenFloor, l.FallArea.Area()-plan.SharedArea(l.FallArea, l.Drain))
		falling := 0.0
		for _, p := range l.Planes {
			falling += p.Region.Area()
		}
		// What is in no plane lies level with the drain.
		level := l.OpenFloor.Where(func(p plan.Point) float64 { return -l.Fall[1].At(p) })
		if len(l.Fall) > 2 {
			level = level.Where(func(p plan.Point) float64 { return -l.Fall[2].At(p) })
		}
		if !j.Former.Fall.Linear() {
			level = nil
		}
		if math.Abs(falling+level.Area()-l.OpenFloor.Area()) > 1 {
			t.Errorf("falling %v and level %v of %v mm²", falling, level.Area(), l.OpenFloor.Area())
		}
		side := map[layout.Side]float64{}
		for _, e := range l.Edges {
			side[e.Side] += e.LengthMM()
		}
		for s, want := range map[layout.Side]float64{layout.Back: j.Shower.WidthMM, layout.Front: j.Shower.WidthMM, layout.Left: j.Shower.DepthMM, layout.Right: j.Shower.DepthMM} {
			near(t, "the "+string(s), side[s], want)
		}
		d := l.Doors[0]
		near(t, "the sweep", d.SweepFall.Area()+d.SweepRoom.Area(), d.Sweep.Area())
		for i, r := range l.Ramps {
			if shared := plan.SharedArea(r.Region, l.FallArea); shared > 1 {
				t.Errorf("a ramp takes %v mm² of the falling floor", shared)
			}
			for _, o := range l.Ramps[:i] {
				if shared := plan.SharedArea(r.Region, o.Region); shared > 1 {
					t.Errorf("two floors for ramps share %v mm²", shared)
				}
			}
		}
		for _, x := range l.Joists {
			nearArea(t, fmt.Sprintf("joist %d", x.Number), x.Footprint, (x.ToMM-x.FromMM)*x.WidthMM)
		}
	})
}

// A fall to a point is level all along the hull of its floor and round the
// drain; its flattest plane, the longest, has the slope that was stated.
func TestHipsMeetLevel(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j := anyJob(t)
		j.Former.Fall = rapid.SampledFrom([]job.FallKind{job.FallPoint, job.FallRoom}).Draw(t, "kind")
		l := place(t, j)
		hull := plan.Hull(l.FallArea[0].Outer)
		rim, flattest := l.Fall.At(hull[0]), math.Inf(1)
		for i, p := range hull {
			near(t, "level of the rim", l.Fall.At(p), rim)
			near(t, "level of the rim between corners", l.Fall.At(p.Add(hull[(i+1)%len(hull)]).Mul(0.5)), rim)
		}
		for _, p := range l.Fall[1:] {
			flattest = math.Min(flattest, p.Gradient())
		}
		near(t, "longest plane", flattest, j.Former.Slope)
		near(t, "level at the drain", l.Fall.At(l.DrainEdge), 0)
		near(t, "level in the drain", l.Fall.At(l.DrainCentre), 0)
	})
}

// Another slope there and back leaves the fall as it was, and what is stated
// first makes no difference.
func TestAnySlopeThereAndBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j := anyJob(t)
		l := place(t, j)
		to := rapid.Float64Range(0.001, 0.2).Draw(t, "to")
		there := l.WithSlope(j.Former.Slope, to)
		samePlanes(t, "there and back", there.WithSlope(to, j.Former.Slope), l)
		j.Former.Slope = to
		samePlanes(t, "stated so", there, place(t, j))
	})
}

// A segment crosses a joist where it lies over its footprint, sampled along it.
func TestCrossesIsInTheFootprint(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := place(t, anyJob(t))
		if len(l.Joists) == 0 {
			return
		}
		x := rapid.SampledFrom(l.Joists).Draw(t, "joist")
		at := rapid.Custom(func(t *rapid.T) plan.Point {
			return plan.Point{rapid.Float64Range(-200, 4200).Draw(t, "x"), rapid.Float64Range(-200, 4200).Draw(t, "y")}
		})
		a, b := at.Draw(t, "a"), at.Draw(t, "b")
		from, to, ok := x.Crosses(a, b)
		border := x.Footprint[0].Outer
		for k := range 101 {
			s := float64(k) / 100
			p := a.Mul(1 - s).Add(b.Mul(s))
			says, inside := ok && s >= from && s <= to, x.Footprint.Contains(p, 0)
			for i := range border {
				if plan.DistanceToSegment(p, border[i], border[(i+1)%len(border)]) < 1e-5 {
					inside = says // on the border it may be either
				}
			}
			if says != inside {
				t.Fatalf("at %v of %v to %v: inside %v, but it crosses from %v to %v (%v)", s, a, b, inside, from, to, ok)
			}
		}
	})
}
