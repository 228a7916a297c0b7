package job_test

import (
	"testing"

	"underfall/geometry/job"
)

// Looking through the parameters sets nothing aside: every check of a job does
// it, for every sample and every key pressed.
func TestParametersAreReadWithoutMakingAList(t *testing.T) {
	last := job.Parameters()[len(job.Parameters())-1].Key
	if n := testing.AllocsPerRun(100, func() {
		if p, ok := job.Find(last); !ok || p.Key != last {
			t.Fatalf("%s is not found", last)
		}
	}); n > 0 {
		t.Errorf("finding %s sets aside memory %v times", last, n)
	}
	n := 0
	for range job.EachParameter {
		if n++; n == 3 {
			break
		}
	}
	if n != 3 {
		t.Errorf("%d parameters before the end was called", n)
	}
}
