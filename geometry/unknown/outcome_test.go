package unknown_test

import (
	"context"
	"math"
	"testing"

	"underfall/geometry"
	"underfall/geometry/demotest"
	"underfall/geometry/job"
	"underfall/geometry/rule"
	"underfall/geometry/unknown"
)

// Possibilities are put together by hand: concrete with a step of 116 and timber with one of 118, which
// both can be built, are one; a step of 131 is another, a floor that stops one more, and one that is
// flush not the same as a lip of 4.
func TestOutcomes(t *testing.T) {
	of := func(s geometry.Standing, kind geometry.StepKind, mm float64) unknown.Case {
		return unknown.Case{Answer: geometry.Answer{Standing: s, Steps: []geometry.Step{{Where: rule.Subject{Of: rule.OpenEdge, Number: 1}, MM: mm, Kind: kind}}}}
	}
	x := unknown.Exploration{Cases: []unknown.Case{
		of(geometry.Tight, geometry.AStep, 116), of(geometry.Stops, geometry.AStep, 116), of(geometry.Sound, geometry.AStep, 118),
		of(geometry.Tight, geometry.AStep, 131), of(geometry.Tight, geometry.Flush, 1.5), of(geometry.Tight, geometry.Lip, 4),
	}}
	want := [][]int{{0, 2}, {1}, {3}, {4}, {5}}
	got := x.Outcomes()
	if len(got) != len(want) {
		t.Fatalf("%d outcomes, want %d", len(got), len(want))
	}
	for i, o := range got {
		if len(o.Cases) != len(want[i]) || o.Cases[0] != want[i][0] || o.Cases[len(o.Cases)-1] != want[i][len(want[i])-1] {
			t.Errorf("outcome %d is of %v, want %v", i, o.Cases, want[i])
		}
	}
	if m := got[0].Message(); m.ID != "unknown.outcome-steps" || got[0].Step != (unknown.Range{LeastMM: 116, GreatestMM: 118}) {
		t.Errorf("it says %s", m)
	}
}

// Where all possibilities come to the same, none of them is told by name.
func TestOneOutcomeIsOfWhateverItIs(t *testing.T) {
	one := unknown.Case{Answer: geometry.Answer{Standing: geometry.Tight, Steps: []geometry.Step{{Where: rule.Subject{Of: rule.OpenEdge, Number: 1}, MM: 118, Kind: geometry.AStep}}}}
	x := unknown.Exploration{Cases: []unknown.Case{one, one}}
	if got := x.Outcomes(); len(got) != 1 || got[0].What().ID != "unknown.whatever" {
		t.Errorf("%d outcomes, the first of %s", len(got), got[0].What())
	}
}

// A value stands by itself as its number; what is no number as it is said.
func TestAValueByItself(t *testing.T) {
	j := job.New()
	j.SetStanding("layers.room.tile.thicknessMM", job.Assumed)
	j.SetStanding("floor.kind", job.NotKnown)
	x, err := unknown.Explore(context.Background(), geometry.Evaluate(j, demotest.Packs(t)[j.Region]))
	if err != nil {
		t.Fatal(err)
	}
	if len(x.Unknowns) == 0 || len(x.Assumed) == 0 {
		t.Fatalf("%d not known, %d assumed", len(x.Unknowns), len(x.Assumed))
	}
	for _, v := range x.Assumed[0].Values {
		if m := v.Alone(); m.ID != "unknown.value" || len(m.Args) != 1 || m.Args[0].Name != "value" {
			t.Errorf("%s by itself is %s", v.What, m)
		}
	}
	for _, v := range x.Unknowns[0].Values {
		if v.Alone().String() != v.What.String() {
			t.Errorf("%s by itself is %s", v.What, v.Alone())
		}
	}
}

// Of a job whose floor is not known every possibility is in one outcome, which stands as it does and has
// its step.
func TestOutcomesHoldEveryCase(t *testing.T) {
	j := job.New()
	j.SetStanding("floor.kind", job.NotKnown)
	x, err := unknown.Explore(context.Background(), geometry.Evaluate(j, demotest.Packs(t)[j.Region]))
	if err != nil {
		t.Fatal(err)
	}
	seen := map[int]bool{}
	for _, o := range x.Outcomes() {
		for _, i := range o.Cases {
			if seen[i] {
				t.Errorf("case %d is in two outcomes", i)
			}
			seen[i] = true
			c := x.Cases[i].Answer
			if s, ok := c.WayIn(); (c.Standing == geometry.Stops) != (o.Standing == geometry.Stops) || (c.Standing == geometry.NotKnown) != (o.Standing == geometry.NotKnown) || ok != o.HasStep || ok && (math.Abs(s.MM) < o.Step.LeastMM || math.Abs(s.MM) > o.Step.GreatestMM) {
				t.Errorf("case %d stands %s with %v, its outcome %s with %v", i, c.Standing, s.MM, o.Standing, o.Step)
			}
		}
		if o.Step.SpreadMM() > geometry.SameStepMM {
			t.Errorf("steps of %v are one", o.Step)
		}
	}
	// Of the starting job four of five come to the same: all but the trap between two joists that the
	// pipe runs along with.
	if all := x.Outcomes(); all[len(all)-1].What().ID != "unknown.else" || len(all[len(all)-1].Cases) < 3 {
		t.Errorf("the last is %s", all[len(all)-1].What())
	}
	if len(seen) != len(x.Cases) || len(x.Cases) < 2 {
		t.Errorf("%d of %d cases", len(seen), len(x.Cases))
	}
}
