package sight

import (
	"math"
	"slices"
	"testing"

	"underfall/app/guard"
	"underfall/geometry"
	"underfall/geometry/demotest"
	"underfall/geometry/rule"
	"underfall/geometry/section"
)

// looking is a sight whose window runs what it is asked to at once.
func looking(t *testing.T) *Sight {
	return New(func(f func()) { f() }, guard.New(func(f guard.Fault) { t.Error(f) }, nil))
}

// A dragged cut falls onto the places worth cutting, and comes off them again.
func TestCutSnaps(t *testing.T) {
	r := demotest.Shown(t)[0]
	s := looking(t)
	s.Drag(r, PlaneFirst, 5)
	if s.Cutting.AsideMM != 0 {
		t.Errorf("5 mm off the drain the cut stands at %v", s.Cutting.AsideMM)
	}
	s.Drag(r, PlaneFirst, 15)
	if s.Cutting.AsideMM != 20 {
		t.Errorf("dragged 20 mm it stands at %v", s.Cutting.AsideMM)
	}
	s.CutCorner()
	if cuts := s.Cuts(r); len(cuts) != 2 || math.Abs(cuts[0].Normal.Dot(cuts[1].Normal)) > 1e-6 {
		t.Errorf("a corner is cut by %v", cuts)
	}
}

// However far a plane is dragged or nudged, it cuts the room, and comes back as
// soon as it is dragged back; when the room shrinks it comes along.
func TestCutStaysInTheRoom(t *testing.T) {
	r := demotest.Shown(t)[0]
	s := looking(t)
	both := func(plane int) bool {
		c := s.Plane(r, plane)
		low, high := math.Inf(1), math.Inf(-1)
		for _, p := range r.Settled.Room.Outline {
			side := c.Side([3]float64{p.X(), p.Y(), c.Origin.Z()})
			low, high = min(low, side), max(high, side)
		}
		return low < -1 && high > 1
	}
	places := map[string]func(){"corner": s.CutCorner}
	for _, c := range section.CutPlaces(r) {
		places[c.Goes(r).String()] = func() { s.CutThere(c) }
		turned := c
		turned.TurnedDeg = 71
		places[c.Goes(r).String()+" turned"] = func() { s.CutThere(turned) }
	}
	for mode, start := range places {
		for _, by := range []float64{50000, -50000} {
			start()
			for _, plane := range s.Active() {
				s.Drag(r, plane, by)
				if !both(plane) {
					t.Errorf("%s: dragged by %v plane %d leaves the room", mode, by, plane)
				}
				at := s.MovedMM(plane)
				s.Drag(r, plane, -math.Copysign(60, by))
				if moved := s.MovedMM(plane) - at; math.Abs(moved) < 60-2*snapWithinMM || moved*by > 0 {
					t.Errorf("%s: dragged back by 60 it moves by %v", mode, moved)
				}
			}
			for range 800 {
				s.Nudge(r, math.Copysign(10, by))
			}
			if !both(s.Active()[0]) {
				t.Errorf("%s: nudged by %v it leaves the room", mode, by)
			}
		}
	}
	s.CutThere(section.Cutting{Of: section.CutDrain})
	s.Drag(r, PlaneFirst, 50000)
	s.Cutting.AsideMM, s.draggedMM[PlaneFirst] = 5000, 5000 // as in a larger room
	s.KeepInRoom(r)
	if !both(PlaneFirst) {
		t.Error("in a smaller room the plane stays outside")
	}
}

// Across a step the section has it in what is looked at first: the one at the way in, of 118, the one at
// the doorway, 9 down; each edge when that is asked for. Another mode forgets which it was. Where there is
// no such step the drain is cut, and the section says why.
func TestCutAcrossSteps(t *testing.T) {
	all := demotest.Shown(t)
	r, s := all[0], looking(t)
	shown := func(of rule.Subject, d section.Drawing) bool {
		most := 1.0
		if of.Of == rule.Doorway {
			most = 84 // as near to where the step is greatest as the opening lets it: the shower lies 100 beside the door
		}
		at, _, _ := r.StepPlace(of)
		x := d.Cut.Flat([3]float64{at.X(), at.Y(), 0}).X()
		return x >= d.FocusLow.X() && x <= d.FocusHigh.X() && math.Abs(d.Cut.Side([3]float64{at.X(), at.Y(), d.Cut.Origin.Z()})) < most
	}
	for _, step := range r.Steps() {
		s.CutThere(section.Across(step.Where))
		if d := s.Section(r); !shown(step.Where, d) || !s.CutOn || !d.Fault.IsZero() {
			t.Errorf("%s is not in what is looked at", step.Where)
		}
	}
	for cut, of := range map[section.CuttingOf]rule.Subject{section.CutWayIn: r.WayIn().Where, section.CutDoor: {Of: rule.Doorway, Number: 1}} {
		s.CutThere(section.Cutting{Of: cut})
		if d := s.Section(r); !shown(of, d) {
			t.Errorf("%s: %s is not in what is looked at", cut, of)
		}
	}
	s.CutThere(section.Cutting{Of: section.CutWayIn})
	whole := slices.IndexFunc(all, func(r geometry.Result) bool { return r.WayIn() == nil })
	d := s.Section(all[whole])
	if d.Fault.ID != "cut.no-way-in" || d.Cut != section.ThroughDrain(all[whole]) {
		t.Errorf("%s: %s, cut at %v", all[whole].Settled.Name, d.Fault, d.Cut)
	}
	r = all[whole]
	s.Drag(r, PlaneFirst, 50)
	if d := s.Section(r); d.Cut.Origin == section.ThroughDrain(r).Origin || !d.Fault.IsZero() {
		t.Errorf("dragged it stands at %v", d.Cut.Origin)
	}
}
