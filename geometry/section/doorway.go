package section

import (
	"math"
	"slices"

	"underfall/geometry"
	"underfall/geometry/plan"
	"underfall/geometry/rule"
)

// beforeDoorMM is how far beyond a doorway is looked at first.
const beforeDoorMM = 350

// leastSine is of the least angle at which a cut goes across what it is to show.
const leastSine = 0.3

// wayFrom is the way that a cut runs from a place in a doorway: straight in, where it comes through the shower so; else to
// the way in, as one walks, where it can through the room and goes across both; of length one.
func wayFrom(r *geometry.Result, at, in plan.Point) plan.Point {
	if _, through := showerOn(r, at, in); through {
		return in
	}
	step := r.WayIn()
	if step == nil {
		return in
	}
	to, over, ok := r.StepPlace(step.Where)
	way := to.Sub(at)
	long := way.Len()
	if !ok || long < leastCutMM {
		return in
	}
	way = way.Mul(1 / long)
	if way.Dot(in) < leastSine || way.Dot(over) < leastSine || floorOn(r, at, way) < long-leastCutMM {
		return in
	}
	return way
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
