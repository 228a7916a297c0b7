package boarding

import (
	"math"
	"slices"

	"underfall/geometry/message"
	"underfall/geometry/plan"
)

// Wedge is a three-cornered offcut at a corner of the rectangle that a piece is sawn from: which corner, along the layer and across
// from the piece's own, and how far the saw comes from it along both sides.
type Wedge struct{ CornerMM, SizeMM plan.Point }

// OffSquareDeg is how far the saw runs off square to the piece's length, or off its length where the wedge lies along it.
func (w Wedge) OffSquareDeg() float64 {
	low, high := min(w.SizeMM.X(), w.SizeMM.Y()), max(w.SizeMM.X(), w.SizeMM.Y())
	return math.Atan2(low, high) * 180 / math.Pi
}

// Message says how large a wedge is and at which corner.
func (w Wedge) Message() message.Message {
	return message.Of("boarding.wedge-off", message.Layer("long", w.SizeMM.X()), message.Layer("wide", w.SizeMM.Y()),
		message.MM("along", w.CornerMM.X()), message.MM("across", w.CornerMM.Y()),
		message.Arg{Name: "angle", Value: message.Degrees(w.OffSquareDeg())})
}

// Askew says how a piece is sawn that is less than its rectangle and that no rectangles tell: the wedges that come off its corners, or
// where wedges alone do not tell it each of its corners, along and across from where it begins; nothing of any other piece.
func (p *Piece) Askew() (out []message.Message) {
	if !p.Notched || len(p.Cuts) > 0 {
		return nil
	}
	sawn := p.Sawn(plan.Point{})
	wedges, all := p.wedges(sawn)
	if all {
		for _, w := range wedges {
			out = append(out, w.Message())
		}
		return out
	}
	var corners message.List
	for _, poly := range sawn {
		for _, ring := range poly.Rings() {
			for _, q := range told(ring) {
				corners.Items = append(corners.Items, message.Of("boarding.corner", message.Layer("along", q.X()), message.Layer("across", q.Y())))
			}
		}
	}
	if len(corners.Items) <= 4 {
		return nil // less than the rectangle by no more than a saw takes
	}
	return []message.Message{message.Of("boarding.corners", message.Arg{Name: "corners", Value: corners})}
}

// told are the corners of a ring that a saw can tell apart: of those nearer than half a millimetre the first, and none that lies so near
// the straight between its neighbours.
func told(ring plan.Ring) plan.Ring {
	const sawMM = 0.5
	out := slices.Clone(ring)
	for i := 0; len(out) > 3 && i < len(out); {
		before, q, after := out[(i+len(out)-1)%len(out)], out[i], out[(i+1)%len(out)]
		if plan.DistanceToSegment(q, before, after) >= sawMM {
			i++
			continue
		}
		out, i = slices.Delete(out, i, i+1), 0
	}
	return out
}

// wedges are the three-cornered offcuts of a piece as it is sawn; all tells that nothing else comes off it.
func (p *Piece) wedges(sawn plan.Region) (out []Wedge, all bool) {
	const sameMM2 = 1
	missing := p.LengthMM*p.WidthMM - sawn.Area()
	// nearest is the end of a side of the rectangle that a corner of an offcut lies on.
	nearest := func(mm, most float64) (float64, bool) {
		switch {
		case math.Abs(mm) < sameCutMM:
			return 0, true
		case math.Abs(mm-most) < sameCutMM:
			return most, true
		}
		return 0, false
	}
	for _, poly := range sawn {
		for i, a := range poly.Outer {
			b := poly.Outer[(i+1)%len(poly.Outer)]
			size := plan.Point{math.Abs(b.X() - a.X()), math.Abs(b.Y() - a.Y())}
			if min(size.X(), size.Y()) < sameCutMM {
				continue
			}
			for _, corner := range [...]plan.Point{{a.X(), b.Y()}, {b.X(), a.Y()}} {
				x, onX := nearest(corner.X(), p.LengthMM)
				y, onY := nearest(corner.Y(), p.WidthMM)
				if onX && onY && !sawn.Contains(plan.Point{x, y}, plan.HairMM) {
					out = append(out, Wedge{plan.Point{x, y}, size})
					missing -= size.X() * size.Y() / 2
				}
			}
		}
	}
	return out, math.Abs(missing) < sameMM2
}
