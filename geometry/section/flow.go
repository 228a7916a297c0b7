package section

import (
	"underfall/geometry"
	"underfall/geometry/plan"
	"underfall/geometry/solid"
)

// FlowLines are the ways water takes over the falling floor to the drain, in
// plan: from points on a square grid straight down the plane they lie on, and
// on over every crease, until the floor is level or the drain is reached.
func FlowLines(r geometry.Result, spacingMM float64) [][]plan.Point {
	l := r.Layout
	low, high, _ := l.OpenFloor.Bounds()
	var out [][]plan.Point
	c, u, v := l.Corners[0], l.ToRight, l.Into
	reach := high.Sub(low).Len()
	n := int(reach/spacingMM) + 1
	for i := range 2 * n {
		for k := range 2 * n {
			p := c.Add(u.Mul((float64(i-n) + 0.5) * spacingMM)).Add(v.Mul((float64(k-n) + 0.5) * spacingMM))
			if !l.OpenFloor.Contains(p, 0) {
				continue
			}
			if line := downhill(r, p); len(line) > 1 {
				out = append(out, line)
			}
		}
	}
	return out
}

// levelSlope is a fall under which a floor is level: a hundredth of a millimetre over
// 10 m. parallelSlope is a difference of falls that is rounding.
const (
	levelSlope    = 1e-6
	parallelSlope = 1e-9
)

// downValley follows the crease between a plane and the next one, when both
// fall to it, down to the drain's level; ok is false at any other place.
func downValley(r geometry.Result, plane solid.Plane, crease, past plan.Point) (end plan.Point, ok bool) {
	next := r.Layout.Fall.PlaneAt(past)
	across := plan.Point{plane.SlopeX - next.SlopeX, plane.SlopeY - next.SlopeY}
	if next.Gradient() < levelSlope || across.Len() < parallelSlope {
		return end, false
	}
	// The next plane leads on, away from the crease: no valley.
	if next.SlopeX*across.X()+next.SlopeY*across.Y() > 0 {
		return end, false
	}
	along := plan.Left(across.Normalize())
	slope := plane.SlopeX*along.X() + plane.SlopeY*along.Y()
	return crease.Add(along.Mul(r.Layout.Fall.At(crease) / -slope)), true
}

// downhill follows the steepest descent from a point. Planes are left exactly
// where they end, so every line has few points.
func downhill(r geometry.Result, p plan.Point) []plan.Point {
	const most, pastMM = 12, 0.5
	l := r.Layout
	line := []plan.Point{p}
	for range most {
		plane := l.Fall.PlaneAt(p)
		if plane.Gradient() < levelSlope {
			break
		}
		down := plan.Point{-plane.SlopeX, -plane.SlopeY}.Normalize()
		// How far this plane carries the floor along the line.
		end := 0.0
		for _, cell := range l.Planes {
			if cell.SlopeX != plane.SlopeX || cell.SlopeY != plane.SlopeY {
				continue
			}
			for _, iv := range cell.Region.Clip(p, down) {
				if iv.From <= pastMM && iv.To > end {
					end = iv.To
				}
			}
		}
		if end < 1 {
			break
		}
		crease := p.Add(down.Mul(end))
		line = append(line, crease)
		p = p.Add(down.Mul(end + pastMM))
		if q, ok := downValley(r, plane, crease, p); ok {
			return append(line, q)
		}
	}
	return line
}
