package section_test

import (
	"fmt"
	"math"
	"reflect"
	"testing"

	"pgregory.net/rapid"
	"underfall/geometry"
	"underfall/geometry/demotest"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/plan"
	"underfall/geometry/section"
	"underfall/geometry/settle"
	"underfall/geometry/unit"
)

// draggable is all of a plan that can be dragged: handles, and things that are dragged by themselves.
func draggable(d *section.Drawing) (out []edit.Handle) {
	seen := map[edit.Handle]bool{{}: true}
	add := func(h edit.Handle) {
		if !seen[h] {
			seen[h] = true
			out = append(out, h)
		}
	}
	for _, h := range d.Handles {
		add(h.Moves)
	}
	for i := range d.Things {
		add(d.Things[i].Moves)
	}
	return out
}

// badPlace is a place of a plan to drag something to that it was hardly meant for: onto another thing, past a corner, through
// the opposite wall, far outside, onto itself.
func badPlace(t *rapid.T, r *geometry.Result, d *section.Drawing, label string) plan.Point {
	low, high, _ := r.Layout.Room.Bounds()
	off := plan.Point{rapid.Float64Range(-60, 60).Draw(t, label+" off x"), rapid.Float64Range(-60, 60).Draw(t, label+" off y")}
	switch rapid.IntRange(0, 5).Draw(t, label+" to") {
	case 0, 1:
		things := d.Things
		return things[rapid.IntRange(0, len(things)-1).Draw(t, label+" onto")].At.Add(off)
	case 2:
		corner := r.Settled.Room.Outline[rapid.IntRange(0, len(r.Settled.Room.Outline)-1).Draw(t, label+" corner")]
		return corner.Add(corner.Sub(low.Add(high).Mul(0.5)).Mul(0.3)).Add(off)
	case 3:
		w := &r.Layout.Walls[rapid.IntRange(0, len(r.Layout.Walls)-1).Draw(t, label+" wall")]
		return w.At(w.LengthMM / 2).Add(w.Outward.Mul(rapid.Float64Range(-3000, 900).Draw(t, label+" through"))).Add(off)
	case 4:
		return plan.Point{1e7, -1e7}
	}
	share := rapid.Float64Range(0, 1)
	x, y := share.Draw(t, label+" x"), share.Draw(t, label+" y")
	return low.Add(plan.Point{x * (high.X() - low.X()), y * (high.Y() - low.Y())})
}

// Two things of the plan of any demo are dragged one after the other, each to where it was hardly meant to go, in both systems of units
// and every way that the room lies: what comes out means something and is drawn, no opening and no fixture comes to stand in
// another, or nothing changes and it is said why. Dragged to the same place again nothing changes.
func TestPairsOfDragsResolve(t *testing.T) {
	demos, packs := demotest.Rooms(t), demotest.Packs(t)
	rapid.Check(t, func(t *rapid.T) {
		j := demos[rapid.IntRange(0, len(demos)-1).Draw(t, "demo")].Job.Clone()
		j.Units = rapid.SampledFrom([]unit.System{unit.Metric, unit.Imperial}).Draw(t, "units")
		j = demotest.Moved(j, float64(rapid.IntRange(0, 3).Draw(t, "quarters"))*90, plan.Point{})
		j.WorkOut()
		var done string
		for n := range 2 {
			r := geometry.Evaluate(j, packs[j.Region])
			if len(r.Problems) > 0 {
				t.Fatalf("%s%v", done, r.Problems)
			}
			d := section.PlanOf(r)
			all := draggable(&d)
			label := fmt.Sprint(n)
			h := all[rapid.IntRange(0, len(all)-1).Draw(t, label+" handle")]
			to := badPlace(t, &r, &d, label)
			how := rapid.SampledFrom([]edit.Fineness{edit.Coarse, edit.Fine, edit.Exact}).Draw(t, label+" how finely")
			e := edit.DragAs(h, to, how)
			done += fmt.Sprintf("%v to %.0f, %.0f: ", h, to.X(), to.Y())
			s := settle.Do(j, e)
			if s.Refused != nil {
				if s.Refused.What.IsZero() || len(s.Refused.Problems) == 0 || !reflect.DeepEqual(s.Job, j) {
					t.Fatalf("%srefused as %v, %v", done, s.Refused.What, s.Refused.Problems)
				}
				continue
			}
			apart(t, done, &j, &s.Job)
			j = s.Job
		}
		r := geometry.Evaluate(j, packs[j.Region])
		if len(r.Problems) > 0 {
			t.Fatalf("%s%v", done, r.Problems)
		}
		d := section.PlanOf(r)
		if !d.Fault.IsZero() {
			t.Fatalf("%s%v", done, d.Fault)
		}
		for i := range d.Things {
			if at := d.Things[i].At; math.IsNaN(at.X()+at.Y()) || math.IsInf(at.X()+at.Y(), 0) {
				t.Fatalf("%s%v stands at %v", done, d.Things[i].Name, at)
			}
		}
		section.LongOf(r)
	})
}

// apart tells of openings and fixtures that have come to lie in one another along a wall, and did not before.
func apart(t *rapid.T, done string, before, after *job.Job) {
	met := meetings(before)
	for pair := range meetings(after) {
		if !met[pair] {
			t.Fatalf("%s%s lie in one another", done, pair)
		}
	}
}

// meetings are the pairs of openings, and of fixtures, that lie in one another along a wall.
func meetings(j *job.Job) map[string]bool {
	type span struct {
		name     string
		wall     int
		from, to float64
	}
	var openings, fixtures []span
	for i, d := range j.Room.Doorways {
		openings = append(openings, span{fmt.Sprint("doorway ", i), d.Wall, d.OffsetMM, d.OffsetMM + d.WidthMM})
	}
	for i, o := range j.Room.Windows {
		openings = append(openings, span{fmt.Sprint("window ", i), o.Wall, o.OffsetMM, o.OffsetMM + o.WidthMM})
	}
	for i, f := range j.Room.Fixtures {
		fixtures = append(fixtures, span{fmt.Sprint("fixture ", i), f.Wall, f.OffsetMM, f.OffsetMM + f.WidthMM})
	}
	out := map[string]bool{}
	const hairMM = 1e-6
	for _, all := range [][]span{openings, fixtures} {
		for i, a := range all {
			for _, b := range all[:i] {
				if a.wall == b.wall && a.from < b.to-hairMM && b.from < a.to-hairMM {
					out[b.name+" and "+a.name] = true
				}
			}
		}
	}
	return out
}

// A wall of any demo that is dragged in or out, through the one before it and far away, goes as far as it can, or stays and it is
// said why.
func TestWallsDraggedThroughEachOther(t *testing.T) {
	packs := demotest.Packs(t)
	for n, demo := range demotest.Rooms(t) {
		if testing.Short() && n%3 > 0 {
			continue
		}
		l := geometry.Evaluate(demo.Job, packs[demo.Job.Region]).Layout
		for i := range l.Walls {
			w := &l.Walls[i]
			for _, outMM := range []float64{-1e7, -4000, -2500, -2000, -1500, -900, 2000, 1e7} {
				for _, aside := range []plan.Point{{}, {31, -9e5}} {
					to := w.A.Add(w.B).Mul(0.5).Add(w.Outward.Mul(outMM)).Add(aside)
					e := edit.DragAs(edit.Handle{Kind: edit.HandleSide, Index: i}, to, edit.Exact)
					s := settle.Do(demo.Job, e)
					if p := s.Job.Validate(); len(p) > 0 {
						t.Fatalf("%s, wall %d out by %v: %v", demo.Job.Name, i, outMM, p)
					}
					if s.Refused != nil && len(s.Refused.Problems) == 0 {
						t.Errorf("%s, wall %d out by %v: refused for no reason", demo.Job.Name, i, outMM)
					}
				}
			}
		}
	}
}
