package measure

import (
	"math"

	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/plan"
)

// edgeStripMM is how long the strip is that parts a floating or a heated screed from what stands
// round it: along walls, round stacks, and where it ends at the shower's open edges. At doorways
// a joint of the screed's own takes its place.
func edgeStripMM(j *job.Job, l *layout.Layout) (mm float64) {
	shower, room := screedsApart(j)
	if !shower && !room {
		return 0
	}
	for i := range l.Walls {
		w := &l.Walls[i]
		doors := doorsOf(j, w.Index)
		inShower := finishedOf(j, l, w)
		if shower {
			mm += lengthOf(plan.Without(inShower, doors))
		}
		if room {
			mm += lengthOf(plan.Without(plan.Without([]plan.Interval{{From: 0, To: w.LengthMM}}, inShower), doors))
		}
	}
	for _, of := range []struct {
		apart bool
		floor plan.Region
	}{{shower, l.FallArea}, {room, l.Rest}} {
		if of.apart {
			for _, x := range l.StandingOn(of.floor) {
				mm += 2 * math.Pi * x.RadiusMM
			}
		}
	}
	if j.Former.Fall != job.FallRoom {
		for _, e := range l.OpenEdges() {
			mm += e.LengthMM()
		}
	}
	return mm
}

// screedsApart tells whether there is a floating or a heated screed under the shower's floor, and
// in the room beside it. A screed floats over insulation, and is heated by a mat over it.
func screedsApart(j *job.Job) (shower, room bool) {
	insulated := [2]bool{} // under the shower, in the room
	for i, e := range j.Floor.Existing {
		under, beside := j.Floor.Where(i)
		insulated[0] = insulated[0] || under && e.Kind == job.ExistingInsulation && j.Base.Support == job.OnFloor
		insulated[1] = insulated[1] || beside && e.Kind == job.ExistingInsulation
	}
	heatShower, heatRoom := j.Heated()
	insulation, screed := false, false
	for _, c := range j.UnderBase() {
		insulation = insulation || c.Kind == job.CourseInsulation
		if c.Kind == job.CourseScreed {
			screed = true
			shower = shower || insulation || insulated[0]
		}
	}
	if j.Base.Screed && j.Base.Support == job.OnFloor {
		screed = true
		shower = shower || insulation || insulated[0]
	}
	shower = shower || screed && heatShower
	if !j.RoomFinished() || j.Former.Fall == job.FallRoom {
		return shower, false
	}
	insulation, screed = insulated[1], j.Base.Screed && j.Room.Edge == job.EdgeRaiseRoom
	room = screed && insulation
	for _, c := range j.Layers.Room.Under {
		insulation = insulation || c.Kind == job.CourseInsulation
		if c.Kind == job.CourseScreed {
			screed = true
			room = room || insulation
		}
	}
	return shower, room || screed && heatRoom
}
