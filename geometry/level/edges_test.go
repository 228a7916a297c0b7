package level_test

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/level"
	"underfall/geometry/plan"
	"underfall/geometry/unit"
)

// An edge that is more than a twentieth of a millimetre higher at one end has a
// cheek.
func TestTapered(t *testing.T) {
	for _, c := range []struct {
		a, b float64
		want bool
	}{{0, 0, false}, {10, 10.049, false}, {10, 10.051, true}, {10.051, 10, true}, {10.049, 10, false}, {0.05, 0, false}, {-10, 10, true}} {
		if got := (level.EdgeLevels{ShowerA: c.a, ShowerB: c.b}).Tapered(); got != c.want {
			t.Errorf("from %v to %v: tapered %v, want %v", c.a, c.b, got, c.want)
		}
	}
}

// The piece along an edge that rakes: an edge of 900, 20 over the room at one end and 12 at the other, with a crease at 300 where it is 17.
// Where it is level, at a kerb, under the room or less than two at its highest there is none.
func TestCheek(t *testing.T) {
	edge := layout.Edge{A: plan.Point{100, 50}, B: plan.Point{1000, 50}}
	raked := level.EdgeLevels{Edge: edge, ShowerA: 33, RoomA: 13, ShowerB: 25, RoomB: 13,
		Between: []level.EdgePlace{{At: plan.Point{400, 50}, Shower: 30, Room: 13}}}
	if got, want := raked.Cheek(), (plan.Ring{{0, 0}, {900, 0}, {900, 12}, {300, 17}, {0, 20}}); !slices.Equal(got, want) {
		t.Errorf("the piece is %v, want %v", got, want)
	}
	kerb := raked
	kerb.HasKerb = true
	for name, none := range map[string]level.EdgeLevels{
		"level": {Edge: edge, ShowerA: 33, ShowerB: 33}, "at a kerb": kerb,
		"under the room": {Edge: edge, ShowerA: -9, ShowerB: -5}, "in the joint": {Edge: edge, ShowerA: 1.9},
	} {
		if got := none.Cheek(); got != nil {
			t.Errorf("%s the piece is %v", name, got)
		}
	}
}

// The greater step counts, up or down, with its sign.
func TestWorstStep(t *testing.T) {
	for _, c := range []struct{ showerA, roomA, showerB, roomB, want float64 }{
		{20, 5, 22, 5, 17}, {22, 5, 20, 5, 17},
		{20, 5, -10, 10, -20}, {-10, 10, 20, 5, -20},
		{5, 20, 3, 1, -15}, {3, 1, 5, 20, -15},
		{8, 3, 3, 8, 5}, {3, 8, 8, 3, -5},
	} {
		near(t, "step", level.EdgeLevels{ShowerA: c.showerA, RoomA: c.roomA, ShowerB: c.showerB, RoomB: c.roomB}.WorstStepMM(), c.want)
	}
}

// Over a kerb the step is greatest where the floor beside it is lowest, at the far end here: from −8 to 100. At the near
// end the floors differ by more, 30, and the step, from 0, is told as less.
func TestStepOverAKerbIsToldWhereItIsGreatest(t *testing.T) {
	e := level.EdgeLevels{Edge: layout.Edge{A: plan.Point{0, 0}, B: plan.Point{1000, 0}},
		ShowerA: 30, RoomA: 0, ShowerB: 0, RoomB: -8, Kerb: 100, HasKerb: true}
	at, rise := e.StepNear(plan.Point{0, 500}, unit.Metric)
	if at != e.Edge.B || rise.FromMM != -8 || rise.ToMM != 100 {
		t.Errorf("at %v from %v to %v", at, rise.FromMM, rise.ToMM)
	}
}

// The starting job with its base at 100 over 3 of adhesive, on a floor that
// rises 10 mm/m to the right: highest under the shower at x = 1400, 14, so the
// tile at the drain is at 14 + 3 + 100 + 3 + 20 + 13 = 153. The right edge begins
// in the level strip at the back and rises 817/50 = 16.34 to the front; the
// room beside it is at 14 + 13 = 27. The front edge is level at 169.34, the room
// before it at 27 on the right and 13 on the left.
func TestEdgesByHand(t *testing.T) {
	j := job.New()
	j.SpotLevels = spots([3]float64{0, 0, 0}, [3]float64{2400, 0, 24}, [3]float64{0, 1900, 0})
	j.Base.Height = job.HeightChosen
	l, h := solve(j)
	edges := edgesOf(&h, &j, &l)
	if len(edges) != 2 || edges[0].Edge.Side != layout.Right || edges[1].Edge.Side != layout.Front {
		t.Fatalf("edges %+v", edges)
	}
	for name, c := range map[string][2]float64{
		"right, back": {edges[0].ShowerA, 153}, "right, front": {edges[0].ShowerB, 169.34},
		"room there": {edges[0].RoomA, 27}, "room at its front": {edges[0].RoomB, 27},
		"front, right": {edges[1].ShowerA, 169.34}, "front, left": {edges[1].ShowerB, 169.34},
		"room on the right": {edges[1].RoomA, 27}, "room on the left": {edges[1].RoomB, 13},
		"step at the right": {edges[0].WorstStepMM(), 142.34}, "step at the front": {edges[1].WorstStepMM(), 156.34},
	} {
		near(t, name, c[0], c[1])
	}
	if !edges[0].Tapered() || edges[1].Tapered() {
		t.Errorf("tapered %v and %v", edges[0].Tapered(), edges[1].Tapered())
	}
	j.Former.Fall = job.FallRoom
	if l, h := solve(j); len(edgesOf(&h, &j, &l)) > 0 {
		t.Error("a room that falls as a whole has edges")
	}
}

// Ramps of 600 on the same floor. All fall by one slope, that of the place where the tile
// lies highest over the floor 600 on: at the front edge's left end 169.34 − 13 = 156.34
// over 600, a fall of 0.260567. The right edge's tile is level at 153 as far as y = 1817,
// then rises by 1:50 to 169.34; its plane holds that line.
func TestRampsByHand(t *testing.T) {
	j := job.New()
	j.SpotLevels = spots([3]float64{0, 0, 0}, [3]float64{2400, 0, 24}, [3]float64{0, 1900, 0})
	j.Base.Height, j.Room.Edge, j.Room.RampRunMM, j.Shower.Screens = job.HeightChosen, job.EdgeRamp, 600, nil
	l, h := solve(j)
	const fall = 156.34 / 600
	near(t, "fall", h.RampSlope, fall)
	if len(l.Ramps) != 4 {
		t.Fatalf("%d floors for ramps, want two beside the right edge, one beside the front, one at the corner", len(l.Ramps))
	}
	back, right, front := l.Ramps[0].Slopes[0], l.Ramps[1].Slopes[0], l.Ramps[2].Slopes[0]
	for _, c := range []struct {
		name string
		of   layout.RampSlope
		at   plan.Point
		want float64
	}{
		{"by the drain", back, plan.Point{1400, 1850}, 153}, {"by the drain, 300 out", back, plan.Point{1700, 1850}, 153 - 300*fall},
		{"right, at the edge", right, plan.Point{1400, 1200}, 165.34}, {"right, 300 out", right, plan.Point{1700, 1200}, 165.34 - 300*fall},
		{"front, at the edge", front, plan.Point{300, 1000}, 169.34}, {"front, at its foot", front, plan.Point{300, 400}, 13},
	} {
		near(t, c.name, h.RampPlane(&l, c.of).At(c.at), c.want)
	}
	near(t, "true slope at the right", h.RampPlane(&l, right).Gradient(), math.Hypot(fall, 0.02))
	// Over the floor at the right edge, 14 + 13, the tile stands 138.34; the floor rises
	// by 1:100 towards the ramp. At the front the floor is level away from the edge: at
	// x = 700 the tile stands 169.34 − 20 over it.
	near(t, "run at the right", h.RampRunMM(&j, &l, right, plan.Point{1400, 1200}), 138.34/(fall+0.01))
	near(t, "run at the front", h.RampRunMM(&j, &l, front, plan.Point{700, 1000}), 149.34/fall)
	for i, e := range edgesOf(&h, &j, &l) {
		near(t, fmt.Sprintf("step at edge %d", i), e.WorstStepMM(), 0)
	}
	// Without a stated run the steepest line falls by the usual 1:12: to the side by
	// √(1/144 − 1/2500).
	j.Room.RampRunMM = 0
	l, h = solve(j)
	near(t, "usual fall", h.RampSlope, math.Sqrt(1.0/144-1.0/2500))
	near(t, "usual true slope", h.RampPlane(&l, l.Ramps[1].Slopes[0]).Gradient(), 1.0/12)
	h.LayRamp(&j, &l, func(riseMM float64) float64 {
		near(t, "rise", riseMM, 156.34)
		return 20 * riseMM
	})
	near(t, "fall of 1:20 along the steepest line", h.RampSlope, math.Sqrt(1.0/400-1.0/2500))
	// Where the tile lies lower than the room there is no ramp.
	j.Layers.Room.Tile.ThicknessMM = 300
	l, h = solve(j)
	if h.RampSlope != 0 || len(h.RampFacets(&j, &l)) > 0 {
		t.Errorf("a ramp falls by %v into the shower", h.RampSlope)
	}
	near(t, "step down into the shower", edgesOf(&h, &j, &l)[0].WorstStepMM(), 153-318)
}

// The surface of ramps, worked anew at every place from vectors: beside an edge its tile
// less the fall times the way out, round the outer corner the lower of both edges, and
// nowhere less than the room's floor. Facets take every such place once.
func TestRampFacetsAgreeWithVectors(t *testing.T) {
	j := job.New()
	j.Base.Height, j.Room.Edge, j.Room.RampRunMM, j.Shower.Screens = job.HeightChosen, job.EdgeRamp, 700, nil
	l, h := solve(j)
	facets := h.RampFacets(&j, &l)
	tile := func(y float64) float64 { return h.TileMM + math.Max(0, 1817-y)/50 }
	const room = 13
	fall := (tile(1000) - room) / 700
	for x := 5.0; x < 2400; x += 13 {
		for y := 5.0; y < 1900; y += 13 {
			if x < 1400 && y > 1000 {
				continue // the shower
			}
			right, front := tile(y)-(x-1400)*fall, tile(1000)-(1000-y)*fall
			if y < 1000 {
				right = tile(1000) + (1000-y)/50 - (x-1400)*fall
			}
			want := math.Min(right, front)
			if x < 1400 {
				want = front
			} else if y > 1000 {
				want = right
			}
			n, got := 0, float64(room)
			for _, f := range facets {
				if f.Region.Contains(plan.Point{x, y}, 0) {
					n++
					got = f.Plane.At(plan.Point{x, y})
				}
			}
			if on := want > room; math.Abs(want-room) > 1e-6 && (on != (n == 1) || math.Abs(got-math.Max(room, want)) > 1e-9) {
				t.Fatalf("at %v, %v: %d facets at %v, want %v", x, y, n, got, want)
			}
		}
	}
}

func edgesOf(h *level.Heights, j *job.Job, l *layout.Layout) (out []level.EdgeLevels) {
	for i, e := range h.Edges(j, l) {
		if i != len(out) {
			panic("edges are not in order")
		}
		out = append(out, e)
	}
	return out
}

// A drain across the middle, open at both ends of it: the right edge is lowest where the
// drain's strip meets it and 8.3 higher at its ends, 415 away at 1:50. A room 20 over the
// drain's tile steps down by 20 there, and by 11.7 at the ends.
func TestLowestBetweenTheEnds(t *testing.T) {
	j := job.New()
	j.Former.Fall = job.FallMid
	l, h := solve(j)
	for _, e := range h.Edges(&j, &l) {
		if e.Edge.Side != layout.Right {
			continue
		}
		if len(e.Between) != 2 {
			t.Fatalf("%d places between the ends, want 2", len(e.Between))
		}
		low, high := e.Ends()
		near(t, "lowest", low.Shower, h.TileMM)
		near(t, "highest", high.Shower, h.TileMM+8.3)
		if !e.Tapered() {
			t.Error("it is higher at its ends")
		}
		for i := range e.Between {
			e.Between[i].Room = h.TileMM + 20
		}
		e.RoomA, e.RoomB = h.TileMM+20, h.TileMM+20
		near(t, "worst step", e.WorstStepMM(), -20)
		parts := e.Straights()
		if len(parts) != 3 || parts[0].Edge.A != e.Edge.A || parts[2].Edge.B != e.Edge.B || parts[1].ShowerA != parts[0].ShowerB {
			t.Errorf("parts %+v", parts)
		}
		return
	}
	t.Error("no right edge")
}
