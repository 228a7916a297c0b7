package assembly_test

import (
	"math"
	"testing"

	"underfall/geometry/job"
	"underfall/geometry/plan"
)

// A run to the right goes 1000 in the room, its crown 75 over the floor at the shower's edge.
// A pipe of 50 has sockets of 57 where lengths of it meet: with 16.5 round those the box is
// 90 inside, the lid's underside at 75 + 3.5 + 16.5 = 95; with 12 of board it is 114, clear of
// the wall 68 from the pipe's middle. Tile is cut for it. The floor is tanked all over: of the
// box the outermost 1 is the tanking, up both its faces to the top at 107 and between them.
func TestBoxAlongTheWall(t *testing.T) {
	right := func(j *job.Job) {
		j.SpotLevels = nil
		j.Drain.OutletTurnDeg, j.Waste.Exit = 0, job.Exit{Kind: job.ExitWall, Wall: 1, OffsetMM: 1832}
	}
	plain := build(t, right)
	plain.none("boxing-1")
	boxed := func(gapMM float64) built {
		return build(t, func(j *job.Job) { right(j); j.Waste.Boxing = &job.Boxing{BoardMM: 12, GapMM: gapMM} })
	}
	b := boxed(16.5)
	skin := 2.0*107*1000 + 112*1000
	b.volume("boxing-1", 2*12*95*1000+114*12*1000-skin)
	b.volume("boxing-tanking-1", skin)
	tile := plain.part("room-tile").Mesh().Volume()
	b.volume("room-tile", tile-9*114*1000)
	// With 40 round them it would be 80.5 to the wall, 68.5 inside: there is 68, and no board,
	// nor tanking down at the wall.
	b = boxed(40)
	skin = 130.5*1000 + 147.5*1000
	b.volume("boxing-1", 12*118.5*1000+(80.5+68)*12*1000-skin)
	b.volume("boxing-tanking-1", skin)
	b.volume("room-tile", tile-9*(80.5+68)*1000)
}

// At an existing pipe a box is open. Where the run drops through the floor it goes on past
// the pipe's middle by half of its 90 inside, and 12 of board close it.
func TestBoxThatEnds(t *testing.T) {
	forwards := func(exit job.Exit) built {
		return build(t, func(j *job.Job) {
			j.SpotLevels = nil
			j.Base.Height, j.Base.HeightMM, j.Waste.Gradient = job.HeightChosen, 100, 0
			j.Drain.OutletTurnDeg, j.Waste.Exit, j.Waste.Boxing = 270, exit, &job.Boxing{BoardMM: 12, GapMM: 16.5}
		})
	}
	// The base on 3 of bed is at 103, the crown 4 lower all along: the lid at 119.
	// Tanked as above; up the board that closes it as well.
	skin := 2.0*131*500 + 112*500
	b := forwards(job.Exit{Kind: job.ExitPipe, At: plan.Point{700, 500}})
	b.volume("boxing-1", 2*12*119*500+114*12*500-skin)
	b.volume("boxing-tanking-1", skin)
	skin = 2.0*131*557 + 112*131 + 112*556
	b = forwards(job.Exit{Kind: job.ExitFloor, At: plan.Point{700, 500}})
	b.volume("boxing-1", 2*12*119*(545)+114*12*119+114*12*557-skin)
	b.volume("boxing-tanking-1", skin)
}

// Of a box 114 wide and 107 high, 1000 long and out to the wall at its end, only what stands in
// the tanked floor is tanked: 300 of it, or nothing. Over its end the upturn on that wall stands on the box, 25
// high from 107 and 1 thick, and so clear of the hole for the pipe: all of the wall's 1900 but 1 in
// each corner; along the back it stays on the floor. A joint of 8 along the faces takes tile of 9 from beside the box: all
// of the 11 between it and the wall is two joints, one here and one that was there, less 8 at the
// right wall, and 8 by 992 before it.
func TestTankingOverABox(t *testing.T) {
	boxed := func(change func(*job.Job)) built {
		return build(t, func(j *job.Job) {
			j.SpotLevels = nil
			j.Drain.OutletTurnDeg, j.Waste.Exit = 0, job.Exit{Kind: job.ExitWall, Wall: 1, OffsetMM: 1832}
			j.Layers.Tanking, j.Layers.Joints = &job.Tanking{}, &job.Joints{PerimeterMM: 8}
			j.Waste.Boxing = &job.Boxing{BoardMM: 12, GapMM: 16.5}
			change(j)
		})
	}
	beyond := func(mm float64) func(*job.Job) {
		return func(j *job.Job) { j.Layers.Tanking.BeyondMM = &mm }
	}
	whole := 2.0*12*95*1000 + 114*12*1000
	b := boxed(beyond(300))
	b.volume("boxing-tanking-1", 2*107*300+112*300)
	b.volume("boxing-1", whole-2*107*300-112*300)
	b = boxed(beyond(0))
	b.none("boxing-tanking-1")
	b.volume("boxing-1", whole)

	b = boxed(func(j *job.Job) { j.Layers.Tanking.UpturnMM = 25 })
	bare := boxed(func(j *job.Job) { j.Layers.Tanking.UpturnMM, j.Waste.Boxing = 25, nil })
	b.volume("room-upturn-3", bare.part("room-upturn-3").Mesh().Volume())
	b.volume("room-upturn-2", 25*1898)
	if top := b.part("room-upturn-2").Bounds().High.Z(); math.Abs(top-132) > 1e-6 {
		t.Errorf("the upturn over the box goes up to %v, want 132", top)
	}
	tile := func(b built) float64 { return b.part("room-tile").Mesh().Volume() }
	if got, want := tile(bare)-tile(b), 9.0*992*(114+3+8); math.Abs(got-want) > 1 {
		t.Errorf("box and joints take %v mm³ of tile, want %v", got, want)
	}
}
