package assembly_test

import (
	"testing"

	"underfall/geometry/job"
	"underfall/geometry/plan"
)

// A run to the right goes 1000 in the room, its crown 75 over the floor at the shower's edge.
// A pipe of 50 has sockets of 57 where lengths of it meet: with 16.5 round those the box is
// 90 inside, the lid's underside at 75 + 3.5 + 16.5 = 95; with 12 of board it is 114, clear of
// the wall 68 from the pipe's middle. Tile is cut for it.
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
	b.volume("boxing-1", 2*12*95*1000+114*12*1000)
	tile := plain.part("room-tile").Mesh().Volume()
	b.volume("room-tile", tile-9*114*1000)
	// With 40 round them it would be 80.5 to the wall, 68.5 inside: there is 68, and no board.
	b = boxed(40)
	b.volume("boxing-1", 12*118.5*1000+(80.5+68)*12*1000)
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
	forwards(job.Exit{Kind: job.ExitPipe, At: plan.Point{700, 500}}).volume("boxing-1", 2*12*119*500+114*12*500)
	forwards(job.Exit{Kind: job.ExitFloor, At: plan.Point{700, 500}}).volume("boxing-1", 2*12*119*(545)+114*12*119+114*12*557)
}
