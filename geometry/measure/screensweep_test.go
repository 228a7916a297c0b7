package measure_test

import (
	"math"
	"testing"

	"underfall/geometry/job"
	"underfall/geometry/plan"
)

// A door of 700 at the left end of the front, which lies at y = 1000, swings out over a
// quarter of a disc with its middle at the corner (0, 1000). The tile there lies at
// 124.34, the room's at 13. A cupboard at the left wall below y = 1000, 100 square,
// stands whole in it; so does a stack of 110. A basin over the door, a cupboard under the
// door's edge, and what stands beyond 700 do not count.
func TestWhatStandsBeforeAScreensDoor(t *testing.T) {
	at := func(fromMM, wide, deep, under, high float64) []job.Fixture {
		return []job.Fixture{{Kind: job.FixtureCupboard, Wall: 3, OffsetMM: fromMM, WidthMM: wide, DepthMM: deep, UnderMM: under, HeightMM: high}}
	}
	disc := math.Pi * 55 * 55
	for name, c := range map[string]struct {
		fixtures []job.Fixture
		stacks   []job.Stack
		want     float64
		within   float64
	}{
		"nothing":          {nil, nil, 0, 0},
		"a cupboard":       {at(900, 100, 100, 0, 400), nil, 100 * 100, 1},
		"over the door":    {at(900, 100, 100, 2112, 400), nil, 0, 0},
		"just in its way":  {at(900, 100, 100, 2111, 400), nil, 100 * 100, 1},
		"under its edge":   {at(900, 100, 100, 0, 119), nil, 0, 0},
		"up to its edge":   {at(900, 100, 100, 0, 120), nil, 100 * 100, 1},
		"beyond its reach": {at(1600, 100, 100, 0, 400), nil, 0, 0},
		"a stack":          {nil, []job.Stack{{At: plan.Point{200, 800}, NominalMM: 110, OutsideMM: 110}}, disc, 55 * 2 * math.Pi * 0.05},
	} {
		r := evaluated(t, func(j *job.Job) {
			j.Room.Fixtures, j.Room.Stacks = c.fixtures, c.stacks
			j.Shower.Screens = []job.Screen{{Kind: job.ScreenDoor, Side: job.SideFront, WidthMM: 700, HeightMM: 2000, ThicknessMM: 8, GapMM: 8}}
		})
		for _, m := range r.Measured {
			if m.Quantity == "screen.sweep-blocked" && math.Abs(m.Value-c.want) > c.within+1e-6 {
				t.Errorf("%s: %v mm², want %v", name, m.Value, c.want)
			}
		}
	}
}

// The leaf of a door of 700 at the front, its foot 22 inside of it, 8 over the tile there. The floor
// falls away from it to the back, and the room lies lower: its least gap is the one it is shut with. Where
// the floor falls to a drain of 70 along the front, 13 off it, it rises 1:50 from 83 on: by 12.78 under
// the leaf turned in by 90°, whose end is then 722 from the front. A room raised to the shower's highest
// edge, 16.34 over the drain, stands 8.34 over the leaf that opens out.
func TestLeafOfAScreensDoorOverTheFloor(t *testing.T) {
	for name, c := range map[string]struct {
		change func(*job.Job)
		in     bool
		want   float64
	}{
		"out":                       {func(*job.Job) {}, false, 8},
		"in, falling away":          {func(*job.Job) {}, true, 8},
		"in, rising":                {func(j *job.Job) { j.Former.Fall = job.FallFront }, true, 8 - 639.0/50},
		"out, falling to the front": {func(j *job.Job) { j.Former.Fall = job.FallFront }, false, 8},
		"out, over a raised room":   {func(j *job.Job) { j.Former.Fall, j.Room.Edge = job.FallFront, job.EdgeRaiseRoom }, false, 8 - 817.0/50},
	} {
		r := evaluated(t, func(j *job.Job) {
			j.Shower.Screens = []job.Screen{{Kind: job.ScreenDoor, Side: job.SideFront, WidthMM: 700, HeightMM: 2000, ThicknessMM: 8, GapMM: 8, OpensIn: c.in}}
			c.change(j)
		})
		for _, m := range r.Measured {
			if m.Quantity == "screen.leaf-gap" && math.Abs(m.Value-c.want) > 1e-6 {
				t.Errorf("%s: a gap of %v, want %v", name, m.Value, c.want)
			}
		}
	}
}
