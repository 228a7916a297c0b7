package level_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"pgregory.net/rapid"
	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/level"
	"underfall/geometry/plan"
	"underfall/geometry/waste"
)

func bedOf(t interface{ Fatal(...any) }, j job.Job) (level.Bed, level.Heights, layout.Layout, bool) {
	if p := j.Validate(); len(p) > 0 {
		t.Fatal(p)
	}
	l := layout.Of(j, &plan.Shaper{})
	h := level.Solve(j, l, waste.Lay(j, l), 0)
	b, ok := h.Bed(&j, &l)
	return b, h, l, ok
}

// The floor rises 6 from left to right over the shower of 1400 by 900 and 3 from back to
// front, and a reading in it lies 2 over that. By hand: the corners are at 0, 6, 9 and 3;
// the base lies on the bed of 3 over the highest, 12: bed 12, 6, 3 and 9 at them, 7.5 in
// the middle, 7.5·1400·900 in all.
func TestBedByHand(t *testing.T) {
	j := job.New()
	floor := func(x, y float64) float64 { return 6*x/1400 + 3*(1900-y)/900 }
	for _, p := range []plan.Point{{0, 1900}, {1400, 1900}, {1400, 1000}, {0, 1000}} {
		j.SpotLevels = append(j.SpotLevels, job.SpotLevel{At: p, LevelMM: floor(p.X(), p.Y())})
	}
	b, h, _, ok := bedOf(t, j)
	if !ok || math.Abs(h.BaseUnderMM-12) > 1e-9 {
		t.Fatalf("the base's underside is at %v", h.BaseUnderMM)
	}
	if math.Abs(b.Least.ThicknessMM-3) > 1e-9 || math.Abs(b.Greatest.ThicknessMM-12) > 1e-9 || b.Least.At != (plan.Point{1400, 1000}) || b.Greatest.At != (plan.Point{0, 1900}) {
		t.Errorf("from %+v to %+v", b.Least, b.Greatest)
	}
	if want := 7.5 * 1400 * 900; math.Abs(b.VolumeMM3-want) > 1 {
		t.Errorf("%v mm³, want %v", b.VolumeMM3, want)
	}
	// Two readings more, 2 over and 2 under the plane in one place's mirror, leave the
	// plane as it is: the higher one is what the base lies on.
	for _, p := range []struct{ x, y, by float64 }{{700, 1450, 2}, {700, 1450, -2}} {
		j.SpotLevels = append(j.SpotLevels, job.SpotLevel{At: plan.Point{p.x, p.y}, LevelMM: floor(p.x, p.y) + p.by})
	}
	b, h, _, _ = bedOf(t, j)
	// Where a reading lies at a corner it is what tells of it.
	if n := len(b.Places); n != 6 || b.Places[4].Reading != 5 || math.Abs(b.Places[4].ThicknessMM-(h.BaseUnderMM-6.5)) > 1e-9 {
		t.Errorf("%d places, %+v", n, b.Places)
	}
	// One let in has no bed.
	j.Floor.Kind, j.Base.Support = job.FloorTimber, job.BetweenJoists
	if _, _, _, ok := bedOf(t, j); ok {
		t.Error("a base let in has a bed")
	}
}

// The volume is what the thickness comes to at many places drawn at random, and no place
// has less than the least bed.
func TestBedAgainstDraws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j := job.New()
		mm := func(name string) float64 { return float64(rapid.IntRange(-8, 8).Draw(t, name)) }
		for _, p := range []plan.Point{{100, 1800}, {1300, 1800}, {1300, 1050}, {100, 1050}, {2200, 300}} {
			j.SpotLevels = append(j.SpotLevels, job.SpotLevel{At: p, LevelMM: mm("level")})
		}
		b, h, _, _ := bedOf(t, j)
		random := rand.New(rand.NewPCG(1, 1))
		const draws = 20000
		sum := 0.0
		for range draws {
			p := plan.Point{1400 * random.Float64(), 1000 + 900*random.Float64()}
			sum += h.BaseUnderMM - h.Survey.Floor.At(p)
		}
		spread := 1 + math.Abs(b.Greatest.ThicknessMM-b.Least.ThicknessMM)
		if got, want := b.VolumeMM3/1400/900, sum/draws; math.Abs(got-want) > 5*spread/math.Sqrt(draws) {
			t.Fatalf("%v on average, drawn %v", got, want)
		}
		for _, p := range b.Places {
			if p.ThicknessMM < j.Base.AdhesiveMM-1e-9 {
				t.Fatalf("%+v is less than the least bed", p)
			}
		}
	})
}
