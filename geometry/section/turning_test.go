package section_test

import (
	"math"
	"testing"

	"underfall/geometry/demotest"
	"underfall/geometry/job"
	"underfall/geometry/plan"
	"underfall/geometry/rule"
	"underfall/geometry/section"
)

// The places of the starting job are its way in, its one doorway, the pipe and the drain: glass closes its
// other edge. In a room with two doorways each is one, and in every job each step that is walked over. Across the way in is the same place as across the
// step there, however it is turned.
func TestCutPlaces(t *testing.T) {
	r := starting(t)
	right := section.Across(rule.Subject{Of: rule.OpenEdge, Number: 1})
	want := []section.Cutting{{Of: section.CutWayIn}, {Of: section.CutDoor}, {Of: section.CutPipe}, {Of: section.CutDrain}}
	got := section.CutPlaces(r)
	if len(got) != len(want) {
		t.Fatalf("%v, want %v", got, want)
	}
	for i := range got {
		if got[i] != want[i] {
			t.Errorf("%v, want %v", got[i], want[i])
		}
	}
	front := section.Across(rule.Subject{Of: rule.OpenEdge, Number: 2})
	front.TurnedDeg, front.AsideMM = 12, -40
	if !front.SamePlace(r, want[0]) || front.SamePlace(r, right) || right.SamePlace(r, want[3]) {
		t.Error("across the front edge is not the place at the way in, or is the place elsewhere")
	}
	for _, r := range demotest.Shown(t) {
		doors, steps := 0, map[section.Cutting]bool{}
		for _, c := range section.CutPlaces(r) {
			if _, err := c.Plane(r); err != nil {
				t.Errorf("%s: %v: %v", r.Settled.Name, c, err)
			}
			if c.Goes(r).IsZero() {
				t.Errorf("%s: %v has no name", r.Settled.Name, c)
			}
			for _, across := range section.AcrossSteps(r) {
				steps[across] = steps[across] || c.SamePlace(r, across)
			}
			if c.Of == section.CutDoor || c.Step.Of == rule.Doorway {
				doors++
			}
		}
		for across, there := range steps {
			if !there {
				t.Errorf("%s: %v is no place", r.Settled.Name, across)
			}
		}
		if doors != len(r.Layout.Doors) {
			t.Errorf("%s: %d cuts across %d doorways", r.Settled.Name, doors, len(r.Layout.Doors))
		}
	}
	unsolved := r
	unsolved.Problems = job.Problems{{Key: "room"}}
	if got := section.CutPlaces(unsolved); got != nil {
		t.Errorf("a job that is not worked out is cut at %v", got)
	}
}

// Ways with a name, by hand; see starting. Across the way in the cut runs to the back, square to walls A
// and C and along the fall; the pipe runs to the left, a quarter turn anticlockwise. Within 2° of one a
// cut falls onto it, keeping the way that it looks.
func TestTurnings(t *testing.T) {
	r := starting(t)
	in := section.Cutting{Of: section.CutWayIn}
	for _, c := range []struct {
		deg, onto float64
		name      string
	}{
		{0.4, 0, "turning.own{cut: cut.across-way-in}"}, {-1.9, 0, "turning.own{cut: cut.across-way-in}"},
		{88.5, 90, "turning.across-fall"}, {-91, -90, "turning.across-fall"}, {179, 180, "turning.own{cut: cut.across-way-in}"},
		{44, 45, "turning.slanting{wall: A}"}, {-46.5, -45, "turning.slanting{wall: A}"}, {136, 135, "turning.slanting{wall: A}"},
		{30, 30, ""}, {2.1, 2.1, ""}, {363, 3, ""}, {-300, 60, ""},
	} {
		onto, name := in.Onto(r, c.deg)
		if said := name.String(); math.Abs(onto-c.onto) > 1e-9 || said != c.name && !(c.name == "" && name.IsZero()) {
			t.Errorf("turned by %v it falls onto %v, %s; want %v, %s", c.deg, onto, said, c.onto, c.name)
		}
	}
	if got := (section.Cutting{Of: section.CutLevel, LevelMM: 60}).Turnings(r); got != nil {
		t.Errorf("a level cut turns to %v", got)
	}
	timber := starting(t, func(j *job.Job) { j.Floor.Kind, j.Floor.Joists.DirectionDeg = job.FloorTimber, 20 })
	named := map[string]float64{}
	for _, turn := range in.Turnings(timber) {
		named[turn.Name.String()] = turn.Deg
	}
	// Joists at 20° from the room's first wall lie 70° clockwise of the way to the back.
	if along, across := named["turning.along-joists"], named["turning.across-joists"]; math.Abs(along+70) > 1e-6 || math.Abs(across-20) > 1e-6 {
		t.Errorf("along the joists at %v, across them at %v", along, across)
	}
}

// Turned about any place a cut goes on going through it; led round by an end it goes to where the end is
// led, whichever end.
func TestTurnedAboutAPlace(t *testing.T) {
	r := starting(t)
	about := plan.Point{1000, 1300}
	for _, c := range append(section.CutPlaces(r), section.Cutting{Of: section.CutPoints, From: plan.Point{300, 400}, To: plan.Point{2000, 1500}}) {
		for _, deg := range []float64{-170, -90, -33.3, 0, 45, 90, 121.7, 180} {
			turned := c.Turned(r, about, deg)
			plane, err := turned.Plane(r)
			if err != nil {
				t.Errorf("%v turned by %v: %v", c, deg, err)
				continue
			}
			if off := plane.Side([3]float64{about.X(), about.Y(), 0}); math.Abs(off) > 1e-6 {
				t.Errorf("%v turned by %v passes %v beside the place", c, deg, off)
			}
			own, _ := c.Plane(r)
			got := math.Atan2(own.Along.X()*plane.Along.Y()-own.Along.Y()*plane.Along.X(), own.Along.Dot(plane.Along)) * 180 / math.Pi
			if d := math.Mod(got-deg+540, 360) - 180; math.Abs(d) > 1e-6 {
				t.Errorf("%v turned by %v leads %v° off its own way", c, deg, got)
			}
			for _, far := range []bool{true, false} {
				way := plan.Point{plane.Along.X(), plane.Along.Y()}.Mul(700)
				if !far {
					way = way.Mul(-1)
				}
				led, ok := c.TurnTo(r, about, about.Add(way), far)
				if d := math.Mod(led-deg+540, 360) - 180; !ok || math.Abs(d) > 1e-6 {
					t.Errorf("%v: its end led to %v° turns it by %v, %v", c, deg, led, ok)
				}
			}
		}
	}
	in := section.Cutting{Of: section.CutWayIn}
	if _, ok := in.TurnTo(r, about, about, true); ok {
		t.Error("an end led onto the place itself leads somewhere")
	}
	moved := in.Turned(r, plan.Point{850, 1000}, 0)
	if said := moved.Says(r).String(); said != "cut.looking-at{cut: cut.aside{cut: cut.across-way-in, aside: 150 mm}, wall: B}" {
		t.Errorf("moved 150 to the side it says %s", said)
	}
	if moved.Home() != in {
		t.Errorf("brought back it is %v", moved.Home())
	}
	far := in
	far.AsideMM = 9000
	if _, err := far.Plane(r); err == nil {
		t.Error("moved out of the room it is a cut")
	}
	if _, err := far.Upright(r); err != nil {
		t.Errorf("moved out of the room it is no plane: %v", err)
	}
}
