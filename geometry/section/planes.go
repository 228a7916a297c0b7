package section

import (
	"math"

	"underfall/geometry"
	"underfall/geometry/plan"
	"underfall/geometry/solid"
)

// ThroughDrain is the section a fitter looks at first: through the trap along
// the floor's fall.
func ThroughDrain(r geometry.Result) solid.Cut {
	l := r.Layout
	across := plan.Left(l.DrainAlong)
	return solid.VerticalCut(l.TrapCentre, across)
}

// Corner is the pair of planes that take the corner nearest to the room out of
// the shower: through the drain and along it, facing where an edge is open.
func Corner(r geometry.Result) [2]solid.Cut {
	l := r.Layout
	facing := func(p, along, to plan.Point) solid.Cut {
		c := solid.VerticalCut(p, along)
		if c.Normal.X()*to.X()+c.Normal.Y()*to.Y() < 0 {
			return solid.VerticalCut(p, along.Mul(-1))
		}
		return c
	}
	// The way out: the sum of the open edges' directions by their lengths; without
	// any, into the room and to the right.
	out := l.Into.Add(l.ToRight)
	for _, e := range l.OpenEdges() {
		out = out.Add(l.Outward(e).Mul(e.LengthMM()))
	}
	through, along := l.TrapCentre, l.TrapCentre
	// A drain at the open edge leaves nothing before it to take away.
	if side := plan.Left(l.DrainAlong); l.Shower.Centroid().Sub(along).Dot(side)*out.Dot(side) < 0 {
		along = l.Shower.Centroid()
	}
	return [2]solid.Cut{facing(through, plan.Left(l.DrainAlong), out), facing(along, l.DrainAlong, out)}
}

// Within is the drawing with only those dimensions and marks that lie on the
// side another cut takes away: what shows where two cuts meet.
func (d Drawing) Within(other solid.Cut) Drawing {
	shows := func(p plan.Point) bool { return other.Side(d.Cut.Space(p)) > -1 }
	var dims []Dimension
	for _, m := range d.Dimensions {
		if shows(m.From) && shows(m.To) {
			dims = append(dims, m)
		}
	}
	var marks []Mark
	for _, m := range d.Marks {
		if shows(m.At) {
			marks = append(marks, m)
		}
	}
	d.Dimensions, d.Marks, d.Notes, d.Names, d.SetOuts = dims, marks, nil, nil, nil
	return d
}

// Places are the distances from a cut, along its normal, of what one wants it
// to pass through: drain and trap, the run's legs, joists and their faces,
// doorways and the shower's edges. Only what runs with the cut counts.
func Places(r geometry.Result, c solid.Cut) []float64 {
	l := r.Layout
	normal := planOf(c.Normal)
	origin := planOf(c.Origin)
	at := func(p plan.Point) float64 { return p.Sub(origin).Dot(normal) }
	with := func(along plan.Point) bool { return math.Abs(along.Dot(normal)) < 0.05 }
	out := []float64{at(l.DrainCentre), at(l.TrapCentre)}
	for _, js := range l.Joists {
		if with(js.Along) {
			out = append(out, at(js.Origin)-js.WidthMM/2, at(js.Origin), at(js.Origin)+js.WidthMM/2)
		}
	}
	for i := 1; i < len(r.Heights.Run.Corners); i++ {
		a, b := r.Heights.Run.Corners[i-1], r.Heights.Run.Corners[i]
		if with(b.Sub(a).Normalize()) {
			out = append(out, at(a))
		}
	}
	for _, d := range l.Doors {
		out = append(out, at(d.Middle()))
	}
	for i := range l.Corners {
		a, b := l.Corners[i], l.Corners[(i+1)%4]
		if with(b.Sub(a).Normalize()) {
			out = append(out, at(a))
		}
	}
	return out
}

// AlongRun is the section along the first leg of the waste run.
func AlongRun(r geometry.Result) solid.Cut {
	corners := r.Heights.Run.Corners
	if len(corners) < 2 {
		return ThroughDrain(r)
	}
	return solid.VerticalCut(corners[0], corners[1].Sub(corners[0]).Normalize())
}
