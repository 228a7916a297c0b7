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
	beside := make([]plan.Region, len(l.open))
	lines := make([][]plan.Point, len(l.open))
	for i, e := range l.open {
		out := l.Outward(e)
		lines[i] = e.tileLine()
		for k := 1; k < len(lines[i]); k++ {
			a, b := lines[i][k-1], lines[i][k]
			region := l.rampOver(plan.Ring{a, b, b.Add(out.Mul(reach)), a.Add(out.Mul(reach))}, plan.Region{{Outer: plan.Ring{a, b}}}, e, sh)
			if len(region) > 0 {
				l.Ramps = append(l.Ramps, RampFloor{region, []RampSlope{{i, a, b, out}}})
				beside[i] = append(beside[i], region...)
			}
		}
	}
	for i, e := range l.open {
		n := len(lines[i])
		l.rampEnd(i, lines[i][1], e.A, reach, lines, beside, sh)
		l.rampEnd(i, lines[i][n-2], e.B, reach, lines, beside, sh)
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
// room in it that lies at the edge, or at the ramp beside it.
func (l *Layout) rampOver(over plan.Ring, at plan.Region, e Edge, sh *plan.Shaper) plan.Region {
	what := message.Of("shape.ramp", message.In("at", message.Of(e.Side.At())))
	var out plan.Region
	for _, p := range sh.Intersect(l.Rest, plan.FromRing(over), what) {
		for _, o := range at {
			if outlinesMeet(p.Outer, o.Outer) {
				out = append(out, p)
				break
			}
		}
	}
	return out
}

// outlinesMeet tells whether two outlines come as near to each other as those that share
// a stretch do.
func outlinesMeet(a, b plan.Ring) bool {
	const nearMM = 1e-3
	for i, p := range a {
		for k, q := range b {
			if plan.Apart(p, a[(i+1)%len(a)], q, b[(k+1)%len(b)]) < nearMM {
				return true
			}
		}
	}
	return false
}

// rampEnd adds the floor round the end of an open edge, at the far end of the tile line
// from a point: where another edge begins, with the planes of both; where nothing does,
// with a cheek. A wall that stops before the ramp is down leaves such floor as well.
func (l *Layout) rampEnd(i int, from, end plan.Point, reachMM float64, lines [][]plan.Point, beside []plan.Region, sh *plan.Shaper) {
	e := l.open[i]
	own := RampSlope{i, from, end, l.Outward(e)}
	aside := end.Sub(from).Normalize()
	other, at := RampSlope{i, end, end, aside}, beside[i]
	for k, o := range l.open {
		if o.Side == e.Side || math.Min(o.A.Sub(end).Len(), o.B.Sub(end).Len()) > onWallMM {
			continue
		}
		if k < i {
			return // added with the other edge
		}
		at = append(at[:len(at):len(at)], beside[k]...)
		line := lines[k]
		if n := len(line); o.A.Sub(end).Len() <= onWallMM {
			other = RampSlope{k, line[0], line[1], l.Outward(o)}
		} else {
			other = RampSlope{k, line[n-2], line[n-1], l.Outward(o)}
		}
	}
	asideMM := l.asideMM(e, end, aside, reachMM)
	u, v := own.Down.Mul(reachMM), aside.Mul(asideMM)
	var region plan.Region
	for _, p := range l.rampOver(plan.Ring{end, end.Add(v), end.Add(u).Add(v), end.Add(u)}, at, e, sh) {
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
