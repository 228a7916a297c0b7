package layout

import (
	"underfall/geometry/job"
	"underfall/geometry/plan"
)

// Beyond is what a leaf that opens outwards passes over outside the room, from its hinge on the
// outer face of the wall; ok is false for any other leaf.
func (d Doorway) Beyond(j *job.Job) (swing plan.Ring, ok bool) {
	stated := &j.Room.Doorways[d.Index]
	if stated.Leaf != job.LeafOut {
		return nil, false
	}
	out := d.Wall.Outward.Mul(d.Wall.ThicknessMM)
	hinge, free := d.A.Add(out), d.B.Add(out)
	if !stated.HingeAtStart {
		hinge, free = free, hinge
	}
	return quarter(hinge, free, d.Wall.Outward), true
}

// slideDeepMM is how far into the room a leaf that slides along the wall stands with its rail.
// Common practice, no source.
const slideDeepMM = 60

// slid is the strip along a wall that a leaf slides along, over the opening and beside it.
func slid(w *Wall, d job.Doorway) plan.Region {
	parked := Parked(d)
	from, to := w.At(min(parked.From, d.OffsetMM)), w.At(max(parked.To, d.OffsetMM+d.WidthMM))
	return plan.Strip(from, to, w.Outward.Mul(-slideDeepMM))
}

// Parked is where along its wall a leaf that slides aside stands when it is open.
func Parked(d job.Doorway) plan.Interval {
	if d.HingeAtStart {
		return plan.Interval{From: d.OffsetMM - d.WidthMM, To: d.OffsetMM}
	}
	return plan.Interval{From: d.OffsetMM + d.WidthMM, To: d.OffsetMM + 2*d.WidthMM}
}

// SlideShortMM is how much the wall beside a doorway is too short for the leaf that slides along
// it or into it; not negative.
func (d Doorway) SlideShortMM(stated *job.Doorway) float64 {
	if !stated.Leaf.Slides() {
		return 0
	}
	parked := Parked(*stated)
	return max(0, -parked.From, parked.To-d.Wall.LengthMM)
}

// Pocket is what a leaf that slides into the wall takes of it, in plan; ok is false for others.
func (d Doorway) Pocket(stated *job.Doorway) (ring plan.Ring, ok bool) {
	const leafMM = 40
	if stated.Leaf != job.LeafPocket {
		return nil, false
	}
	w, parked := &d.Wall, Parked(*stated)
	from, to := w.At(max(0, parked.From)), w.At(min(w.LengthMM, parked.To))
	near, far := w.Outward.Mul((w.ThicknessMM-leafMM)/2), w.Outward.Mul((w.ThicknessMM+leafMM)/2)
	return plan.Ring{from.Add(near), to.Add(near), to.Add(far), from.Add(far)}, true
}
