package assembly_test

import (
	"math"
	"testing"

	"github.com/go-gl/mathgl/mgl64"
	"underfall/geometry/demotest"
	"underfall/geometry/job"
	"underfall/geometry/plan"
	"underfall/geometry/solid"
)

// Walls stand from the slab's underside to the ceiling and meet in mitres: each
// is as long in the middle of its thickness as its two faces are on average.
// Wall 1, 100 thick between walls of 100 and 215: 2400 inside, 2715 outside;
// its doorway is 760 wide from the floor, 0, to 2040 over the neighbour's 20.
// Walls 2, 3 and 4: 1900 and 2215 over 100; 2400 and 2715 over 215; 1900 and 2215
// over 215. The hole in wall 4 is 50/2 + 8 = 33 in radius; the pipe falls by 1/40.
func TestWalls(t *testing.T) {
	b := build(t, nil)
	const height = 2400 + 150
	b.volume("wall-1", (2400+2715)/2.0*100*height-760*2060*100)
	b.volume("wall-2", (1900+2215)/2.0*100*height)
	b.volume("wall-3", (2400+2715)/2.0*215*height)
	b.rounded("wall-4", (1900+2215)/2.0*215*height-215*oblique(33, 0, 1.0/40, 215), -chords(2*math.Pi*33, 215))
	b.box("wall-1", mgl64.Vec3{-215, -100, -150}, mgl64.Vec3{2500, 0, 2400})
	b.box("wall-2", mgl64.Vec3{2400, -100, -150}, mgl64.Vec3{2500, 2115, 2400})
	b.box("wall-3", mgl64.Vec3{-215, 1900, -150}, mgl64.Vec3{2500, 2115, 2400})
	b.box("wall-4", mgl64.Vec3{-215, -100, -150}, mgl64.Vec3{0, 2115, 2400})
	b.none("wall-5")
	// The mitre between walls 1 and 2 runs out from the corner at 45°; of what is
	// 100 and 215 thick, from (0, 0) to (−215, −100).
	b.filled("wall-1", mgl64.Vec3{2440, -50, 100}, mgl64.Vec3{-90, -50, 100})
	b.open("wall-1", mgl64.Vec3{2460, -50, 100}, mgl64.Vec3{-120, -50, 100})
	b.filled("wall-2", mgl64.Vec3{2460, -50, 100})
	b.filled("wall-4", mgl64.Vec3{-120, -50, 100})
	// The doorway: from 1500 to 2260 along the wall, 0 to 2060 high, all through.
	b.open("wall-1", mgl64.Vec3{1501, -1, 1}, mgl64.Vec3{2259, -99, 2059})
	b.filled("wall-1", mgl64.Vec3{1499, -1, 1}, mgl64.Vec3{2261, -99, 2059}, mgl64.Vec3{1900, -50, -1}, mgl64.Vec3{1900, -50, 2061})
	for n, p := range []string{"wall-1", "wall-2", "wall-3", "wall-4"} {
		if got := b.part(p).Wall; got != n+1 {
			t.Errorf("%s belongs to wall %d", p, got)
		}
	}
}

// A neighbour's floor below this one's: the opening begins there, and is as high
// over it.
func TestDoorwayToALowerFloor(t *testing.T) {
	b := build(t, func(j *job.Job) { j.Room.Doorways[0].NeighbourFFLMM = -30 })
	b.volume("wall-1", (2400+2715)/2.0*100*2550-760*2040*100)
	b.open("wall-1", mgl64.Vec3{1900, -50, -29}, mgl64.Vec3{1900, -50, 2009})
	b.filled("wall-1", mgl64.Vec3{1900, -50, -31}, mgl64.Vec3{1900, -50, 2011})
}

// On joists the walls are drawn down to the joists' underside.
func TestWallsOnJoists(t *testing.T) {
	b := build(t, onJoists)
	b.volume("wall-2", (1900+2215)/2.0*100*(2400+22+195))
	b.box("wall-2", mgl64.Vec3{2400, -100, -217}, mgl64.Vec3{2500, 2115, 2400})
}

// An opening is as high as it is said to be, and goes no higher than its wall.
func TestDoorwayHeight(t *testing.T) {
	b := build(t, func(j *job.Job) { j.Room.Doorways[0].HeightMM = 1800 })
	b.volume("wall-1", (2400+2715)/2.0*100*2550-760*1820*100)
	b.open("wall-1", mgl64.Vec3{1900, -50, 1819})
	b.filled("wall-1", mgl64.Vec3{1900, -50, 1821})
	b = build(t, func(j *job.Job) { j.Room.Doorways[0].HeightMM = 4000 })
	b.volume("wall-1", (2400+2715)/2.0*100*2550-760*2400*100)
}

// A floor measured 10 under the datum takes the walls' feet with it.
func TestWallsFollowTheFloor(t *testing.T) {
	b := build(t, func(j *job.Job) { j.SpotLevels = []job.SpotLevel{{LevelMM: -10}} })
	b.box("wall-2", mgl64.Vec3{2400, -100, -160}, mgl64.Vec3{2500, 2115, 2400})
	b = build(t, func(j *job.Job) {
		onJoists(j)
		j.SpotLevels = []job.SpotLevel{{LevelMM: -10}}
	})
	b.box("wall-2", mgl64.Vec3{2400, -100, -227}, mgl64.Vec3{2500, 2115, 2400})
}

// The hole's middle is the pipe's: at the inner face, 645 from the outlet, the
// invert lies at 20 − 16.125 and the pipe's middle 23 over it, at 26.875; at the
// outer face 5.375 lower.
func TestCoreHoleIsRoundThePipe(t *testing.T) {
	b := build(t, nil)
	for _, x := range []float64{-1, -214} {
		b.open("wall-4", mgl64.Vec3{x, 1832, 26.875 + 32.8}, mgl64.Vec3{x, 1832, 21.5 - 32.8},
			mgl64.Vec3{x, 1832 - 32.8, 24}, mgl64.Vec3{x, 1832 + 32.8, 24})
		b.filled("wall-4", mgl64.Vec3{x, 1832, 26.875 + 33.1}, mgl64.Vec3{x, 1832, 21.5 - 33.1},
			mgl64.Vec3{x, 1832 - 33.1, 24}, mgl64.Vec3{x, 1832 + 33.1, 24})
	}
	for _, exit := range []job.Exit{{Kind: job.ExitPipe, At: plan.Point{300, 1832}}, {Kind: job.ExitFloor, At: plan.Point{300, 1832}}} {
		b = build(t, func(j *job.Job) { j.Waste.Exit = exit })
		b.volume("wall-4", (1900+2215)/2.0*215*2550)
	}
	// With the exit where the outlet is there is no run, and nothing to let through.
	b = build(t, func(j *job.Job) { j.Waste.Exit = job.Exit{Kind: job.ExitPipe, At: plan.Point{645, 1832}} })
	b.volume("wall-4", (1900+2215)/2.0*215*2550)
	b.none("run-straight-1")
}

// The hole leaves as much room round the pipe as is stated.
func TestCoreHoleHasTheRoomStated(t *testing.T) {
	for room, radius := range map[float64]float64{1: 26, 20: 45} {
		b := build(t, func(j *job.Job) { j.Waste.HoleRoomMM = room })
		b.rounded("wall-4", (1900+2215)/2.0*215*2550-215*oblique(radius, 0, 1.0/40, 215), -chords(2*math.Pi*radius, 215))
	}
}

// A pipe out through a wall of 215 at 45°: along the wall it goes as far as
// through it, and falls √2/40 for each millimetre through. The hole is an ellipse
// half as long again as high on each face, and 215 apart; as two round holes,
// which it was, it left the pipe 8 mm of room above and none beside: at the face
// the pipe reaches 25·√2 = 35.4 along, and the hole did 33.
func TestObliqueCoreHole(t *testing.T) {
	b := build(t, func(j *job.Job) {
		j.Waste.Waypoints = []plan.Point{{300, 1832}}
		j.Waste.Exit.OffsetMM = 1900 - 1532
	})
	whole := (1900 + 2215) / 2.0 * 215 * 2550
	b.rounded("wall-4", whole-215*oblique(33, 1, math.Sqrt2/40, 215), -chords(2*math.Pi*33*math.Sqrt2, 215)-2*0.05*215*math.Sqrt2*215)
	// At the inner face, where the run's middle is at y = 1532, and at the outer.
	invert := b.Heights.Run.InvertAt(b.Heights.Run.ExitAtMM)
	b.open("wall-4", mgl64.Vec3{-1, 1532 + 33*math.Sqrt2 - 0.3, invert + 23},
		mgl64.Vec3{-214, 1317 - 33*math.Sqrt2 + 0.3, invert + 23 - 215*math.Sqrt2/40})
	b.filled("wall-4", mgl64.Vec3{-1, 1532 + 33*math.Sqrt2 + 0.3, invert + 23},
		mgl64.Vec3{-214, 1317 - 33*math.Sqrt2 - 0.3, invert + 23 - 215*math.Sqrt2/40})
}

// A mirrored room is walked the other way round; every body is the mirror image
// of the one it was.
func TestMirroredRoom(t *testing.T) {
	a := build(t, nil)
	b := build(t, func(j *job.Job) {
		for i, q := range j.Room.Outline {
			j.Room.Outline[i] = plan.Point{-q.X(), q.Y()}
		}
		j.Drain.OutletTurnDeg = 0
	})
	if len(a.Parts) != len(b.Parts) {
		t.Fatalf("%d parts, mirrored %d", len(a.Parts), len(b.Parts))
	}
	for _, p := range a.Parts {
		// Round faces have their corners elsewhere.
		m := p.Mesh().Bounds()
		b.boxWithin(p.ID, mgl64.Vec3{-m.High[0], m.Low[1], m.Low[2]}, mgl64.Vec3{-m.Low[0], m.High[1], m.High[2]}, 0.05)
		b.between(p.ID, p.Shape.Volume()*(1-1e-6), p.Shape.Volume()*(1+1e-6))
	}
}

// Walls that hardly turn, out by d over 1200 to either side of a corner, leave a
// wedge between their outer faces as long as the wall is thick, 100, and 2·100·d/1200
// wide: each takes half of it, 5000·d/1200 mm². Less than 1 mm² is left out.
func TestWallsThatHardlyTurn(t *testing.T) {
	for d, there := range map[float64]bool{0.236: false, 0.245: true, 2: true} {
		b := build(t, func(j *job.Job) {
			j.Room.Outline = []plan.Point{{0, 0}, {1200, -d}, {2400, 0}, {2400, 1900}, {0, 1900}}
			j.Room.Walls = append([]job.Wall{j.Room.Walls[0]}, j.Room.Walls...)
			j.Room.Doorways = nil
			j.Shower.Wall, j.Waste.Exit.Wall = 3, 4
		})
		in := mgl64.Vec3{1200 - 99*d/1200/2, -d - 99, 1000}
		if got := demotest.Holds(b.part("wall-1").Mesh(), in); got != there {
			t.Errorf("a corner %v out: a wedge %v", d, got)
		}
		in[0] = 1200 + 99*d/1200/2
		if got := demotest.Holds(b.part("wall-2").Mesh(), in); got != there {
			t.Errorf("a corner %v out: a wedge on the other wall %v", d, got)
		}
	}
}

// A wall between two that go on straight has no mitres.
func TestWallInAStraightRow(t *testing.T) {
	b := build(t, func(j *job.Job) {
		j.Room.Outline = []plan.Point{{0, 0}, {800, 0}, {1600, 0}, {2400, 0}, {2400, 1900}, {0, 1900}}
		j.Room.Walls = append([]job.Wall{j.Room.Walls[0], j.Room.Walls[0]}, j.Room.Walls...)
		j.Room.Doorways = nil
		j.Shower.Wall, j.Waste.Exit.Wall = 4, 5
	})
	b.volume("wall-2", 800*100*2550)
	b.box("wall-2", mgl64.Vec3{800, -100, -150}, mgl64.Vec3{1600, 0, 2400})
	b.volume("wall-1", (800+1015)/2.0*100*2550)
}

// A room that stands askew has the same bodies.
func TestTurnedRoom(t *testing.T) {
	turn := mgl64.Rotate3DZ(33 * math.Pi / 180)
	for _, change := range []func(*job.Job){
		func(*job.Job) {}, letIn, func(j *job.Job) { j.Room.Edge, j.Shower.Screens = job.EdgeRamp, nil },
		func(j *job.Job) { j.Waste.Fittings = []job.Fitting{usualReducer(100)} },
		func(j *job.Job) { j.Waste.Exit = job.Exit{Kind: job.ExitFloor, At: plan.Point{300, 1832}} },
	} {
		a := build(t, change)
		b := assembled(t, demotest.Moved(a.Settled, 33, plan.Point{-1234, 4321}))
		if len(a.Parts) != len(b.Parts) {
			t.Fatalf("%d parts, turned %d", len(a.Parts), len(b.Parts))
		}
		for i, p := range a.Parts {
			if q := b.Parts[i]; q.ID != p.ID || math.Abs(q.Shape.Volume()-p.Shape.Volume()) > 1e-5*p.Shape.Volume() {
				t.Errorf("%s has %v mm³, turned %s %v", p.ID, p.Shape.Volume(), q.ID, q.Shape.Volume())
			}
			if got, want := middle(b.Parts[i].Mesh()), turn.Mul3x1(middle(p.Mesh())).Add(mgl64.Vec3{-1234, 4321, 0}); got.Sub(want).Len() > 1e-2 {
				t.Errorf("the middle of %s lies at %v, want %v", p.ID, got, want)
			}
		}
	}
}

// middle is where a body of one stuff would balance: of each face and the origin a
// tetrahedron, whose middle is a quarter of its corners' sum.
func middle(m *solid.Mesh) mgl64.Vec3 {
	sum, whole := mgl64.Vec3{}, 0.0
	for _, tri := range m.Triangles {
		a, b, c := m.Vertices[tri[0]], m.Vertices[tri[1]], m.Vertices[tri[2]]
		v := a.Dot(b.Cross(c)) / 6
		sum, whole = sum.Add(a.Add(b).Add(c).Mul(v/4)), whole+v
	}
	return sum.Mul(1 / whole)
}

// usualReducer is a reducer to the usual pipe of 50 mm.
func usualReducer(atMM float64) job.Fitting {
	j := job.New()
	f, _ := j.ReducerAt(atMM)
	return f
}

// A cavity wall of 300 with leaves of 100: the left one, whose inner face is x = 0, and the right one at
// 2400. Its cavity is hollow, all of it but the mitres at its ends. Where the leaves are not known, or
// the wall is none with a cavity, it is drawn whole.
func TestLeavesOfACavityWall(t *testing.T) {
	at := func(xMM float64) mgl64.Vec3 { return mgl64.Vec3{xMM, 700, 600} }
	for _, wall := range []int{3, 1} {
		for _, c := range []struct {
			kind          job.WallKind
			inner, cavity float64
			hollow        bool
		}{
			{job.WallCavity, 100, 100, true}, {job.WallCavity, 0, 100, false},
			{job.WallCavity, 100, 0, false}, {job.WallMasonry, 100, 100, false},
		} {
			b := build(t, func(j *job.Job) {
				w := &j.Room.Walls[wall]
				w.Kind, w.ThicknessMM, w.InnerLeafMM, w.CavityMM = c.kind, 300, c.inner, c.cavity
			})
			id, into := "wall-4", func(mm float64) mgl64.Vec3 { return at(-mm) }
			if wall == 1 {
				id, into = "wall-2", func(mm float64) mgl64.Vec3 { return at(2400 + mm) }
			}
			b.filled(id, into(50), into(250))
			if c.hollow {
				b.open(id, into(101), into(150), into(199))
			} else {
				b.filled(id, into(150))
			}
		}
	}
}

// The sleeve through a cavity wall of 300: the pipe of 50 with 8 round it makes a hole of 66, in which
// the sleeve is 65.6 outside and 59.6 inside. Its middle is 26.875 high at the inner face and, falling 1:40,
// 23.125 half way.
func TestSleeveThroughACavityWall(t *testing.T) {
	cavity := func(roomMM float64) built {
		return build(t, func(j *job.Job) {
			j.SpotLevels = nil
			w := &j.Room.Walls[3]
			w.Kind, w.ThicknessMM, w.InnerLeafMM, w.CavityMM = job.WallCavity, 300, 100, 100
			j.Waste.HoleRoomMM = roomMM
		})
	}
	b := cavity(8)
	at := func(overMM float64) mgl64.Vec3 { return mgl64.Vec3{-150, 1832, 23.125 + overMM} }
	b.filled("sleeve", at(31), at(-31))
	b.open("sleeve", at(29), at(34), at(-29))
	cavity(3).none("sleeve") // no room for it
	build(t, nil).none("sleeve")
}

// Over the sleeve a flashing 3 thick goes up the inner leaf, which ends 100 out, by 150 from its foot,
// and down to the outer leaf, 200 out: its foot is 3 over the top of the hole there, whose middle is
// 26.875 − 200/40 and which is 33 and a hair more high over it; 75 higher it leaves the inner leaf. To both
// sides it goes 100 past the hole of 66, along the wall at x = 0, and no further than that does, to 1900.
func TestFlashingOverTheSleeve(t *testing.T) {
	b := build(t, func(j *job.Job) {
		j.SpotLevels = nil
		w := &j.Room.Walls[3]
		w.Kind, w.ThicknessMM, w.InnerLeafMM, w.CavityMM = job.WallCavity, 300, 100, 100
	})
	foot := 26.875 - 5 + 33*math.Hypot(1, 1.0/40) + 3
	for _, along := range []float64{0, 60, -120} {
		at := func(outMM, overMM float64) mgl64.Vec3 { return mgl64.Vec3{-outMM, 1832 + along, foot + overMM} }
		b.filled("flashing", at(199.5, 2), at(101.5, 149), at(101.5, 100), at(150, 37.5+1.5))
		b.open("flashing", at(199.5, -1), at(199.5, 5), at(101.5, 151), at(99, 100), at(104, 149), at(201, 1.5), at(150, 37.5-2))
	}
	b.open("flashing", mgl64.Vec3{-199.5, 1832 + 70, foot + 2}, mgl64.Vec3{-199.5, 1832 - 136, foot + 2})
	build(t, nil).none("flashing")
}
