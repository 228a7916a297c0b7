package geometry_test

import (
	"testing"

	"underfall/geometry"
	"underfall/geometry/demotest"
	"underfall/geometry/job"
	"underfall/geometry/rule"
)

// A station stands as the gravest of what is to be settled at it, and is not known where an input
// of its own is not; the work itself has not begun before something is measured.
func TestStations(t *testing.T) {
	r := demotest.Shown(t)[0]
	r.Findings = nil
	r.Stated.Standings = nil
	add := func(quantity string, s rule.Severity) {
		r.Findings = append(r.Findings, rule.Finding{Rule: rule.Rule{ID: quantity, Quantity: quantity, Compare: rule.AtLeast, Limit: 50, Severity: s},
			Measurement: rule.Measurement{Quantity: quantity, Value: 40}})
	}
	want := func(what string, stands map[job.Station]geometry.Standing) {
		t.Helper()
		for _, f := range r.StationsOf(r.Answer(nil)) {
			expected, ok := stands[f.Station]
			if !ok && f.Station != job.StationSite {
				expected = geometry.Sound
			}
			if f.Standing != expected {
				t.Errorf("%s: %s stands %q, want %q", what, f.Station, f.Standing, expected)
			}
			if f.Facts.IsZero() {
				t.Errorf("%s: %s has no facts", what, f.Station)
			}
		}
	}
	want("nothing found", nil)
	add("trap.seal", rule.Note)
	want("a note", nil)
	add("trap.flow-share", rule.Advice)
	want("advice at the trap", map[job.Station]geometry.Standing{job.StationDrain: geometry.Tight})
	add("trap.size", rule.Stop)
	add("room.headroom", rule.Licensed)
	add("tanking.upturn", rule.NotKnown)
	add("pipe.gradient", rule.Advice)
	add("built.out-of-reach", rule.Advice)
	r.Stated.SetStanding("floor.kind", job.NotKnown)
	level := 80.0
	r.Stated.AsBuilt.BaseTopMM = &level
	r.Settled.AsBuilt.BaseTopMM = &level
	want("one at each", map[job.Station]geometry.Standing{job.StationDrain: geometry.Stops, job.StationRoom: geometry.Tight,
		job.StationFinish: geometry.NotKnown, job.StationWayOut: geometry.Tight, job.StationSite: geometry.Tight, job.StationFloor: geometry.NotKnown})
}

// Whatever a shipped pack may find is settled at a station of the work.
func TestEveryFindingHasItsStation(t *testing.T) {
	stations := map[job.Station]bool{}
	for _, s := range job.Stations() {
		stations[s] = true
	}
	for _, r := range demotest.Shown(t) {
		for _, f := range r.Findings {
			if at := geometry.StationOf(f); !stations[at] {
				t.Errorf("%s is settled at %q", f.Rule.ID, at)
			}
		}
	}
}
