package edit_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/plan"
	"underfall/geometry/waste"
)

// Dragging each handle moves what it holds and nothing else.
func TestDrag(t *testing.T) {
	for _, c := range []struct {
		handle edit.Handle
		to     plan.Point
		held   func(*job.Job) *float64
		want   float64
	}{
		{edit.Handle{Kind: edit.HandleDepth}, plan.Point{700, 898}, func(j *job.Job) *float64 { return &j.Shower.DepthMM }, 1000},
		{edit.Handle{Kind: edit.HandleRight}, plan.Point{1503, 1450}, func(j *job.Job) *float64 { return &j.Shower.WidthMM }, 1505},
		{edit.Handle{Kind: edit.HandleShower}, plan.Point{1000, 1450}, func(j *job.Job) *float64 { return &j.Shower.OffsetMM }, 700},
		{edit.Handle{Kind: edit.HandleDrain}, plan.Point{802, 1852}, func(j *job.Job) *float64 { return &j.Drain.OffsetMM }, 100},
		{edit.Handle{Kind: edit.HandleExit}, plan.Point{3, 1201}, func(j *job.Job) *float64 { return &j.Waste.Exit.OffsetMM }, 700},
		{edit.Handle{Kind: edit.HandleCorner, Index: 1}, plan.Point{2501, 2}, func(j *job.Job) *float64 { return &j.Room.Outline[1][0] }, 2500},
	} {
		j := job.New()
		k := edit.Drag(c.handle, c.to).Apply(j)
		want := j.Clone()
		*c.held(&want) = c.want
		if c.handle.Kind == edit.HandleRight {
			// The shower is counted from the wall's right end, at 2400, and its left
			// side stays where it is.
			want.Shower.OffsetMM = 2400 - 1505
		}
		if diff := cmp.Diff(want, k, cmpopts.EquateApprox(0, 1e-9)); diff != "" {
			t.Errorf("%+v: what was to be is not what is:\n%s", c.handle, diff)
		}
		if p := k.Validate(); len(p) > 0 {
			t.Errorf("%+v: %v", c.handle, p)
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
	k := edit.Drag(edit.Handle{Kind: edit.HandleTurn, Index: 0}, corners[1].Add(plan.Point{9, -12})).Apply(j)
	if len(k.Waste.Waypoints) != 1 || k.Waste.Waypoints[0].Sub(corners[1]).Len() > 1e-6 {
		t.Errorf("turn at %v, want it back at %v", k.Waste.Waypoints, corners[1])
	}
	if r := waste.Lay(k, l); len(r.Trouble) > 0 {
		t.Errorf("trouble %v", r.Trouble)
	}
	far := edit.Drag(edit.Handle{Kind: edit.HandleTurn, Index: 0}, plan.Point{450, 1500}).Apply(j)
	if r := waste.Lay(far, l); len(far.Waste.Waypoints) != 1 || len(r.Trouble) == 0 {
		t.Error("a turn dragged far off is not as drawn, with what is wrong")
	}
	if same := edit.Drag(edit.Handle{Kind: edit.HandleTurn, Index: 7}, plan.Point{}).Apply(j); len(same.Waste.Waypoints) != 0 {
		t.Error("a turn that is not there was moved")
	}
}

// A dragged exit level sets the fall, to half a millimetre.
func TestDragLong(t *testing.T) {
	j := edit.DragLong(edit.Handle{Kind: edit.HandleExitLevel}, 600, -12.6).Apply(job.New())
	if mm, ok := j.Waste.Exit.Level.ExactlyMM(); !ok || mm != -12.5 {
		t.Errorf("%v", j.Waste.Exit.Level)
	}
	j.Waste.Fittings = []job.Fitting{{AtMM: 300}, {AtMM: 100}}
	k := edit.DragLong(edit.Handle{Kind: edit.HandleFitting, Index: 1}, 152, 0).Apply(j)
	if k.Waste.Fittings[1].AtMM != 150 || k.Waste.Fittings[0].AtMM != 300 {
		t.Errorf("%+v", k.Waste.Fittings)
	}
}

// A turn dragged onto its neighbour is still the one that is dragged: the run
// as laid leaves one of the two out, the handles do not.
func TestTurnDraggedOverAnother(t *testing.T) {
	j := job.New()
	j.Waste.Exit = job.Exit{Kind: job.ExitPipe, At: plan.Point{300, 400}}
	j.Waste.Waypoints = []plan.Point{{900, 1400}, {900, 800}, {300, 800}}
	drag := func(j job.Job, to plan.Point) job.Job {
		return edit.Drag(edit.Handle{Kind: edit.HandleTurn, Index: 1}, to).Apply(j)
	}
	over := drag(j, plan.Point{900, 1400})
	if n := len(waste.Lay(over, layout.Of(over, &plan.Shaper{})).Corners); n != 4 || len(over.Waste.Waypoints) != 3 {
		t.Fatalf("%d corners, turns %v", n, over.Waste.Waypoints)
	}
	back := drag(over, plan.Point{900, 800})
	if back.Waste.Waypoints[1].Sub(plan.Point{900, 800}).Len() > 1e-6 || back.Waste.Waypoints[2] != j.Waste.Waypoints[2] {
		t.Errorf("dragged over and back the turns are %v", back.Waste.Waypoints)
	}
}
