package chance_test

import (
	"context"
	"testing"

	"underfall/geometry/chance"
	"underfall/geometry/demotest"
)

// BenchmarkFirstVerdict is the first answer to how sure it is, of the job with most to measure: it
// is asked for after every change, of a drag as well.
func BenchmarkFirstVerdict(b *testing.B) {
	results := demotest.Results(b)
	r := results[len(results)-1]
	b.ReportAllocs()
	for b.Loop() {
		if _, err := chance.First(context.Background(), r.Levelled, r.Findings, chance.Seed); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkCount is the full count of it.
func BenchmarkCount(b *testing.B) {
	results := demotest.Results(b)
	r := results[len(results)-1]
	b.ReportAllocs()
	for b.Loop() {
		if _, err := chance.Count(context.Background(), r.Levelled, r.Findings, 10000, chance.Seed); err != nil {
			b.Fatal(err)
		}
	}
}
