package assembly_test

import (
	"math"
	"testing"

	"github.com/go-gl/mathgl/mgl64"
	"underfall/geometry/job"
	"underfall/geometry/part"
	"underfall/geometry/plan"
	"underfall/geometry/solid"
)

// tube is the pipe that a part is, and its path's ends.
func (b built) tube(id string) (pipe solid.Tube, from, to mgl64.Vec3) {
	b.t.Helper()
	pipe, ok := b.part(id).Shape.(solid.Tube)
	if !ok {
		b.t.Fatalf("%s is no pipe", id)
	}
	return pipe, pipe.Path[0], pipe.Path[len(pipe.Path)-1]
}

// pipe holds a pipe's radii, ends and volume: the ring between the radii along
// its middle, which a mitre or a bend does not change (Pappus, and Guldin). The
// polygon that a circle of this size comes out as has 0.25 % less.
func (b built) pipe(id string, outsideMM, insideMM float64, from, to mgl64.Vec3, lengthMM float64) {
	b.t.Helper()
	p, first, last := b.tube(id)
	if p.OutsideRadiusMM != outsideMM || p.InsideRadiusMM != insideMM {
		b.t.Errorf("%s: radii of %v and %v, want %v and %v", id, p.OutsideRadiusMM, p.InsideRadiusMM, outsideMM, insideMM)
	}
	if first.Sub(from).Len() > 1e-6 || last.Sub(to).Len() > 1e-6 {
		b.t.Errorf("%s runs from %v to %v, want %v to %v", id, first, last, from, to)
	}
	whole := math.Pi * (outsideMM*outsideMM - insideMM*insideMM) * lengthMM
	b.between(id, whole*(1-0.0035), whole)
}

// One straight from the outlet through the wall and 60 past it: 645 + 215 + 60 =
// 920 in plan at 1:40, its middle 23 over its invert.
func TestStraightPipe(t *testing.T) {
	b := build(t, nil)
	b.pipe("run-straight-1", 25, 23, mgl64.Vec3{645, 1832, 43}, mgl64.Vec3{-275, 1832, 20}, math.Hypot(920, 23))
	b.none("run-straight-2", "run-bend-1")
	if p, _, _ := b.tube("run-straight-1"); len(p.Path) != 2 {
		t.Errorf("a straight of %d corners", len(p.Path))
	}
}

// A turn at (300, 1832): 300 of pipe, a bend of 45 in radius, 70.686 long round
// its middle, and pipe from (300, 1787) to (300, 1600). Pappus: the ring between
// 25 + 3.5 and 23 times the way of its middle. All fall 1:40.
func TestBend(t *testing.T) {
	b := build(t, func(j *job.Job) { j.Waste.Exit = job.Exit{Kind: job.ExitPipe, At: plan.Point{300, 1600}} })
	b.pipe("run-straight-1", 25, 23, mgl64.Vec3{645, 1832, 43}, mgl64.Vec3{345, 1832, 35.5}, math.Hypot(300, 7.5))
	p, from, to := b.tube("run-bend-2")
	round := 45 * math.Pi / 2
	whole := math.Pi * (28.5*28.5 - 23*23) * round * math.Sqrt(1+1.0/1600)
	b.between("run-bend-2", whole*(1-0.0035), whole)
	if p.OutsideRadiusMM != 28.5 || p.InsideRadiusMM != 23 || from.Sub(mgl64.Vec3{345, 1832, 35.5}).Len() > 1e-6 || to.Sub(mgl64.Vec3{300, 1787, 35.5 - round/40}).Len() > 1e-3 {
		t.Errorf("bend of radii %v and %v from %v to %v", p.OutsideRadiusMM, p.InsideRadiusMM, from, to)
	}
	// Every corner lies on the arc about (345, 1787), and as much lower as it is
	// farther along.
	along := 0.0
	for i, q := range p.Path {
		if i > 0 {
			along += math.Hypot(q.X()-p.Path[i-1].X(), q.Y()-p.Path[i-1].Y())
		}
		if r := math.Hypot(q.X()-345, q.Y()-1787); math.Abs(r-45) > 1e-6 || math.Abs(q.Z()-(35.5-along/40)) > 1e-6 {
			t.Errorf("corner %d of the bend at %v, %v from its middle", i, q, r)
		}
	}
	if n := len(p.Path); n < 10 {
		t.Errorf("a bend of %d corners", n)
	}
	_, from, to = b.tube("run-straight-3")
	if from.Sub(mgl64.Vec3{300, 1787, 35.5 - round/40}).Len() > 1e-3 || to.Sub(mgl64.Vec3{300, 1600, 35.5 - round/40 - 187.0/40}).Len() > 1e-3 {
		t.Errorf("on from the bend from %v to %v", from, to)
	}
}

// A bend of 20 is tighter than its fitting is thick, 28.5 and a millimetre: it
// has one corner. One of 29.5 has its arc.
func TestTightBend(t *testing.T) {
	for face, arc := range map[float64]bool{20: false, 29.5: true} {
		b := build(t, func(j *job.Job) {
			j.Waste.Bend90FaceMM = face
			j.Waste.Exit = job.Exit{Kind: job.ExitPipe, At: plan.Point{300, 1600}}
		})
		if p, _, _ := b.tube("run-bend-2"); len(p.Path) > 3 != arc {
			t.Errorf("a bend of %v has %d corners", face, len(p.Path))
		}
	}
}

// A reducer from 50 to 40 over 60: frustums of π/3·60·(R² + R·r + r²) outside
// less inside, R 25 to 20, 23 to 18. Its middles lie 23 and 18 over inverts that
// fall 1:40: the right way round nothing steps.
func TestReducer(t *testing.T) {
	reduce := func(reversed bool) func(*job.Job) {
		return func(j *job.Job) {
			j.Waste.Fittings = []job.Fitting{{Kind: job.FittingReducer, AtMM: 200, LengthMM: 60, Pipe: part.Pipe{NominalMM: 40, OutsideDiameterMM: 40, BoreMM: 36, SocketOutsideMM: 40 + 7}, Reversed: reversed}}
		}
	}
	b := build(t, reduce(false))
	b.pipe("run-straight-1", 25, 23, mgl64.Vec3{645, 1832, 43}, mgl64.Vec3{445, 1832, 38}, math.Hypot(200, 5))
	whole := math.Pi / 3 * 60 * ((25*25 + 25*20 + 20*20) - (23*23 + 23*18 + 18*18))
	b.between("run-reducer-2", whole*(1-0.0035), whole)
	taper := b.part("run-reducer-2").Shape.(solid.Taper)
	if taper.From.Sub(mgl64.Vec3{445, 1832, 15 + 23}).Len() > 1e-9 || taper.To.Sub(mgl64.Vec3{385, 1832, 13.5 + 18}).Len() > 1e-9 {
		t.Errorf("the reducer runs from %v to %v", taper.From, taper.To)
	}
	if taper.FromOutsideRadiusMM != 25 || taper.ToOutsideRadiusMM != 20 || taper.FromInsideRadiusMM != 23 || taper.ToInsideRadiusMM != 18 {
		t.Errorf("a reducer of %+v", taper)
	}
	b.pipe("run-straight-3", 20, 18, mgl64.Vec3{385, 1832, 31.5}, mgl64.Vec3{-275, 1832, 31.5 - 660.0/40}, math.Hypot(660, 16.5))
	// The wrong way round the crowns are level and the invert steps up by 10.
	taper = build(t, reduce(true)).part("run-reducer-2").Shape.(solid.Taper)
	if math.Abs(taper.To.Z()-(13.5+10+18)) > 1e-9 {
		t.Errorf("reversed, the reducer ends at %v, want 41.5", taper.To)
	}
}

// A falling piece of 4 % over 120 is a pipe with a fall of its own, with sockets.
func TestFallingPiece(t *testing.T) {
	b := build(t, func(j *job.Job) {
		j.Waste.Fittings = []job.Fitting{{Kind: job.FittingFallingPiece, AtMM: 100, LengthMM: 120, Slope: 0.04}}
	})
	b.pipe("run-falling-piece-2", 28.5, 23, mgl64.Vec3{545, 1832, 40.5}, mgl64.Vec3{425, 1832, 35.7}, math.Hypot(120, 4.8))
	b.pipe("run-straight-3", 25, 23, mgl64.Vec3{425, 1832, 35.7}, mgl64.Vec3{-275, 1832, 35.7 - 17.5}, math.Hypot(700, 17.5))
}

// A drop at (300, 1832): 300 of pipe to the bend, whose middle turns down over a
// radius of 45 and goes on to 100 below the slab, at −250. The invert lies at
// 12.5 there, the middle at 35.5, and the bend ends at −9.5.
func TestDrop(t *testing.T) {
	drop := func(j *job.Job) { j.Waste.Exit = job.Exit{Kind: job.ExitFloor, At: plan.Point{300, 1832}} }
	b := build(t, drop)
	b.pipe("run-drop-2", 28.5, 23, mgl64.Vec3{345, 1832, 35.5}, mgl64.Vec3{300, 1832, -250}, 45*math.Pi/2+250-9.5)
	p, _, _ := b.tube("run-drop-2")
	if n := len(p.Path); n != 20 {
		t.Errorf("the drop's bend has %d chords, want one for each 5°", n-2)
	}
	for i, q := range p.Path[:len(p.Path)-1] {
		if r := math.Hypot(q.X()-345, q.Z()+9.5); math.Abs(r-45) > 1e-6 {
			t.Errorf("corner %d of the drop at %v, %v from its middle", i, q, r)
		}
	}
	b.pipe("run-straight-1", 25, 23, mgl64.Vec3{645, 1832, 43}, mgl64.Vec3{345, 1832, 35.5}, math.Hypot(300, 7.5))
	b.none("run-straight-2", "run-straight-3")
	// On joists it goes to 100 under them.
	b = build(t, func(j *job.Job) {
		onJoists(j)
		drop(j)
	})
	if _, _, to := b.tube("run-drop-2"); to != (mgl64.Vec3{300, 1832, -317}) {
		t.Errorf("on joists the drop ends at %v", to)
	}
	// A bend of 100 that reaches lower than a slab of 20 goes 100 down from its
	// own end: the middle at 20 − 245/40 + 23, less 100, less 100.
	b = build(t, func(j *job.Job) {
		drop(j)
		j.Floor.SlabThicknessMM, j.Waste.Bend90FaceMM = 20, 100
	})
	if _, _, to := b.tube("run-drop-2"); math.Abs(to.Z()-(20-245.0/40+23-200)) > 1e-9 {
		t.Errorf("below a thin slab the drop ends at %v", to)
	}
}
