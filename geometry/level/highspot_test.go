package level_test

import (
	"testing"

	"underfall/geometry/job"
)

// What stands on a high spot says so, from half a millimetre over the plane on: two
// readings give their mean, level, and the one under the shower stands over it by
// half of what they differ.
func TestHighSpotsAreNamed(t *testing.T) {
	for _, c := range []struct {
		differMM    float64
		trap, pipe1 string
	}{
		{0.98, "trap body on the floor", "underside of Pipe 1 on the floor"},
		{1.02, "trap body on the floor's high spot", "underside of Pipe 1 on the floor's high spot"},
	} {
		j := job.New()
		j.SpotLevels = spots([3]float64{700, 1450, c.differMM}, [3]float64{2300, 100, 0})
		_, h := solve(j)
		named := map[string]bool{}
		for _, b := range h.Constraints {
			named[b.Name()] = true
		}
		if !named[c.trap] || !named[c.pipe1] {
			t.Errorf("readings that differ by %v: %v", c.differMM, named)
		}
	}
}
