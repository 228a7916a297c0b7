package waste

import (
	"math"

	"underfall/geometry/job"
	"underfall/geometry/plan"
)

// simplest finds the turns of the simplest run: straight, one right-angled
// turn, or two. It looks at nothing in the way.
func simplest(from, to, exit, out plan.Point, w job.Waste) []plan.Point {
	rel := exit.Sub(from)
	ahead, aside := rel.Dot(to), plan.Cross(to, rel)
	side := plan.Left(to)
	if math.Abs(aside) < 1 && ahead > 0 {
		return nil
	}
	stub := w.Bend90FaceMM + 10
	if out == (plan.Point{}) {
		if ahead >= stub {
			return []plan.Point{from.Add(to.Mul(ahead))}
		}
		return []plan.Point{from.Add(to.Mul(stub)), from.Add(to.Mul(stub)).Add(side.Mul(aside))}
	}
	if s, t, ok := plan.MeetLines(from, to, exit, out.Mul(-1)); ok {
		if s >= w.Bend90FaceMM && t > 0 {
			return []plan.Point{from.Add(to.Mul(s))}
		}
		first := from.Add(to.Mul(stub))
		before := exit.Sub(out.Mul(stub))
		return []plan.Point{first, first.Add(side.Mul(before.Sub(first).Dot(side))), before}
	}
	// Outlet and exit lie on parallel lines: step across halfway, or turn back.
	if out.Dot(to) > 0 && ahead > 2*stub {
		half := from.Add(to.Mul(ahead / 2))
		if step := math.Abs(aside); ahead > step+4*w.Bend45FaceMM {
			return []plan.Point{half.Sub(to.Mul(step / 2)), half.Add(to.Mul(step / 2)).Add(side.Mul(aside))}
		}
		return []plan.Point{half, half.Add(side.Mul(aside))}
	}
	past := math.Max(stub, ahead+stub)
	return []plan.Point{from.Add(to.Mul(past)), from.Add(to.Mul(past)).Add(side.Mul(aside))}
}
