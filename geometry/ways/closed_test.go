package ways_test

import (
	"context"
	"strings"
	"testing"

	"underfall/geometry"
	"underfall/geometry/demotest"
	"underfall/geometry/job"
	"underfall/geometry/part"
	"underfall/geometry/plan"
	"underfall/geometry/rule"
	"underfall/geometry/search"
	"underfall/geometry/ways"
)

// beside are the ways out of a job with none but its own wall, and a stack at a place.
func beside(t *testing.T, j job.Job, stack plan.Point) []ways.Closed {
	t.Helper()
	j.Room.Stacks = []job.Stack{{At: stack, NominalMM: 110, OutsideMM: 110}}
	pack := demotest.Packs(t)[j.Region]
	s, err := ways.Look(context.Background(), j, pack, part.Shelf{}, nil)
	if err != nil {
		t.Fatal(err)
	}
	closed := ways.ClosedOf(s, j, pack)
	for _, c := range closed {
		if !c.Cured {
			continue
		}
		r := geometry.Evaluate(c.Edit.Apply(j), pack)
		if stops := r.Answer(nil).Of(rule.Stop); len(r.Problems) > 0 || len(stops) > 0 {
			t.Errorf("%s: cured, and still stopped: %v %v", c.Said, r.Problems, stops)
		}
	}
	return closed
}

// The waste of the starting job goes through the wall. To a stack beside the shower, whose edge lies at y = 1000, the pipe lies
// bare at least for the 82 mm to the stack's face at 863 + 55: that is what is told of it, with boxing it in as the cure.
func TestAStackWithoutARunIsTold(t *testing.T) {
	closed := beside(t, job.New(), plan.Point{115, 863})
	if len(closed) != 1 || closed[0].To.Kind != job.ExitStack || !closed[0].Cured {
		t.Fatalf("%+v", closed)
	}
	said := closed[0].Said.String()
	for _, want := range []string{"run.to-stack", "rule.pipe-exposed", "found.bare", "remedy.box-in"} {
		if !strings.Contains(said, want) {
			t.Errorf("%q is not in %s", want, said)
		}
	}
	if strings.Contains(said, "\n") {
		t.Errorf("it takes more than a line: %s", said)
	}
}

// A wall whose ground outside lies 1.5 m over the floor lets a run out only with the floor as high: nobody builds that, so the ground is
// told, and it is called no cure.
func TestNobodyRaisesAFloorOutOfTheGround(t *testing.T) {
	j := job.New()
	high := 1500.0
	for i := range j.Room.Walls {
		if i != j.Waste.Exit.Wall {
			j.Room.Walls[i].OutsideGroundMM = &high
		}
	}
	closed := beside(t, j, plan.Point{115, 863})
	if len(closed) < 2 {
		t.Fatalf("told are %d ways out", len(closed))
	}
	for _, c := range closed {
		if c.To.Kind == job.ExitWall && (c.Cured || c.Said.ID == "closed.only-high" && !strings.Contains(c.Said.String(), "bound.outside-ground")) {
			t.Errorf("%s", c.Said)
		}
	}
	if !closed[0].Cured {
		t.Error("the one that can be cured does not come first")
	}
}

// A run with its outlet turned says so among what it asks for; one that is as the job has it says nothing of it.
func TestATurnedOutletIsTold(t *testing.T) {
	j := job.New()
	turned := j.Clone()
	turned.Drain.OutletTurnDeg = j.Drain.OutletTurnDeg + 90
	for name, c := range map[string]struct {
		job   job.Job
		wants bool
	}{"as it is": {j, false}, "turned": {turned, true}} {
		said := ""
		for _, m := range ways.Detail(search.Alternative{Job: c.job}, j, nil) {
			said += m.String() + "\n"
		}
		if strings.Contains(said, "run.outlet-") != c.wants {
			t.Errorf("%s: %s", name, said)
		}
	}
}
