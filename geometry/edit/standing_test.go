package edit_test

import (
	"maps"
	"testing"

	"underfall/geometry/demotest"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/plan"
)

// Each edit of a standing leads from where it may to where it should, and nowhere from elsewhere.
func TestStandingEdits(t *testing.T) {
	const key = "floor.kind"
	for _, c := range []struct {
		name     string
		e        edit.Edit
		from, to job.Standing
	}{
		{"hold", edit.Hold(key), job.Stated, job.Held},
		{"hold unknown", edit.Hold(key), job.NotKnown, job.Held},
		{"let go", edit.LetGo(key), job.Held, job.Stated},
		{"let go of nothing held", edit.LetGo(key), job.Assumed, job.Assumed},
		{"confirm", edit.Confirm(key), job.Assumed, job.Stated},
		{"confirm unknown", edit.Confirm(key), job.NotKnown, job.Stated},
		{"confirm held", edit.Confirm(key), job.Held, job.Held},
		{"assume", edit.Assume(key), job.Stated, job.Assumed},
		{"unknown", edit.Unknown(key), job.Held, job.NotKnown},
		{"said, not known", edit.FloorKind(job.FloorSlab), job.NotKnown, job.Stated},
		{"said, assumed", edit.FloorKind(job.FloorTimber), job.Assumed, job.Stated},
		{"said, held", edit.FloorKind(job.FloorTimber), job.Held, job.Held},
		{"typed", edit.Typed(edit.FloorKind(job.FloorSlab), key), job.NotKnown, job.Held},
		{"something else", edit.Support(job.OnFloor), job.NotKnown, job.NotKnown},
	} {
		j := job.New()
		j.SetStanding(key, c.from)
		got := c.e.Apply(j)
		if s := got.StandingOf(key); s != c.to {
			t.Errorf("%s: from %q to %q, want %q", c.name, c.from, s, c.to)
		}
		if s := j.StandingOf(key); s != c.from {
			t.Errorf("%s: the job given has %q now", c.name, s)
		}
	}
}

// What is typed into a field states it; so does dragging, of what comes to lie elsewhere only.
func TestSayingStates(t *testing.T) {
	j := job.New()
	width, _ := job.Find("shower.widthMM")
	windows, _ := job.FindList("room.windows")
	windows.Add(&j)
	keys := []string{"shower.widthMM", "shower.depthMM", "room.windows[0].sillMM", "room.windows[0].wall", "waste.exit.offsetMM"}
	for _, key := range keys {
		j = edit.Unknown(key).Apply(j)
	}
	if len(j.Standings) != len(keys) {
		t.Fatalf("not known: %v", j.Standings)
	}
	for _, e := range windows.Entries() {
		switch {
		case e.Key == "sillMM":
			mm := 1000.0
			j = edit.ItemNumber(windows, 0, e, &mm).Apply(j)
		case e.Wall != nil:
			j = edit.ItemWall(windows, 0, e, 1).Apply(j)
		}
	}
	j = edit.Number(width, 1300).Apply(j)
	j = edit.Drag(edit.Handle{Kind: edit.HandleExit}, plan.Point{-50, 1400}).Apply(j)
	if want := map[string]job.Standing{"shower.depthMM": job.NotKnown}; !maps.Equal(j.Standings, want) {
		t.Errorf("%v, want %v", j.Standings, want)
	}
}

// Standings go with the things they are of: a wall that is gone, a fitting that is taken out.
func TestStandingsGoWithThings(t *testing.T) {
	j := job.New()
	j.Waste.Fittings = []job.Fitting{job.UsualFallingPiece(100), job.UsualFallingPiece(400)}
	j.SetStanding("waste.fittings[0].slope", job.Held)
	j.SetStanding("waste.fittings[1].slope", job.Assumed)
	j.SetStanding("room.walls[3].thicknessMM", job.NotKnown)
	j.SetStanding("room.walls[2].thicknessMM", job.Assumed)
	j = edit.RemoveFitting(100).Apply(j)
	j = edit.Outline([]plan.Point{{0, 0}, {2400, 0}, {2400, 1900}}).Apply(j)
	want := map[string]job.Standing{"waste.fittings[0].slope": job.Assumed, "room.walls[2].thicknessMM": job.Assumed}
	if !maps.Equal(j.Standings, want) {
		t.Errorf("%v, want %v", j.Standings, want)
	}
}

// Whatever is said of inputs, a job in which the country, the floor, the fall, the way out or the room
// changes keeps standings of what it has alone, and is as sound as before.
func TestStandingsOutliveChanges(t *testing.T) {
	j := job.New()
	j.Room.Stacks = []job.Stack{{At: plan.Point{200, 300}, NominalMM: 110, OutsideMM: 110}}
	for _, in := range job.Inputs() {
		j.SetStanding(in.Key, job.NotKnown)
	}
	for _, l := range job.Lists() {
		for i := range l.Count(&j) {
			for _, e := range l.Entries() {
				j.SetStanding(l.Path(i, e), job.Assumed)
			}
		}
	}
	if p := j.Validate(); len(p) > 0 || len(j.Standings) < 100 {
		t.Fatalf("%d standings: %v", len(j.Standings), p)
	}
	stacks, _ := job.FindList(job.StacksKey)
	shelf := demotest.Shelf()
	for name, e := range map[string]edit.Edit{
		"country": edit.Region("US", "2026-11", shelf), "floor": edit.FloorKind(job.FloorTimber), "fall": edit.Fall(job.FallPoint),
		"room fall": edit.Fall(job.FallRoom), "way out": edit.ExitKind(job.ExitStack), "pump": edit.ExitKind(job.ExitPump),
		"three walls": edit.Outline([]plan.Point{{0, 0}, {2400, 0}, {2400, 1900}}), "no stack": edit.RemoveItem(stacks, 0),
		"drain": edit.ForgetDrain(), "run": edit.UseRun(edit.RunOf(j)),
	} {
		after := e.Apply(j)
		for _, p := range after.Validate() {
			if p.Key == "standings" {
				t.Errorf("%s: %v", name, p)
			}
		}
		for key := range after.Standings {
			if !after.HasInput(key) {
				t.Errorf("%s: %s stands for nothing", name, key)
			}
		}
	}
}

// In the jobs that come with the program nobody has said anything of the kind of floor that they do not have: made the other kind it
// is assumed.
func TestDemosAssumeTheOtherFloor(t *testing.T) {
	for _, r := range demotest.Shown(t) {
		other, keys := job.FloorTimber, []string{"floor.joists.spacingMM", "floor.joists.directionDeg", "floor.joists.depthMM",
			"floor.joists.widthMM", "floor.joists.firstOffsetMM", "floor.deck.thicknessMM", "base.support"}
		if r.Stated.Floor.Kind == job.FloorTimber {
			other, keys = job.FloorSlab, []string{"floor.slabThicknessMM"}
		}
		j := edit.FloorKind(other).Apply(r.Stated)
		for _, key := range keys {
			if j.StandingOf(key) != job.Assumed {
				t.Errorf("%s: %s is %q", j.Name, key, j.StandingOf(key))
			}
		}
	}
}
