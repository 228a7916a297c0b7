package waste_test

import (
	"math"
	"testing"

	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/part"
	"underfall/geometry/plan"
	"underfall/geometry/waste"
)

// near fails unless a number is as worked out by hand.
func near(t *testing.T, what string, got, want float64) {
	t.Helper()
	if !(math.Abs(got-want) <= 1e-6) {
		t.Errorf("%s is %v, want %v", what, got, want)
	}
}

// nearPoint is near for a place or a direction.
func nearPoint(t *testing.T, what string, got, want plan.Point) {
	t.Helper()
	if !(got.Sub(want).Len() <= 1e-6) {
		t.Errorf("%s is %v, want %v", what, got, want)
	}
}

// frame is how a plan lies: turned about the origin, then moved.
type frame struct {
	turnDeg float64
	by      plan.Point
}

func frames() []frame { return []frame{{}, {30, plan.Point{700, -300}}, {200, plan.Point{-50, 1000}}} }

func (f frame) vector(v plan.Point) plan.Point {
	s, c := math.Sincos(f.turnDeg * math.Pi / 180)
	return plan.Point{c*v.X() - s*v.Y(), s*v.X() + c*v.Y()}
}

func (f frame) point(p plan.Point) plan.Point { return f.vector(p).Add(f.by) }

// run is what a test states of a run: it starts at the origin, to the right.
// The bends are 25 and 45 from centre to face, the pipe is 50 over 46.
type run struct {
	turns    []plan.Point
	exit     plan.Point
	out      plan.Point // the way out through a wall 100 thick; zero for a pipe end
	floor    bool       // the exit drops through the floor
	fittings []job.Fitting
	joint    float64 // how long the trap's joint is, 64 across
}

func (r run) lay(f frame) waste.Run {
	w := job.Waste{Pipe: part.Pipe{NominalMM: 50, OutsideDiameterMM: 50, BoreMM: 46, SocketOutsideMM: 57, Bend45FaceMM: 25, Bend90FaceMM: 45}, Fittings: r.fittings}
	for _, p := range r.turns {
		w.Waypoints = append(w.Waypoints, f.point(p))
	}
	l := layout.Layout{Outlet: f.point(plan.Point{}), OutletTo: f.vector(plan.Point{1, 0})}
	w.Exit = job.Exit{Kind: job.ExitPipe, At: f.point(r.exit)}
	if r.floor {
		w.Exit.Kind = job.ExitFloor
	}
	if r.out != (plan.Point{}) {
		// The exit is 200 along the second wall.
		along := plan.Left(r.out)
		wall := layout.Wall{Index: 1, A: f.point(r.exit.Sub(along.Mul(200))), Along: f.vector(along), Outward: f.vector(r.out), LengthMM: 900, ThicknessMM: 100}
		l.Walls = []layout.Wall{{ThicknessMM: 300, Outward: f.vector(r.out.Mul(-1))}, wall}
		w.Exit = job.Exit{Kind: job.ExitWall, Wall: 1, OffsetMM: 200}
	}
	return waste.Lay(job.Job{Waste: w, Drain: job.Drain{OutletJointMM: r.joint, OutletJointOutsideMM: 64}}, l)
}

// cornersAre fails unless the run turns just there.
func cornersAre(t *testing.T, what string, r waste.Run, f frame, want ...plan.Point) {
	t.Helper()
	if len(r.Corners) != len(want) {
		t.Errorf("%s: %d corners %v, want %d", what, len(r.Corners), r.Corners, len(want))
		return
	}
	for i, p := range want {
		nearPoint(t, what+", a corner", r.Corners[i], f.point(p))
	}
}

// kinds of the pieces of a run, in order.
func kinds(r waste.Run) (out []waste.Kind) {
	for _, p := range r.Pieces {
		out = append(out, p.Kind)
	}
	return out
}
