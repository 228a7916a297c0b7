package job_test

import (
	"testing"

	"underfall/geometry/job"
)

// Checking a job whose lists are mostly empty.
func BenchmarkValidate(b *testing.B) {
	j := job.New()
	b.ReportAllocs()
	for b.Loop() {
		if p := j.Validate(); len(p) > 0 {
			b.Fatal(p)
		}
	}
}
