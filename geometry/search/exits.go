package search

import (
	"math"
	"slices"

	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/plan"
	"underfall/geometry/rule"
)

// UsualExits are the exits worth trying: the job's own, every stack, every pipe
// end that was found, and along every wall with an outside a place every spacing, clear of corners. A level that the
// stated exit may not lie under holds for the others in its wall too: what it
// keeps clear of runs along there.
func UsualExits(j job.Job, spacingMM float64) []job.Exit {
	exits := []job.Exit{j.Waste.Exit}
	for i := range j.Room.Stacks {
		if own := j.Waste.Exit; own.Kind != job.ExitStack || own.Stack != i {
			exits = append(exits, job.Exit{Kind: job.ExitStack, Stack: i})
		}
	}
	for _, p := range j.Room.PipeEnds {
		if exit := p.Exit(); !edit.SamePlace(exit, j.Waste.Exit) {
			exits = append(exits, exit)
		}
	}
	outline := j.Room.Outline
	for i, w := range j.Room.Walls {
		if w.OutsideGroundMM == nil {
			continue
		}
		length := outline[(i+1)%len(outline)].Sub(outline[i]).Len()
		n := int((length - 2*clearMM) / spacingMM)
		for k := range n + 1 {
			at := clearMM + (length-2*clearMM)*float64(k)/math.Max(1, float64(n))
			exits = append(exits, exitIn(&j, i, math.Round(at)))
		}
	}
	return exits
}

// clearMM is how far exits that are tried stay off the ends of their wall. Common practice, no source.
const clearMM = 60

// exitIn is a place in a wall for the waste of a job to leave by.
func exitIn(j *job.Job, wall int, offsetMM float64) job.Exit {
	exit := job.Exit{Kind: job.ExitWall, Wall: wall, OffsetMM: offsetMM}
	if own := j.Waste.Exit; own.Kind == job.ExitWall && own.Wall == wall && own.Level.Kind() == job.ExitNotBelow {
		exit.Level = own.Level
	}
	return exit
}

// StraightExits are the places where a pipe goes straight out from the trap through a wall with an outside, with the trap where
// it is and at other places along its drain, turned each way: a hole is drilled where the pipe comes.
func StraightExits(j job.Job, pack rule.Pack, trapsMM []float64) (out []job.Exit) {
	for _, at := range append([]float64{j.Drain.TrapOffsetMM}, trapsMM...) {
		for _, deg := range [...]float64{0, 90, 180, 270} {
			k := j.Clone()
			if k.Drain.TrapOffsetMM, k.Drain.OutletTurnDeg = at, deg; len(k.Validate()) > 0 {
				continue
			}
			placed, err := place(k, pack)
			if err != nil {
				continue // the search itself says so
			}
			for _, exit := range straightOut(&j, &placed.Layout) {
				if !slices.ContainsFunc(out, func(o job.Exit) bool { return edit.SamePlace(o, exit) }) {
					out = append(out, exit)
				}
			}
		}
	}
	return out
}

// straightOut are the places where the way that an outlet points leads square, or nearly so, through walls that it meets.
func straightOut(j *job.Job, l *layout.Layout) (out []job.Exit) {
	const finelyMM = 0.1 // a run is straight that is off by less than half a millimetre
	for i, w := range l.Walls {
		if j.Room.Walls[i].OutsideGroundMM == nil || l.OutletTo.Dot(w.Outward) < math.Cos(math.Pi/8) {
			continue
		}
		ahead, at, meet := plan.MeetLines(l.Outlet, l.OutletTo, w.A, w.Along)
		if meet && ahead > 0 && at >= clearMM && at <= w.LengthMM-clearMM {
			out = append(out, exitIn(j, i, math.Round(at/finelyMM)*finelyMM))
		}
	}
	return out
}
