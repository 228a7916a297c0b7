package layout_test

import (
	"fmt"
	"testing"

	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/plan"
)

// stretch is an edge worked out by hand, in the room as drawn.
type stretch struct {
	side layout.Side
	a, b plan.Point
	wall int
}

// edgesAre fails unless the layout's edges are just these, in order, and the
// open ones among them are what OpenEdges gives.
func edgesAre(t *testing.T, l layout.Layout, f frame, want ...stretch) {
	t.Helper()
	if len(l.Edges) != len(want) {
		t.Fatalf("%d edges, want %d: %+v", len(l.Edges), len(want), l.Edges)
	}
	open := 0
	for i, w := range want {
		e, name := l.Edges[i], fmt.Sprintf("edge %d (%s), ", i, w.side)
		if e.Side != w.side || e.Wall != f.wall(w.wall, len(l.Walls)) {
			t.Errorf("%sat the %s, wall %d, want wall %d", name, e.Side, e.Wall, f.wall(w.wall, len(l.Walls)))
		}
		nearPoint(t, name+"start", e.A, f.point(w.a))
		nearPoint(t, name+"end", e.B, f.point(w.b))
		nearPoint(t, name+"middle", e.Middle(), f.point(w.a.Add(w.b).Mul(0.5)))
		near(t, name+"length", e.LengthMM(), w.b.Sub(w.a).Len())
		if w.wall >= 0 {
			continue
		}
		if open >= len(l.OpenEdges()) {
			t.Fatalf("%sis not among the %d open ones", name, open)
		}
		if o := l.OpenEdges()[open]; o.A != e.A || o.B != e.B || o.Wall >= 0 || len(o.Ramp) != len(e.Ramp) {
			t.Errorf("open edge %d is %+v, want %+v", open, o, e)
		}
		open++
	}
	if open != len(l.OpenEdges()) {
		t.Errorf("%d open edges, want %d", len(l.OpenEdges()), open)
	}
}

// The starting shower, 1400 by 900 in the back left corner: its back and left
// stand against walls 2 and 3. Left and right are as seen facing the back wall,
// whichever way the room is walked.
func TestEdgesByHand(t *testing.T) {
	inEveryFrame(t, func(t *testing.T, f frame) {
		l := place(t, f.job(job.New()))
		backLeft, backRight, frontRight, frontLeft := plan.Point{0, 1900}, plan.Point{1400, 1900}, plan.Point{1400, 1000}, plan.Point{0, 1000}
		for i, c := range []plan.Point{backLeft, backRight, frontRight, frontLeft} {
			nearPoint(t, fmt.Sprintf("corner %d", i), l.Corners[i], f.point(c))
		}
		nearPoint(t, "to the right", l.ToRight, f.vector(plan.Point{1, 0}))
		nearPoint(t, "into the room", l.Into, f.vector(plan.Point{0, -1}))
		edgesAre(t, l, f,
			stretch{layout.Back, backLeft, backRight, 2}, stretch{layout.Right, backRight, frontRight, -1},
			stretch{layout.Front, frontRight, frontLeft, -1}, stretch{layout.Left, frontLeft, backLeft, 3})
		for i, out := range []plan.Point{{0, 1}, {1, 0}, {0, -1}, {-1, 0}} {
			nearPoint(t, fmt.Sprintf("out across edge %d", i), l.Outward(l.Edges[i]), f.vector(out))
		}
		nearArea(t, "shower", l.Shower, 1400*900)
		nearArea(t, "rest", l.Rest, 2400*1900-1400*900)
	})
}

// A wall counts as the shower's edge when both its ends lie within 2 mm of the
// side's line, on either side of it; more than 2 mm of it must run along the
// side, and 2 mm or less left over is no edge.
func TestWallAlongASide(t *testing.T) {
	for name, c := range map[string]struct {
		offset     float64      // of the shower from wall 2's start: 1000 puts its left side on x = 0
		foot, head plan.Point   // ends of the left wall
		nib        []plan.Point // more corners from there on
		left       []stretch
	}{
		"shower 1.9 off":          {1000 - 1.9, plan.Point{0, 0}, plan.Point{0, 1900}, nil, []stretch{{"", plan.Point{1.9, 1000}, plan.Point{1.9, 1900}, 3}}},
		"shower 2.1 off":          {1000 - 2.1, plan.Point{0, 0}, plan.Point{0, 1900}, nil, []stretch{{"", plan.Point{2.1, 1000}, plan.Point{2.1, 1900}, -1}}},
		"foot 1.9 out":            {1000, plan.Point{-1.9, 0}, plan.Point{0, 1900}, nil, []stretch{{"", plan.Point{0, 1000}, plan.Point{0, 1900}, 3}}},
		"foot 2.1 out":            {1000, plan.Point{-2.1, 0}, plan.Point{0, 1900}, nil, []stretch{{"", plan.Point{0, 1000}, plan.Point{0, 1900}, -1}}},
		"head 1.9 out":            {1000, plan.Point{0, 0}, plan.Point{-1.9, 1900}, nil, []stretch{{"", plan.Point{0, 1000}, plan.Point{0, 1900}, 3}}},
		"head 2.1 out":            {1000, plan.Point{0, 0}, plan.Point{-2.1, 1900}, nil, []stretch{{"", plan.Point{0, 1000}, plan.Point{0, 1900}, -1}}},
		"foot 1.9 in":             {1000, plan.Point{1.9, 0}, plan.Point{0, 1900}, nil, []stretch{{"", plan.Point{0, 1000}, plan.Point{0, 1900}, 3}}},
		"foot 2.1 in":             {1000, plan.Point{2.1, 0}, plan.Point{0, 1900}, nil, []stretch{{"", plan.Point{0, 1000}, plan.Point{0, 1900}, -1}}},
		"1.9 of wall":             {1000, plan.Point{-800, 0}, plan.Point{0, 1900}, []plan.Point{{0, 1898.1}, {-800, 1898.1}}, []stretch{{"", plan.Point{0, 1000}, plan.Point{0, 1900}, -1}}},
		"2.1 of wall":             {1000, plan.Point{-800, 0}, plan.Point{0, 1900}, []plan.Point{{0, 1897.9}, {-800, 1897.9}}, []stretch{{"", plan.Point{0, 1000}, plan.Point{0, 1897.9}, -1}, {"", plan.Point{0, 1897.9}, plan.Point{0, 1900}, 3}}},
		"all but 1.9 of the side": {1000, plan.Point{-800, 0}, plan.Point{0, 1900}, []plan.Point{{0, 1001.9}, {-800, 1001.9}}, []stretch{{"", plan.Point{0, 1001.9}, plan.Point{0, 1900}, 3}}},
		"all but 2.1 of the side": {1000, plan.Point{-800, 0}, plan.Point{0, 1900}, []plan.Point{{0, 1002.1}, {-800, 1002.1}}, []stretch{{"", plan.Point{0, 1000}, plan.Point{0, 1002.1}, -1}, {"", plan.Point{0, 1002.1}, plan.Point{0, 1900}, 3}}},
	} {
		t.Run(name, func(t *testing.T) {
			inEveryFrame(t, func(t *testing.T, f frame) {
				outline := append([]plan.Point{c.foot, {2400, 0}, {2400, 1900}, c.head}, c.nib...)
				j := withOutline(job.New(), 100, outline...)
				j.Shower.OffsetMM = c.offset
				l := place(t, f.job(j))
				var left []layout.Edge
				for _, e := range l.Edges {
					if e.Side == layout.Left {
						left = append(left, e)
					}
				}
				if len(left) != len(c.left) {
					t.Fatalf("%d stretches at the left, want %d: %+v", len(left), len(c.left), left)
				}
				for i, want := range c.left {
					nearPoint(t, "start", left[i].A, f.point(want.a))
					nearPoint(t, "end", left[i].B, f.point(want.b))
					if left[i].Wall != f.wall(want.wall, len(outline)) {
						t.Errorf("stretch %d is at wall %d, want %d", i, left[i].Wall, f.wall(want.wall, len(outline)))
					}
				}
			})
		})
	}
}

// Exactly 2 mm, in numbers that are exact: a wall 2 mm off the side still
// counts, 2 mm of a wall do not make an edge, nor are 2 mm left over one.
func TestTwoMillimetresToTheBit(t *testing.T) {
	shower := job.Shower{Wall: 2, WidthMM: 1024, DepthMM: 1024}
	for name, c := range map[string]struct {
		left []plan.Point // the left of the room from its back corner down
		want []stretch    // the left of the shower, which runs from y = 1024 to 2048
	}{
		"wall off by 2": {[]plan.Point{{-2, 2048}}, []stretch{{"", plan.Point{0, 1024}, plan.Point{0, 2048}, 3}}},
		"2 of a wall":   {[]plan.Point{{0, 2048}, {0, 2046}, {-512, 2046}}, []stretch{{"", plan.Point{0, 1024}, plan.Point{0, 2048}, -1}}},
		"2 left over":   {[]plan.Point{{0, 2048}, {0, 1026}, {-512, 1026}}, []stretch{{"", plan.Point{0, 1026}, plan.Point{0, 2048}, 3}}},
	} {
		foot := plan.Point{c.left[len(c.left)-1].X(), 0}
		j := withOutline(job.New(), 100, append([]plan.Point{foot, {2048, 0}, {2048, 2048}}, c.left...)...)
		j.Shower = shower
		j.Shower.OffsetMM = 1024
		var got []stretch
		for _, e := range place(t, j).Edges {
			if e.Side == layout.Left {
				got = append(got, stretch{"", e.A, e.B, e.Wall})
			}
		}
		if fmt.Sprint(got) != fmt.Sprint(c.want) {
			t.Errorf("%s: %v, want %v", name, got, c.want)
		}
	}
}

// A recess 400 wide beside the shower leaves its right side open in the middle:
// the wall from the back down to y = 1700, the recess to 1300, then the wall
// again, which goes on past the shower's front.
func TestSidePartlyOpen(t *testing.T) {
	inEveryFrame(t, func(t *testing.T, f frame) {
		j := withOutline(job.New(), 100, plan.Point{0, 0}, plan.Point{1400, 0}, plan.Point{1400, 1300}, plan.Point{2000, 1300},
			plan.Point{2000, 1700}, plan.Point{1400, 1700}, plan.Point{1400, 1900}, plan.Point{0, 1900})
		j.Shower = job.Shower{Wall: 6, OffsetMM: 0, WidthMM: 1400, DepthMM: 900}
		edgesAre(t, place(t, f.job(j)), f,
			stretch{layout.Back, plan.Point{0, 1900}, plan.Point{1400, 1900}, 6},
			stretch{layout.Right, plan.Point{1400, 1900}, plan.Point{1400, 1700}, 5},
			stretch{layout.Right, plan.Point{1400, 1700}, plan.Point{1400, 1300}, -1},
			stretch{layout.Right, plan.Point{1400, 1300}, plan.Point{1400, 1000}, 1},
			stretch{layout.Front, plan.Point{1400, 1000}, plan.Point{0, 1000}, -1},
			stretch{layout.Left, plan.Point{0, 1000}, plan.Point{0, 1900}, 7})
	})
}

// Walls that fold back over each other within the 2 mm are told once: from the
// back to y = 1400, back up to 1450 a millimetre and a half inwards, and down.
func TestWallsThatFoldBack(t *testing.T) {
	j := withOutline(job.New(), 100, plan.Point{1.5, 0}, plan.Point{2400, 0}, plan.Point{2400, 1900},
		plan.Point{0, 1900}, plan.Point{0, 1400}, plan.Point{1.5, 1450})
	edgesAre(t, place(t, j), frame{},
		stretch{layout.Back, plan.Point{0, 1900}, plan.Point{1400, 1900}, 2},
		stretch{layout.Right, plan.Point{1400, 1900}, plan.Point{1400, 1000}, -1},
		stretch{layout.Front, plan.Point{1400, 1000}, plan.Point{0, 1000}, -1},
		stretch{layout.Left, plan.Point{0, 1000}, plan.Point{0, 1450}, 5},
		stretch{layout.Left, plan.Point{0, 1450}, plan.Point{0, 1900}, 3})
}

// What of the shower lies outside the room is no floor: a left wall that leans
// in by 400 over 1900 takes 900 · 900·400/1900 / 2 = 85 263.16 mm² off it.
func TestShowerIsCutToTheRoom(t *testing.T) {
	inEveryFrame(t, func(t *testing.T, f frame) {
		j := withOutline(job.New(), 100, plan.Point{400, 0}, plan.Point{2400, 0}, plan.Point{2400, 1900}, plan.Point{0, 1900})
		l := place(t, f.job(j))
		nearArea(t, "shower", l.Shower, 1400*900-900*900*400.0/1900/2)
		nearArea(t, "fall", l.FallArea, 1400*900-900*900*400.0/1900/2)
		nearArea(t, "room", l.Room, (2000+2400)*1900/2)
	})
}

// Ramps lie outside the open edges, as far as the room goes and no falling
// floor is in their way. The shower's right edge is 900 long, 1000 from the
// wall across; its front 1400 long, 1000 from the wall across.
func TestRamps(t *testing.T) {
	inEveryFrame(t, func(t *testing.T, f frame) {
		for name, c := range map[string]struct {
			edge         job.EdgeKind
			fall         job.FallKind
			run          float64
			right, front float64 // how far the ramp reaches
		}{
			"ramp":           {job.EdgeRamp, job.FallBack, 600, 600, 600},
			"cut by walls":   {job.EdgeRamp, job.FallBack, 1200, 1000, 1000},
			"step":           {job.EdgeStep, job.FallBack, 600, 0, 0},
			"raised room":    {job.EdgeRaiseRoom, job.FallBack, 600, 0, 0},
			"no run":         {job.EdgeRamp, job.FallBack, 0, 0, 0},
			"half a mm":      {job.EdgeRamp, job.FallBack, 0.5, 0.5, 0.5},
			"all falls":      {job.EdgeRamp, job.FallRoom, 600, 0, 0},
			"fall to a spot": {job.EdgeRamp, job.FallPoint, 600, 600, 600},
		} {
			j := job.New()
			j.Room.Edge, j.Former.Fall, j.Room.RampRunMM = c.edge, c.fall, c.run
			l := place(t, f.job(j))
			nearArea(t, name+", right", l.Edges[1].Ramp, c.right*900)
			nearArea(t, name+", front", l.Edges[2].Ramp, c.front*1400)
			if c.right > 0 {
				nearPoint(t, name+", middle of the right one", l.Edges[1].Ramp.Centroid(), f.point(plan.Point{1400 + c.right/2, 1450}))
				nearPoint(t, name+", middle of the front one", l.Edges[2].Ramp.Centroid(), f.point(plan.Point{700, 1000 - c.front/2}))
			}
			if len(l.Edges[0].Ramp)+len(l.Edges[3].Ramp) > 0 {
				t.Errorf("%s: a ramp at a wall", name)
			}
			for i, e := range l.OpenEdges() {
				nearArea(t, fmt.Sprintf("%s, ramp of open edge %d", name, i), e.Ramp, l.Edges[i+1].Ramp.Area())
			}
		}
	})
}

// A wall a little off the side, the room's first one, has no ramp in the gap.
func TestNoRampAtTheFirstWall(t *testing.T) {
	j := withOutline(job.New(), 100, plan.Point{0, 1900}, plan.Point{0, 0}, plan.Point{2400, 0}, plan.Point{2400, 1900})
	j.Shower = job.Shower{Wall: 3, OffsetMM: 1000 - 1.9, WidthMM: 1400, DepthMM: 900}
	j.Room.Edge = job.EdgeRamp
	if e := place(t, j).Edges[3]; e.Side != layout.Left || e.Wall != 0 || len(e.Ramp) > 0 {
		t.Errorf("%+v, want the left wall without a ramp", e)
	}
}
