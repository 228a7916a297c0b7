package edit

import (
	"math"
	"slices"

	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/waste"
)

// ShiftLeg lays the leg of the run that is nearest to a place as far aside as told: the legs beside it grow longer or shorter, and
// keep their directions; a way out through a wall goes along the wall. Where it is the first leg the trap goes along its drain with
// it, or else its outlet is turned that way, so that the pipe leads there first. Nothing where that cannot be.
func ShiftLeg(at, by plan.Point, withTrap bool) Edit {
	return Of(message.Of("edit.shift-leg"), func(j *job.Job) {
		l, ok := laidOut(*j)
		if !ok {
			return
		}
		s := legShift{run: RunOf(*j), linear: j.Former.Fall.Linear(), layout: &l, corners: waste.Lay(*j, l).Corners, by: by}
		if s.shift(at, withTrap) {
			s.run.use(j)
		}
	}).About("waste.waypoints")
}

// legShift is a leg of a run on its way aside.
type legShift struct {
	run     Run
	linear  bool // of a drain that the trap can go along
	layout  *layout.Layout
	corners []plan.Point
	by      plan.Point
	leg     int // from the corner of that index to the next
}

// shift lays the leg nearest to a place aside; ok is false where that cannot be.
func (s *legShift) shift(at plan.Point, withTrap bool) (ok bool) {
	n := len(s.corners)
	if n < 2 || s.by.Len() < plan.HairMM {
		return false
	}
	s.leg = nearestLeg(s.corners, at)
	turns := slices.Clone(s.corners[1 : n-1])
	if turns, ok = s.end(turns); !ok {
		return false
	}
	if turns, ok = s.start(turns, withTrap); ok && (len(turns) > 0 || len(s.run.Waypoints) > 0) {
		s.run.Waypoints = turns
	}
	return ok
}

// meet is where the leg, laid aside, crosses a line.
func (s *legShift) meet(from, way plan.Point) (p plan.Point, ok bool) {
	a, b := s.corners[s.leg].Add(s.by), s.corners[s.leg+1].Add(s.by)
	t, _, ok := plan.MeetLines(from, way, a, b.Sub(a))
	return from.Add(way.Mul(t)), ok
}

// end has the leg end where it is led on.
func (s *legShift) end(turns []plan.Point) (out []plan.Point, ok bool) {
	last := len(s.corners) - 1
	to := s.corners[s.leg+1]
	if s.leg+1 < last {
		turns[s.leg], ok = s.meet(to, s.corners[s.leg+2].Sub(to))
		return turns, ok
	}
	e := &s.run.Exit
	if e.Kind != job.ExitWall {
		p, ok := s.meet(to, s.by)
		return append(turns, p), ok
	}
	w := s.layout.Walls[e.Wall]
	p, ok := s.meet(w.A, w.Along)
	along := p.Sub(w.A).Dot(w.Along)
	if !ok || along < 0 || along > w.LengthMM {
		return nil, false
	}
	e.OffsetMM = along
	return turns, true
}

// start has the leg begin where the pipe comes to it.
func (s *legShift) start(turns []plan.Point, withTrap bool) (out []plan.Point, ok bool) {
	if s.leg > 0 {
		from := s.corners[s.leg]
		turns[s.leg-1], ok = s.meet(from, from.Sub(s.corners[s.leg-1]))
		return turns, ok
	}
	const sameWay = 0.999 // of the cosine between two ways
	l := s.layout
	if withTrap {
		alongMM := s.by.Dot(l.DrainAlong)
		s.run.TrapOffsetMM += alongMM
		return turns, s.linear && math.Abs(alongMM) > sameWay*s.by.Len()
	}
	for quarter := range 4 {
		deg := 90 * float64(quarter)
		way := l.Direction(deg)
		if way.Dot(s.by) < sameWay*s.by.Len() {
			continue
		}
		if job.AngleDeg(s.run.OutletTurnDeg) != deg {
			s.run.OutletTurnDeg = deg
		}
		p, ok := s.meet(l.TrapCentre, way)
		return slices.Insert(turns, 0, p), ok
	}
	return nil, false
}
