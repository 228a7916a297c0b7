package waste_test

import (
	"math"
	"testing"

	"underfall/geometry/job"
	"underfall/geometry/plan"
)

// The way outside goes on along the last leg from the wall's outer face: 645 in the room,
// 215 through the wall, then as far as stated, and 60 where nothing is. At 45° the wall of
// 215 takes 304.06 of the pipe.
func TestTheWayOutside(t *testing.T) {
	oblique := func(j *job.Job) {
		j.Waste.Waypoints = []plan.Point{{445, 1832}}
		j.Waste.Exit.OffsetMM = 1900 - (1832 - 445)
	}
	for name, c := range map[string]struct {
		change func(*job.Job)
		beyond *job.Beyond
		past   float64 // its exit
	}{
		"not known":          {func(*job.Job) {}, nil, 215 + 60},
		"at the wall":        {func(*job.Job) {}, &job.Beyond{Joins: job.JoinStack}, 215},
		"to a gully":         {func(*job.Job) {}, &job.Beyond{LengthMM: 400, Joins: job.JoinGully}, 615},
		"oblique, to gully":  {oblique, &job.Beyond{LengthMM: 400, Joins: job.JoinGully}, 215*math.Sqrt2 + 400},
		"oblique, not known": {oblique, nil, 275 * math.Sqrt2},
		"through the floor": {func(j *job.Job) {
			j.Waste.Exit = job.Exit{Kind: job.ExitPipe, At: plan.Point{100, 1832}}
		}, &job.Beyond{LengthMM: 400}, 0},
	} {
		j := job.New()
		c.change(&j)
		j.Waste.Beyond = c.beyond
		r := lay(j)
		if len(r.Trouble) > 0 || math.Abs(r.LengthMM-r.ExitAtMM-c.past) > 1e-6 {
			t.Errorf("%s: %v past the exit, want %v; %v", name, r.LengthMM-r.ExitAtMM, c.past, r.Trouble)
		}
	}
}
