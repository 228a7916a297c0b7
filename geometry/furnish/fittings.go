package furnish

import (
	"math"

	"underfall/geometry"
	"underfall/geometry/layout"
	"underfall/geometry/plan"
)

// How far the arm of a rose reaches. Common practice, no source.
const (
	longestArmMM  = 700
	shortestArmMM = 150
)

// reachable tells whether an arm from a wall along an edge holds a head at a place.
func reachable(e layout.Edge, head plan.Point) bool {
	along := e.B.Sub(e.A).Normalize()
	s, off := head.Sub(e.A).Dot(along), math.Abs(plan.Cross(along, head.Sub(e.A)))
	return s > 0 && s < e.LengthMM() && off <= longestArmMM && off >= shortestArmMM
}

// Fittings is the stretch of wall of the shower that its mixer and its rail are on: one without the drain where there
// is one, and one from which an arm reaches the head, where that is stated. ok is false where there is none.
func Fittings(r *geometry.Result) (edge layout.Edge, ok bool) {
	const leastMM = 500
	drainSide, _ := layout.DrainSide(r.Settled.Former.Fall)
	most := -1.0
	for _, e := range r.Layout.Edges {
		if e.Wall < 0 || e.LengthMM() < leastMM {
			continue
		}
		worth := e.LengthMM()
		if h := r.Settled.Shower.Head; h != nil && !reachable(e, h.At) {
			continue
		}
		if e.Side == drainSide {
			worth *= 0.3
		}
		if worth > most {
			most, edge, ok = worth, e, true
		}
	}
	return edge, ok
}

// mixer is the floor before the mixer and the rail.
func mixer(r *geometry.Result) (ring plan.Ring, ok bool) {
	const halfMM, deepMM = 420, 300
	e, ok := Fittings(r)
	if !ok {
		return nil, false
	}
	at := mixerAt(r, e)
	along := e.B.Sub(e.A).Normalize().Mul(halfMM)
	return strip(at.Sub(along), at.Add(along), r.Layout.Walls[e.Wall].Outward.Mul(-1), deepMM), true
}
