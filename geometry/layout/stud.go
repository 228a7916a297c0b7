package layout

import (
	"underfall/geometry/job"
	"underfall/geometry/plan"
)

// Stud is one stud of a wall in plan.
type Stud struct {
	Wall int     // by its index
	AtMM float64 // its middle, from the wall's start corner
	Ring plan.Ring
}

// studs stands the studs of every stud wall, but for those that a doorway takes out.
func (l *Layout) studs(j job.Job) {
	for i, w := range l.Walls {
		of := j.Room.Walls[i]
		if of.Kind != job.WallStud || of.StudSpacingMM <= 0 {
			continue
		}
		half := of.StudWidthMM / 2
		for at := of.FirstStudMM; at <= w.LengthMM; at += of.StudSpacingMM {
			if at < 0 || inDoorway(j.Room.Doorways, i, at-half, at+half) {
				continue
			}
			out := w.Outward.Mul(w.ThicknessMM)
			a, b := w.At(at-half), w.At(at+half)
			l.Studs = append(l.Studs, Stud{i, at, plan.Ring{a, b, b.Add(out), a.Add(out)}})
		}
	}
}

// inDoorway tells whether a doorway takes a stretch of a wall, or a part of it.
func inDoorway(doorways []job.Doorway, wall int, fromMM, toMM float64) bool {
	for _, d := range doorways {
		if d.Wall == wall && fromMM < d.OffsetMM+d.WidthMM-plan.HairMM && toMM > d.OffsetMM+plan.HairMM {
			return true
		}
	}
	return false
}

// DrainStuds are the studs of the wall behind a drain at a wall that lie along it, from
// its start, and how far along the wall that is; ok is false for a drain that stands at no
// stud wall.
func (l *Layout) DrainStuds(j *job.Job) (wall Wall, startMM float64, studs []Stud, ok bool) {
	side, atWall := DrainSide(j.Former.Fall)
	if !atWall {
		return Wall{}, 0, nil, false
	}
	for _, e := range l.Edges {
		if e.Side != side || e.Wall < 0 || j.Room.Walls[e.Wall].Kind != job.WallStud {
			continue
		}
		w := l.Walls[e.Wall]
		half := l.DrainAlong.Mul(j.DrainLengthMM() / 2)
		from, to := l.DrainCentre.Sub(half).Sub(w.A).Dot(w.Along), l.DrainCentre.Add(half).Sub(w.A).Dot(w.Along)
		from, to = min(from, to), max(from, to)
		for _, s := range l.Studs {
			if s.Wall == e.Wall && s.AtMM >= from-plan.HairMM && s.AtMM <= to+plan.HairMM {
				studs = append(studs, s)
			}
		}
		return w, from, studs, true
	}
	return Wall{}, 0, nil, false
}
