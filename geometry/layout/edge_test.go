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

// A wall counts as the shower's edge where it lies within 5 mm of the side's line beside that side, on either side of it,
// wherever it runs before and after: the left wall's foot is 1900 from its head and the shower 900 deep, so a foot that is
// out by 10.5 is out by 10.5·900/1900 = 4.97 at the front, and one by 10.6 by 5.02. More than 5 mm of it must run along
// the side, and 5 mm or less left over is no edge.
func TestWallAlongASide(t *testing.T) {
	left := func(x, y, toY float64, wall int) stretch {
		return stretch{"", plan.Point{x, y}, plan.Point{x, toY}, wall}
	}
	for name, c := range map[string]struct {
		offset     float64      // of the shower from wall 2's start: 1000 puts its left side on x = 0
		foot, head plan.Point   // ends of the left wall
		nib        []plan.Point // more corners from there on
		left       []stretch
	}{
		"shower 4.9 off": {1000 - 4.9, plan.Point{0, 0}, plan.Point{0, 1900}, nil, []stretch{left(4.9, 1000, 1900, 3)}},
		"shower 5.1 off": {1000 - 5.1, plan.Point{0, 0}, plan.Point{0, 1900}, nil, []stretch{left(5.1, 1000, 1900, -1)}},
		"foot 10.5 out":  {1000, plan.Point{-10.5, 0}, plan.Point{0, 1900}, nil, []stretch{left(0, 1000, 1900, 3)}},
		"foot 10.6 out":  {1000, plan.Point{-10.6, 0}, plan.Point{0, 1900}, nil, []stretch{left(0, 1000, 1900, -1)}},
		"head 4.9 out":   {1000, plan.Point{0, 0}, plan.Point{-4.9, 1900}, nil, []stretch{left(0, 1000, 1900, 3)}},
		"head 5.1 out":   {1000, plan.Point{0, 0}, plan.Point{-5.1, 1900}, nil, []stretch{left(0, 1000, 1900, -1)}},
		"foot 10.5 in":   {1000, plan.Point{10.5, 0}, plan.Point{0, 1900}, nil, []stretch{left(0, 1000, 1900, 3)}},
		"foot 10.6 in":   {1000, plan.Point{10.6, 0}, plan.Point{0, 1900}, nil, []stretch{left(0, 1000, 1900, -1)}},
		"4.9 of wall": {1000, plan.Point{-800, 0}, plan.Point{0, 1900}, []plan.Point{{0, 1895.1}, {-800, 1895.1}},
			[]stretch{left(0, 1000, 1900, -1)}},
		"5.1 of wall": {1000, plan.Point{-800, 0}, plan.Point{0, 1900}, []plan.Point{{0, 1894.9}, {-800, 1894.9}},
			[]stretch{left(0, 1000, 1894.9, -1), left(0, 1894.9, 1900, 3)}},
		"all but 4.9 of the side": {1000, plan.Point{-800, 0}, plan.Point{0, 1900}, []plan.Point{{0, 1004.9}, {-800, 1004.9}},
			[]stretch{left(0, 1004.9, 1900, 3)}},
		"all but 5.1 of the side": {1000, plan.Point{-800, 0}, plan.Point{0, 1900}, []plan.Point{{0, 1005.1}, {-800, 1005.1}},
			[]stretch{left(0, 1000, 1005.1, -1), left(0, 1005.1, 1900, 3)}},
		// Half of the side at a wall that leans out by 4, the other half at a recess.
		"half along a leaning wall": {1000, plan.Point{-800, 0}, plan.Point{0, 1900}, []plan.Point{{-4, 1450}, {-800, 1450}},
			[]stretch{left(0, 1000, 1450, -1), left(0, 1450, 1900, 3)}},
		// Two walls in line but for a step of 3 in the plaster.
		"a step in the plaster": {1000, plan.Point{3, 0}, plan.Point{0, 1900}, []plan.Point{{0, 1450}, {3, 1450}},
			[]stretch{left(0, 1000, 1450, 5), left(0, 1450, 1900, 3)}},
		// A wall at an odd angle, off by 900·tan 5° = 78.7 at the front: near the corner alone it is no edge.
		"a wall at 5°": {1000, plan.Point{-166.2, 0}, plan.Point{0, 1900}, nil, []stretch{left(0, 1000, 1900, -1)}},
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

// Exactly 5 mm, in numbers that are exact: a wall 5 mm off the side still
// counts, 5 mm of a wall do not make an edge, nor are 5 mm left over one.
func TestFiveMillimetresToTheBit(t *testing.T) {
	shower := job.Shower{Wall: 2, WidthMM: 1024, DepthMM: 1024}
	for name, c := range map[string]struct {
		left []plan.Point // the left of the room from its back corner down
		want []stretch    // the left of the shower, which runs from y = 1024 to 2048
	}{
		"wall off by 5": {[]plan.Point{{-5, 2048}}, []stretch{{"", plan.Point{0, 1024}, plan.Point{0, 2048}, 3}}},
		"5 of a wall":   {[]plan.Point{{0, 2048}, {0, 2043}, {-512, 2043}}, []stretch{{"", plan.Point{0, 1024}, plan.Point{0, 2048}, -1}}},
		"5 left over":   {[]plan.Point{{0, 2048}, {0, 1029}, {-512, 1029}}, []stretch{{"", plan.Point{0, 1029}, plan.Point{0, 2048}, 3}}},
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

// Walls that fold back over each other within the 5 mm are told once: from the
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

// Where the left wall leans out by 8 over 1900 the shower's floor is laid up to it, 8·900/1900 = 3.79 at the front: its
// wedge of 900 · 3.79 / 2 is the shower's, not the room's.
func TestShowerIsLaidUpToALeaningWall(t *testing.T) {
	inEveryFrame(t, func(t *testing.T, f frame) {
		j := withOutline(job.New(), 100, plan.Point{-8, 0}, plan.Point{2400, 0}, plan.Point{2400, 1900}, plan.Point{0, 1900})
		l := place(t, f.job(j))
		wedge := 900 * (8 * 900.0 / 1900) / 2
		nearArea(t, "shower", l.Shower, 1400*900+wedge)
		nearArea(t, "rest", l.Rest, 2400*1900+8*1900/2.0-1400*900-wedge)
	})
}

// A ramp is laid up to a leaning wall too: before the front it is 1000 deep and the wall out by 3.79 there, by 8 at its
// foot. No cheek lies in between.
func TestRampIsLaidUpToALeaningWall(t *testing.T) {
	inEveryFrame(t, func(t *testing.T, f frame) {
		j := withOutline(job.New(), 100, plan.Point{-8, 0}, plan.Point{2400, 0}, plan.Point{2400, 1900}, plan.Point{0, 1900})
		j.Room.Edge, j.Shower.Screens = job.EdgeRamp, nil
		got := floors(place(t, f.job(j)))
		if len(got) != 3 {
			t.Errorf("floors for ramps: %v", got)
		}
		nearArea(t, "front", got["1"], 1400*1000+1000*(8+8*900.0/1900)/2)
		nearArea(t, "corner", got["0+1"], 1000*1000)
	})
}

// Past the end of a wall that leans out the cheek begins where the wall ends: that goes on 500 past the front of a shower
// of 1500 by 1000, and leans out by 6 over its 1500.
func TestCheekBeginsWhereALeaningWallEnds(t *testing.T) {
	j := withOutline(job.New(), 100, plan.Point{0, 0}, plan.Point{3200, 0}, plan.Point{3200, 1500},
		plan.Point{1506, 1500}, plan.Point{1500, 3000}, plan.Point{0, 3000})
	j.Shower = job.Shower{Wall: 4, WidthMM: 1500, DepthMM: 1000}
	j.Room.Edge, j.Shower.Screens = job.EdgeRamp, nil
	got := floors(place(t, j))
	if len(got) != 2 {
		t.Fatalf("floors for ramps: %v", got)
	}
	// Out by 4 at the front and by 6 where it ends, 500 on.
	nearArea(t, "front", got["0"], 1500*2000+500*(4+6)/2.0)
	nearArea(t, "past the wall", got["0+0"], 1700*1500)
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
	j := withOutline(job.New(), 100, plan.Point{0, 0}, plan.Point{2400, 0}, plan.Point{2400, 1000},
		plan.Point{2000, 1000}, plan.Point{2000, 1900}, plan.Point{0, 1900})
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
	j := withOutline(job.New(), 100, plan.Point{0, 0}, plan.Point{3200, 0}, plan.Point{3200, 1500},
		plan.Point{1500, 1500}, plan.Point{1500, 3000}, plan.Point{0, 3000})
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
	j.Shower = job.Shower{Wall: 3, OffsetMM: 1000 - 4.9, WidthMM: 1400, DepthMM: 900}
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

// Where the shower stands a little off the corner its walls are finished into the corner all the same: 4 off the left
// wall the back one is finished over 1404, the left one over 900; and no farther than the shower past a wall that goes on.
func TestFinishedIntoTheCorner(t *testing.T) {
	j := job.New()
	j.Shower.OffsetMM = 1000 - 4
	l := place(t, j)
	for wall, want := range map[int]plan.Interval{2: {From: 996, To: 2400}, 3: {From: 0, To: 900}} {
		got := l.Finished(&j, &l.Walls[wall])
		if len(got) != 1 {
			t.Fatalf("wall %d: %v", wall, got)
		}
		near(t, "from", got[0].From, want.From)
		near(t, "to", got[0].To, want.To)
	}
}
