package geometry_test

import (
	"context"

	"underfall/geometry"
	"underfall/geometry/chance"
	"underfall/geometry/job"
	"underfall/geometry/rule"
	"underfall/geometry/search"
)

// What the benchmarks call that earlier revisions have in other places.

func countChances(r geometry.Result, samples int) {
	chance.Count(context.Background(), r.Levelled, r.Findings, samples, chance.Seed)
}

func usualExits(j job.Job, spacingMM float64) []job.Exit { return search.UsualExits(j, spacingMM) }

func findRuns(j job.Job, pack rule.Pack, exits []job.Exit) {
	search.Runs(context.Background(), j, pack, exits, search.UsualGrid(), nil)
}
