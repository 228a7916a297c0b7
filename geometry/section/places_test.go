package section_test

import (
	"fmt"
	"math"
	"testing"

	"underfall/geometry"
	"underfall/geometry/demotest"
	"underfall/geometry/job"
	"underfall/geometry/material"
	"underfall/geometry/plan"
	"underfall/geometry/section"
	"underfall/geometry/solid"
)

func falls(k job.FallKind) func(*job.Job) { return func(j *job.Job) { j.Former.Fall = k } }

// closedIn is a shower between four walls, in a room of its own size.
func closedIn(j *job.Job) {
	j.Room.Doorways = nil
	j.Room.Outline = []plan.Point{{0, 1000}, {1400, 1000}, {1400, 1900}, {0, 1900}}
	j.Shower.OffsetMM = 0
}

// The planes of the starting job by hand; see starting. Facing the back wall the
// open edges are to the right, 900 long, and in front, 1400: the way out is
// (0.9 + 0.003, −1.4 − 0.01). Both planes are looked at from there.
func TestPlanesOfACorner(t *testing.T) {
	for name, c := range map[string]struct {
		r                  geometry.Result
		through, along     plan.Point
		throughDir, dir    plan.Point
		throughView, views plan.Point // where they are looked at from
	}{
		"drain at the back": {starting(t), plan.Point{700, 1832}, plan.Point{700, 1832}, plan.Point{0, 1}, plan.Point{1, 0}, plan.Point{1, 0}, plan.Point{0, -1}},
		// A drain at an open edge leaves nothing before it: the plane along it goes
		// through the shower's middle.
		"drain in front": {starting(t, falls(job.FallFront)), plan.Point{700, 1068}, plan.Point{700, 1450}, plan.Point{0, 1}, plan.Point{1, 0}, plan.Point{1, 0}, plan.Point{0, -1}},
		"drain right":    {starting(t, falls(job.FallRight)), plan.Point{1332, 1450}, plan.Point{700, 1450}, plan.Point{1, 0}, plan.Point{0, 1}, plan.Point{0, -1}, plan.Point{1, 0}},
		"drain left":     {starting(t, falls(job.FallLeft)), plan.Point{68, 1450}, plan.Point{68, 1450}, plan.Point{1, 0}, plan.Point{0, 1}, plan.Point{0, -1}, plan.Point{1, 0}},
		// In the middle it lies on the shower's middle line, whichever is taken.
		"drain in the middle": {starting(t, falls(job.FallMid)), plan.Point{700, 1450}, plan.Point{700, 1450}, plan.Point{0, 1}, plan.Point{1, 0}, plan.Point{1, 0}, plan.Point{0, -1}},
		// Without an open edge out is into the room and a little to the right.
		"no open edge": {starting(t, closedIn), plan.Point{700, 1832}, plan.Point{700, 1832}, plan.Point{0, 1}, plan.Point{1, 0}, plan.Point{1, 0}, plan.Point{0, -1}},
	} {
		got := section.Corner(c.r)
		for i, want := range []struct{ at, along, from plan.Point }{{c.through, c.throughDir, c.throughView}, {c.along, c.dir, c.views}} {
			cut := got[i]
			if math.Abs(cut.Origin.X()-want.at.X())+math.Abs(cut.Origin.Y()-want.at.Y()) > 1e-9 ||
				math.Abs(cut.Along.X()-want.along.X())+math.Abs(cut.Along.Y()-want.along.Y()) > 1e-9 ||
				math.Abs(cut.Normal.X()-want.from.X())+math.Abs(cut.Normal.Y()-want.from.Y()) > 1e-9 {
				t.Errorf("%s, plane %d: %+v, want at %v along %v seen from %v", name, i, cut, want.at, want.along, want.from)
			}
		}
	}
}

// Turned about with the room the planes are the same ones, seen from the same side.
func TestPlanesTurnWithTheRoom(t *testing.T) {
	for _, fall := range []job.FallKind{job.FallBack, job.FallFront, job.FallLeft, job.FallRight} {
		was := section.Corner(starting(t, falls(fall)))
		for angle := 20.0; angle < 360; angle += 50 {
			turned := starting(t, falls(fall), func(j *job.Job) { *j = demotest.Moved(*j, angle, plan.Point{5000, 7000}) })
			s, c := math.Sincos(angle * math.Pi / 180)
			for i, cut := range section.Corner(turned) {
				n := was[i].Normal
				if want := (plan.Point{n.X()*c - n.Y()*s, n.X()*s + n.Y()*c}); !near(plan.Point{cut.Normal.X(), cut.Normal.Y()}, want) {
					t.Errorf("fall to the %s, turned by %v: plane %d is seen from %v, want %v", fall, angle, i, cut.Normal, want)
				}
			}
		}
	}
	// A plan has the extent of what it shows, wherever that lies; a door opens 760 out from 100.
	moved := section.PlanOf(starting(t, func(j *job.Job) { *j = demotest.Moved(*j, 0, plan.Point{5000, 7000}) }))
	expectPoint(t, "low", moved.Low, plan.Point{5000 - 275, 7000 - 860})
	expectPoint(t, "high", moved.High, plan.Point{5000 + 2500, 7000 + 2115})
}

func TestPlanesOfDrainAndRun(t *testing.T) {
	r := starting(t)
	if c, want := section.ThroughDrain(r), solid.VerticalCut(plan.Point{700, 1832}, plan.Point{0, 1}); c != want {
		t.Errorf("through the drain %+v, want %+v", c, want)
	}
	if c := section.AlongRun(r); c.Origin.X() != 645 || c.Origin.Y() != 1832 || c.Along.X() != -1 || c.Along.Y() != 0 {
		t.Errorf("along the run %+v", c)
	}
	// A run of one leg has two corners; with one there is no leg.
	for corners, want := range map[int]solid.Cut{2: section.AlongRun(r), 1: section.ThroughDrain(r), 0: section.ThroughDrain(r)} {
		short := r
		short.Heights.Run.Corners = r.Heights.Run.Corners[:corners]
		if c := section.AlongRun(short); c != want {
			t.Errorf("of %d corners %+v, want %+v", corners, c, want)
		}
	}
}

// What a cut may want to pass through, by hand. Seen from the plane through the
// drain, which runs into the room: drain and trap on it, the doorway's middle at
// 1880 − 700, the right and left edges 700 off. Along the drain the drain's middle
// lies 20 behind the trap's, the run with it, the doorway 1832 before, the back edge
// 68 behind and the front one 832 before.
func TestPlaces(t *testing.T) {
	timber := func(j *job.Job) {
		// Three joists from the front wall back, at 0, 1200 and 2400 from the left,
		// counted from the right: they run to the room's left as seen along them.
		j.Floor.Kind, j.Floor.Joists.DirectionDeg = job.FloorTimber, 90
		j.Floor.Joists.SpacingMM, j.Floor.Joists.FirstOffsetMM = 1200, 0
	}
	askew := func(deg float64) func(*job.Job) {
		return func(j *job.Job) { timber(j); j.Floor.Joists.DirectionDeg = 90 + deg }
	}
	for name, c := range map[string]struct {
		r     geometry.Result
		along bool // the drain, not through it
		want  string
	}{
		"through":                      {starting(t), false, "[0 0 1180 700 -700]"},
		"along":                        {starting(t), true, "[-20 0 0 1832 -68 832]"},
		"through, joists with it":      {starting(t, timber), false, "[0 0 1676.5 1700 1723.5 476.5 500 523.5 -723.5 -700 -676.5 1180 700 -700]"},
		"along, joists across":         {starting(t, timber), true, "[-20 0 0 1832 -68 832]"},
		"through, joists 3° off":       {starting(t, askew(3)), false, "more"},
		"through, joists 2.8° off":     {starting(t, askew(2.8)), false, "more"},
		"through, joists 2.9° skewed":  {starting(t, askew(-2.8)), false, "more"},
		"through, joists skewed by 3°": {starting(t, askew(-3)), false, "more"},
	} {
		cut := section.Corner(c.r)[0]
		if c.along {
			cut = section.Corner(c.r)[1]
		}
		got := section.Places(c.r, cut)
		if c.want != "more" {
			for i := range got {
				got[i] = math.Round(got[i]*1e6)/1e6 + 0 // no −0
			}
			if fmt.Sprint(got) != c.want {
				t.Errorf("%s: %v, want %v", name, got, c.want)
			}
			continue
		}
		// Joists count up to a slant of 0.05: sin 2.8° = 0.0488, sin 3° = 0.0523.
		joists := len(got) - 5
		if with := name == "through, joists 2.8° off" || name == "through, joists 2.9° skewed"; with != (joists == 3*len(c.r.Layout.Joists)) || !with && joists != 0 {
			t.Errorf("%s: %d places of %d joists", name, joists, len(c.r.Layout.Joists))
		}
	}
	// A run with a turn: from the trap to x = 300, then to the front wall.
	turned := starting(t, func(j *job.Job) { j.Waste.Exit.Wall, j.Waste.Exit.OffsetMM = 0, 300 })
	if got := section.Places(turned, section.ThroughDrain(turned)); got[2] != -400 || len(got) != 6 {
		t.Errorf("with a leg at 300: %v", got)
	}
}

// Only what lies before another plane, or within 1 behind it, stays.
func TestWithin(t *testing.T) {
	d := section.Drawing{Cut: solid.VerticalCut(plan.Point{100, 0}, plan.Point{1, 0})}
	// Seen from the right of (0, 1) at x = 300: drawn at x, a thing lies x − 200 before.
	other := solid.VerticalCut(plan.Point{300, 0}, plan.Point{0, 1})
	for _, x := range []float64{150, 199, 199.1, 200, 250} {
		d.Marks = append(d.Marks, section.Mark{At: plan.Point{x, 50}})
		for _, y := range []float64{198, 300} {
			d.Dimensions = append(d.Dimensions, section.Dimension{From: plan.Point{x, 0}, To: plan.Point{y, 0}}, section.Dimension{From: plan.Point{y, 0}, To: plan.Point{x, 0}})
		}
	}
	d.Areas = []section.Area{{PartID: "kept"}}
	got := d.Within(other)
	var marks []float64
	for _, m := range got.Marks {
		marks = append(marks, m.At.X())
	}
	if fmt.Sprint(marks) != "[199.1 200 250]" || len(got.Dimensions) != 6 || len(got.Areas) != 1 || len(d.Marks) != 5 {
		t.Errorf("marks %v, %d dimensions %+v", marks, len(got.Dimensions), got.Dimensions)
	}
	for _, m := range got.Dimensions {
		if min(m.From.X(), m.To.X()) < 199 {
			t.Errorf("%+v lies behind", m)
		}
	}
}

// The area drawn last is the one on top; corners within reach are snapped to, the
// nearest first, those of holes too.
func TestAtAndSnap(t *testing.T) {
	holed := plan.Region{{Outer: plan.Ring{{0, 0}, {100, 0}, {100, 100}, {0, 100}}, Holes: []plan.Ring{{{40, 40}, {40, 60}, {60, 60}, {60, 40}}}}}
	d := section.Drawing{Areas: []section.Area{{PartID: "under", Region: holed, Material: material.Tile}, {PartID: "over", Region: plan.Rectangle(plan.Point{80, 0}, plan.Point{200, 50})}}}
	for p, want := range map[plan.Point]string{{10, 10}: "under", {90, 10}: "over", {150, 10}: "over", {50, 50}: "", {300, 10}: "", {90, 90}: "under"} {
		if a, ok := d.At(p); a.PartID != want || ok != (want != "") {
			t.Errorf("at %v: %q %v, want %q", p, a.PartID, ok, want)
		}
	}
	for _, c := range []struct {
		p     plan.Point
		reach float64
		want  plan.Point
		ok    bool
	}{
		{plan.Point{3, 4}, 5.1, plan.Point{0, 0}, true}, {plan.Point{3, 4}, 5, plan.Point{}, false},
		{plan.Point{41, 41}, 50, plan.Point{40, 40}, true}, {plan.Point{90, 1}, 30, plan.Point{100, 0}, true},
		{plan.Point{88, 1}, 30, plan.Point{80, 0}, true}, {plan.Point{199, 60}, 30, plan.Point{200, 50}, true},
	} {
		if got, ok := d.Snap(c.p, c.reach); ok != c.ok || ok && got != c.want {
			t.Errorf("near %v within %v: %v %v, want %v %v", c.p, c.reach, got, ok, c.want, c.ok)
		}
	}
	if _, ok := (section.Drawing{}).Snap(plan.Point{}, 10); ok {
		t.Error("an empty drawing has a corner")
	}
}
