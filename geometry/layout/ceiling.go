package layout

import (
	"cmp"
	"math"
	"slices"

	"underfall/geometry/job"
	"underfall/geometry/plan"
	"underfall/geometry/solid"
)

// ceiling finds the planes that the room lies under, the level one first.
func (l *Layout) ceiling(j job.Job) {
	l.Ceiling = []solid.Plane{{Level: j.Room.HeightMM}}
	for _, s := range j.Room.Slopes {
		w := l.Walls[s.Wall]
		l.Ceiling = append(l.Ceiling, solid.Through(w.A, s.KneeMM, w.Outward.Mul(-1), math.Tan(s.PitchDeg*math.Pi/180)))
	}
}

// CeilingAt is the level of the ceiling over a plan point: of the lowest plane.
func (l *Layout) CeilingAt(p plan.Point) float64 {
	z := math.Inf(1)
	for _, c := range l.Ceiling {
		z = math.Min(z, c.At(p))
	}
	return z
}

// CeilingBetween is the ceiling along a straight in plan: points of distance along it and
// level, from its one end to the other. Exact: the ceiling is straight between them.
func (l *Layout) CeilingBetween(a, b plan.Point) []plan.Point {
	length := b.Sub(a).Len()
	at := []float64{0, length}
	for i, p := range l.Ceiling {
		for _, q := range l.Ceiling[:i] {
			if from, to := p.At(a)-q.At(a), p.At(b)-q.At(b); from*to < 0 {
				at = append(at, length*from/(from-to))
			}
		}
	}
	slices.SortFunc(at, cmp.Compare[float64])
	out := make([]plan.Point, 0, len(at))
	for i, s := range at {
		if i > 0 && s-at[i-1] < plan.HairMM {
			continue
		}
		t := 0.0
		if length > 0 {
			t = s / length
		}
		out = append(out, plan.Point{s, l.CeilingAt(a.Add(b.Sub(a).Mul(t)))})
	}
	return out
}
