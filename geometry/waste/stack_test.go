package waste_test

import (
	"math"
	"testing"

	"underfall/geometry/job"
	"underfall/geometry/plan"
	"underfall/geometry/waste"
)

// A run into a stack ends at its side, wherever the leg comes from; one that stands
// outside is reached through the wall. The outlet lies at (645, 1832) and looks to the
// left wall, 215 thick; the stack is 110.
func TestIntoStack(t *testing.T) {
	for name, c := range map[string]struct {
		at           plan.Point
		exit, exitTo plan.Point
		lengthMM     float64
		wall         int
		wallAtMM     float64
	}{
		"straight ahead":   {plan.Point{200, 1832}, plan.Point{255, 1832}, plan.Point{-1, 0}, 390, 0, 0},
		"outside":          {plan.Point{-330, 1832}, plan.Point{-275, 1832}, plan.Point{-1, 0}, 920, 4, 645},
		"across":           {plan.Point{300, 1000}, plan.Point{300, 1055}, plan.Point{0, -1}, 0, 0, 0},
		"across, outside":  {plan.Point{300, -300}, plan.Point{300, -245}, plan.Point{0, -1}, 0, 1, 0},
		"behind the datum": {plan.Point{-330, 900}, plan.Point{-330, 955}, plan.Point{0, -1}, 0, 4, 645},
	} {
		j := job.New()
		j.Room.Stacks = []job.Stack{{At: c.at, NominalMM: 110, OutsideMM: 110}}
		j.Waste.Exit = job.Exit{Kind: job.ExitStack}
		r := lay(j)
		if len(r.Trouble) > 0 {
			t.Errorf("%s: %v", name, r.Trouble)
		}
		nearPoint(t, name+", exit", r.Exit, c.exit)
		nearPoint(t, name+", direction", r.ExitTo, c.exitTo)
		nearPoint(t, name+", end of the pipe", r.PointAt(r.LengthMM), c.exit)
		if c.lengthMM > 0 && math.Abs(r.LengthMM-c.lengthMM) > 1e-9 || r.ExitAtMM != r.LengthMM {
			t.Errorf("%s: %v long, its exit at %v, want %v", name, r.LengthMM, r.ExitAtMM, c.lengthMM)
		}
		if r.Wall != c.wall || c.wallAtMM > 0 && math.Abs(r.WallAtMM-c.wallAtMM) > 1e-9 {
			t.Errorf("%s: out through wall %d at %v, want %d at %v", name, r.Wall, r.WallAtMM, c.wall, c.wallAtMM)
		}
		if in := r.InRoomMM(); c.wall == 0 && in != r.LengthMM || c.wall > 0 && in != r.WallAtMM {
			t.Errorf("%s: %v in the room", name, in)
		}
	}
	// A leg that begins within the stack has no room: 50 of the 55 to its side.
	j := job.New()
	j.Room.Stacks = []job.Stack{{At: plan.Point{595, 1832}, NominalMM: 110, OutsideMM: 110}}
	j.Waste.Exit = job.Exit{Kind: job.ExitStack}
	r := lay(j)
	if len(r.Trouble) != 1 || r.Trouble[0].Kind != waste.NoRoom || r.Trouble[0].Value != 50 || r.Trouble[0].Limit != 55 {
		t.Errorf("from within the stack: %+v", r.Trouble)
	}
}
