package section

import (
	"underfall/geometry"
	"underfall/geometry/plan"
)

// FlowLines are the ways water takes over the falling floor to the drain, in
// plan: from points on a square grid straight down the plane they lie on, and
// on over every crease, until the floor is level or the drain is reached.
func FlowLines(r geometry.Result, spacingMM float64) [][]plan.Point {
	l := r.Layout
	low, high, ok := l.OpenFloor.Bounds()
	if !ok || spacingMM <= 0 {
		return nil
	}
	var out [][]plan.Point
	c, u, v := l.Corners[0], l.ToRight, l.Into
	reach := high.Sub(low).Len()
	n := int(reach/spacingMM) + 1
	for i := -n; i <= n; i++ {
		for k := -n; k <= n; k++ {
			p := c.Add(u.Mul((float64(i) + 0.5) * spacingMM)).Add(v.Mul((float64(k) + 0.5) * spacingMM))
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

// downhill follows the steepest descent from a point. Planes are left exactly
// where they end, so every line has few points.
func downhill(r geometry.Result, p plan.Point) []plan.Point {
	const most, pastMM = 12, 0.5
	l := r.Layout
	line := []plan.Point{p}
	for range most {
		plane := l.Fall.PlaneAt(p)
		if plane.Gradient() < 1e-6 {
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
		line = append(line, p.Add(down.Mul(end)))
		p = p.Add(down.Mul(end + pastMM))
		if l.Drain.Contains(p, 0) || !l.FallArea.Contains(p, 0) {
			break
		}
	}
	return line
}
