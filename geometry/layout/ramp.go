package layout

import (
	"math"

	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/plan"
)

// RampSlope is one plane of a ramp in plan: it holds the tile line between two points of
// an open edge, or passes through one point for a cheek, and falls along Down.
type RampSlope struct {
	Edge     int // of the open edges, from nought
	From, To plan.Point
	Down     plan.Point // unit direction, square to the line
}

// RampFloor is floor of the room that a ramp may take, as far as the room goes; levels
// decide how much of it. Where two slopes carry it the lower one counts, so that they
// meet on a hip.
type RampFloor struct {
	Region plan.Region
	Slopes []RampSlope // one or two
}

// ramps finds the floor outside the open edges that ramps may take: beside every straight
// of an edge's tile line, and round the ends of edges.
func (l *Layout) ramps(j job.Job, sh *plan.Shaper) {
	if j.Room.Edge != job.EdgeRamp || j.Former.Fall == job.FallRoom {
		return
	}
	low, high, _ := l.Room.Bounds()
	reach := high.Sub(low).Len()
	for i, e := range l.open {
		out := l.Outward(e)
		line := e.tileLine()
		for k := 1; k < len(line); k++ {
			a, b := line[k-1], line[k]
			region := l.rampOver(plan.Ring{a, b, b.Add(out.Mul(reach)), a.Add(out.Mul(reach))}, a, b, e, sh)
			if len(region) > 0 {
				l.Ramps = append(l.Ramps, RampFloor{region, []RampSlope{{i, a, b, out}}})
			}
		}
		l.rampEnd(i, line[1], e.A, reach, sh)
		l.rampEnd(i, line[len(line)-2], e.B, reach, sh)
	}
}

// tileLine is the line of the tile along an edge: straight between its points.
func (e Edge) tileLine() []plan.Point {
	const leastMM = 1e-3
	line := []plan.Point{e.A}
	for _, p := range e.Creases {
		if p.Sub(line[len(line)-1]).Len() > leastMM && p.Sub(e.B).Len() > leastMM {
			line = append(line, p)
		}
	}
	return append(line, e.B)
}

// rampOver is what a ramp may take of a piece of plan outside an edge: the floor of the
// room in it that begins between two points of the edge.
func (l *Layout) rampOver(over plan.Ring, a, b plan.Point, e Edge, sh *plan.Shaper) plan.Region {
	what := message.Of("shape.ramp", message.In("at", message.Of(e.Side.At())))
	var out plan.Region
	for _, p := range sh.Intersect(l.Rest, plan.FromRing(over), what) {
		const beginsMM = 1e-3
		for k, q := range p.Outer {
			if plan.Apart(q, p.Outer[(k+1)%len(p.Outer)], a, b) < beginsMM {
				out = append(out, p)
				break
			}
		}
	}
	return out
}

// rampEnd adds the floor round the end of an open edge, at the far end of the tile line
// from a point: where another edge begins, with the planes of both; where nothing does,
// with a cheek.
func (l *Layout) rampEnd(i int, from, end plan.Point, reachMM float64, sh *plan.Shaper) {
	e := l.open[i]
	own := RampSlope{i, from, end, l.Outward(e)}
	aside := end.Sub(from).Normalize()
	other := RampSlope{i, end, end, aside}
	for k, o := range l.open {
		if o.Side == e.Side || math.Min(o.A.Sub(end).Len(), o.B.Sub(end).Len()) > onWallMM {
			continue
		}
		if k < i {
			return // added with the other edge
		}
		line := o.tileLine()
		if n := len(line); o.A.Sub(end).Len() <= onWallMM {
			other = RampSlope{k, line[0], line[1], l.Outward(o)}
		} else {
			other = RampSlope{k, line[n-2], line[n-1], l.Outward(o)}
		}
	}
	asideMM := l.asideMM(e, end, aside, reachMM)
	u, v := own.Down.Mul(reachMM), aside.Mul(asideMM)
	var region plan.Region
	for _, p := range l.rampOver(plan.Ring{end, end.Add(v), end.Add(u).Add(v), end.Add(u)}, end, end, e, sh) {
		wide := 0.0
		for _, q := range p.Outer {
			wide = math.Max(wide, q.Sub(end).Dot(aside))
		}
		// What a wall that counts as at the side leaves beside it is no floor.
		if wide > onWallMM {
			region = append(region, p)
		}
	}
	if len(region) > 0 {
		l.Ramps = append(l.Ramps, RampFloor{region, []RampSlope{own, other}})
	}
}

// asideMM is how far the floor beside an end of an open edge goes at most: to the next
// open stretch of its side or the side's corner, and past a corner without end.
func (l *Layout) asideMM(e Edge, end, aside plan.Point, reachMM float64) float64 {
	toCorner := math.Inf(-1)
	for _, o := range l.Edges {
		if o.Side == e.Side {
			toCorner = math.Max(toCorner, math.Max(o.A.Sub(end).Dot(aside), o.B.Sub(end).Dot(aside)))
		}
	}
	if toCorner <= onWallMM {
		return reachMM
	}
	for _, o := range l.open {
		if near := math.Min(o.A.Sub(end).Dot(aside), o.B.Sub(end).Dot(aside)); o.Side == e.Side && near > onWallMM {
			toCorner = math.Min(toCorner, near)
		}
	}
	return toCorner
}
