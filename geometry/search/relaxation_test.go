package search

import (
	"context"
	"math/bits"
	"testing"

	"underfall/geometry/demotest"
	"underfall/geometry/job"
)

// A vent that is left out because it would be in vain is in vain: wherever the
// search passes a set of changes over, trying it lets no run through, and what
// it finds is what it finds trying every set.
func TestVentsPassedOverAreInVain(t *testing.T) {
	demos, packs := demotest.Rooms(t), demotest.Packs(t)
	var jobs []job.Job
	for n, d := range demos {
		for k := range 4 {
			j := d.Job.Clone()
			// What keeps runs from fitting, of each kind.
			switch (n + k) % 4 {
			case 0:
				j.Shower.WidthMM = 1200
			case 1:
				j.Waste.Exit.Level = job.Exactly(60 + 40*float64(n))
				j.Waste.Vent = nil
			case 2:
				j.Base.Height, j.Base.HeightMM = job.HeightChosen, 30
			case 3:
				j.Waste.NominalMM, j.Waste.OutsideDiameterMM, j.Waste.BoreMM = 40, 40, 36
				j.Waste.Vent = nil
			}
			if len(j.Validate()) == 0 {
				jobs = append(jobs, j)
			}
		}
	}
	if len(jobs) < 20 {
		t.Fatalf("only %d of the jobs are valid", len(jobs))
	}
	passed, looked := 0, 0
	for n, j := range jobs {
		pack := packs[j.Region]
		exits := UsualExits(j, 3000)
		grid := Grid{Steps: 2, MostBends: 2}
		found, err := Runs(context.Background(), j, pack, exits, grid, nil)
		if err != nil {
			t.Fatal(err)
		}
		if len(found.Found) > 0 {
			continue
		}
		looked++
		all := relaxations(pack)
		plain := Outcome{stated: j.Waste.Exit}
		most := 3
		if len(found.Cheap) > 0 { // then nobody makes several that cost more
			most = 1
		}
		for size := 1; size <= most && len(plain.Relaxations) == 0; size++ {
			for set := range 1 << len(all) {
				if bits.OnesCount(uint(set)) != size {
					continue
				}
				if _, err := plain.relaxBy(context.Background(), j, pack, exits, grid, all, set); err != nil {
					t.Fatal(err)
				}
			}
			if size == 1 {
				if err := plain.relaxTrap(context.Background(), j, pack, exits, grid); err != nil {
					t.Fatal(err)
				}
			}
		}
		if len(plain.Relaxations)+len(found.Cheap) == 0 {
			if err := plain.pump(context.Background(), j, pack, grid); err != nil {
				t.Fatal(err)
			}
		}
		if len(plain.Relaxations) != len(found.Relaxations) {
			t.Errorf("job %d: %d changes help, trying every set %d", n, len(found.Relaxations), len(plain.Relaxations))
			continue
		}
		for i, r := range plain.Relaxations {
			if got := found.Relaxations[i]; got.What.String() != r.What.String() || got.Best.RaiseMM != r.Best.RaiseMM {
				t.Errorf("job %d: “%s” helps, trying every set “%s”", n, got.What, r.What)
			}
		}
		// Tried by the search besides the job as it stands.
		var stands Outcome
		stands.stated = j.Waste.Exit
		if err := stands.search(context.Background(), j, pack, exits, grid, nil, func(float64) {}); err != nil {
			t.Fatal(err)
		}
		if found.Tried < stands.Tried+plain.Tried {
			passed++
		}
	}
	if looked < 8 || passed < 3 {
		t.Errorf("%d jobs cannot be built, in %d of them vents were passed over", looked, passed)
	}
}
