package assembly_test

import (
	"math"
	"testing"

	"github.com/go-gl/mathgl/mgl64"
	"underfall/geometry/assembly"
	"underfall/geometry/job"
)

// A trap of 30 more has its outlet 30 lower under a base up to 102. Under mortar the trough of 77
// along 635 is closed, but for the 345 by 63.5 of it that lie by the drain. Pipe of 46 within with
// its invert at 20 and sockets of 57 reaches to 20 + 23 + 28.5 = 71.5: a board of 30.5 goes in.
// Over the usual trap there is no room for one, and boards of a former need none.
func TestTroughIsBridgedUnderMortar(t *testing.T) {
	deep := func(j *job.Job) {
		j.Former.Mortar = true
		j.Drain.TrapDepthMM, j.Drain.OutletInvertDepthMM = j.Drain.TrapDepthMM+30, j.Drain.OutletInvertDepthMM+30
	}
	b := build(t, deep)
	b.volume("trough-board", (635*77-345*63.5)*30.5)
	b.box("trough-board", mgl64.Vec3{0, 1832 - 38.5, 71.5}, mgl64.Vec3{635, 1832 + 38.5, 102})
	b.none("trough-fill")
	build(t, func(j *job.Job) { j.Former.Mortar = true }).none("trough-board", "trough-fill")
	build(t, func(j *job.Job) { deep(j); j.Former.Mortar = false }).none("trough-board", "trough-fill")
	if got := assembly.TroughMM(&b.Settled, &b.Heights); math.Abs(got-77) > 1e-9 {
		t.Errorf("the trough is %v wide, want 57 and twice 10", got)
	}
}

// A drain along all of the trough leaves 77 − 63.5 = 13.5 of it beside itself, which no board is sawn for.
func TestStripOfATroughIsNotBridged(t *testing.T) {
	build(t, func(j *job.Job) {
		j.Former.Mortar = true
		j.Drain.TrapDepthMM, j.Drain.OutletInvertDepthMM = j.Drain.TrapDepthMM+30, j.Drain.OutletInvertDepthMM+30
		j.Drain.LengthMM = j.Shower.WidthMM - 2*j.Drain.WallClearanceMM
	}).none("trough-board")
}

// A base of mortar from 3 to 103 is filled up round the pipe: of the trough's 635 × 77 by 100, but
// for 345 × 63.5 by the drain, a sleeve of 57 square is left along the pipe, of which 345 × 53.5
// lie by the drain. Its middle is at 51 + 23 = 74 at the outlet, 645 along, and sinks 1:40.
func TestTroughIsFilledWithMortar(t *testing.T) {
	b := build(t, func(j *job.Job) {
		j.Base.Screed, j.Base.BoardsMM, j.Base.Height, j.Base.HeightMM = true, nil, job.HeightChosen, 100
	})
	b.volume("trough-fill", (635*77-345*63.5)*100-57*(635*57-345*53.5))
	// At 100 the middle is at 60.4, at 280 at 64.9.
	b.filled("trough-fill", mgl64.Vec3{100, 1832, 89.1}, mgl64.Vec3{100, 1832, 31.7},
		mgl64.Vec3{100, 1832 + 28.7, 50}, mgl64.Vec3{280, 1832, 93.6})
	b.open("trough-fill", mgl64.Vec3{100, 1832, 88.7}, mgl64.Vec3{100, 1832, 32.1},
		mgl64.Vec3{100, 1832 + 28.3, 50}, mgl64.Vec3{300, 1850, 98})
	b.none("trough-board")
}
