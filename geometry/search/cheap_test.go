package search_test

import (
	"cmp"
	"math"
	"slices"
	"testing"

	"underfall/assets"
	"underfall/geometry"
	"underfall/geometry/demotest"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/part"
	"underfall/geometry/search"
)

// A trap of 118 under its flange sets the height of the base. The shelf has one of 94: with it the base comes lower, by no
// more than 118 - 94 = 24, as other things set its height then. What is told to be gained is gained on the run
// as it is at least.
func TestALowerTrapOfTheShelfIsACheapCure(t *testing.T) {
	shelf, err := assets.Parts()
	if err != nil {
		t.Fatal(err)
	}
	j := demotest.Rooms(t)[0].Job.Clone()
	j = edit.UsePart(shelf.Find(part.KindDrain, "linear-nut")).Apply(j)
	j = edit.Height(job.HeightBare, 0).Apply(j)
	grid := search.UsualGrid()
	grid.Shelf, grid.TrapsMM = shelf, search.TrapPlaces(j)
	s := find(t, j, []job.Exit{j.Waste.Exit}, grid)
	i := slices.IndexFunc(s.Cheap, func(c search.Cheap) bool {
		return slices.ContainsFunc(c.What.Args, func(a message.Arg) bool {
			return a.Value.String() == part.Name(shelf.Find(part.KindDrain, "linear-low-nut")).String()
		})
	})
	if i < 0 {
		t.Fatalf("the low trap is not told: %+v", s.Cheap)
	}
	deep := geometry.Evaluate(j, demotest.Packs(t)[j.Region])
	if gain := s.Cheap[i].GainMM; gain < 10 || gain > 118-94 {
		t.Errorf("it gains %v", gain)
	}
	after := geometry.Evaluate(s.Cheap[i].Best.Change.Apply(j), demotest.Packs(t)[j.Region])
	if after.Stops() || after.Stated.Parts.Drain.ID != "linear-low-nut" {
		t.Errorf("with it the floor is stopped: %v", after.Findings)
	}
	if raise := deep.Heights.BaseTopMM - after.Heights.BaseTopMM; raise < s.Cheap[i].GainMM-1e-6 {
		t.Errorf("it is told to gain %v and gains %v", s.Cheap[i].GainMM, raise)
	}
	if raise := after.Heights.BaseTopMM - after.Heights.FloorHighMM; math.Abs(raise-s.Cheap[i].Best.RaiseMM) > 1e-6 {
		t.Errorf("it is told to come %v up and comes %v", s.Cheap[i].Best.RaiseMM, raise)
	}
}

// What is held stays: no other drain is tried in place of one that is.
func TestAHeldDrainIsNotSwapped(t *testing.T) {
	shelf, err := assets.Parts()
	if err != nil {
		t.Fatal(err)
	}
	j := edit.UsePart(shelf.Find(part.KindDrain, "linear-nut")).Apply(demotest.Rooms(t)[0].Job.Clone())
	j.SetStanding("parts.drain", job.Held)
	grid := search.UsualGrid()
	grid.Shelf = shelf
	for _, c := range find(t, j, []job.Exit{j.Waste.Exit}, grid).Cheap {
		if d := c.Best.Change.Apply(j).Parts.Drain; d.ID != "linear-nut" {
			t.Errorf("%s is tried", d.ID)
		}
	}
}

// cheapBy is the change of a kind among those that cost little; nil without one.
func cheapBy(s search.Outcome, id message.ID) *search.Cheap {
	for i := range s.Cheap {
		if s.Cheap[i].What.ID == id {
			return &s.Cheap[i]
		}
	}
	return nil
}

// pipeSets is the starting job with a drain so shallow that the pipe sets the height, to the left wall.
func pipeSets() job.Job {
	j := job.New()
	j.Drain.ChannelDepthMM, j.Drain.WeirDepthMM, j.Drain.TrapDepthMM = 10, 13, 76
	return edit.Height(job.HeightBare, 0).Apply(j)
}

// A drain at the side that the waste leaves by gains what the pipe falls on the way that is saved, less what its bend hangs lower; one
// that is held stays.
func TestTheDrainAtAnotherSideIsACheapCure(t *testing.T) {
	j := pipeSets()
	s := find(t, j, []job.Exit{j.Waste.Exit}, search.UsualGrid())
	c := cheapBy(s, "cheap.drain-left")
	if c == nil {
		t.Fatalf("the drain at the left is not told: %+v", s.Cheap)
	}
	lowest := slices.MinFunc(s.Found, func(a, b search.Alternative) int { return cmp.Compare(a.RaiseMM, b.RaiseMM) })
	after := geometry.Evaluate(c.Best.Change.Apply(j), demotest.Packs(t)[j.Region])
	if after.Stops() || after.Stated.Former.Fall != job.FallLeft {
		t.Errorf("with it the floor is stopped: %v", after.Findings)
	}
	if gain := lowest.RaiseMM - (after.Heights.BaseTopMM - after.Heights.FloorHighMM); math.Abs(gain-c.GainMM) > 1e-6 {
		t.Errorf("it is told to gain %v and gains %v", c.GainMM, gain)
	}
	// The socket of the bend that it then takes is 57 of 50 pipe, and hangs by half of the difference lower.
	if saved := (lowest.LengthMM - c.Best.LengthMM) * c.Best.Gradient; c.GainMM < 1 || c.GainMM > saved || c.GainMM < saved-(57-50)/2.0 {
		t.Errorf("it gains %v of the %v that the pipe falls less", c.GainMM, saved)
	}
	j.SetStanding("former.fall", job.Held)
	if cheapBy(find(t, j, []job.Exit{j.Waste.Exit}, search.UsualGrid()), "cheap.drain-left") != nil {
		t.Error("a drain that is held is put elsewhere")
	}
}

// A drain shorter than its side gains by being moved along it towards the exit.
func TestTheDrainMovedAlongIsACheapCure(t *testing.T) {
	j := pipeSets()
	s := find(t, j, []job.Exit{j.Waste.Exit}, search.UsualGrid())
	c := cheapBy(s, "cheap.drain-to-left")
	if c == nil {
		t.Fatalf("not told: %+v", s.Cheap)
	}
	after := geometry.Evaluate(c.Best.Change.Apply(j), demotest.Packs(t)[j.Region])
	// 800 long beside a wall of 1400 it has 300 to each side, which fall 0.018 each.
	if at := after.Stated.Drain.OffsetMM; after.Stops() || at != -300 || math.Abs(c.GainMM-300*0.018) > 1e-6 {
		t.Errorf("moved to %v it gains %v, stopped: %v", at, c.GainMM, after.Findings)
	}
}
