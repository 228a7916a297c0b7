package geometry_test

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"testing"

	"underfall/geometry"
	"underfall/geometry/assembly"
	"underfall/geometry/demotest"
	"underfall/geometry/job"
	"underfall/geometry/part"
	"underfall/geometry/plan"
	"underfall/geometry/solid"
)

// single are the bodies a part is made of, each by itself.
func single(s solid.Shape) []solid.Shape {
	if c, ok := s.(solid.Compound); ok {
		var out []solid.Shape
		for _, shape := range c {
			out = append(out, single(shape)...)
		}
		return out
	}
	return []solid.Shape{s}
}

// socketed is a room whose waste has a joint at the trap, bends, a reducer and a falling
// piece, all with deep sockets, and drops through the floor or ends in a pipe.
func socketed(j job.Job, exit job.Exit) job.Job {
	j = j.Clone()
	w := &j.Waste
	w.SocketOutsideMM, w.InsertionMM, w.Bend45FaceMM, w.Bend90FaceMM = w.OutsideDiameterMM+12, 30, 46, 64
	j.Drain.OutletJointMM, j.Drain.OutletJointOutsideMM = 30, w.OutsideDiameterMM+14
	j.Drain.ChannelDepthMM = 20
	w.Waypoints, w.Exit = nil, exit
	larger := part.Pipe{NominalMM: 75, OutsideDiameterMM: 75, BoreMM: 70, SocketOutsideMM: 90, InsertionMM: 40, Bend45FaceMM: 60, Bend90FaceMM: 92}
	w.Fittings = []job.Fitting{{Kind: job.FittingFallingPiece, LengthMM: 120, Slope: 0.06}, {Kind: job.FittingReducer, AtMM: 700, LengthMM: 110, Pipe: larger}}
	return j
}

// layered has layers of every list, found ones that stay and that go, and tanking that
// reaches part of the way, on a slab that is set down.
func layered(exit job.Exit) job.Job {
	course := func(k job.CourseKind, mm float64) job.Course {
		return job.Course{Kind: k, Layer: job.Layer{ThicknessMM: mm, ToleranceMM: 1}}
	}
	beyond := 300.0
	j := job.New()
	j.Floor.SetDownMM, j.Waste.Exit, j.Waste.Waypoints = 40, exit, nil
	j.Floor.Existing = []job.Existing{{Kind: job.ExistingMembrane, ThicknessMM: 1, Out: job.OutNowhere}, {Kind: job.ExistingScreed, ThicknessMM: 30, Out: job.OutShower}}
	j.Base.Under = []job.Course{course(job.CourseLevelling, 5), course(job.CourseInsulation, 20)}
	j.Layers.Shower.Under = []job.Course{course(job.CourseHeating, 6)}
	j.Layers.Room.Under = []job.Course{course(job.CourseDecoupling, 3), course(job.CourseHeating, 6)}
	j.Layers.Wall.Under = []job.Course{course(job.CourseLining, 12.5)}
	j.Drain.WallClearanceMM = 25.5
	j.Layers.Tanking = &job.Tanking{WallToMM: 1800, BeyondMM: &beyond, DoorStopMM: 5}
	j.Layers.Joints = &job.Joints{PerimeterMM: 8, AtEdge: true}
	return j
}

// inStudWall tells whether one of two parts is a stack and the other the stud wall that it
// stands in: the wall is drawn full, and is hollow between its studs.
func inStudWall(r geometry.Result, a, b assembly.Part) bool {
	for i, s := range r.Layout.Stacks {
		for k, w := range r.Layout.Walls {
			if r.Settled.Room.Walls[k].Kind == job.WallStud && w.Footprint().Contains(s.At, 0) && a.ID == fmt.Sprintf("stack-%d", i+1) && b.ID == fmt.Sprintf("wall-%d", k+1) {
				return true
			}
		}
	}
	return false
}

// boxedIn are jobs whose waste lies in a box along the room: to a wall, round a corner, through
// a ramp, down through the floor, to a stack, into a pump and to a pipe.
func boxedIn() map[string]job.Job {
	with := func(exit job.Exit, turnDeg float64, waypoints ...plan.Point) job.Job {
		j := job.New()
		j.Drain.OutletTurnDeg, j.Waste.Waypoints, j.Waste.Exit = turnDeg, waypoints, exit
		j.Waste.Boxing = &job.Boxing{BoardMM: 12, GapMM: 5}
		j.Layers.Joints, j.Layers.Tanking = &job.Joints{PerimeterMM: 8, AtEdge: true}, &job.Tanking{UpturnMM: 25}
		return j
	}
	wall := with(job.Exit{Kind: job.ExitWall, Wall: 1, OffsetMM: 1832}, 0)
	corner := with(job.Exit{Kind: job.ExitWall, Wall: 1, OffsetMM: 700}, 270, plan.Point{700, 700})
	slant := with(job.Exit{Kind: job.ExitWall, Wall: 1, OffsetMM: 1232}, 0, plan.Point{1800, 1832})
	floor := with(job.Exit{Kind: job.ExitFloor, At: plan.Point{700, 500}}, 270)
	pipe := job.Exit{Kind: job.ExitPipe, At: plan.Point{700, 300}}
	ramp := with(pipe, 270)
	ramp.Room.Edge, ramp.Room.RampRunMM = job.EdgeRamp, 500
	stack := with(job.Exit{Kind: job.ExitStack}, 0)
	stack.Room.Stacks = []job.Stack{{At: plan.Point{2250, 1832}, NominalMM: 110, OutsideMM: 110}}
	pump := with(job.Exit{Kind: job.ExitPump, At: plan.Point{1700, 1780}}, 0)
	into := job.UsualPump()
	into.OnStructure, pump.Waste.Pump = true, &into
	sockets := socketed(job.New(), job.Exit{Kind: job.ExitPipe, At: plan.Point{2000, 1600}})
	sockets.Drain.OutletTurnDeg, sockets.Waste.Boxing = 0, &job.Boxing{BoardMM: 12, GapMM: 1}
	return map[string]job.Job{
		"boxed in along a wall": wall, "boxed in round a corner": corner, "boxed in, slanting": slant,
		"boxed in, askew": demotest.Moved(corner, 23.7, plan.Point{311, -77}), "boxed in through a ramp": ramp,
		"boxed in with sockets": sockets, "boxed in, dropping": floor, "boxed in to a stack": stack, "boxed in to a pump": pump,
	}
}

// No two parts of a job that nothing stops share room: where the one would lie in
// the other it is sawn, drilled or recessed for it. manifold-3d intersects all the
// bodies whose bounds meet; a thousandth of a litre is what its single precision
// and the chords of circles leave.
func TestPartsShareNoRoom(t *testing.T) {
	t.Parallel()
	jobs := map[string]job.Job{}
	for _, d := range demotest.Rooms(t)[:5] {
		jobs[d.File] = d.Job
	}
	for _, r := range demotest.Shown(t) {
		if !r.Stops() {
			jobs["demo "+r.Stated.Name] = r.Stated
		}
	}
	askew := demotest.Moved(demotest.Rooms(t)[2].Job, 23.7, plan.Point{311, -77})
	jobs["let in, in a room that stands askew"] = askew
	ramp := demotest.Rooms(t)[4].Job.Clone()
	ramp.Room.Edge = job.EdgeRamp
	jobs["with a ramp"] = ramp
	paned := job.New()
	paned.Room.Edge, paned.Room.RampRunMM = job.EdgeRamp, 900
	paned.Shower.Screens = append(paned.Shower.Screens, job.Screen{Kind: job.ScreenPane, Side: job.SideFront, OffsetMM: 0, WidthMM: 700, HeightMM: 2000, ThicknessMM: 8, GapMM: 4})
	jobs["with a ramp beside a pane"] = paned
	noggins := demotest.Rooms(t)[2].Job.Clone()
	noggins.Base.NogginSpacingMM = 400
	jobs["with noggins"] = noggins
	trimmed := demotest.Rooms(t)[2].Job.Clone()
	trimmed.Base.NogginSpacingMM, trimmed.Floor.Joists.Trims = 400, []job.Trim{{Joist: 4, FromMM: 300, ToMM: 700}, {Joist: 2, FromMM: 700, ToMM: 1300}}
	jobs["with joists cut and trimmed"] = trimmed
	two := demotest.Rooms(t)[2].Job.Clone()
	demotest.AcrossJoists(&two, 150)
	two.Base.NogginSpacingMM, two.Floor.Joists.Trims = 400, []job.Trim{{Joist: 2, Further: 1, ToMM: 600}}
	jobs["with two joists cut for one opening"] = two
	jobs["with two joists cut, askew"] = demotest.Moved(two, 23.7, plan.Point{311, -77})
	loft := demotest.Rooms(t)[1].Job.Clone()
	loft.Floor.Joists.Trims = []job.Trim{{Joist: 3, Further: 1, FromMM: 1300, ToMM: 1700}, {Joist: 6, ToMM: 500}}
	jobs["with joists cut under a base on the floor"] = loft
	plain := job.New()
	kerb := job.New()
	kerb.Shower.Kerb, kerb.Former.Ends = &job.Kerb{HeightMM: 60, WidthMM: 100}, job.EndsFalling
	jobs["with a kerb and falling ends"] = kerb
	kerbed := ramp.Clone()
	kerbed.Shower.Kerb = &job.Kerb{HeightMM: 40, WidthMM: 80}
	jobs["with a kerb before a ramp"] = kerbed
	ledgers := demotest.Rooms(t)[2].Job.Clone()
	ledgers.Base.LedgerWidthMM, ledgers.Base.LedgerDepthMM, ledgers.Base.NogginSpacingMM = 50, 50, 400
	ledgers.Shower.Kerb = &job.Kerb{HeightMM: 40, WidthMM: 80}
	jobs["let in on wide ledgers, with a kerb"] = ledgers
	stacks := job.New()
	stacks.Room.Stacks = []job.Stack{{At: plan.Point{-330, 1832}, NominalMM: 110, OutsideMM: 110}, {At: plan.Point{1600, 1500}, NominalMM: 110, OutsideMM: 110},
		{At: plan.Point{1000, 1300}, NominalMM: 110, OutsideMM: 110}}
	stacks.Layers.Joints = &job.Joints{PerimeterMM: 8}
	stacks.Layers.Tanking = &job.Tanking{UpturnMM: 25}
	stacks.Waste.Exit = job.Exit{Kind: job.ExitStack}
	stacks.Shower.Kerb = &job.Kerb{HeightMM: 60, WidthMM: 100}
	jobs["with stacks and a kerb"] = stacks
	jobs["with sockets"] = socketed(plain, job.Exit{Kind: job.ExitPipe, At: plan.Point{300, 1050}})
	jobs["with sockets, dropping"] = socketed(plain, job.Exit{Kind: job.ExitFloor, At: plan.Point{300, 1100}})
	jobs["layers everywhere, in a slab set down"] = layered(job.Exit{Kind: job.ExitFloor, At: plan.Point{300, 1100}})
	boxed := boxedIn()
	maps.Copy(jobs, boxed)
	var shared []manifoldShared
	for name, j := range jobs {
		r := geometry.Evaluate(j, demotest.Packs(t)[j.Region])
		if len(r.Problems) > 0 {
			t.Fatalf("%s: %v", name, r.Problems)
		}
		parts := r.Assembly.Parts
		if _, want := boxed[name]; want != slices.ContainsFunc(parts, func(p assembly.Part) bool { return p.ID == "boxing-1" }) {
			t.Errorf("%s: whether there is a box is not %v", name, want)
		}
		for i, a := range parts {
			for _, b := range parts[:i] {
				if !a.Bounds().Meets(b.Bounds()) || inStudWall(r, a, b) {
					continue
				}
				for n, s := range single(a.Shape) {
					for k, o := range single(b.Shape) {
						if s.Bounds().Meets(o.Bounds()) {
							what := fmt.Sprintf("%s: %s (%d) and %s (%d)", name, a.ID, n, b.ID, k)
							shared = append(shared, manifoldShared{what, asManifoldMesh("a", s.Mesh()), asManifoldMesh("b", o.Mesh())})
						}
					}
				}
			}
		}
	}
	const leastMM3 = 1000
	for _, a := range askManifold(t, nil, nil, nil, shared...) {
		if !(math.Abs(a.Volume) < leastMM3) {
			t.Errorf("%s share %.0f mm³ (%s)", a.Name, a.Volume, a.Status)
		}
	}
	t.Logf("%d pairs of bodies intersected", len(shared))
}
