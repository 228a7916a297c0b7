package plan

import (
	"math"
	"slices"
)

// hairMM is how far apart what is meant to lie on each other may lie on the grid: a corner
// put on it twice, once in another frame, is up to √2 steps off.
const hairMM = 1.5 * gridMM

// withoutHairs brings two regions on the grid together where they miss each other by a
// hair: a shower along a wall out of square has its corners beside the wall's line, and
// what is left of the room beside it would be a strip that thin. Corners of the second go
// onto those of the first, and edges are bent to go through the corners beside them.
// Regions that only meet exactly, or not at all, are left as they are.
func withoutHairs(a, b Region) (Region, Region) {
	if !a.missesBy(b) && !b.missesBy(a) {
		return a, b
	}
	b = b.cornersOnto(a)
	return a.bentTo(b), b.bentTo(a)
}

// missesBy tells whether a corner of another region lies within a hair of an edge without
// lying on it.
func (r Region) missesBy(o Region) bool {
	for _, p := range r {
		for k := range p.rings() {
			ring := p.ring(k)
			for i, a := range ring {
				b := ring[(i+1)%len(ring)]
				for _, q := range o {
					for n := range q.rings() {
						for _, c := range q.ring(n) {
							if c != a && c != b && WithinOfSegment(c, a, b, hairMM) && onSteps(a, b, c) != 0 {
								return true
							}
						}
					}
				}
			}
		}
	}
	return false
}

// onSteps is twice the area of a triangle of corners on the grid, in steps of it; exact.
func onSteps(a, b, c Point) int64 {
	steps := func(mm float64) int64 { return int64(math.Round(mm / gridMM)) }
	return turn(steps(a.X()), steps(a.Y()), steps(b.X()), steps(b.Y()), steps(c.X()), steps(c.Y()))
}

// cornersOnto is a region with its corners on those of another that lie within a hair.
func (r Region) cornersOnto(o Region) Region {
	return r.eachRing(func(in Ring) Ring {
		out := append(Ring(nil), in...)
		for i, c := range in {
			for _, q := range o {
				for k := range q.rings() {
					for _, d := range q.ring(k) {
						if c.Sub(d).Len() <= hairMM {
							out[i] = d
						}
					}
				}
			}
		}
		return out.straightened()
	})
}

// bentTo is a region whose edges go through the corners of another within a hair of them,
// and those that they went through before.
func (r Region) bentTo(o Region) Region {
	return r.eachRing(func(in Ring) Ring {
		out := make(Ring, 0, len(in))
		for i, a := range in {
			b := in[(i+1)%len(in)]
			out = append(out, a)
			first := len(out)
			for _, q := range o {
				for k := range q.rings() {
					for _, c := range q.ring(k) {
						if c != a && c != b && WithinOfSegment(c, a, b, hairMM) {
							out = out.insertAlong(first, a, c)
						}
					}
				}
			}
		}
		return out
	})
}

// insertAlong puts a corner among those from an index on, which lie along an edge by their
// distance from its start; one that is there already is not put in again.
func (r Ring) insertAlong(first int, start, c Point) Ring {
	at := len(r)
	for at > first && r[at-1].Sub(start).Len() > c.Sub(start).Len() {
		at--
	}
	if at > first && r[at-1] == c {
		return r
	}
	return slices.Insert(r, at, c)
}
