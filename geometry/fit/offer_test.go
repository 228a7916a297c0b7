package fit_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"underfall/geometry"
	"underfall/geometry/demotest"
	"underfall/geometry/fit"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/rule"
)

// Of every card of every demo: what is offered ends the finding that it says, brings nothing that stops
// the job, and no two offers do the same; what ends all places comes first.
func TestOffersDoWhatTheySay(t *testing.T) {
	offered := 0
	for _, r := range demotest.Shown(t) {
		for _, c := range r.Answer(nil).Cards {
			for at := range c.Places {
				all, _ := fit.Offers(r, c, at)
				said := map[string]bool{}
				for i, o := range all {
					offered++
					if o.All && (i > 0 || len(c.Places) < 2) || said[o.Does.String()] || i >= 3 {
						t.Errorf("%s, %s: offer %d of %d: %s", r.Settled.Name, c.Cause(), i, len(all), o.Does)
					}
					said[o.Does.String()] = true
					after := geometry.Evaluate(o.Edit.Apply(r.Stated), r.Pack)
					for _, f := range after.Findings {
						if f.Key() == o.For.Key() {
							t.Errorf("%s: %s leaves %s", r.Settled.Name, o.Does, f.Key())
						}
					}
				}
			}
		}
	}
	if offered == 0 {
		t.Error("nothing is offered")
	}
}

// A hole whose middle lies 26 over a slab, where two hands need 60, is drilled from outside, which costs no height; or the way
// out comes up by the 34 that it lacks, and the floor with it. One that bites 13 into the slab comes up by 13.
func TestAHoleThatLiesTooLow(t *testing.T) {
	j := demotest.Shown(t)[7].Stated.Clone()
	groundMM := -100.0
	j.Room.Walls[j.Waste.Exit.Wall].OutsideGroundMM = &groundMM
	r := evaluated(t, j)
	for id, want := range map[string]struct {
		first   message.ID
		byMM    float64
		another bool
	}{"core-low": {"remedy.drill-outside", 34, true}, "core-slab": {"remedy.way-out-up", 13, false}} {
		f, found := broken(r, id)
		if !found {
			t.Fatalf("%s is not broken", id)
		}
		all, _ := fit.RemediesOf(r, f, 3)
		if len(all) == 0 || all[0].Does.ID != want.first || (len(all) > 1) != want.another {
			t.Fatalf("%s: %d remedies", id, len(all))
		}
		up := all[len(all)-1]
		level, _ := up.Edit.Apply(r.Stated).Waste.Exit.Level.InvertMM()
		was := r.Heights.Run.InvertAt(r.Heights.Run.ExitAtMM)
		if built := up.After.Heights.Run; math.Abs(built.InvertAt(built.ExitAtMM)-level) > 1e-6 {
			t.Errorf("%s: the way out is brought to %v and comes to %v", id, level, built.InvertAt(built.ExitAtMM))
		}
		if by := level - was; by < want.byMM-1 || by > want.byMM+1.5 {
			t.Errorf("%s: the way out comes up by %v, want %v", id, by, want.byMM)
		}
		if up.Does.ID != "remedy.way-out-up" || want.another && all[0].Edit.Apply(r.Stated).Waste.Drill.From != job.DrillOutside {
			t.Errorf("%s: the last is %v", id, up.Does)
		}
		for _, remedy := range all {
			if _, still := broken(remedy.After, id); still {
				t.Errorf("%s: %v leaves it", id, remedy.Does)
			}
			for _, n := range remedy.New {
				if n.Rule.Severity == rule.Stop {
					t.Errorf("%s: %v brings %s", id, remedy.Does, n.Key())
				}
			}
		}
	}
}

// What each offer of every demo brings that must be settled, and so counts in the headline, stands with
// its price under its heading, or as one more place of the same.
func TestThePriceTellsAllThatIsNew(t *testing.T) {
	brings := 0
	for _, r := range demotest.Shown(t) {
		for _, c := range r.Answer(nil).Cards {
			all, _ := fit.Offers(r, c, 0)
			for _, o := range all {
				price := fmt.Sprint(o.Price(r))
				for _, n := range o.New {
					if n.Rule.Severity == rule.Note || n.Rule.ID == o.For.Rule.ID {
						continue
					}
					brings++
					if !strings.Contains(price, "rule."+n.Rule.ID+".heading") {
						t.Errorf("%s: %s brings %s, and says %s", r.Settled.Name, o.Does, n.Key(), price)
					}
				}
			}
		}
	}
	if brings == 0 {
		t.Error("nothing that is offered brings anything")
	}
}

// In a room so low that a floor which comes up for a higher way out leaves too little headroom and too
// little tanking, and has a lip, three things for the two that it ends, the hole is rather drilled from
// outside, which brings nothing: that is first, and what RemedyOf finds.
func TestWhatLeavesTheJobWorseStandsLast(t *testing.T) {
	j := demotest.Shown(t)[7].Stated.Clone()
	groundMM := -100.0
	j.Room.Walls[j.Waste.Exit.Wall].OutsideGroundMM = &groundMM
	j.Room.HeightMM = 2150
	r := evaluated(t, j)
	f, found := broken(r, "core-low")
	if !found {
		t.Fatal("the hole does not lie too low")
	}
	all, _ := fit.RemediesOf(r, f, 3)
	if len(all) != 2 || all[0].Does.ID != "remedy.drill-outside" || all[1].Does.ID != "remedy.way-out-up" {
		t.Fatalf("%d remedies, %v", len(all), all[0].Does)
	}
	if all[0].Worse || !all[1].Worse {
		t.Errorf("worse are %v and %v", all[0].Worse, all[1].Worse)
	}
	if first, _, _ := fit.RemedyOf(r, f); first.Does.ID != "remedy.drill-outside" {
		t.Errorf("the one remedy is %v", first.Does)
	}
}

// Of the third demo the water splashes out; a deeper shower ends that, and brings three others to
// settle for one.
func TestADeeperShowerMayLeaveTheJobWorse(t *testing.T) {
	r := demotest.Shown(t)[2]
	f, found := broken(r, "head-splash")
	remedy, _, ok := fit.RemedyOf(r, f)
	if !found || !ok {
		t.Fatal("nothing is offered")
	}
	after := geometry.Evaluate(remedy.Edit.Apply(r.Stated), r.Pack)
	was, is := len(r.Answer(nil).Of(rule.Advice)), len(after.Answer(nil).Of(rule.Advice))
	if is <= was || !remedy.Worse {
		t.Errorf("%d things to settle become %d; worse: %v", was, is, remedy.Worse)
	}
}

// A pipe that leaves at −94.4 by itself, over the −100 stated as the lowest there may be, is said to, with
// both levels in the answer; and dropped to −100 where that is wanted.
func TestALevelThatIsNotDrawnIsSaid(t *testing.T) {
	j := demotest.Shown(t)[2].Stated.Clone()
	j.Waste.Exit.Level = job.NotBelow(-100)
	r := evaluated(t, j)
	f, found := broken(r, "exit-over")
	if !found || math.Abs(f.Measurement.Value-5.6) > 0.1 {
		t.Fatalf("found %v, %v", found, f.Measurement.Value)
	}
	if f.Message().ID != "found.over-stated" {
		t.Errorf("it says %v", f.Message())
	}
	if way := saying(r, "answer.way-over"); way == 0 {
		t.Error("the answer does not say so")
	}
	cure, _, ok := fit.RemedyOf(r, f)
	if !ok {
		t.Fatal("nothing is offered")
	}
	if built := cure.After.Heights.Run; math.Abs(built.InvertAt(built.ExitAtMM)+100) > 1e-6 || saying(cure.After, "answer.way-over") > 0 {
		t.Errorf("then it leaves at %v", built.InvertAt(built.ExitAtMM))
	}
}

// saying is how many lines of a result's answer say something.
func saying(r geometry.Result, id message.ID) (n int) {
	for _, l := range r.Answer(nil).Lines() {
		if l.ID == id {
			n++
		}
	}
	return n
}

// A lip that people trip over: the floor is kept, 120 high, in the room before a shower from wall to wall, whose tile lies a little
// off it. Where the room comes up to the edge, or a ramp leads to it, there is none.
func TestALipGoesAwayByAnotherEdge(t *testing.T) {
	j := demotest.Shown(t)[0].Stated.Clone()
	j.SpotLevels = nil
	j.Shower.OffsetMM, j.Shower.WidthMM = 0, j.Room.Outline[1].X()
	j.Floor.Existing = []job.Existing{{Kind: job.ExistingFinish, ThicknessMM: 120, Out: job.OutShower}}
	r := evaluated(t, j)
	f, found := broken(r, "edge-lip")
	if !found {
		t.Fatal("there is no lip")
	}
	all, _ := fit.RemediesOf(r, f, 3)
	if len(all) == 0 {
		t.Fatal("nothing is offered")
	}
	for _, remedy := range all {
		if _, still := broken(remedy.After, "edge-lip"); still || remedy.Edit.Apply(j).Room.Edge == j.Room.Edge {
			t.Errorf("%v leaves it", remedy.Does)
		}
	}
}

// A base on the deck whose step is too high for a wheelchair: let in between the joists, with none under the trap, it is low enough.
// The rule asks for 15 at most; on boards over the deck it is several times that.
func TestABaseIsLetInForAStep(t *testing.T) {
	j := demotest.Rooms(t)[2].Job.Clone() // let in between joists
	j.Accessible = true
	j.Layers.Room.Tile.ThicknessMM += 5 // the room comes up nearer to it
	j.Base.Support = job.OnFloor
	r := evaluated(t, j)
	f, found := broken(r, "uk-edge-acc")
	if !found {
		t.Fatalf("no step that is too high: %v", r.Answer(nil).Steps)
	}
	all, _ := fit.RemediesOf(r, f, 3)
	for _, remedy := range all {
		if remedy.Does.ID != "remedy.let-in" {
			continue
		}
		if is := remedy.Edit.Apply(j).Base.Support; is != job.BetweenJoists {
			t.Errorf("it stands %v", is)
		}
		if _, still := broken(remedy.After, "uk-edge-acc"); still {
			t.Error("it leaves the step")
		}
		return
	}
	t.Errorf("of %d none lets it in", len(all))
}
