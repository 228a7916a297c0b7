package waste

import (
	"math"

	"underfall/geometry/job"
	"underfall/geometry/plan"
)

// simplest finds the turns of the simplest run: straight, one right-angled
// turn, or two. It looks at nothing in the way.
func simplest(from, to, exit, out plan.Point, j *job.Job) []plan.Point {
	// Room for the largest bends there are, and for the trap's joint before the first.
	bend45, bend90, joint := j.Waste.Bend45FaceMM, j.Waste.Bend90FaceMM, j.Drain.OutletJointMM
	for _, f := range j.Waste.Fittings {
		bend45, bend90 = math.Max(bend45, f.Bend45FaceMM), math.Max(bend90, f.Bend90FaceMM)
	}
	rel := exit.Sub(from)
	ahead, aside := rel.Dot(to), plan.Cross(to, rel)
	side := plan.Left(to)
	if math.Abs(aside) < 1 && ahead > 0 {
		return nil
	}
	const spareMM = 10
	stub := bend90 + spareMM
	start := joint + stub
	if out == (plan.Point{}) {
		if ahead >= start {
			return []plan.Point{from.Add(to.Mul(ahead))}
		}
		return []plan.Point{from.Add(to.Mul(start)), from.Add(to.Mul(start)).Add(side.Mul(aside))}
	}
	if s, t, ok := plan.MeetLines(from, to, exit, out.Mul(-1)); ok {
		if s >= joint+bend90 && t > 0 {
			return []plan.Point{from.Add(to.Mul(s))}
		}
		first := from.Add(to.Mul(start))
		before := exit.Sub(out.Mul(stub))
		return []plan.Point{first, first.Add(side.Mul(before.Sub(first).Dot(side))), before}
	}
	// Outlet and exit lie on parallel lines: step across halfway, or turn back.
	if out.Dot(to) > 0 && ahead > 2*start {
		half := from.Add(to.Mul(ahead / 2))
		if step := math.Abs(aside); ahead > step+2*joint+4*bend45 {
			return []plan.Point{half.Sub(to.Mul(step / 2)), half.Add(to.Mul(step / 2)).Add(side.Mul(aside))}
		}
		return []plan.Point{half, half.Add(side.Mul(aside))}
	}
	past := math.Max(start, ahead+stub)
	return []plan.Point{from.Add(to.Mul(past)), from.Add(to.Mul(past)).Add(side.Mul(aside))}
}
