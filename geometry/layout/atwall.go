package layout

import (
	"math"

	"underfall/geometry/job"
	"underfall/geometry/plan"
)

// offMM is how far the wall that a stretch of a side stands at lies outside a place on the side; nought for a wall that
// lies inside it, and for an open stretch.
func (l *Layout) offMM(e Edge, at plan.Point) float64 {
	if e.Wall < 0 {
		return 0
	}
	w := &l.Walls[e.Wall]
	off, _, ok := plan.MeetLines(at, l.Outward(e), w.A, w.Along)
	if !ok || off < plan.HairMM {
		return 0
	}
	return off
}

// upToWalls is the outline of the shower with its sides at walls gone out to those: where a wall is a little out of
// square its shower's floor is laid up to it, and no strip of the room's is left between.
func (l *Layout) upToWalls() plan.Ring {
	var ring plan.Ring
	add := func(p plan.Point) {
		if len(ring) == 0 || p.Sub(ring[len(ring)-1]).Len() > plan.HairMM {
			ring = append(ring, p)
		}
	}
	for i, e := range l.Edges {
		before := l.Edges[(i+len(l.Edges)-1)%len(l.Edges)]
		from := l.Outward(e).Mul(l.offMM(e, e.A))
		if before.Side != e.Side {
			beside := l.Outward(before).Mul(l.offMM(before, before.B))
			if corner := l.Corners[e.Side.first()]; from.Len() > 0 && beside.Len() > 0 {
				add(corner.Add(from).Add(beside))
			} else {
				add(corner)
			}
		}
		add(e.A.Add(from))
		add(e.B.Add(l.Outward(e).Mul(l.offMM(e, e.B))))
	}
	if n := len(ring); ring[n-1].Sub(ring[0]).Len() <= plan.HairMM {
		ring = ring[:n-1]
	}
	return ring
}

// Stretch is a part of a wall, along it.
type Stretch struct {
	Wall Wall
	plan.Interval
}

// FinishedWalls are the stretches of walls that are finished as the shower's: where the shower stands at them, in the order
// of its sides; all of all walls where the whole floor falls.
func (l *Layout) FinishedWalls(j *job.Job) (out []Stretch) {
	if j.Former.Fall == job.FallRoom {
		for _, w := range l.Walls {
			out = append(out, Stretch{w, plan.Interval{From: 0, To: w.LengthMM}})
		}
		return out
	}
	for _, e := range l.Edges {
		if e.Wall >= 0 {
			out = append(out, Stretch{l.Walls[e.Wall], l.OnWall(e)})
		}
	}
	return out
}

// Finished are those of one wall.
func (l *Layout) Finished(j *job.Job, w *Wall) (out []plan.Interval) {
	for _, s := range l.FinishedWalls(j) {
		if s.Wall.Index == w.Index {
			out = append(out, s.Interval)
		}
	}
	return out
}

// OnWall is where along its wall a stretch at a wall stands; into the corner of the room where it ends just before it.
func (l *Layout) OnWall(e Edge) plan.Interval {
	w := &l.Walls[e.Wall]
	a, b := e.A.Sub(w.A).Dot(w.Along), e.B.Sub(w.A).Dot(w.Along)
	from, to := math.Min(a, b), math.Max(a, b)
	if from <= job.AtWallMM {
		from = 0
	}
	if to >= w.LengthMM-job.AtWallMM {
		to = w.LengthMM
	}
	return plan.Interval{From: from, To: to}
}

// besideRamp is the outline, from a ramp's end on and without it, of the floor beside there up to the wall that the next
// side of the shower stands at, as far as that goes on past the corner: where it is a little out of square the ramp is
// laid up to it. Aside is the way to it; nil where the end lies at no wall that goes on, or nothing is between.
func (l *Layout) besideRamp(e Edge, end, aside plan.Point) plan.Ring {
	down := l.Outward(e)
	for _, o := range l.Edges {
		if o.Wall < 0 || o.Side == e.Side || !l.meets(o, end) || l.Outward(o).Dot(aside) < 0 {
			continue
		}
		w, n := &l.Walls[o.Wall], len(l.Walls)
		far, beyond, onward := w.B, l.Walls[(o.Wall+1)%n].B, w.Along
		if w.A.Sub(end).Dot(down) > far.Sub(end).Dot(down) {
			far, beyond, onward = w.A, l.Walls[(o.Wall+n-1)%n].A, w.Along.Mul(-1)
		}
		if beyond.Sub(far).Dot(aside) < 0 { // the next wall goes across: as far as that, whichever way it leans
			far = far.Add(onward.Mul(job.AtWallMM))
		}
		past, offFar, off := far.Sub(end).Dot(down), math.Max(0, far.Sub(end).Dot(aside)), l.offMM(o, end)
		if past <= job.AtWallMM || math.Max(offFar, off) < plan.HairMM {
			return nil
		}
		foot := end.Add(down.Mul(past))
		return plan.Ring{end.Add(aside.Mul(off)), foot.Add(aside.Mul(offFar)), foot}
	}
	return nil
}

// meets tells whether a stretch ends at a place, but for what is too short to count.
func (l *Layout) meets(e Edge, at plan.Point) bool {
	return math.Min(e.A.Sub(at).Len(), e.B.Sub(at).Len()) <= job.AtWallMM
}
