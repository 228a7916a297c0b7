package setout_test

import (
	"math"
	"testing"

	"underfall/geometry"
	"underfall/geometry/demotest"
	"underfall/geometry/message"
	"underfall/geometry/setout"
)

// The first room by hand. It is 2400 by 1900; the shower of 1400 by 900 stands in the corner of walls B and C, its drain of
// 1200 along wall C in the shower's middle, 700 from B; the run goes out through B. What is stated of it: the job's file.
func TestMarksByHand(t *testing.T) {
	r := demotest.Results(t)[0]
	got := map[message.ID]setout.Mark{}
	for _, m := range setout.Of(&r) {
		got[m.What.ID] = m
	}
	offs := func(id message.ID, want ...float64) {
		t.Helper()
		m, ok := got[id]
		if !ok || len(m.Offs) != len(want) {
			t.Errorf("%s: %+v, want %v", id, m.Offs, want)
			return
		}
		for i, w := range want {
			if math.Abs(m.Offs[i].MM-w) > 0.05 {
				t.Errorf("%s: %v from %s, want %v", id, m.Offs[i].MM, m.Offs[i].From, w)
			}
		}
	}
	offs("setout.front-right", 900, 1000) // from C; 2400 - 1400 from D
	offs("setout.front-left", 900)
	offs("setout.back-right", 1000)
	if _, ok := got["setout.back-left"]; ok {
		t.Error("the shower's corner in the corner of the room is to be marked out")
	}
	if m := got["setout.trap"]; len(m.Offs) != 2 || math.Abs(m.Offs[1].MM-700) > 0.05 || m.Levelled {
		t.Errorf("trap: %+v", m)
	}
	// The hole falls with the pipe through the wall: its thickness times the fall.
	in, out := got["setout.core-inside"], got["setout.core-outside"]
	wall := r.Layout.Walls[r.Heights.Run.Wall-1]
	piece := r.Heights.Run.Pieces[len(r.Heights.Run.Pieces)-1]
	if want := wall.ThicknessMM * r.Settled.Waste.Gradient; math.Abs(in.LevelMM-out.LevelMM-want) > 0.05 || want == 0 {
		t.Errorf("the hole is at %v inside and %v outside, %v thick, last piece %v", in.LevelMM, out.LevelMM, wall.ThicknessMM, piece)
	}
}

// In every demo each distance leads to the place: it is that far from the wall's line that it names, or from its corner.
func TestMarksAreWhereTheirDistancesLead(t *testing.T) {
	marks := 0
	for _, r := range demotest.Shown(t) {
		for _, m := range setout.Of(&r) {
			marks++
			if len(m.Offs) == 0 || len(m.Offs) > 2 {
				t.Errorf("%s: %s has %d distances", r.Settled.Name, m.What, len(m.Offs))
			}
			for _, o := range m.Offs {
				if !leads(&r, m, o) {
					t.Errorf("%s: %s does not lie %v from %s", r.Settled.Name, m.What, o.MM, o.From)
				}
			}
		}
	}
	if marks < 60 {
		t.Errorf("only %d places in all demos", marks)
	}
}

// leads tells whether a place lies so far from a wall, or from a corner.
func leads(r *geometry.Result, m setout.Mark, o setout.Off) bool {
	const nearMM = 0.6
	for i := range r.Layout.Walls {
		w := &r.Layout.Walls[i]
		if o.From.ID == "setout.wall" && o.From.Args[0] == w.Name() {
			return math.Abs(w.A.Sub(m.At).Dot(w.Outward)-o.MM) < nearMM
		}
		if o.From.ID == "setout.corner" && o.From.Args[0] == message.AtCorner("corner", r.Settled.Room.Corner(i)) &&
			math.Abs(math.Abs(m.At.Sub(w.A).Dot(w.Along))-o.MM) < nearMM {
			return true
		}
	}
	return false
}

// A job that cannot be worked out has nothing to mark.
func TestNothingToMark(t *testing.T) {
	j := demotest.Results(t)[0].Stated
	j.Shower.WidthMM = -1
	r := geometry.Evaluate(j, demotest.Packs(t)["UK"])
	if len(r.Problems) == 0 {
		t.Fatal("a shower of less than nothing has no problem")
	}
	if marks := setout.Of(&r); len(marks) != 0 {
		t.Errorf("%d marks", len(marks))
	}
}
