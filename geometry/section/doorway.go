package section

import (
	"math"
	"slices"

	"underfall/geometry"
	"underfall/geometry/layout"
	"underfall/geometry/level"
	"underfall/geometry/plan"
	"underfall/geometry/rule"
)

// beforeDoorMM is how far beyond a doorway is looked at first.
const beforeDoorMM = 350

// leastSine is of the least angle at which a cut goes across what it is to show.
const leastSine = 0.3

// acrossDoor is where a cut goes across a doorway, and the way it runs from there: where its step is greatest, or moved along from there
// by what the cut is out of the opening, on either face of the wall, until it lies in that; straight in through the middle where it
// does not come to.
func acrossDoor(r *geometry.Result, d *layout.Doorway, greatest plan.Point) (at, along plan.Point) {
	in := d.Wall.Outward.Mul(-1)
	wide, beside := d.B.Sub(d.A).Len(), d.B.Sub(d.A).Normalize()
	// Off the jambs as steps are off the ends of edges; each move changes the way, the more so the nearer the shower.
	const moves = 8
	low, high := float64(level.OffEndMM), wide-level.OffEndMM
	t := math.Max(low, math.Min(high, greatest.Sub(d.A).Dot(beside)))
	for range moves {
		at = d.A.Add(beside.Mul(t))
		along = wayFrom(r, at, in)
		outer := t - along.Dot(beside)/along.Dot(in)*d.Wall.ThicknessMM
		by := math.Max(0, low-outer) - math.Max(0, outer-high)
		if math.Abs(by) < plan.HairMM && t >= low && t <= high {
			return at, along
		}
		t += by
	}
	return d.A.Add(beside.Mul(wide / 2)), in
}

// wayFrom is the way that a cut runs from a place in a doorway: straight in, where it comes through the shower so; else to
// the way in, as one walks, where it can through the room and goes across both; else the least aside on which it shows enough of the
// shower; straight in where none does. It is of length one.
func wayFrom(r *geometry.Result, at, in plan.Point) plan.Point {
	if _, through := showerOn(r, at, in); through {
		return in
	}
	if way, ok := toWayIn(r, at, in); ok {
		return way
	}
	const stepDeg = 0.25
	for deg := stepDeg; math.Cos(deg*math.Pi/180) >= leastSine; deg += stepDeg {
		for _, to := range [...]float64{deg, -deg} {
			turn := plan.DirectionDeg(to)
			if way := in.Mul(turn.X()).Add(plan.Left(in).Mul(turn.Y())); entersShower(r, at, way) {
				return way
			}
		}
	}
	return in
}

// toWayIn is the way from a place in a doorway to the way in; ok is false where a wall stands between or it goes nearly along either.
func toWayIn(r *geometry.Result, at, in plan.Point) (way plan.Point, ok bool) {
	step := r.WayIn()
	if step == nil {
		return way, false
	}
	to, over, ok := r.StepPlace(step.Where)
	way = to.Sub(at)
	long := way.Len()
	if !ok || long < leastCutMM {
		return way, false
	}
	way = way.Mul(1 / long)
	return way, way.Dot(in) >= leastSine && way.Dot(over) >= leastSine && floorOn(r, at, way) >= long-leastCutMM
}

// entersShower tells whether a way from a place on the room's outline leads through the room into the shower, far enough for what lies
// there to be seen, and across the edge that it comes in over.
func entersShower(r *geometry.Result, at, way plan.Point) bool {
	const leastMM = 250
	floor := floorOn(r, at, way)
	for _, iv := range r.Layout.FallArea.Clip(at, way) {
		if iv.From < leastCutMM || math.Min(iv.To, floor)-iv.From < leastMM {
			continue
		}
		over := at.Add(way.Mul(iv.From))
		for _, e := range r.Layout.OpenEdges() {
			along := e.B.Sub(e.A).Normalize()
			if plan.DistanceToSegment(over, e.A, e.B) < leastCutMM && math.Abs(plan.Cross(along, way)) >= leastSine {
				return true
			}
		}
	}
	return false
}

// floorOn is how far the room's floor goes on from a place on its outline.
func floorOn(r *geometry.Result, at, way plan.Point) float64 {
	for _, iv := range r.Layout.Room.Clip(at, way) {
		if iv.From < leastCutMM && iv.To > leastCutMM {
			return iv.To
		}
	}
	return 0
}

// showerOn is how far from a place on the room's outline the shower ends on a way into the room; through is false where
// the way leads past it, or is led off by a wall before.
func showerOn(r *geometry.Result, at, way plan.Point) (endMM float64, through bool) {
	floor := floorOn(r, at, way)
	for _, iv := range r.Layout.FallArea.Clip(at, way) {
		if iv.To > leastCutMM && iv.From < floor {
			endMM, through = iv.To, true
		}
	}
	return endMM, through
}

// lookThrough has all of the way from beyond a doorway to the end of the shower looked at first; where the cut leads past
// the shower, to the end of the room. Where it runs askew no length along it is one that a tape has, and none is told.
func (d *Drawing) lookThrough(r *geometry.Result, doorway rule.Subject) {
	at, way := planOf(d.Cut.Origin), planOf(d.Cut.Along)
	if _, in, ok := r.StepPlace(doorway); ok && math.Abs(way.Dot(in)) < 1-plan.HairMM {
		d.Dimensions = slices.DeleteFunc(d.Dimensions, func(m Dimension) bool { return m.Side.Y() != 0 })
	}
	to, through := showerOn(r, at, way)
	if !through {
		to = floorOn(r, at, way)
	}
	const pastMM = 150 // of the wall behind it
	d.focusOn(r, -beforeDoorMM, to+pastMM)
}
