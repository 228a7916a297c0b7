package search_test

import (
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
