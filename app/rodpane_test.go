package app

import (
	"testing"

	"underfall/assets"
	"underfall/geometry"
	"underfall/geometry/job"
)

// The rods are read from what is chosen: 108 over the slab at the drain of the starting job is 95 over
// its room's floor at 13, 258 over the ground at −150, and 879 down from a laser line at 987. A job of
// which that is not known is read over its structural floor, and the choice holds for the next.
func TestRodsAreReadFromWhatIsChosen(t *testing.T) {
	w, _ := openWindow(t, Options{})
	packs, err := assets.Rules()
	if err != nil {
		t.Fatal(err)
	}
	read, known := job.New(), -13.0
	read.Laser = job.Laser{SetUps: []job.SetUp{{LevelMM: &known, DownMM: 1000}}}
	r := geometry.Evaluate(read, packs["UK"])
	p := w.rods
	p.show(r)
	drain := func() string { return p.level(p.datum(), r.Heights.TileMM) }
	for i, want := range []string{"+108", "+95", "+258", "879"} {
		p.from.SetSelectedIndex(i)
		if got := drain(); got != want {
			t.Errorf("%s: %s, want %s", p.from.Selected, got, want)
		}
	}
	bare := job.New()
	p.show(geometry.Evaluate(bare, packs["UK"]))
	if got := drain(); got != "+108" || len(p.from.Options) != 3 {
		t.Errorf("without a laser: %s, of %v", got, p.from.Options)
	}
	p.show(r)
	if got := drain(); got != "879" {
		t.Errorf("with one again: %s", got)
	}
}
