package geometry_test

import (
	"os"
	"path/filepath"
	"testing"

	"underfall/geometry"
	"underfall/geometry/demotest"
	"underfall/geometry/job"
	"underfall/geometry/rule"
	"underfall/geometry/section"
)

// The benchmarks work on jobs kept as they were in testdata/bench, so that one
// revision can be held against another: `./cmd/dev compare` puts this file into
// the other revision in the place of its tests. It takes only what earlier
// revisions have as well; what they have elsewhere comes from calls_test.go here,
// and from testdata/bench/calls_before_folders.go.txt there.

// frozenJobs are the jobs of the benchmarks, in order, with their file names.
func frozenJobs(b *testing.B) (names []string, jobs []job.Job) {
	b.Helper()
	files, err := filepath.Glob("../testdata/bench/*.json")
	if err != nil || len(files) == 0 {
		b.Fatalf("looking for the jobs of the benchmarks: %v, %d found", err, len(files))
	}
	for _, f := range files {
		data, err := os.ReadFile(f)
		if err != nil {
			b.Fatal(err)
		}
		j, err := job.Parse(data)
		if err != nil {
			b.Fatalf("%s: %v", f, err)
		}
		names, jobs = append(names, filepath.Base(f)), append(jobs, j)
	}
	return names, jobs
}

// frozenResult is one of the jobs, counted from one, worked out.
func frozenResult(b *testing.B, number int) (geometry.Result, rule.Pack) {
	b.Helper()
	_, jobs := frozenJobs(b)
	j := jobs[number-1]
	pack := demotest.Packs(b)[j.Region]
	r := geometry.Evaluate(j, pack)
	if len(r.Problems) > 0 {
		b.Fatal(r.Problems)
	}
	return r, pack
}

// BenchmarkEvaluate evaluates each job: everything, the covering of every part
// with triangles too, but for lifting those to meshes, which parts do when they
// are first drawn.
func BenchmarkEvaluate(b *testing.B) {
	packs := demotest.Packs(b)
	names, jobs := frozenJobs(b)
	for i, j := range jobs {
		b.Run(names[i], func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				geometry.Evaluate(j, packs[j.Region])
			}
		})
	}
}

// BenchmarkMeshes makes every mesh of each job.
func BenchmarkMeshes(b *testing.B) {
	names, _ := frozenJobs(b)
	for i := range names {
		r, _ := frozenResult(b, i+1)
		b.Run(names[i], func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				for _, p := range r.Assembly.Parts {
					p.Shape.Mesh()
				}
			}
		})
	}
}

// finished is the last stage of the work, by its number: revisions have it in
// different packages.
const finished = 6

// BenchmarkSection draws one section of each job with hatch and dimensions;
// meshes are there already, as they are in the window.
func BenchmarkSection(b *testing.B) {
	names, _ := frozenJobs(b)
	for i := range names {
		r, _ := frozenResult(b, i+1)
		cut := section.ThroughDrain(r)
		section.Of(r, cut, finished)
		b.Run(names[i], func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				d := section.Of(r, cut, finished)
				for _, a := range d.Areas {
					section.Hatch(a.Region, section.PatternOf(a.Material), 8)
				}
			}
		})
	}
}

// BenchmarkRisks is 10 000 samples of the hardest job on all processors.
func BenchmarkRisks(b *testing.B) {
	r, _ := frozenResult(b, 6)
	b.ReportAllocs()
	for b.Loop() {
		countChances(r, 10000)
	}
}

// BenchmarkFirstRisks is 1000 samples of it: the first answer to how sure it is.
func BenchmarkFirstRisks(b *testing.B) {
	r, _ := frozenResult(b, 6)
	b.ReportAllocs()
	for b.Loop() {
		countChances(r, 1000)
	}
}

// BenchmarkFindRuns looks for the runs of a room with joists to three exits and
// to forty, and of a job that cannot be built for what would let one through.
func BenchmarkFindRuns(b *testing.B) {
	_, jobs := frozenJobs(b)
	packs := demotest.Packs(b)
	many := usualExits(jobs[1], 45)
	for len(many) < 40 {
		many = append(many, many...)
	}
	for _, c := range []struct {
		name  string
		job   job.Job
		exits []job.Exit
	}{
		{"3 exits", jobs[1], usualExits(jobs[1], 700)[:3]},
		{"40 exits", jobs[1], many[:40]},
		{"in vain", jobs[5], usualExits(jobs[5], 700)},
	} {
		b.Run(c.name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				findRuns(c.job, packs[c.job.Region], c.exits)
			}
		})
	}
}
