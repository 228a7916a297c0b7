package measure

import (
	"math"
	"slices"

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
		inShower := l.Finished(j, w)
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
// in the room beside it.
func screedsApart(j *job.Job) (shower, room bool) {
	under, beside := j.UnderBase(), j.Layers.Room.Under
	if base := []job.Course{{Kind: job.CourseScreed}}; j.Base.Screed {
		if j.Base.Support == job.OnFloor {
			under = slices.Concat(under, base)
		}
		if j.Room.Edge == job.EdgeRaiseRoom {
			beside = slices.Concat(base, beside)
		}
	}
	onUnder, onBeside := false, false // insulation that was found there
	for i, e := range j.Floor.Existing {
		if e.Kind == job.ExistingInsulation {
			inShower, inRoom := j.Floor.Where(i)
			onUnder, onBeside = onUnder || inShower, onBeside || inRoom
		}
	}
	heatUnder, heatBeside := j.Heated()
	if shower = screedApart(under, onUnder, heatUnder); j.RoomFinished() && j.Former.Fall != job.FallRoom {
		room = screedApart(beside, onBeside, heatBeside)
	}
	return shower, room
}

// screedApart tells whether a screed of some courses, from the lowest up, floats or is heated: over
// insulation, or under a mat.
func screedApart(courses []job.Course, insulated, heated bool) bool {
	for _, c := range courses {
		switch c.Kind {
		case job.CourseInsulation:
			insulated = true
		case job.CourseScreed:
			if insulated || heated {
				return true
			}
		}
	}
	return false
}
