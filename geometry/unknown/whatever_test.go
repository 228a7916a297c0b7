package unknown_test

import (
	"fmt"
	"math"
	"reflect"
	"slices"
	"testing"

	"pgregory.net/rapid"
	"underfall/geometry"
	"underfall/geometry/demotest"
	"underfall/geometry/job"
	"underfall/geometry/unknown"
)

// Whatever is not known, and all of it at once: no more cases than may be, the first as it is drawn,
// nothing worth less than nothing or more than all there is, and an answer that no case contradicts.
func TestWhateverIsNotKnown(t *testing.T) {
	packs := demotest.Packs(t)
	any := rapid.Custom(demotest.AnyJob)
	for seed := range 9 {
		j := any.Example(seed)
		if seed < len(demotest.Rooms(t)) {
			j = demotest.Rooms(t)[seed].Job.Clone()
		}
		all := inputs(&j)
		for i, key := range all {
			switch (i*7 + seed*5) % 11 {
			case 0, 1, 2:
				j.SetStanding(key, job.NotKnown)
			case 3:
				j.SetStanding(key, job.Assumed)
			}
			if seed%4 == 3 {
				j.SetStanding(key, job.NotKnown)
			}
		}
		r := geometry.Evaluate(j, packs[j.Region])
		if len(r.Problems) > 0 {
			t.Fatal(seed, r.Problems)
		}
		holds(t, fmt.Sprint("seed ", seed), r, explored(t, r))
	}
}

// inputs are the keys of numbers, lists of things and all that is asked at first.
func inputs(j *job.Job) []string {
	out := []string{"floor.kind", "floor.ceilingBelow", "floor.joists.engineered", "waste.exit.kind", "waste.exit.wall", "waste.exit.level",
		"base.support",
		"room.walls[0].kind", "room.walls[3].kind", "room.walls[3].thicknessMM", "room.walls[3].outsideGroundMM", "accessible", "room.outline"}
	for p := range job.EachParameter {
		out = append(out, p.Key)
	}
	for _, l := range job.Lists() {
		for i := range l.Count(j) {
			for _, e := range l.Entries() {
				out = append(out, l.Path(i, e))
			}
		}
	}
	return out
}

// holds is what must hold of every exploration, worked out from the cases alone.
func holds(t *testing.T, name string, r geometry.Result, x unknown.Exploration) {
	t.Helper()
	if len(x.Cases) == 0 || len(x.Cases) > 24 {
		t.Fatalf("%s: %d cases", name, len(x.Cases))
	}
	first := x.Cases[0].Job.Clone()
	first.Standings = r.Stated.Clone().Standings
	if !reflect.DeepEqual(first, r.Stated) {
		t.Errorf("%s: the first case is not the job as drawn", name)
	}
	least, greatest := math.Inf(1), math.Inf(-1)
	stands := map[geometry.Standing]int{}
	for i, c := range x.Cases {
		stands[c.Answer.Standing]++
		if i > 0 && c.What().IsZero() {
			t.Errorf("%s: case %d says nothing", name, i)
		}
		if s, ok := c.Answer.WayIn(); ok {
			least, greatest = math.Min(least, s.MM), math.Max(greatest, s.MM)
		}
	}
	spread := x.Step.SpreadMM()
	if spread > math.Max(0, greatest-least)+1e-9 {
		t.Errorf("%s: %v apart, the cases %v", name, spread, greatest-least)
	}
	for _, u := range x.Unknowns {
		if w := u.Worth; w.MM < 0 || w.MM > spread+1e-9 || w.Built < 0 || w.Built > 1 || w.Standing < 0 || w.Standing > 1 {
			t.Errorf("%s: %s is worth %+v of %v", name, u.Key, w, spread)
		}
	}
	for d := range x.Unknowns {
		if want, ok := worthOf(x, d); ok && math.Abs(x.Unknowns[d].Worth.MM-want) > 1e-6 {
			t.Errorf("%s: %s is worth %v, by its cases %v", name, x.Unknowns[d].Key, x.Unknowns[d].Worth.MM, want)
		}
	}
	a := x.Answer(r.Answer(nil))
	n := len(x.Cases)
	switch {
	case stands[geometry.Stops] == n && a.Standing != geometry.Stops,
		stands[geometry.Stops] < n && a.Standing == geometry.Stops,
		stands[geometry.Stops] > 0 && stands[geometry.Stops] < n && a.Standing != geometry.NotKnown,
		stands[geometry.NotKnown] > 0 && a.Standing != geometry.NotKnown && n > 1,
		stands[geometry.Tight] > 0 && a.Standing == geometry.Sound,
		stands[geometry.Sound] == n && a.Standing == geometry.Tight:
		t.Errorf("%s: %v of cases %v", name, a.Standing, stands)
	}
	if a.Headline().IsZero() || len(a.Lines()) == 0 {
		t.Errorf("%s: no words", name)
	}
}

// worthOf is what an unknown that was paired with others is worth, out of what the cases say of
// themselves: how far apart those that can be built lie, less the mean over its values of how far
// apart those lie that have the value, or for which it makes no difference.
func worthOf(x unknown.Exploration, d int) (mm float64, ok bool) {
	if x.Unknowns[d].Alone || len(x.Unknowns[d].Values) == 0 {
		return 0, false
	}
	anyBuilt := slices.ContainsFunc(x.Cases, func(c unknown.Case) bool { return c.Answer.Standing != geometry.Stops })
	spread := func(id string) float64 {
		least, greatest := math.Inf(1), math.Inf(-1)
		for _, c := range x.Cases {
			in := true
			for _, v := range c.Is {
				u := x.Unknowns[v.Unknown]
				in = in && !(u.Alone && v.ID != u.Values[0].ID) && !(v.Unknown == d && id != "" && v.ID != id)
			}
			if s, ok := c.Answer.WayIn(); ok && in && (c.Answer.Standing != geometry.Stops || !anyBuilt) {
				least, greatest = math.Min(least, s.MM), math.Max(greatest, s.MM)
			}
		}
		return math.Max(0, greatest-least)
	}
	mm = spread("")
	for _, v := range x.Unknowns[d].Values {
		mm -= spread(v.ID) / float64(len(x.Unknowns[d].Values))
	}
	return math.Max(0, mm), true
}
