// Package ways tells the ways out that the waste of a job has, what little change lets its base come lower, and why the other ways
// out have no run.
package ways

import (
	"context"
	"slices"

	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/part"
	"underfall/geometry/rule"
	"underfall/geometry/search"
)

// exitSpacingMM is how close exits are tried along outside walls.
const exitSpacingMM = 150

// Look looks for runs of a job wherever one would look; with a shelf, parts of it are tried in place of those the job has.
func Look(ctx context.Context, j job.Job, pack rule.Pack, shelf part.Shelf, progress func(share float64)) (search.Outcome, error) {
	return search.Runs(ctx, j, pack, exits(j, pack), grid(j, shelf), progress)
}

// LookAsItStands looks for runs of a job wherever one would look, as it stands alone.
func LookAsItStands(ctx context.Context, j job.Job, pack rule.Pack) (search.Outcome, error) {
	return search.AsItStands(ctx, j, pack, exits(j, pack), grid(j, part.Shelf{}), nil)
}

// exits are where one would look: where the pipe comes straight out, and all along.
func exits(j job.Job, pack rule.Pack) []job.Exit {
	out := search.UsualExits(j, exitSpacingMM)
	for _, e := range search.StraightExits(j, pack, search.TrapPlaces(j)) {
		if !slices.ContainsFunc(out, func(o job.Exit) bool { return edit.SamePlace(o, e) }) {
			out = append(out, e)
		}
	}
	return out
}

// grid is what one would try for a job.
func grid(j job.Job, shelf part.Shelf) search.Grid {
	g := search.UsualGrid()
	g.TrapsMM, g.Shelf = search.TrapPlaces(j), shelf
	return g
}
