// Package ways tells the ways out that the waste of a job has, what little change lets its base come lower, and why the other ways
// out have no run.
package ways

import (
	"context"

	"underfall/geometry/job"
	"underfall/geometry/part"
	"underfall/geometry/rule"
	"underfall/geometry/search"
)

// exitSpacingMM is how close exits are tried along outside walls.
const exitSpacingMM = 150

// Look looks for runs of a job wherever one would look; with a shelf, parts of it are tried in place of those the job has.
func Look(ctx context.Context, j job.Job, pack rule.Pack, shelf part.Shelf, progress func(share float64)) (search.Outcome, error) {
	grid := search.UsualGrid()
	grid.TrapsMM, grid.Shelf = search.TrapPlaces(j), shelf
	return search.Runs(ctx, j, pack, search.UsualExits(j, exitSpacingMM), grid, progress)
}
