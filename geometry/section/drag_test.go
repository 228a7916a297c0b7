package section_test

import (
	"math"
	"testing"

	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/plan"
	"underfall/geometry/section"
	"underfall/geometry/waste"
)

// Dragging each handle moves what it holds and nothing else.
func TestDrag(t *testing.T) {
	for _, c := range []struct {
		handle string
		to     plan.Point
		got    func(job.Job) float64
		want   float64
	}{
		{section.HandleDepth, plan.Point{700, 898}, func(j job.Job) float64 { return j.Shower.DepthMM }, 1000},
		{section.HandleRight, plan.Point{1503, 1450}, func(j job.Job) float64 { return j.Shower.WidthMM }, 1505},
		{section.HandleShower, plan.Point{1000, 1450}, func(j job.Job) float64 { return j.Shower.OffsetMM }, 700},
		{section.HandleDrain, plan.Point{802, 1852}, func(j job.Job) float64 { return j.Drain.OffsetMM }, 100},
		{section.HandleExit, plan.Point{3, 1201}, func(j job.Job) float64 { return j.Waste.Exit.OffsetMM }, 700},
		{section.HandleCorner(1), plan.Point{2501, 2}, func(j job.Job) float64 { return j.Room.Outline[1].X() }, 2500},
	} {
		j := job.New()
		k := section.Drag(j, layout.Of(j, &plan.Shaper{}), c.handle, c.to)
		if got := c.got(k); math.Abs(got-c.want) > 1e-9 {
			t.Errorf("%s: %v, want %v", c.handle, got, c.want)
		}
		if p := k.Validate(); len(p) > 0 {
			t.Errorf("%s: %v", c.handle, p)
		}
	}
}

// A dragged turn falls into the angles fittings have: the run stays without
// trouble, though the pointer is some millimetres off.
func TestDragTurn(t *testing.T) {
	j := job.New()
	j.Waste.Exit = job.Exit{Kind: job.ExitPipe, At: plan.Point{300, 400}}
	l := layout.Of(j, &plan.Shaper{})
	corners := waste.Lay(j, l).Corners
	if len(corners) != 3 {
		t.Fatalf("corners %v", corners)
	}
	k := section.Drag(j, l, section.HandleTurn(0), corners[1].Add(plan.Point{9, -12}))
	if len(k.Waste.Waypoints) != 1 || k.Waste.Waypoints[0].Sub(corners[1]).Len() > 1e-6 {
		t.Errorf("turn at %v, want it back at %v", k.Waste.Waypoints, corners[1])
	}
	if r := waste.Lay(k, l); len(r.Trouble) > 0 {
		t.Errorf("trouble %v", r.Trouble)
	}
	far := section.Drag(j, l, section.HandleTurn(0), plan.Point{450, 1500})
	if r := waste.Lay(far, l); len(far.Waste.Waypoints) != 1 || len(r.Trouble) == 0 {
		t.Error("a turn dragged far off is not as drawn, with what is wrong")
	}
	if same := section.Drag(j, l, section.HandleTurn(7), plan.Point{}); len(same.Waste.Waypoints) != 0 {
		t.Error("a turn that is not there was moved")
	}
}
