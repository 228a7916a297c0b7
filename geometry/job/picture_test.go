package job_test

import (
	"testing"

	"underfall/geometry/job"
)

// Another light or place of a thing leaves it built as it was; nothing else does.
func TestBuiltAs(t *testing.T) {
	j := job.New()
	lit := j.Clone()
	lit.Picture = &job.Picture{Light: job.Light{Kind: job.LightEvening, Hour: 20}, Wet: true, Things: []job.Thing{{Kind: job.ThingTowels, AlongMM: 100}}}
	if !j.BuiltAs(lit) || !lit.BuiltAs(j) {
		t.Error("in another light it is built otherwise")
	}
	if lit.Picture == nil {
		t.Error("it is shown otherwise by being asked")
	}
	lit.Name += "."
	if j.BuiltAs(lit) {
		t.Error("another name is none")
	}
}
