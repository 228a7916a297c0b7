package level_test

import (
	"testing"

	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/level"
	"underfall/geometry/plan"
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

// The greater step counts, up or down, with its sign.
func TestWorstStep(t *testing.T) {
	for _, c := range []struct{ showerA, roomA, showerB, roomB, want float64 }{
		{20, 5, 22, 5, 17}, {22, 5, 20, 5, 17}, {20, 5, -10, 10, -20}, {-10, 10, 20, 5, -20}, {5, 20, 3, 1, -15}, {3, 1, 5, 20, -15}, {8, 3, 3, 8, 5}, {3, 8, 8, 3, -5},
	} {
		near(t, "step", level.EdgeLevels{ShowerA: c.showerA, RoomA: c.roomA, ShowerB: c.showerB, RoomB: c.roomB}.WorstStepMM(), c.want)
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
		"right, back": {edges[0].ShowerA, 153}, "right, front": {edges[0].ShowerB, 169.34}, "room there": {edges[0].RoomA, 27}, "room at its front": {edges[0].RoomB, 27},
		"front, right": {edges[1].ShowerA, 169.34}, "front, left": {edges[1].ShowerB, 169.34}, "room on the right": {edges[1].RoomA, 27}, "room on the left": {edges[1].RoomB, 13},
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

// Ramps of 600 on the same floor. At the right edge from its lower end, 153, to
// the room 600 on, at x = 2000: 20 + 13 = 33. The step along it is what the edge
// rises over its lower end: 16.34. At the front from 169.34 to the room at the
// middle of the edge, x = 700: 7 + 13 = 20.
func TestRampsByHand(t *testing.T) {
	j := job.New()
	j.SpotLevels = spots([3]float64{0, 0, 0}, [3]float64{2400, 0, 24}, [3]float64{0, 1900, 0})
	j.Base.Height, j.Room.Edge, j.Room.RampRunMM = job.HeightChosen, job.EdgeRamp, 600
	l, h := solve(j)
	right, front := h.RampSurface(&j, &l, l.OpenEdges()[0]), h.RampSurface(&j, &l, l.OpenEdges()[1])
	for _, c := range []struct {
		name string
		got  float64
		want float64
	}{
		{"right, at the edge", right.At(plan.Point{1400, 1200}), 153}, {"right, halfway", right.At(plan.Point{1700, 1900}), 93}, {"right, at its foot", right.At(plan.Point{2000, 1000}), 33},
		{"front, at the edge", front.At(plan.Point{300, 1000}), 169.34}, {"front, at its foot", front.At(plan.Point{300, 400}), 20}, {"front, halfway", front.At(plan.Point{900, 700}), 94.67},
	} {
		near(t, c.name, c.got, c.want)
	}
	edges := edgesOf(&h, &j, &l)
	near(t, "ramp at the right edge's back", edges[0].RoomA, 153)
	near(t, "ramp at the right edge's front", edges[0].RoomB, 153)
	near(t, "step at the right", edges[0].WorstStepMM(), 16.34)
	near(t, "step at the front", edges[1].WorstStepMM(), 0)
	// A ramp without a run is none: the floor of the room counts.
	j.Room.RampRunMM = 0
	l, h = solve(j)
	near(t, "room without a ramp", edgesOf(&h, &j, &l)[0].RoomA, 27)
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
