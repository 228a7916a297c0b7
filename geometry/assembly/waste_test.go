package assembly_test

import (
	"math"
	"testing"

	"github.com/go-gl/mathgl/mgl64"
	"underfall/geometry/demotest"
	"underfall/geometry/job"
	"underfall/geometry/part"
	"underfall/geometry/plan"
	"underfall/geometry/solid"
)

// shells are the closed bodies that a part of the run is made of.
func (b built) shells(id string) []solid.Shape {
	b.t.Helper()
	if c, ok := b.part(id).Shape.(solid.Compound); ok {
		return c
	}
	return []solid.Shape{b.part(id).Shape}
}

// tube is one of the shells of a part, a pipe or a socket, and its path's ends.
func (b built) tube(id string, n int) (pipe solid.Tube, from, to mgl64.Vec3) {
	b.t.Helper()
	shells := b.shells(id)
	if n >= len(shells) {
		b.t.Fatalf("%s has %d shells, no %d", id, len(shells), n)
	}
	pipe, ok := shells[n].(solid.Tube)
	if !ok {
		b.t.Fatalf("shell %d of %s is no pipe", n, id)
	}
	return pipe, pipe.Path[0], pipe.Path[len(pipe.Path)-1]
}

// pipe holds a part that is a pipe and nothing else.
func (b built) pipe(id string, outsideMM, insideMM float64, from, to mgl64.Vec3, lengthMM float64) {
	b.t.Helper()
	if n := len(b.shells(id)); n != 1 {
		b.t.Errorf("%s has %d shells", id, n)
	}
	b.shell(id, 0, outsideMM, insideMM, from, to, lengthMM)
}

// shell holds a pipe's or a socket's radii, ends and volume: the ring between the radii
// along its middle, which a mitre or a bend does not change (Pappus, and Guldin). The
// polygon that a circle of this size comes out as has 0.25 % less.
func (b built) shell(id string, n int, outsideMM, insideMM float64, from, to mgl64.Vec3, lengthMM float64) {
	b.t.Helper()
	p, first, last := b.tube(id, n)
	if math.Abs(p.OutsideRadiusMM-outsideMM) > 1e-9 || math.Abs(p.InsideRadiusMM-insideMM) > 1e-9 {
		b.t.Errorf("%s, %d: radii of %v and %v, want %v and %v", id, n, p.OutsideRadiusMM, p.InsideRadiusMM, outsideMM, insideMM)
	}
	if first.Sub(from).Len() > 1e-3 || last.Sub(to).Len() > 1e-3 {
		b.t.Errorf("%s, %d, runs from %v to %v, want %v to %v", id, n, first, last, from, to)
	}
	whole := math.Pi * (outsideMM*outsideMM - insideMM*insideMM) * lengthMM
	if got := p.Volume(); got < whole*(1-0.0035) || got > whole*(1+1e-6) {
		b.t.Errorf("%s, %d: %v mm³, want %v and what chords take off it", id, n, got, whole)
	}
}

// sloped is how long what goes so far in plan is at a slope of 1:40.
func sloped(planMM float64) float64 { return planMM * math.Sqrt(1601) / 40 }

// One straight from the outlet through the wall and 60 past it: 645 + 215 + 60 =
// 920 in plan at 1:40, its middle 23 over its invert.
func TestStraightPipe(t *testing.T) {
	b := build(t, nil)
	b.pipe("run-straight-1", 25, 23, mgl64.Vec3{645, 1832, 43}, mgl64.Vec3{-275, 1832, 20}, math.Hypot(920, 23))
	b.none("run-straight-2", "run-bend-1")
	if p, _, _ := b.tube("run-straight-1", 0); len(p.Path) != 2 {
		t.Errorf("a straight of %d corners", len(p.Path))
	}
}

// A turn at (300, 1832): 300 of pipe, a bend of 45 from centre to face, 45·π/2 = 70.686
// long by its faces, and pipe from (300, 1787) to (300, 1600), all falling 1:40. Pipe
// goes 20 in, but sockets of 28.5 in radius that keep a millimetre between them on the
// inner side end 29.5 from both sides of the corner: 45 − 29.5 = 15.5 deep. Between the
// pipes' ends the bend is an arc of 29.5 about (329.5, 1802.5). Pappus: each ring's area
// times the way of its middle.
func TestBend(t *testing.T) {
	b := build(t, func(j *job.Job) { j.Waste.Exit = job.Exit{Kind: job.ExitPipe, At: plan.Point{300, 1600}} })
	in, down := 15.5, 15.5/40.0
	round := 45 * math.Pi / 2
	face, end := 35.5, 35.5-round/40 // levels of the middle at both faces
	from, to := mgl64.Vec3{345 - in, 1832, face - down}, mgl64.Vec3{300, 1787 + in, end + down}
	b.pipe("run-straight-1", 25, 23, mgl64.Vec3{645, 1832, 43}, from, sloped(315.5))
	if n := len(b.shells("run-bend-2")); n != 3 {
		t.Fatalf("a bend of %d shells", n)
	}
	arc := 29.5 * math.Pi / 2
	b.shell("run-bend-2", 0, 25, 23, from, to, math.Hypot(arc, face-end-2*down))
	b.shell("run-bend-2", 1, 28.5, 25, mgl64.Vec3{345, 1832, face}, from, sloped(15.5))
	b.shell("run-bend-2", 2, 28.5, 25, to, mgl64.Vec3{300, 1787, end}, sloped(15.5))
	b.pipe("run-straight-3", 25, 23, to, mgl64.Vec3{300, 1600, end - 187.0/40}, sloped(202.5))
	// Every corner between lies on the arc, and as much lower as it is farther along.
	p, _, _ := b.tube("run-bend-2", 0)
	along := 0.0
	for i, q := range p.Path {
		if i > 0 {
			along += math.Hypot(q.X()-p.Path[i-1].X(), q.Y()-p.Path[i-1].Y())
		}
		if r := math.Hypot(q.X()-329.5, q.Y()-1802.5); math.Abs(r-29.5) > 1e-3 || math.Abs(q.Z()-(face-down-along/arc*(face-end-2*down))) > 1e-3 {
			t.Errorf("corner %d of the bend at %v, %v from its middle", i, q, r)
		}
	}
	if n := len(p.Path); n < 10 {
		t.Errorf("a bend of %d corners", n)
	}
	// As sold for a pipe of 50: sockets 30 deep of a face of 60 leave 30.
	b = build(t, func(j *job.Job) {
		j.Waste.Exit = job.Exit{Kind: job.ExitPipe, At: plan.Point{300, 1600}}
		j.Waste.InsertionMM, j.Waste.Bend90FaceMM, j.Waste.SocketOutsideMM = 30, 60, 58
	})
	in, down = 30.0, 0.75
	b.shell("run-bend-2", 1, 29, 25, mgl64.Vec3{360, 1832, 43 - 285.0/40}, mgl64.Vec3{360 - in, 1832, 43 - 285.0/40 - down}, sloped(30))
}

// A bend of 20 is tighter than its pipe is thick, 25 and a millimetre: it has one corner
// and no sockets. One of 26 has its arc, but no room for sockets of 28.5 and a millimetre
// beside each other; one of 29.5 neither, and one of 31 for 1.5 of them.
func TestTightBend(t *testing.T) {
	for face, c := range map[float64]struct {
		arc    bool
		shells int
	}{20: {false, 1}, 26.1: {true, 1}, 29.5: {true, 1}, 31: {true, 3}} {
		b := build(t, func(j *job.Job) {
			j.Waste.Bend90FaceMM = face
			j.Waste.Exit = job.Exit{Kind: job.ExitPipe, At: plan.Point{300, 1600}}
		})
		if p, _, _ := b.tube("run-bend-2", 0); len(p.Path) > 3 != c.arc || len(b.shells("run-bend-2")) != c.shells {
			t.Errorf("a bend of %v has %d corners and %d shells", face, len(p.Path), len(b.shells("run-bend-2")))
		}
		if c.shells > 1 {
			in, down := 1.5, 1.5/40.0
			b.shell("run-bend-2", 1, 28.5, 25, mgl64.Vec3{331, 1832, 43 - 314.0/40}, mgl64.Vec3{331 - in, 1832, 43 - 314.0/40 - down}, sloped(1.5))
		}
	}
}

// A reducer from 50 to 40 over 60, 20 of pipe in each end: its own wall from (425, …) to
// (405, …) is frustums of π/3·20·(R² + R·r + r²) outside less inside, R 25 to 20, 23 to
// 18, its middles 23 and 18 over inverts that fall 1:40: the right way round nothing
// steps. Its sockets are rings of 28.5 over 25 and of 23.5 over 20.
func TestReducer(t *testing.T) {
	reduce := func(reversed bool) func(*job.Job) {
		return func(j *job.Job) {
			j.Waste.Fittings = []job.Fitting{{Kind: job.FittingReducer, AtMM: 200, LengthMM: 60, Reversed: reversed, Pipe: part.Pipe{
				NominalMM: 40, OutsideDiameterMM: 40, BoreMM: 36, SocketOutsideMM: 40 + 7, InsertionMM: 20,
			}}}
		}
	}
	in, down := 20.0, 0.5
	b := build(t, reduce(false))
	from, to := mgl64.Vec3{445 - in, 1832, 38 - down}, mgl64.Vec3{385 + in, 1832, 31.5 + down}
	b.pipe("run-straight-1", 25, 23, mgl64.Vec3{645, 1832, 43}, from, sloped(220))
	taper := b.shells("run-reducer-2")[0].(solid.Taper)
	if taper.From.Sub(from).Len() > 1e-9 || taper.To.Sub(to).Len() > 1e-9 {
		t.Errorf("the reducer runs from %v to %v", taper.From, taper.To)
	}
	if taper.FromOutsideRadiusMM != 25 || taper.ToOutsideRadiusMM != 20 || taper.FromInsideRadiusMM != 23 || taper.ToInsideRadiusMM != 18 {
		t.Errorf("a reducer of %+v", taper)
	}
	whole := math.Pi / 3 * (60 - 2*in) * ((25*25 + 25*20 + 20*20) - (23*23 + 23*18 + 18*18))
	if got := taper.Volume(); got < whole*(1-0.0035) || got > whole {
		t.Errorf("a reducer of %v mm³, want %v", got, whole)
	}
	b.shell("run-reducer-2", 1, 28.5, 25, mgl64.Vec3{445, 1832, 38}, from, sloped(20))
	b.shell("run-reducer-2", 2, 23.5, 20, to, mgl64.Vec3{385, 1832, 31.5}, sloped(20))
	b.pipe("run-straight-3", 20, 18, to, mgl64.Vec3{-275, 1832, 31.5 - 660.0/40}, sloped(680))
	// The wrong way round the crowns are level and the invert steps up by 10, between
	// the pipes' ends.
	taper = build(t, reduce(true)).shells("run-reducer-2")[0].(solid.Taper)
	if math.Abs(taper.From.Z()-(38-down)) > 1e-9 || math.Abs(taper.To.Z()-(13.5+10+18+down)) > 1e-9 {
		t.Errorf("reversed, the reducer runs from %v to %v, to 41.5 and what 20 fall", taper.From, taper.To)
	}
	// One of 30 has a stop of 4 between sockets that are 13 deep.
	b = build(t, func(j *job.Job) {
		reduce(false)(j)
		j.Waste.Fittings[0].LengthMM = 30
	})
	in, down = 13.0, 13.0/40
	b.shell("run-reducer-2", 1, 28.5, 25, mgl64.Vec3{445, 1832, 38}, mgl64.Vec3{445 - in, 1832, 38 - down}, sloped(13))
}

// A falling piece of 4 % over 120 has a fall of its own between the pipes in its sockets,
// 20 from both ends, that fall 1:40.
func TestFallingPiece(t *testing.T) {
	b := build(t, func(j *job.Job) {
		j.Waste.Fittings = []job.Fitting{{Kind: job.FittingFallingPiece, AtMM: 100, LengthMM: 120, Slope: 0.04}}
	})
	in, down := 20.0, 0.5
	from, to := mgl64.Vec3{545 - in, 1832, 40.5 - down}, mgl64.Vec3{425 + in, 1832, 35.7 + down}
	b.shell("run-falling-piece-2", 0, 25, 23, from, to, math.Hypot(120-2*in, 4.8-2*down))
	b.shell("run-falling-piece-2", 1, 28.5, 25, mgl64.Vec3{545, 1832, 40.5}, from, sloped(20))
	b.shell("run-falling-piece-2", 2, 28.5, 25, to, mgl64.Vec3{425, 1832, 35.7}, sloped(20))
	b.pipe("run-straight-3", 25, 23, to, mgl64.Vec3{-275, 1832, 35.7 - 17.5}, sloped(720))
}

// A falling piece of 5 % over 120 right behind a joint, in a run that is level, with sockets as deep as can be, 58: of its
// own wall 4 mm would be left for 3.1 mm of its 6 mm of fall, and it would fold over itself there. It runs straight from its
// face to the pipe in its other socket instead, 62 farther on.
func TestFallingPieceBetweenDeepSockets(t *testing.T) {
	b := build(t, func(j *job.Job) {
		j.Drain.OutletJointMM, j.Drain.OutletJointOutsideMM = 1, 57
		j.Waste.Gradient, j.Waste.InsertionMM = 0, 288
		j.Waste.Fittings = []job.Fitting{{Kind: job.FittingFallingPiece, LengthMM: 120, Slope: 0.05}}
	})
	b.shell("run-falling-piece-1", 0, 25, 23, mgl64.Vec3{644, 1832, 43}, mgl64.Vec3{524 + 58, 1832, 37}, math.Hypot(62, 6))
	cut, err := b.part("run-falling-piece-1").Mesh().Slice(solid.VerticalCut(plan.Point{644, 1832}, plan.Point{-1, 0}))
	if err != nil || len(cut) != 6 {
		t.Fatalf("cut along its middle it has %d walls, want 2 and those of two sockets; %v", len(cut), err)
	}
	for _, p := range cut {
		if a, _, bad := p.Outer.CrossingEdges(); bad {
			t.Errorf("its wall crosses itself at %v: %v", p.Outer[a], p.Outer)
		}
	}
}

// The trap's socket is 30 long and 64 across: a ring of 32 over the pipe's 25 all along.
// Pipe goes 20 in; the first 10 are the socket's own bore.
func TestJoint(t *testing.T) {
	joint := func(j *job.Job) { j.Drain.OutletJointMM, j.Drain.OutletJointOutsideMM = 30, 64 }
	b := build(t, joint)
	in, down := 20.0, 0.5
	outlet, end := mgl64.Vec3{645, 1832, 43}, mgl64.Vec3{615, 1832, 42.25}
	from := mgl64.Vec3{615 + in, 1832, 42.25 + down}
	b.shell("run-joint", 0, 25, 23, outlet, from, sloped(10))
	b.shell("run-joint", 1, 32, 25, outlet, end, sloped(30))
	b.pipe("run-straight-1", 25, 23, from, mgl64.Vec3{-275, 1832, 20}, sloped(910))
	// Pipe that goes 35 in goes through it, up to the trap.
	b = build(t, func(j *job.Job) {
		joint(j)
		j.Waste.InsertionMM = 35
	})
	if n := len(b.shells("run-joint")); n != 1 {
		t.Errorf("a joint filled by the pipe has %d shells", n)
	}
	b.shell("run-joint", 0, 32, 25, outlet, end, sloped(30))
	b.pipe("run-straight-1", 25, 23, outlet, mgl64.Vec3{-275, 1832, 20}, math.Hypot(920, 23))
	// No thicker than the pipe it is no ring but pipe.
	b = build(t, func(j *job.Job) { j.Drain.OutletJointMM, j.Drain.OutletJointOutsideMM = 30, 50 })
	b.pipe("run-joint", 25, 23, outlet, end, sloped(30))
	b.pipe("run-straight-1", 25, 23, end, mgl64.Vec3{-275, 1832, 20}, math.Hypot(890, 22.25))
	// A fitting right after it has the joint's wall up to its face, and its own from there.
	b = build(t, func(j *job.Job) {
		joint(j)
		j.Waste.Fittings = []job.Fitting{{Kind: job.FittingFallingPiece, LengthMM: 120, Slope: 0.04}}
	})
	b.shell("run-joint", 0, 25, 23, outlet, end, sloped(30))
	in, down = 20.0, 0.5
	b.shell("run-falling-piece-1", 0, 25, 23, end, mgl64.Vec3{495 + in, 1832, 37.45 + down}, 20*math.Hypot(1, 0.04)+math.Hypot(100-in, 4-down))
}

// A drop at (300, 1832): 300 of pipe to the bend of 45, whose middle turns down and goes
// on to 100 below the slab, at −250. The invert lies at 12.5 at its face, the middle at
// 35.5. Pipe goes 15.5 into the bend, as into one that lies flat; from there the middle
// turns over 29.5, and the lower socket is 15.5 long.
func TestDrop(t *testing.T) {
	drop := func(j *job.Job) { j.Waste.Exit = job.Exit{Kind: job.ExitFloor, At: plan.Point{300, 1832}} }
	b := build(t, drop)
	in, down := 15.5, 15.5/40.0
	from := mgl64.Vec3{345 - in, 1832, 35.5 - down}
	turned := from.Z() - 29.5
	b.shell("run-drop-2", 0, 25, 23, from, mgl64.Vec3{300, 1832, -250}, 29.5*math.Pi/2+250+turned)
	b.shell("run-drop-2", 1, 28.5, 25, mgl64.Vec3{345, 1832, 35.5}, from, sloped(15.5))
	b.shell("run-drop-2", 2, 28.5, 25, mgl64.Vec3{300, 1832, turned}, mgl64.Vec3{300, 1832, turned - 15.5}, 15.5)
	p, _, _ := b.tube("run-drop-2", 0)
	if n := len(p.Path); n != 20 {
		t.Errorf("the drop's bend has %d chords, want one for each 5°", n-2)
	}
	for i, q := range p.Path[:len(p.Path)-1] {
		if r := math.Hypot(q.X()-329.5, q.Z()-turned); math.Abs(r-29.5) > 1e-3 {
			t.Errorf("corner %d of the drop at %v, %v from its middle", i, q, r)
		}
	}
	b.pipe("run-straight-1", 25, 23, mgl64.Vec3{645, 1832, 43}, from, sloped(315.5))
	b.none("run-straight-2", "run-straight-3")
	// On joists it goes to 100 under them.
	b = build(t, func(j *job.Job) {
		onJoists(j)
		drop(j)
	})
	if _, _, to := b.tube("run-drop-2", 0); to != (mgl64.Vec3{300, 1832, -317}) {
		t.Errorf("on joists the drop ends at %v", to)
	}
	// A bend of 100 that reaches lower than a slab of 20 goes 100 down from its
	// own end: the middle at 20 − 245/40 + 23, less 100, less 100.
	b = build(t, func(j *job.Job) {
		drop(j)
		j.Floor.SlabThicknessMM, j.Waste.Bend90FaceMM = 20, 100
	})
	if _, _, to := b.tube("run-drop-2", 0); math.Abs(to.Z()-(20-245.0/40+23-200)) > 1e-9 {
		t.Errorf("below a thin slab the drop ends at %v", to)
	}
	// Behind a reducer it is a bend of the pipe there: of 30 in place of 45, tighter than
	// sockets of 23.5 in radius and a millimetre leave room for beyond 5.5.
	b = build(t, func(j *job.Job) {
		drop(j)
		j.Waste.Fittings = []job.Fitting{{Kind: job.FittingReducer, AtMM: 100, LengthMM: 60, Pipe: part.Pipe{
			NominalMM: 40, OutsideDiameterMM: 40, BoreMM: 36, SocketOutsideMM: 47, InsertionMM: 20, Bend45FaceMM: 20, Bend90FaceMM: 30,
		}}}
	})
	in, down = 5.5, 5.5/40.0
	b.shell("run-drop-4", 1, 23.5, 20, mgl64.Vec3{330, 1832, 20 - 315.0/40 + 18}, mgl64.Vec3{330 - in, 1832, 20 - 315.0/40 + 18 - down}, sloped(5.5))
}

// Round a drop the base is sawn out for its bend and socket, and a wide socket has the
// hole in the slab as wide: no point of theirs lies in either.
func TestRoomRoundADrop(t *testing.T) {
	for _, socket := range []float64{57, 70} {
		b := build(t, func(j *job.Job) {
			j.Waste.Exit = job.Exit{Kind: job.ExitFloor, At: plan.Point{300, 1500}}
			j.Waste.SocketOutsideMM, j.Waste.Bend90FaceMM = socket, 80
		})
		at := func(x, y, z float64) mgl64.Vec3 { return mgl64.Vec3{300 + x, 1500 + y, z} }
		reach := socket/2 - 0.1
		for _, q := range []mgl64.Vec3{at(reach, 0, 5), at(-reach, 0, 5), at(0, reach, 5), at(0, -reach, 5), at(reach, 0, 40), at(0, -reach, 40)} {
			if demotest.Holds(b.part("base").Mesh(), q) {
				t.Errorf("a socket of %v: the base holds %v", socket, q)
			}
			if q = q.Sub(mgl64.Vec3{0, 0, 50}); demotest.Holds(b.part("slab").Mesh(), q) {
				t.Errorf("a socket of %v: the slab holds %v", socket, q)
			}
		}
	}
}
