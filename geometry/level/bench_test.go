package level_test

import (
	"testing"

	"underfall/geometry/job"
	"underfall/geometry/level"
)

// BenchmarkNextHeight finds the stack of ten thicknesses over each of many heights.
func BenchmarkNextHeight(b *testing.B) {
	base := job.Base{BoardsMM: []float64{6, 10, 12, 20, 30, 40, 50, 60, 80, 100}, BetweenLeastMM: 2, BetweenGreatestMM: 4}
	for i := range b.N {
		if _, _, ok := level.NextHeight(&base, 20+float64(i%200)); !ok {
			b.Fatal("no stack")
		}
	}
}
