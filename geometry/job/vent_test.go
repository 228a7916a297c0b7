package job_test

import (
	"bytes"
	"os"
	"testing"

	"underfall/geometry/job"
)

// A run of an earlier version that was ventilated has a vent of 32 at the trap; one that
// was not has none.
func TestVentOfEarlierVersions(t *testing.T) {
	data, err := os.ReadFile("testdata/version-4/1-slab-side-wall.json")
	if err != nil {
		t.Fatal(err)
	}
	for _, vented := range []bool{false, true} {
		saved := data
		if vented {
			saved = bytes.Replace(data, []byte(`"waste": {`), []byte(`"waste": {"ventilated": true,`), 1)
		}
		j, err := job.Parse(saved)
		if err != nil {
			t.Fatal(err)
		}
		if got := j.Waste.Vent; vented != (got != nil) || vented && *got != (job.Vent{NominalMM: 32}) {
			t.Errorf("ventilated %v: %+v", vented, got)
		}
	}
}
