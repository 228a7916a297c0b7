package solid

import (
	"slices"

	"underfall/geometry/plan"
)

// withoutTouching is a polygon whose holes touch neither its outer ring nor each other: a
// hole that does is walked together with what it touches, with the place where they touch
// as a corner twice. The ear clipper takes in only holes that stand clear.
func withoutTouching(p plan.Polygon) plan.Polygon {
	rings := append([]plan.Ring(nil), p.Rings()...)
	for i := 1; i < len(rings); i++ {
		for k := range i {
			both, ok := joined(rings[k], rings[i])
			if !ok {
				continue
			}
			// What is joined may touch another by now: begin again.
			rings[k] = both
			rings = append(rings[:i], rings[i+1:]...)
			i = 0
			break
		}
	}
	return plan.Polygon{Outer: rings[0], Holes: rings[1:]}
}

// withoutHairs is a polygon without corners that lie a hair before the next one, as rounding
// leaves them where a cut passes through a corner. Cuts that follow one another, each in its own frame, leave
// a few hairs. One that is there twice stays: it was drawn up wrong.
func withoutHairs(p plan.Polygon) plan.Polygon {
	rings := p.Rings()
	for k, ring := range rings {
		for i := len(ring) - 1; i >= 0; i-- {
			if d := ring[(i+1)%len(ring)].Sub(ring[i]).Len(); d > 0 && d <= 5*plan.HairMM {
				ring = slices.Concat(ring[:i], ring[i+1:])
			}
		}
		rings[k] = ring
	}
	return plan.Polygon{Outer: rings[0], Holes: rings[1:]}
}

// joined is two rings walked as one, from the first into the second and back where they
// touch.
func joined(a, b plan.Ring) (plan.Ring, bool) {
	q, ok := touch(a, b)
	if !ok {
		q, ok = touch(b, a)
	}
	if !ok {
		return nil, false
	}
	out := append(plan.Ring(nil), from(a, q)...)
	return append(out, from(b, q)...), true
}

// touch is a corner of the second ring that lies on the first.
func touch(a, b plan.Ring) (plan.Point, bool) {
	for _, q := range b {
		for i, p := range a {
			if plan.WithinOfSegment(q, p, a[(i+1)%len(a)], plan.HairMM) {
				return q, true
			}
		}
	}
	return plan.Point{}, false
}

// from is a ring that begins at a place on it, which becomes a corner if it is none.
func from(r plan.Ring, q plan.Point) plan.Ring {
	at, gap := 0, r[0].Sub(q).Len()
	for i, p := range r {
		if d := p.Sub(q).Len(); d < gap {
			at, gap = i, d
		}
	}
	if gap <= plan.HairMM {
		return append(plan.Ring{q}, append(append(plan.Ring(nil), r[at+1:]...), r[:at]...)...)
	}
	for i, p := range r {
		if plan.WithinOfSegment(q, p, r[(i+1)%len(r)], plan.HairMM) {
			return append(plan.Ring{q}, append(append(plan.Ring(nil), r[i+1:]...), r[:i+1]...)...)
		}
	}
	return r
}
