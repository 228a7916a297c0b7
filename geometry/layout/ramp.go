package layout

import (
	"math"
	"slices"

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

// rampWideMM is the least that a way beside a pane must be for a ramp to lead to it: through
// less nobody goes. Common practice, no source.
const rampWideMM = 300

// rampLine is a stretch of the tile line along an open edge that a ramp leads to, straight
// between its points.
type rampLine struct {
	edge   int
	points []plan.Point
	// fromEnd and toEnd tell that it begins and ends with the edge, not at a pane.
	fromEnd, toEnd bool
}

// ramps finds the floor outside the open edges that ramps may take: beside every straight
// of an edge's tile line that one can walk over, and round the ends of edges. Where a pane
// closes an edge there is none, and beside the pane the ramp ends square.
func (l *Layout) ramps(j job.Job, sh *plan.Shaper) {
	if j.Room.Edge != job.EdgeRamp || j.Former.Fall == job.FallRoom {
		return
	}
	low, high, _ := l.Room.Bounds()
	reach := high.Sub(low).Len()
	l.rampLines = l.linesOfRamps()
	beside := make([]plan.Region, len(l.rampLines))
	for i, line := range l.rampLines {
		e := l.open[line.edge]
		out := l.Outward(e)
		for k := 1; k < len(line.points); k++ {
			a, b := line.points[k-1], line.points[k]
			over := plan.Ring{a, b}
			if k == len(line.points)-1 && line.toEnd {
				over = append(over, l.besideRamp(e, b, b.Sub(a).Normalize())...)
			}
			over = append(over, b.Add(out.Mul(reach)), a.Add(out.Mul(reach)))
			if k == 1 && line.fromEnd {
				back := l.besideRamp(e, a, a.Sub(b).Normalize())
				slices.Reverse(back)
				over = append(over, back...)
			}
			region := l.rampOver(over, plan.Region{{Outer: plan.Ring{a, b}}}, e, sh)
			if len(region) > 0 {
				l.Ramps = append(l.Ramps, RampFloor{region, []RampSlope{{line.edge, a, b, out}}})
				beside[i] = append(beside[i], region...)
			}
		}
	}
	for i, line := range l.rampLines {
		n := len(line.points)
		if line.fromEnd {
			l.rampEnd(i, line.points[1], line.points[0], reach, beside, sh)
		}
		if line.toEnd {
			l.rampEnd(i, line.points[n-2], line.points[n-1], reach, beside, sh)
		}
	}
}

// linesOfRamps are the tile lines that ramps lead to: of every open edge, less what panes
// close and what they leave no way through.
func (l *Layout) linesOfRamps() []rampLine {
	const leastMM = 1e-3
	var out []rampLine
	for _, w := range l.Ways() {
		e := l.open[w.Edge]
		line := rampLine{edge: w.Edge, fromEnd: w.A.Sub(e.A).Len() < leastMM, toEnd: w.B.Sub(e.B).Len() < leastMM}
		if !(line.fromEnd && line.toEnd) && w.B.Sub(w.A).Len() < rampWideMM {
			continue
		}
		along := w.B.Sub(w.A)
		line.points = []plan.Point{w.A}
		for _, p := range e.Creases {
			last := line.points[len(line.points)-1]
			if p.Sub(last).Dot(along) > leastMM*along.Len() && w.B.Sub(p).Dot(along) > leastMM*along.Len() {
				line.points = append(line.points, p)
			}
		}
		line.points = append(line.points, w.B)
		out = append(out, line)
	}
	return out
}

// RampsBeside are the places on the edge at which ramps end square at a pane.
func (l *Layout) RampsBeside(x Screen) []plan.Point {
	if len(l.Ramps) == 0 || x.opens {
		return nil
	}
	var out []plan.Point
	for _, line := range l.rampLines {
		e, last := l.open[line.edge], len(line.points)-1
		if e.Side != x.Side {
			continue
		}
		if p := line.points[0]; !line.fromEnd && plan.DistanceToSegment(p, x.A, x.B) < job.AtWallMM {
			out = append(out, p)
		}
		if p := line.points[last]; !line.toEnd && plan.DistanceToSegment(p, x.A, x.B) < job.AtWallMM {
			out = append(out, p)
		}
	}
	return out
}

// WalkedOver tells whether there is room to walk over an open edge, by its index: panes
// leave a way through.
func (l *Layout) WalkedOver(edge int) bool { return edge < len(l.walked) && l.walked[edge] }

// walkedEdges tells it of every open edge. One that no pane stands on is walked over
// however short it is.
func (l *Layout) walkedEdges() []bool {
	out := make([]bool, len(l.open))
	for _, w := range l.Ways() {
		if e := l.open[w.Edge]; l.wide(w, e) {
			out[w.Edge] = true
		}
	}
	return out
}

// wide tells whether a way over an edge is walked through: all of the edge, or enough
// beside panes.
func (l *Layout) wide(w Way, e Edge) bool {
	const leastMM = 1e-3
	length := w.B.Sub(w.A).Len()
	return e.LengthMM()-length < leastMM || length >= rampWideMM
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

// rampEnd adds the floor round the end of an open edge that a ramp leads to, at the far end
// of the tile line from a point: where another begins, with the planes of both; where
// nothing does, with a cheek. A wall that stops before the ramp is down leaves such floor
// as well.
func (l *Layout) rampEnd(i int, from, end plan.Point, reachMM float64, beside []plan.Region, sh *plan.Shaper) {
	edge := l.rampLines[i].edge
	e := l.open[edge]
	own := RampSlope{edge, from, end, l.Outward(e)}
	aside := end.Sub(from).Normalize()
	other, at := RampSlope{edge, end, end, aside}, beside[i]
	for k, line := range l.rampLines {
		o, n := l.open[line.edge], len(line.points)
		if o.Side == e.Side {
			continue
		}
		starts := line.fromEnd && o.A.Sub(end).Len() <= job.AtWallMM
		if !starts && !(line.toEnd && o.B.Sub(end).Len() <= job.AtWallMM) {
			continue
		}
		if k < i {
			return // added with the other edge
		}
		at = append(at[:len(at):len(at)], beside[k]...)
		if starts {
			other = RampSlope{line.edge, line.points[0], line.points[1], l.Outward(o)}
		} else {
			other = RampSlope{line.edge, line.points[n-2], line.points[n-1], l.Outward(o)}
		}
	}
	asideMM := l.asideMM(e, end, aside, reachMM)
	u, v := own.Down.Mul(reachMM), aside.Mul(asideMM)
	var region plan.Region
	floor := l.rampOver(plan.Ring{end, end.Add(v), end.Add(u).Add(v), end.Add(u)}, at, e, sh)
	if taken := l.besideRamp(e, end, aside); taken != nil {
		floor = sh.Subtract(floor, plan.FromRing(append(taken, end)), message.Of("shape.ramp", message.In("at", message.Of(e.Side.At()))))
	}
	for _, p := range floor {
		wide := 0.0
		for _, q := range p.Outer {
			wide = math.Max(wide, q.Sub(end).Dot(aside))
		}
		// What a wall that counts as at the side leaves beside it is no floor.
		if wide > job.AtWallMM {
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
	if toCorner <= job.AtWallMM {
		return reachMM
	}
	for _, o := range l.open {
		if near := math.Min(o.A.Sub(end).Dot(aside), o.B.Sub(end).Dot(aside)); o.Side == e.Side && near > job.AtWallMM {
			toCorner = math.Min(toCorner, near)
		}
	}
	return toCorner
}
