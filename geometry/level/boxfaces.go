package level

import (
	"math"

	"underfall/geometry/layout"
	"underfall/geometry/plan"
)

// Face is a stretch of the sides of a box over the run, or of the board that closes its end,
// that stands free in the room: not at a wall.
type Face struct {
	A, B plan.Point
	Out  plan.Point // away from the box
}

// LengthMM of the face.
func (f Face) LengthMM() float64 { return f.B.Sub(f.A).Len() }

// Faces are those of the box, but for what stands in the shower or outside the room.
func (b *Box) Faces(l *layout.Layout) (out []Face) {
	const offMM, leastMM = 0.5, 1
	add := func(from, to plan.Point, away plan.Point) {
		u, long := to.Sub(from), to.Sub(from).Len()
		if long < leastMM {
			return
		}
		u = u.Mul(1 / long)
		for _, iv := range shared([]plan.Interval{{From: 0, To: long}}, l.Rest.Clip(from.Add(away.Mul(offMM)), u)) {
			if iv.To-iv.From >= leastMM {
				out = append(out, Face{from.Add(u.Mul(iv.From)), from.Add(u.Mul(iv.To)), away})
			}
		}
	}
	parts := b.Parts()
	for i, p := range parts {
		// A part's ring goes out along its right-hand side and back along its left.
		along := b.Path[i+1].Sub(b.Path[i]).Normalize()
		add(p[0], p[1], plan.Left(along).Mul(-1))
		add(p[3], p[2], plan.Left(along))
		if b.Closed && i == len(parts)-1 {
			add(p[1], p[2], along)
		}
	}
	return out
}

// Parts are the straights of the box in plan cut off against each other in the middle of its
// corners, drawn on at a shower's edge and at a wall as far as those may take them: what
// they share with the room beside the shower is what the box takes of it. The corners of each
// are those at its start on the right and at its end on the right, then on the left.
func (b *Box) Parts() (out []plan.Ring) {
	n, half := len(b.Path), b.HalfMM()
	along := func(i int) plan.Point { return b.Path[i+1].Sub(b.Path[i]).Normalize() }
	// side is how far the left corner at a point of the path lies from it, for the part that
	// begins at k.
	side := func(i, k int) plan.Point {
		own := plan.Left(along(k)).Mul(half)
		if i == 0 || i == n-1 {
			return own
		}
		u, v := along(i-1), along(i)
		if u.Dot(v) < -plan.HairMM {
			return own // sharper than square: cut off there
		}
		return plan.Left(u).Add(plan.Left(v)).Mul(half / (1 + u.Dot(v)))
	}
	for k := range n - 1 {
		u := along(k)
		from, to := b.Path[k], b.Path[k+1]
		if k == 0 && b.OnBefore {
			from = from.Sub(u.Mul(half))
		}
		if k == n-2 {
			to = to.Add(u.Mul(b.onPastMM()))
		}
		s, e := side(k, k), side(k+1, k)
		out = append(out, plan.Ring{from.Sub(s), to.Sub(e), to.Add(e), from.Add(s)})
	}
	return out
}

// LidMM2 is how much of the box's lid lies in a region. Straights much shorter than it is wide cross each other at its corners: such a
// box may have none.
func (b *Box) LidMM2(in plan.Region) (mm2 float64) {
	for _, part := range b.Parts() {
		mm2 += plan.SharedArea(plan.FromRing(part), in)
	}
	return math.Max(0, mm2)
}

// onPastMM is how far the box may go on past the end of its path.
func (b *Box) onPastMM() float64 {
	past := 0.0
	if b.OnPast {
		past = b.HalfMM()
	}
	if b.Closed {
		past += b.BoardMM
	}
	return past
}
