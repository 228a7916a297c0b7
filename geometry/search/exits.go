package search

import (
	"math"

	"underfall/geometry/edit"
	"underfall/geometry/job"
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
	const clearMM = 60
	for i, w := range j.Room.Walls {
		if w.OutsideGroundMM == nil {
			continue
		}
		length := outline[(i+1)%len(outline)].Sub(outline[i]).Len()
		n := int((length - 2*clearMM) / spacingMM)
		for k := range n + 1 {
			at := clearMM + (length-2*clearMM)*float64(k)/math.Max(1, float64(n))
			exit := job.Exit{Kind: job.ExitWall, Wall: i, OffsetMM: math.Round(at)}
			if own := j.Waste.Exit; own.Kind == job.ExitWall && own.Wall == i && own.Level.Kind() == job.ExitNotBelow {
				exit.Level = own.Level
			}
			exits = append(exits, exit)
		}
	}
	return exits
}
