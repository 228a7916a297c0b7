package settle

import (
	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/plan"
	"underfall/geometry/waste"
)

// turns has the turns that are stated of a run go along where the room's walls have taken its trap or its exit with them,
// so that its legs run as they did. Where that would leave a leg without length or a turn outside the room they stay.
func (s *settler) turns() {
	w := &s.job.Waste
	n := len(w.Waypoints)
	if n == 0 || n != len(s.before.Waste.Waypoints) || !s.changed("room.outline") || s.changed(job.TurnsKey) || !s.free(job.TurnsKey) {
		return
	}
	was, had := s.earlier.laid()
	is, sound := laid(&s.job)
	if !had || !sound || len(was.Corners) != n+2 || len(is.Corners) < 2 {
		return
	}
	ends := [2]plan.Point{is.Corners[0], is.Corners[len(is.Corners)-1]}
	if ends[0].Sub(was.Corners[0]).Len() < plan.HairMM && ends[1].Sub(was.Corners[n+1]).Len() < plan.HairMM {
		return
	}
	leg := func(corners []plan.Point, i int) plan.Point { return corners[i+1].Sub(corners[i]) }
	corners := append([]plan.Point{ends[0]}, append(s.before.Clone().Waste.Waypoints, ends[1])...)
	meet := func(i int, from, onward plan.Point) bool {
		along, _, ok := plan.MeetLines(from, leg(was.Corners, i-1), onward, leg(was.Corners, i))
		if ok {
			corners[i] = rounded(from.Add(leg(was.Corners, i-1).Mul(along)))
		}
		return ok
	}
	// The first leg is taken along from the trap, and the last brought to the exit.
	if !meet(1, corners[0], corners[2]) || n > 1 && !meet(n, corners[n-1], corners[n+1]) {
		return
	}
	now := room(s.job.Room.Outline)
	for i := range n + 1 {
		if leg(corners, i).Dot(leg(was.Corners, i)) <= 0 || i > 0 && !now.has(corners[i]) {
			return
		}
	}
	w.Waypoints = corners[1 : n+1]
}

// laid is a job's run; ok is false where it cannot be laid.
func laid(j *job.Job) (run waste.Run, ok bool) {
	l, ok := inPlan(j)
	if !ok {
		return run, false
	}
	run = waste.Lay(*j, l)
	return run, len(run.Pieces) > 0
}

// inPlan is a job's layout; ok is false where it has none.
func inPlan(j *job.Job) (l layout.Layout, ok bool) {
	if len(j.Validate()) > 0 {
		return l, false
	}
	var sh plan.Shaper
	l = layout.Of(*j, &sh)
	return l, sh.Err() == nil
}
