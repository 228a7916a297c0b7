package section

import (
	"math"

	"underfall/geometry"
	"underfall/geometry/layout"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/rule"
)

// CutPlaces are the places that a job can be cut through, in the order that they are offered: across
// the way in and every doorway, along the pipe, through the drain, across the other steps.
func CutPlaces(r geometry.Result) (out []Cutting) {
	if len(r.Problems) > 0 {
		return nil
	}
	in := r.WayIn()
	if in != nil {
		out = append(out, Cutting{Of: CutWayIn})
	}
	if len(r.Layout.Doors) == 1 {
		out = append(out, Cutting{Of: CutDoor})
	} else {
		for i := range r.Layout.Doors {
			out = append(out, Across(rule.Subject{Of: rule.Doorway, Number: r.Layout.Doors[i].Index + 1}))
		}
	}
	if len(r.Heights.Run.Corners) > 1 {
		out = append(out, Cutting{Of: CutPipe})
	}
	out = append(out, Cutting{Of: CutDrain})
	for _, s := range r.Steps() {
		if s.Where.Of == rule.OpenEdge && (in == nil || s.Where != in.Where) {
			out = append(out, Across(s.Where))
		}
	}
	return out
}

// SamePlace tells whether two cuts go through the same place of a result, however they are turned and
// moved aside: that at the way in is the same as that across the step there.
func (c Cutting) SamePlace(r geometry.Result, other Cutting) bool {
	return c.asStep(&r) == other.asStep(&r)
}

// asStep is the cut at its own place, with the step that it goes across, if it goes across one.
func (c Cutting) asStep(r *geometry.Result) Cutting {
	c = c.Home()
	switch c.Of {
	case CutWayIn, CutDoor, CutStep:
		if step, err := c.step(r); err == nil {
			return Across(rule.Subject{Of: step.Of, Number: step.Number})
		}
	}
	return c
}

// Turning is a way that a cut may lead that has a name: how far it is turned from its own, and what it
// then lies with or square to.
type Turning struct {
	Deg  float64
	Name message.Message
}

// Turnings are the ways with a name that a cut may be turned to, from −90° to 90° of its own; of two
// that are the same the one that says more comes first: its own, along the fall and across it, along
// the pipe, square to walls, along and across the joists, at 45° to a wall. None of a cut that is none.
func (c Cutting) Turnings(r geometry.Result) (out []Turning) {
	own, err := c.Home().Upright(r)
	if err != nil || c.Of.Level() {
		return nil
	}
	add := func(along plan.Point, name message.Message) {
		if long := along.Len(); long > 0 {
			along = along.Mul(1 / long)
			deg := math.Atan2(plan.Cross(planOf(own.Along), along), planOf(own.Along).Dot(along)) * 180 / math.Pi
			out = append(out, Turning{halfTurn(deg), name})
		}
	}
	add(planOf(own.Along), message.Of("turning.own", message.In("cut", c.Goes(r))))
	for _, p := range r.Layout.Fall {
		down := plan.Point{p.SlopeX, p.SlopeY}
		add(down, message.Of("turning.along-fall"))
		add(plan.Left(down), message.Of("turning.across-fall"))
	}
	corners := r.Heights.Run.Corners
	for i := 1; i < len(corners); i++ {
		add(corners[i].Sub(corners[i-1]), message.Of("turning.along-pipe"))
	}
	for i := range r.Layout.Walls {
		w := &r.Layout.Walls[i]
		add(w.Outward, message.Of("turning.square-to-wall", message.Wall("wall", w.Letter)))
	}
	for i := range r.Layout.Joists {
		if js := &r.Layout.Joists[i]; js.Member == layout.CommonJoist {
			add(js.Along, message.Of("turning.along-joists"))
			add(plan.Left(js.Along), message.Of("turning.across-joists"))
			break
		}
	}
	for i := range r.Layout.Walls {
		w := &r.Layout.Walls[i]
		add(w.Along.Add(w.Outward), message.Of("turning.slanting", message.Wall("wall", w.Letter)))
		add(w.Along.Sub(w.Outward), message.Of("turning.slanting", message.Wall("wall", w.Letter)))
	}
	return out
}

// halfTurn is an angle as the way of a line, which leads both ways: over −90° to 90°.
func halfTurn(deg float64) float64 { return within(deg, 180) }

// within is an angle less whole multiples of a turn: over its half below nought to its half.
func within(deg, turnDeg float64) float64 {
	deg = math.Mod(deg, turnDeg)
	switch {
	case deg > turnDeg/2:
		deg -= turnDeg
	case deg <= -turnDeg/2:
		deg += turnDeg
	}
	return deg
}

// turnsWithinDeg is how near to a way with a name a cut that is turned falls onto it.
const turnsWithinDeg = 2

// Onto is the way that a cut falls onto when it is turned so far from its own way: one with a name where it
// is near one, else as it is, without a name.
func (c Cutting) Onto(r geometry.Result, deg float64) (ontoDeg float64, name message.Message) {
	deg = fullTurn(deg)
	best := float64(turnsWithinDeg)
	ontoDeg = deg
	for _, t := range c.Turnings(r) {
		if off := halfTurn(t.Deg - deg); math.Abs(off) < best-leastTurnDeg {
			best, ontoDeg, name = math.Abs(off), fullTurn(deg+off), t.Name
		}
	}
	return ontoDeg, name
}

// Turned is the cut turned so far from its own way, about a place that it goes on going through; as it is
// where it is none.
func (c Cutting) Turned(r geometry.Result, about plan.Point, deg float64) Cutting {
	turned := c
	if turned.TurnedDeg, turned.AsideMM = fullTurn(deg), 0; math.Abs(turned.TurnedDeg) < leastTurnDeg {
		turned.TurnedDeg = 0
	}
	plane, err := turned.Upright(r)
	if err != nil {
		return c
	}
	if turned.AsideMM = about.Sub(planOf(plane.Origin)).Dot(planOf(plane.Normal)); math.Abs(turned.AsideMM) < plan.HairMM {
		turned.AsideMM = 0
	}
	return turned
}

// leastTurnDeg is less than a turn that moves anything in a room by a hair.
const leastTurnDeg = 1e-9

// fullTurn is an angle over −180° to 180°.
func fullTurn(deg float64) float64 { return within(deg, 360) }

// TurnTo is how far a cut is turned from its own way when the end of its line that lies on the way it
// runs, or the other one, is led to a point about a place; ok is false where the point is the place.
func (c Cutting) TurnTo(r geometry.Result, about, to plan.Point, far bool) (deg float64, ok bool) {
	own, err := c.Home().Upright(r)
	way := to.Sub(about)
	if err != nil || way.Len() < leastCutMM {
		return 0, false
	}
	if !far {
		way = way.Mul(-1)
	}
	return math.Atan2(plan.Cross(planOf(own.Along), way), planOf(own.Along).Dot(way)) * 180 / math.Pi, true
}
