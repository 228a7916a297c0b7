package section

import (
	"math"
	"slices"

	"underfall/geometry/material"
	"underfall/geometry/plan"
)

// PatternOf is how a cut material is hatched.
func PatternOf(m material.Material) material.Pattern { return m.Pattern() }

// mostHatchLines bounds the work for a huge area seen close.
const mostHatchLines = 1500

// Hatch gives the hatch lines of a region for a basic spacing in millimetres
// of the model. Lines keep their place when the region changes, so that
// neighbours of one material run through and nothing swims.
func Hatch(r plan.Region, p material.Pattern, spacingMM float64) [][2]plan.Point {
	low, high, ok := r.Bounds()
	if !ok || spacingMM <= 0 {
		return nil
	}
	var out [][2]plan.Point
	area := r.Area()
	corners := []plan.Point{low, {high.X(), low.Y()}, high, {low.X(), high.Y()}}
	for _, f := range p.Families {
		if f.Spacing <= 0 {
			continue
		}
		s, c := math.Sincos(f.AngleDeg * math.Pi / 180)
		along := plan.Point{c, s}
		normal := plan.Left(along)
		from, to := math.Inf(1), math.Inf(-1)
		for _, q := range corners {
			from, to = math.Min(from, q.Dot(normal)), math.Max(to, q.Dot(normal))
		}
		step := f.Spacing * spacingMM
		if n := (to - from) / step; n > mostHatchLines {
			wider := math.Exp2(math.Ceil(math.Log2(n / mostHatchLines)))
			step *= wider
			f.Shift *= wider
		}
		first := math.Ceil((from - f.Offset*spacingMM) / step)
		offset := func(k float64) float64 { return k*step + f.Offset*spacingMM }
		n := max(0, int(math.Ceil((to-offset(first))/step)))
		about := n // lines or dashes
		if f.Dash > 0 {
			about += int(area / (step * (f.Dash + f.Gap) * spacingMM))
		}
		out = slices.Grow(out, about)
		r.ClipLines(along, offset(first), step, n, func(line int, iv plan.Interval) {
			k := first + float64(line)
			out = appendBroken(out, normal.Mul(offset(k)), along, iv, f, spacingMM, k)
		})
	}
	return out
}

// appendBroken adds one line of a family, broken into its dashes.
func appendBroken(out [][2]plan.Point, origin, along plan.Point, iv plan.Interval, f material.Family, spacingMM, k float64) [][2]plan.Point {
	add := func(a, b float64) {
		out = append(out, [2]plan.Point{origin.Add(along.Mul(a)), origin.Add(along.Mul(b))})
	}
	if f.Dash == 0 {
		add(iv.From, iv.To)
		return out
	}
	dash, period := f.Dash*spacingMM, (f.Dash+f.Gap)*spacingMM
	shift := (f.Start + f.Shift*k) * spacingMM
	for n := math.Floor((iv.From - shift) / period); n*period+shift < iv.To; n++ {
		a, b := max(iv.From, n*period+shift), min(iv.To, n*period+shift+dash)
		if b > a {
			add(a, b)
		}
	}
	return out
}
