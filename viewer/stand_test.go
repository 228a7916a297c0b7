package viewer_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/go-gl/mathgl/mgl64"
	"underfall/geometry"
	"underfall/geometry/buildup"
	"underfall/geometry/demotest"
	"underfall/geometry/section"
	"underfall/geometry/solid"
	"underfall/viewer"
)

// inSomething is the part that a camera's eye is in, as far as it is drawn; empty for none. What is in a part
// follows from its mesh by rays the long way round, not from the scene.
func inSomething(r geometry.Result, f viewer.Frame, c viewer.Camera) string {
	eye := c.Eye()
	if f.Caps != nil && f.Caps.Cuts[0].Side(eye) > 0 {
		return ""
	}
	for _, p := range r.Assembly.Parts {
		if p.Stage > f.Stage || p.Wall > 0 && eye.Sub(r.Layout.Walls[p.Wall-1].A.Vec3(eye.Z())).Dot(r.Layout.Walls[p.Wall-1].Outward.Vec3(0)) > 0 {
			continue
		}
		b := p.Bounds()
		if eye[0] > b.Low[0] && eye[0] < b.High[0] && eye[1] > b.Low[1] && eye[1] < b.High[1] && eye[2] > b.Low[2] && eye[2] < b.High[2] &&
			demotest.Holds(p.Mesh(), eye) {
			return p.ID
		}
	}
	return ""
}

// movedByHand is a camera after a random move: to another distance, as a logarithm at most so much further; aside; or,
// half the time, turned, at most so many radians up or down.
func movedByHand(random *rand.Rand, c viewer.Camera, further, upRad float64) viewer.Camera {
	between := func(low, high float64) float64 { return low + random.Float64()*(high-low) }
	switch random.IntN(4) {
	case 0:
		return c.Zoom(math.Exp(between(-0.3, further)))
	case 1:
		return c.Pan(between(-0.1, 0.1), between(-0.1, 0.1))
	default:
		return c.Orbit(between(-0.3, 0.3), between(-upRad, upRad))
	}
}

// walk is a random walk of a camera, led by a hand that now and then lets go.
type walk struct {
	seed              uint64
	moves, letsGo     int // every so many moves
	furtherLog, upRad float64
}

// from leads a camera from where it stands: kept says where it comes to when the hand wants it elsewhere, moved is told of every
// move. It gives how many moves did nothing.
func (k walk) from(random *rand.Rand, was viewer.Camera, kept func(was, wanted viewer.Camera) viewer.Camera,
	moved func(i int, c viewer.Camera)) (stuck int) {
	wanted := was
	for i := range k.moves {
		before := was
		wanted = movedByHand(random, wanted, k.furtherLog, k.upRad)
		was = kept(was, wanted)
		moved(i, was)
		if was == before {
			stuck++
		}
		if (i+1)%k.letsGo == 0 {
			wanted = was
		}
	}
	return stuck
}

// However a camera is turned, brought nearer, further away or to the side, in any demo, cut or not, at any
// stage, it comes to stand in nothing, and nothing that is drawn is cut open by standing near.
func TestCamerasAreKeptInTheOpen(t *testing.T) {
	by := walk{seed: 7, moves: 300, letsGo: 40, furtherLog: 0.2, upRad: 0.2}
	for _, r := range demotest.Results(t) {
		random := rand.New(rand.NewPCG(by.seed, 1))
		for _, stage := range []buildup.Stage{buildup.StageWaste, buildup.StageTile} {
			for _, cut := range []bool{false, true} {
				f := viewer.Frame{Scene: viewer.NewScene(r, nil), Stage: stage, Width: 460, Height: 270}
				was := viewer.CameraFor(viewer.ViewStanding, r, 1.7)
				if cut {
					f.Caps = &viewer.Caps{Cuts: []solid.Cut{section.ThroughDrain(r)}}
					was = viewer.CameraFor(viewer.ViewCut, r, 1.7, f.Caps.Cuts...)
				}
				stuck := by.from(random, was, f.Kept, func(i int, c viewer.Camera) {
					if part := inSomething(r, f, c); part != "" {
						t.Fatalf("%s, stage %d, cut %v, seed %d, move %d: the camera stands in %s", r.Settled.Name, stage, cut, by.seed, i, part)
					}
					if !f.Stands(c) {
						t.Fatalf("%s, stage %d, cut %v, seed %d, move %d: something is cut open", r.Settled.Name, stage, cut, by.seed, i)
					}
				})
				if stuck > by.moves/4 {
					t.Errorf("%s, stage %d, cut %v: %d of %d moves did nothing", r.Settled.Name, stage, cut, stuck, by.moves)
				}
			}
		}
	}
}

// A wall lets a camera through, backwards from inside the room and back in; the floor does not.
func TestWallsLetThroughFloorsDoNot(t *testing.T) {
	r := demotest.Results(t)[0]
	f := viewer.Frame{Scene: viewer.NewScene(r, nil), Stage: buildup.StageTile, Width: 460, Height: 270}
	was := viewer.CameraFor(viewer.ViewDrain, r, 1.7)
	inside := func(c viewer.Camera) bool { return r.Layout.Room.Contains([2]float64{c.Eye().X(), c.Eye().Y()}, 0) }
	wanted := was
	for _, leg := range []struct {
		factor float64
		inside bool
	}{{1.06, false}, {1 / 1.06, true}} {
		for range 30 {
			wanted = wanted.Zoom(leg.factor)
			was = f.Kept(was, wanted)
		}
		if inside(was) != leg.inside {
			t.Errorf("distance times %.2f: inside %v", leg.factor, inside(was))
		}
	}
	down := viewer.CameraFor(viewer.ViewPlan, r, 1.7)
	down.Target[2] = -500
	at := down
	for range 100 {
		down = down.Zoom(0.94)
		at = f.Kept(at, down)
	}
	middle := r.Layout.Shower.Centroid()
	if z := at.Eye().Z(); z < r.Heights.ShowerAt(&r.Layout, middle) {
		t.Errorf("from above the camera comes to %.0f, under the tile", z)
	}
}

// A camera comes as near to the tile as to 30 millimetres, no nearer.
func TestHowNearACameraComes(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 1))
	r := demotest.Results(t)[0]
	f := viewer.Frame{Scene: viewer.NewScene(r, nil), Stage: buildup.StageTile, Width: 460, Height: 270}
	m := r.Layout.Shower.Centroid()
	z := r.Heights.ShowerAt(&r.Layout, m)
	for range 50 {
		over := 5 + random.Float64()*50
		c := viewer.Camera{Target: mgl64.Vec3{m.X(), m.Y(), z - 200}, Pitch: math.Pi/2 - 0.02, DistanceMM: 200 + over}
		if got, want := f.Stands(c), over > 30; got != want && math.Abs(over-30) > 1 {
			t.Errorf("%.1f over the tile the camera stands: %v", over, got)
		}
	}
}

// However a customer turns, shifts or zooms the picture of a finished room, in any demo, it looks into the room alone, past no wall
// and from above no ceiling, and the eye stands in nothing; most moves do something.
func TestCamerasAreKeptIndoors(t *testing.T) {
	const aspect = 1.6
	by := walk{seed: 5, moves: 120, letsGo: 10, furtherLog: 0.3, upRad: 0.1}
	for _, r := range demotest.Results(t) {
		random := rand.New(rand.NewPCG(by.seed, 1))
		f := viewer.Frame{Scene: viewer.NewScene(r, nil), Stage: buildup.StageTile, Width: 480, Height: 300}
		indoors := func(was, wanted viewer.Camera) viewer.Camera { return f.Indoors(&r, was, wanted) }
		stuck := by.from(random, viewer.CameraFor(viewer.ViewPhoto, r, aspect), indoors, func(i int, c viewer.Camera) {
			if part := inSomething(r, f, c); part != "" || !f.Stands(c) {
				t.Fatalf("%s, seed %d, move %d: the camera stands in %q", r.Settled.Name, by.seed, i, part)
			}
			looksIntoTheRoom(t, r, c, aspect, "moved by hand")
			if t.Failed() {
				t.Fatalf("seed %d, move %d", by.seed, i)
			}
		})
		if stuck > by.moves/3 {
			t.Errorf("%s: %d of %d moves did nothing", r.Settled.Name, stuck, by.moves)
		}
	}
}
