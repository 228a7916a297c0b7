package section_test

import (
	"testing"

	"underfall/geometry"
	"underfall/geometry/buildup"
	"underfall/geometry/demotest"
	"underfall/geometry/job"
	"underfall/geometry/section"
)

// A water stop that is cut is named, with how far it stands over the floor: 12 at the doorway, 15 along the pane at the way in, as
// they are stated; where none is stated none is named.
func TestWaterStopsAreNamed(t *testing.T) {
	shown := demotest.Shown(t)[0]
	told := func(tanking job.Tanking, of section.CuttingOf) string {
		j := shown.Stated.Clone()
		j.Layers.Tanking = &tanking
		r := geometry.Evaluate(j, shown.Pack)
		d, err := section.Through(r, section.Cutting{Of: of}, buildup.StageTile)
		if err != nil || len(r.Problems) > 0 {
			t.Fatal(err, r.Problems)
		}
		return said(d, section.MarkWaterStop)
	}
	both := job.Tanking{DoorStopMM: 12, ScreenStopMM: 15}
	for of, want := range map[section.CuttingOf]string{
		section.CutDoor:  "mark.water-stop{over: 12 mm}",
		section.CutDrain: "mark.water-stop{over: 15 mm}",
	} {
		if got := told(both, of); got != want {
			t.Errorf("%s: %q, want %q", of, got, want)
		}
		if got := told(job.Tanking{}, of); got != "" {
			t.Errorf("%s: %q where there is none", of, got)
		}
	}
}
