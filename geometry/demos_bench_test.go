package geometry_test

import (
	"testing"

	"underfall/assets"
	"underfall/geometry"
	"underfall/geometry/demotest"
)

// BenchmarkDemos evaluates each job that comes with Underfall, beside the frozen one that
// takes longest: how much more a room as it is really built asks for.
func BenchmarkDemos(b *testing.B) {
	packs := demotest.Packs(b)
	names, jobs := frozenJobs(b)
	names, jobs = names[len(names)-1:], jobs[len(jobs)-1:]
	demos, problems := assets.Demos()
	if problems != nil {
		b.Fatal(problems)
	}
	for _, d := range demos {
		names, jobs = append(names, d.File), append(jobs, d.Job)
	}
	for i, j := range jobs {
		b.Run(names[i], func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				geometry.Evaluate(j, packs[j.Region])
			}
		})
	}
}
