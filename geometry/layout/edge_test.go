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
		if o := l.OpenEdges()[open]; o.A != e.A || o.B != e.B || o.Wall >= 0 {
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

// floors are the regions that ramps may take, by the edges of their slopes: "0" beside the
// first open edge, "0+1" round the corner of the first two, "0+0" round a free end.
func floors(l layout.Layout) map[string]plan.Region {
	out := map[string]plan.Region{}
	for _, f := range l.Ramps {
		name := fmt.Sprint(f.Slopes[0].Edge)
		for _, s := range f.Slopes[1:] {
			name += fmt.Sprintf("+%d", s.Edge)
		}
		out[name] = append(out[name], f.Region...)
	}
	return out
}

// Ramps may lie outside the open edges and round their outer corner, as far as the room
// goes. The shower's right edge is 900 long, 1000 from the wall across; its front 1400
// long, 1000 from the wall across; their corner leaves 1000 × 1000.
func TestRampFloors(t *testing.T) {
	inEveryFrame(t, func(t *testing.T, f frame) {
		for name, c := range map[string]struct {
			edge  job.EdgeKind
			fall  job.FallKind
			there bool
		}{
			"ramp":           {job.EdgeRamp, job.FallBack, true},
			"step":           {job.EdgeStep, job.FallBack, false},
			"raised room":    {job.EdgeRaiseRoom, job.FallBack, false},
			"all falls":      {job.EdgeRamp, job.FallRoom, false},
			"fall to a spot": {job.EdgeRamp, job.FallPoint, true},
		} {
			j := job.New()
			j.Room.Edge, j.Former.Fall, j.Shower.Screens = c.edge, c.fall, nil
			l := place(t, f.job(j))
			got := floors(l)
			if !c.there {
				if len(got) > 0 {
					t.Errorf("%s: ramps may lie over %v", name, got)
				}
				continue
			}
			if len(got) != 3 {
				t.Errorf("%s: %d floors for ramps, want beside both edges and at their corner", name, len(got))
			}
			nearArea(t, name+", right", got["0"], 1000*900)
			nearArea(t, name+", front", got["1"], 1000*1400)
			nearArea(t, name+", corner", got["0+1"], 1000*1000)
			nearPoint(t, name+", middle of the right one", got["0"].Centroid(), f.point(plan.Point{1900, 1450}))
			nearPoint(t, name+", middle of the front one", got["1"].Centroid(), f.point(plan.Point{700, 500}))
			nearPoint(t, name+", middle of the corner", got["0+1"].Centroid(), f.point(plan.Point{1900, 500}))
		}
	})
}

// Where panes close an edge nobody walks: the ramp leads to what they leave. The starting
// shower's pane closes its right edge but for 13 and 45 at its ends; a pane on the first
// 500 of the front leaves 900 × 1000 before the way, square at the pane, and the corner.
func TestRampFloorsBesidePanes(t *testing.T) {
	inEveryFrame(t, func(t *testing.T, f frame) {
		pane := job.New().Shower.Screens[0]
		front := pane
		front.Side, front.OffsetMM, front.WidthMM = job.SideFront, 0, 500
		whole := pane
		whole.Side, whole.OffsetMM, whole.WidthMM = job.SideFront, 0, 1400
		narrow := front
		narrow.WidthMM = 1101
		door := whole
		door.Kind = job.ScreenDoor
		for name, c := range map[string]struct {
			screens []job.Screen
			areas   map[string]float64
		}{
			"pane at the right":       {[]job.Screen{pane}, map[string]float64{"1": 1400 * 1000, "1+1": 1000 * 1000}},
			"one at the front too":    {[]job.Screen{pane, front}, map[string]float64{"1": 900 * 1000, "1+1": 1000 * 1000}},
			"front alone":             {[]job.Screen{front}, map[string]float64{"0": 900 * 1000, "1": 900 * 1000, "0+1": 1000 * 1000}},
			"the front closed":        {[]job.Screen{whole}, map[string]float64{"0": 900 * 1000, "0+0": 1000 * 1000}},
			"less than anybody's way": {[]job.Screen{pane, narrow}, nil},
			"a door is a way":         {[]job.Screen{pane, door}, map[string]float64{"1": 1400 * 1000, "1+1": 1000 * 1000}},
		} {
			j := job.New()
			j.Room.Edge, j.Shower.Screens = job.EdgeRamp, c.screens
			got := floors(place(t, f.job(j)))
			if len(got) != len(c.areas) {
				t.Errorf("%s: floors for ramps %v", name, got)
			}
			for of, area := range c.areas {
				nearArea(t, name+", "+of, got[of], area)
			}
		}
	})
}

// To a drain across the middle both halves of an open side have a slope of their own,
// apart at the drain's middle.
func TestRampFloorsOfABrokenTileLine(t *testing.T) {
	j := job.New()
	j.Room.Edge, j.Former.Fall, j.Shower.Screens = job.EdgeRamp, job.FallMid, nil
	l := place(t, j)
	var right []layout.RampSlope
	for _, f := range l.Ramps {
		if len(f.Slopes) == 1 && f.Slopes[0].Edge == 0 {
			right = append(right, f.Slopes...)
		}
	}
	// The drain, 70 wide, lies level across the middle, y = 1450: slopes part at 1485
	// and at 1415.
	if len(right) != 3 {
		t.Fatalf("%d slopes at the right edge", len(right))
	}
	nearPoint(t, "first slope's end", right[0].To, plan.Point{1400, 1485})
	nearPoint(t, "last slope's beginning", right[2].From, plan.Point{1400, 1415})
}

// A shower against the end of a wall that stops at its front: beyond the wall the room
// goes on, and the ramp at the front ends free. The room is 2400 × 1900 less 400 × 900 at
// its far right.
func TestRampFloorRoundAFreeEnd(t *testing.T) {
	j := withOutline(job.New(), 100, plan.Point{0, 0}, plan.Point{2400, 0}, plan.Point{2400, 1000}, plan.Point{2000, 1000}, plan.Point{2000, 1900}, plan.Point{0, 1900})
	j.Shower = job.Shower{Wall: 4, OffsetMM: 0, WidthMM: 1400, DepthMM: 900}
	j.Room.Edge, j.Shower.Screens = job.EdgeRamp, nil
	got := floors(place(t, j))
	if len(got) != 4 {
		t.Fatalf("floors for ramps: %v", got)
	}
	// Open edges: the front, from the right, then the left.
	nearArea(t, "front", got["0"], 1400*1000)
	nearArea(t, "left", got["1"], 600*900)
	nearArea(t, "corner", got["0+1"], 600*1000)
	nearArea(t, "free end", got["0+0"], 400*1000)
}

// A shower in an alcove 1500 wide whose right wall goes on 500 past its front: beyond it
// the room, 1700 × 1500, lies beside the ramp, which a cheek may take.
func TestRampFloorPastAWall(t *testing.T) {
	j := withOutline(job.New(), 100, plan.Point{0, 0}, plan.Point{3200, 0}, plan.Point{3200, 1500}, plan.Point{1500, 1500}, plan.Point{1500, 3000}, plan.Point{0, 3000})
	j.Shower = job.Shower{Wall: 4, WidthMM: 1500, DepthMM: 1000}
	j.Room.Edge, j.Shower.Screens = job.EdgeRamp, nil
	got := floors(place(t, j))
	if len(got) != 2 {
		t.Fatalf("floors for ramps: %v", got)
	}
	nearArea(t, "front", got["0"], 1500*2000)
	nearArea(t, "past the wall", got["0+0"], 1700*1500)
}

// A wall a little off the side, the room's first one, has no ramp in the gap.
func TestNoRampAtTheFirstWall(t *testing.T) {
	j := withOutline(job.New(), 100, plan.Point{0, 1900}, plan.Point{0, 0}, plan.Point{2400, 0}, plan.Point{2400, 1900})
	j.Shower = job.Shower{Wall: 3, OffsetMM: 1000 - 1.9, WidthMM: 1400, DepthMM: 900}
	j.Room.Edge, j.Shower.Screens = job.EdgeRamp, nil
	l := place(t, j)
	if e := l.Edges[3]; e.Side != layout.Left || e.Wall != 0 {
		t.Errorf("%+v, want the left wall", e)
	}
	for _, f := range l.Ramps {
		for _, p := range f.Region {
			for _, q := range p.Outer {
				if q.X() < 1 && q.Y() > 1000 {
					t.Errorf("a ramp in the gap: %v", f.Region)
				}
			}
		}
	}
}
