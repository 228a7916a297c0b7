package setout_test

import (
	"math"
	"strings"
	"testing"

	"underfall/geometry"
	"underfall/geometry/buildup"
	"underfall/geometry/demotest"
	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/setout"
)

// The first room by hand. It is 2400 by 1900; the shower of 1400 by 900 stands in the corner of walls B and C, its drain of
// 1200 along wall C in the shower's middle, 700 from B; the run goes out through B. What is stated of it: the job's file.
func TestMarksByHand(t *testing.T) {
	j := demotest.Results(t)[0].Stated
	j.Shower.Head = &job.Head{At: plan.Point{300, 1500}, HeightMM: 2100}
	grating := -195.0
	j.Waste.Beyond = &job.Beyond{LengthMM: 150, Joins: job.JoinGully, GratingMM: &grating}
	j.SpotLevels = []job.SpotLevel{
		{At: plan.Point{1200, 900}, LevelMM: 3}, {At: plan.Point{400, 300}, LevelMM: -1}, {At: plan.Point{2000, 300}, LevelMM: 2}}
	r := geometry.Evaluate(j, demotest.Packs(t)["UK"])
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
	offs("setout.diagonals", 1664.3, 1664.3) // the root of 1400² + 900²
	offs("setout.head", 300, 400)            // at 300, 1500 of a room 1900 deep
	offs("setout.datum", 300, 400)           // the reading nearest to nought, off A and off B
	if m := got["setout.datum"]; m.LevelMM != -1 || !m.Levelled {
		t.Errorf("datum: %+v", m)
	}
	// The plane through the readings rises 3 in 1600 to the right and, from 0.5 between the two in front, 2.5 in 600 to the back: it is
	// highest in the shower's back right corner, at wall C, 0.5 + 200 × 3/1600 + 1600 × 2.5/600.
	offs("setout.high-spot", 0, 1000)
	if m := got["setout.high-spot"]; math.Abs(m.LevelMM-7.54) > 0.01 {
		t.Errorf("high spot: %+v", m)
	}
	if m := got["setout.head"]; !m.Levelled || math.Abs(m.LevelMM-r.Heights.ShowerAt(&r.Layout, m.At)-2100) > 0.5 {
		t.Errorf("head: %+v, 2100 over the tile there", m)
	}
	// Outside: the ground 180 below the datum, as far along the wall as the hole; the gully's grating as the job states it, its middle 150
	// past the wall's outer face.
	if m := got["setout.ground"]; m.LevelMM != -180 || len(m.Offs) != 1 || m.Offs[0].MM != got["setout.core"].Offs[0].MM {
		t.Errorf("ground outside: %+v", m)
	}
	if m, stated := got["setout.grating"], -195.0; m.LevelMM != stated || len(m.Offs) != 2 || math.Abs(m.Offs[1].MM-150) > 0.05 {
		t.Errorf("grating: %+v", m)
	}
	// The drain's middle line is 48 off wall C, its trap 68, as the drain is sold.
	if m := got["setout.trap-off-line"]; len(m.Offs) != 2 || !strings.Contains(m.What.String(), "20 mm") ||
		math.Abs(m.Offs[1].MM-700) > 0.05 || m.Levelled {
		t.Errorf("trap: %+v", m)
	}
	// The hole goes square through the wall: the pipe's middle falls through it by the wall's thickness times the fall, half of that
	// to the hole's middle.
	hole, run := got["setout.core"], &r.Heights.Run
	falls := r.Layout.Walls[run.Wall-1].ThicknessMM * r.Settled.Waste.Gradient
	inside := run.InvertAt(run.WallAtMM) + run.Outgoing().BoreMM/2
	if !hole.Levelled || math.Abs(inside-hole.LevelMM-falls/2) > 0.05 || falls == 0 {
		t.Errorf("the hole is at %v, the pipe's middle at %v inside and %v lower outside", hole.LevelMM, inside, falls)
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
		if strings.HasPrefix(string(o.From.ID), "setout.across") {
			return math.Abs(math.Hypot(r.Settled.Shower.WidthMM, r.Settled.Shower.DepthMM)-o.MM) < nearMM
		}
		if o.From.ID == "setout.outer-face" && o.From.Args[0] == w.Name() {
			return math.Abs(m.At.Sub(w.A).Dot(w.Outward)-w.ThicknessMM-o.MM) < nearMM
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

// Where a level is another elsewhere on its floor it is told where it is read: the bare floor and the room's of a floor that slopes,
// neither of one that is level; and nothing of what is the same all over.
func TestWhereALevelIsRead(t *testing.T) {
	j := demotest.Results(t)[0].Stated
	told := func(readings ...job.SpotLevel) (out []buildup.RowOf) {
		j.SpotLevels = readings
		r := geometry.Evaluate(j, demotest.Packs(t)["UK"])
		for i := range r.Schedule {
			if len(setout.Where(&r, &r.Schedule[i])) > 0 {
				out = append(out, r.Schedule[i].ID.Of)
			}
		}
		return out
	}
	sloping := told(job.SpotLevel{At: plan.Point{0, 0}, LevelMM: 0},
		job.SpotLevel{At: plan.Point{2400, 0}, LevelMM: 6}, job.SpotLevel{At: plan.Point{0, 1900}, LevelMM: 0})
	if len(sloping) != 2 || sloping[0] != buildup.FloorHigh || sloping[1] != buildup.RoomFloor {
		t.Errorf("of a floor that slopes: %v", sloping)
	}
	if level := told(); len(level) > 0 {
		t.Errorf("of a level floor: %v", level)
	}
}

// A joist across the pipe is drilled where the pipe passes: the hole lies as far from its walls as its place tells, its middle is as far
// under the joist's top as over its foot makes the joist's depth, and a limit that it does not keep is told with it.
func TestJoistsAreListedAsTheyAreDrilled(t *testing.T) {
	bores, beyond := 0, 0
	for _, r := range demotest.Results(t) {
		listed := setout.Bores(&r)
		if len(listed) != len(r.Joists) {
			t.Errorf("%s: %d of %d holes", r.Settled.Name, len(listed), len(r.Joists))
		}
		for _, b := range listed {
			bores++
			beyond += len(b.Breaks)
			if depth := b.UnderTopMM + b.OverBottomMM; math.Abs(depth-r.Settled.Floor.Joists.DepthMM) > 1e-6 {
				t.Errorf("%s: %v under the top and %v over the foot of a joist of %v",
					r.Settled.Name, b.UnderTopMM, b.OverBottomMM, r.Settled.Floor.Joists.DepthMM)
			}
			for _, o := range b.Offs {
				if !leads(&r, setout.Mark{At: b.Crossing.At}, o) {
					t.Errorf("%s: the hole does not lie %v from %s", r.Settled.Name, o.MM, o.From)
				}
			}
		}
	}
	if bores < 3 || beyond == 0 {
		t.Errorf("only %d holes in all rooms, %d limits not kept", bores, beyond)
	}
}

// Where a joist is cut short one beside it is doubled, and the pipe goes through both, each with a number of its own that the other may
// have as well: a limit that a hole does not keep is told with that hole, and with it alone.
func TestALimitIsToldOfItsOwnHole(t *testing.T) {
	j := demotest.Rooms(t)[2].Job.Clone()
	demotest.AcrossJoists(&j, 120)
	j.Floor.Joists.Trims = []job.Trim{{Joist: 2, FromMM: 300, ToMM: 900}}
	r := geometry.Evaluate(j, demotest.Packs(t)[j.Region])
	doubled := false
	for _, b := range setout.Bores(&r) {
		doubled = doubled || b.Crossing.Joist.Member == layout.SecondJoist
		if len(b.Breaks) == 0 {
			t.Errorf("%s keeps every limit", b.Crossing.Joist.Name())
		}
		for _, f := range b.Breaks {
			at := f.Measurement.At
			if off := b.Crossing.At.Sub(plan.Point{at.X(), at.Y()}).Len(); off > 1e-6 {
				t.Errorf("%s of %s is measured %v off the hole", f.Rule.ID, b.Crossing.Joist.Name(), off)
			}
		}
	}
	if !doubled {
		t.Error("no doubled joist is drilled")
	}
}

// Heights of a floor that was read nowhere are struck in the first doorway, in the line of its wall: both measures are told, the one to
// that wall as nought. By hand: of the first room the doorway in wall A is 760 wide from 1500 on, as seen from corner AB, in a room
// 2400 wide.
func TestTheDatumHasTwoMeasures(t *testing.T) {
	j := demotest.Results(t)[0].Stated
	j.SpotLevels = nil
	r := geometry.Evaluate(j, demotest.Packs(t)["UK"])
	for _, m := range setout.Of(&r) {
		if m.What.ID != "setout.datum" {
			continue
		}
		if len(m.Offs) != 2 || m.Offs[0].MM != 0 || math.Abs(m.Offs[1].MM-520) > 0.05 {
			t.Errorf("%+v", m.Offs)
		}
		return
	}
	t.Error("no datum")
}
