package section_test

import (
	"slices"
	"testing"

	"underfall/geometry/demotest"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/section"
)

// Every distance in the plan of every demo can be typed on, or tells what it hangs on: inputs or things of that job,
// which are called by something.
func TestNoDistanceOfThePlanIsMute(t *testing.T) {
	typed, told := 0, 0
	for _, r := range demotest.Results(t) {
		j, d := r.Settled, section.PlanOf(r)
		distance := func(what, key string, sets edit.FromWall, hangsOn []string) {
			can := key != "" || sets != edit.FromWall{}
			if can == (len(hangsOn) > 0) {
				t.Errorf("%s: %s can be typed: %v, and hangs on %v", j.Name, what, can, hangsOn)
			}
			if can {
				typed++
			} else {
				told++
			}
			for _, path := range hangsOn {
				if _, ok := job.StationOf(path); !ok || j.PlaceOf(path).IsZero() {
					t.Errorf("%s: %s hangs on %s, which is no place of a job", j.Name, what, path)
				}
			}
			if at := slices.Compact(slices.Sorted(slices.Values(hangsOn))); len(at) != len(hangsOn) {
				t.Errorf("%s: %s hangs on %v", j.Name, what, hangsOn)
			}
		}
		for _, m := range d.Dimensions {
			distance(m.Text.String(), m.Key, edit.FromWall{}, m.HangsOn)
		}
		for _, o := range d.SetOuts {
			distance(o.Text.String(), o.Key, o.Sets, o.HangsOn)
		}
	}
	if typed < 40 || told < 10 {
		t.Errorf("%d are typed, %d told", typed, told)
	}
}

// In the starting job the drain lies along its side: its middle hangs on that and the shower. Its waste goes straight
// out: how far that is from a wall hangs on the drain and the way out.
func TestWhatDistancesHangOn(t *testing.T) {
	d := section.PlanOf(starting(t))
	found := map[string]bool{}
	for _, o := range d.SetOuts {
		if len(o.HangsOn) == 2 {
			found[o.HangsOn[0]+", "+o.HangsOn[1]] = true
		}
	}
	for _, want := range []string{"shower, drain", "drain, waste.exit"} {
		if !found[want] {
			t.Errorf("nothing hangs on %s: %v", want, found)
		}
	}
}
