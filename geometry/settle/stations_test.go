package settle_test

import (
	"slices"
	"testing"

	"underfall/geometry/demotest"
	"underfall/geometry/job"
	"underfall/geometry/settle"
)

// Another number is another station's alone, several are told in the order of the work, and the same job is none's.
func TestStationsApart(t *testing.T) {
	j := demotest.Rooms(t)[0].Job
	if got := settle.Stations(&j, &j); len(got) > 0 {
		t.Errorf("the same job: %v", got)
	}
	k := j.Clone()
	k.Waste.Exit.OffsetMM += 40
	if got := settle.Stations(&j, &k); !slices.Equal(got, []job.Station{job.StationWayOut}) {
		t.Errorf("the way out elsewhere: %v", got)
	}
	k.Shower.DepthMM += 100
	if got := settle.Stations(&j, &k); !slices.Equal(got, []job.Station{job.StationShower, job.StationWayOut}) {
		t.Errorf("and another shower: %v", got)
	}
}
