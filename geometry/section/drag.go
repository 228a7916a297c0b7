package section

import (
	"fmt"
	"math"

	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/plan"
	"underfall/geometry/waste"
)

// The handles of the plan.
const (
	HandleDepth  = "shower-depth"
	HandleRight  = "shower-right"
	HandleLeft   = "shower-left"
	HandleShower = "shower"
	HandleDrain  = "drain"
	HandleExit   = "exit"
)

// HandleCorner is the handle of a corner of the room.
func HandleCorner(i int) string { return fmt.Sprintf("corner-%d", i) }

// HandleTurn is the handle of a turn of the waste run.
func HandleTurn(i int) string { return fmt.Sprintf("turn-%d", i) }

// snapMM is what dragged lengths are rounded to.
const snapMM = 5

func snapped(mm float64) float64 { return math.Round(mm/snapMM) * snapMM }

// Drag is the job with a handle of its plan moved to a point. The other values
// stay; a job that comes out meaningless is left to validation.
func Drag(j job.Job, l layout.Layout, handle string, to plan.Point) job.Job {
	j = j.Clone()
	c := l.Corners
	rel := to.Sub(c[0])
	right, into := rel.Dot(l.ToRight), rel.Dot(l.Into)
	// The shower's offset counts from its wall's start corner, which may be to
	// its left or to its right.
	w := l.Walls[j.Shower.Wall]
	startsLeft := w.Along.Dot(l.ToRight) > 0
	move := func(leftBy, rightBy float64) {
		if startsLeft {
			j.Shower.OffsetMM += leftBy
		} else {
			j.Shower.OffsetMM -= rightBy
		}
		j.Shower.WidthMM += rightBy - leftBy
	}
	fit := func() {
		j.Shower.OffsetMM = math.Max(0, math.Min(j.Shower.OffsetMM, w.LengthMM-j.Shower.WidthMM))
	}
	switch handle {
	case HandleDepth:
		j.Shower.DepthMM = snapped(into)
	case HandleRight:
		move(0, snapped(right)-j.Shower.WidthMM)
	case HandleLeft:
		move(snapped(right), 0)
	case HandleShower:
		by := snapped(right - j.Shower.WidthMM/2)
		move(by, by)
		fit()
	case HandleDrain:
		d := to.Sub(l.DrainCentre)
		j.Drain.OffsetMM = snapped(j.Drain.OffsetMM + d.Dot(l.DrainAlong))
		if !j.Former.Fall.Linear() || j.Former.Fall == job.FallMid {
			forward := snapped(into)
			j.Drain.ForwardMM = &forward
		}
	case HandleExit:
		if j.Waste.Exit.Kind == job.ExitWall {
			best := math.Inf(1)
			for _, w := range l.Walls {
				if d := plan.DistanceToSegment(to, w.A, w.B); d < best {
					best = d
					j.Waste.Exit.Wall = w.Index
					j.Waste.Exit.OffsetMM = math.Max(0, math.Min(w.LengthMM, snapped(to.Sub(w.A).Dot(w.Along))))
				}
			}
		} else {
			j.Waste.Exit.At = plan.Point{snapped(to.X()), snapped(to.Y())}
		}
	default:
		var i int
		if n, err := fmt.Sscanf(handle, "corner-%d", &i); n == 1 && err == nil && i >= 0 && i < len(j.Room.Outline) {
			j.Room.Outline[i] = plan.Point{snapped(to.X()), snapped(to.Y())}
		}
		if n, err := fmt.Sscanf(handle, "turn-%d", &i); n == 1 && err == nil {
			dragTurn(&j, l, i, to)
		}
		if n, err := fmt.Sscanf(handle, "fitting-%d", &i); n == 1 && err == nil && i >= 0 && i < len(j.Waste.Fittings) {
			// Along the run to the place nearest to the pointer.
			run := waste.Lay(j, l)
			j.Waste.Fittings[i].AtMM = math.Min(snapped(run.Nearest(to)), math.Floor(run.ExitAtMM/snapMM)*snapMM)
		}
	}
	return j
}

// squareWithinMM is how near to a fitting's angle a dragged turn falls into it.
const squareWithinMM = 25

// dragTurn moves a turn of the run. Legs near to a multiple of 45° to the
// shower fall into it, so that fittings fit; a run that was found by itself
// becomes stated.
func dragTurn(j *job.Job, l layout.Layout, i int, to plan.Point) {
	corners := waste.Lay(*j, l).Corners
	if i < 0 || i+2 >= len(corners) {
		return
	}
	u, v := l.ToRight, l.Into
	snap := func(from, p plan.Point) plan.Point {
		d := p.Sub(from)
		a, b := d.Dot(u), d.Dot(v)
		switch {
		case math.Abs(a) < squareWithinMM:
			a = 0
		case math.Abs(b) < squareWithinMM:
			b = 0
		case math.Abs(math.Abs(a)-math.Abs(b)) < squareWithinMM:
			b = math.Copysign(a, b)
		}
		return from.Add(u.Mul(a)).Add(v.Mul(b))
	}
	// The leg before is brought into line first; the leg after moves the turn
	// along it only.
	before, after := corners[i], corners[i+2]
	p := snap(before, to)
	if q := snap(after, p); q != p {
		leg := p.Sub(before)
		if s, _, ok := plan.MeetLines(before, leg, after, q.Sub(after)); ok && leg.Mul(s).Add(before).Sub(to).Len() < 2*squareWithinMM {
			p = before.Add(leg.Mul(s))
		}
	}
	j.Waste.Waypoints = append([]plan.Point(nil), corners[1:len(corners)-1]...)
	j.Waste.Waypoints[i] = p
}
