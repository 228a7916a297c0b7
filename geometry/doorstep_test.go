package geometry_test

import (
	"math"
	"strings"
	"testing"

	"underfall/geometry"
	"underfall/geometry/buildup"
	"underfall/geometry/demotest"
	"underfall/geometry/job"
	"underfall/geometry/rule"
)

// The step at a doorway is one number wherever it is told. By hand: the starting job's floor is at 10 + 2 + 1 = 13, a water
// stop of 5 on it ends at 18. Beside a floor at 20 that is 2 under it and one steps over the stop's own 5; beside one at 4 it
// is 14 up, beside one at 60 42 down. Without a stop it is 7 down to a floor at 20 that is beyond.
func TestTheStepAtADoorwayIsOneNumber(t *testing.T) {
	for name, c := range map[string]struct {
		beyondMM, stopMM, want float64
		line                   string
	}{
		"no stop":                   {20, 0, -7, "figure.door-down{n: 1, mm: -7 mm up}"},
		"a stop":                    {20, 5, 5, "figure.door-stop{n: 1, mm: 5 mm up}"},
		"over a lower floor":        {4, 5, 14, "figure.door-stop{n: 1, mm: 14 mm up}"},
		"under a higher floor":      {60, 5, -42, "figure.door-down{n: 1, mm: -42 mm up}"},
		"no stop, lower floor":      {4, 0, 9, "figure.door-up{n: 1, mm: 9 mm up}"},
		"no stop, as good as level": {14, 0, -1, "figure.door-flush{n: 1, mm: -1 mm up}"},
	} {
		j := job.New()
		j.Room.Doorways[0].NeighbourFFLMM = c.beyondMM
		j.SetStanding("room.doorways[0].neighbourFFLMM", job.Stated)
		if c.stopMM > 0 {
			j.Layers.Tanking = &job.Tanking{DoorStopMM: c.stopMM}
		}
		r := geometry.Evaluate(j, demotest.Packs(t)["UK"])
		got := map[string]float64{}
		for _, s := range r.Steps() {
			if s.Where.Of == rule.Doorway {
				got["answer"] = s.MM
			}
		}
		for _, row := range r.Schedule {
			if row.ID.Of == buildup.DoorStep {
				got["schedule"], got["as the schedule tells it"] = row.Value, row.Rise.MM()
			}
		}
		if m, ok := r.MeasurementOf("step.door", rule.Subject{Of: rule.Doorway, Number: 1}); ok {
			got["as it is held against rules"] = math.Copysign(m.Value, c.want)
		}
		rods, steps := r.Rods()
		for _, s := range steps {
			if s.Where.Of == rule.Doorway {
				got["by its rods"] = rods[s.To].LevelMM - rods[s.From].LevelMM
			}
		}
		flush := strings.HasPrefix(c.line, "figure.door-flush")
		if want := 5; len(got) != want && !(flush && len(got) == want-1) {
			t.Errorf("%s: told in %d places: %v", name, len(got), got)
		}
		for of, mm := range got {
			if math.Abs(mm-c.want) > 1e-9 {
				t.Errorf("%s: %s it is %v, want %v", name, of, mm, c.want)
			}
		}
		if lines := r.DoorLines(); len(lines) != 1 || lines[0].String() != c.line {
			t.Errorf("%s: %v, want %s", name, lines, c.line)
		}
	}
}

// A step from a floor beyond a doorway that is assumed is told as assumed; of one that nobody knows no step is told.
func TestAStepFromAnAssumedFloorBeyond(t *testing.T) {
	for standing, want := range map[job.Standing]string{job.Assumed: "figure.door-assumed", job.NotKnown: ""} {
		j := job.New()
		j.SetStanding("room.doorways[0].neighbourFFLMM", standing)
		got := ""
		for _, line := range geometry.Evaluate(j, demotest.Packs(t)["UK"]).DoorLines() {
			got += string(line.ID)
		}
		if got != want {
			t.Errorf("%s: %q", standing, got)
		}
	}
}
