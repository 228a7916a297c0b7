package section

import (
	"math"

	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/plan"
	"underfall/geometry/waste"
)

// turnsOf are the turns of a job's run, stated or found.
func turnsOf(j job.Job, l layout.Layout) []plan.Point {
	corners := waste.Lay(j, l).Corners
	if len(corners) < 3 {
		return nil
	}
	return append([]plan.Point(nil), corners[1:len(corners)-1]...)
}

// AddTurn is the job with one more turn at a distance along its run.
func AddTurn(j job.Job, l layout.Layout, run waste.Run, atMM float64) job.Job {
	j = j.Clone()
	turns := turnsOf(j, l)
	p := run.PointAt(atMM)
	p = plan.Point{snapped(p.X()), snapped(p.Y())}
	// The leg the place lies on decides between which turns it goes.
	i := 0
	best := math.Inf(1)
	for k := 1; k < len(run.Corners); k++ {
		if d := plan.DistanceToSegment(p, run.Corners[k-1], run.Corners[k]); d < best {
			best, i = d, k-1
		}
	}
	i = min(i, len(turns))
	j.Waste.Waypoints = append(turns[:i:i], append([]plan.Point{p}, turns[i:]...)...)
	return j
}

// turnWithinMM is how near to a turn a place counts as it.
const turnWithinMM = 60

// TurnNear is the turn at a distance along the run, counted from zero.
func TurnNear(run waste.Run, atMM float64) (turn int, ok bool) {
	p := run.PointAt(atMM)
	best := float64(turnWithinMM)
	for i := 1; i+1 < len(run.Corners); i++ {
		if d := run.Corners[i].Sub(p).Len(); d < best {
			best, turn, ok = d, i-1, true
		}
	}
	return turn, ok
}

// RemoveTurn is the job without one of its turns.
func RemoveTurn(j job.Job, l layout.Layout, turn int) job.Job {
	j = j.Clone()
	turns := turnsOf(j, l)
	if turn >= 0 && turn < len(turns) {
		j.Waste.Waypoints = append(turns[:turn:turn], turns[turn+1:]...)
	}
	return j
}

// fittingAt is the index of the fitting that begins at a distance along the
// run; -1 when there is none.
func fittingAt(j job.Job, atMM float64) int {
	for i, f := range j.Waste.Fittings {
		if math.Abs(f.AtMM-atMM) < 1 {
			return i
		}
	}
	return -1
}

// TurnFitting is the job with a fitting the other way round.
func TurnFitting(j job.Job, atMM float64) job.Job {
	j = j.Clone()
	if i := fittingAt(j, atMM); i >= 0 {
		j.Waste.Fittings[i].Reversed = !j.Waste.Fittings[i].Reversed
	}
	return j
}

// RemoveFitting is the job without a fitting.
func RemoveFitting(j job.Job, atMM float64) job.Job {
	j = j.Clone()
	if i := fittingAt(j, atMM); i >= 0 {
		j.Waste.Fittings = append(j.Waste.Fittings[:i], j.Waste.Fittings[i+1:]...)
	}
	return j
}
