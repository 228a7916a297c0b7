package section

import (
	"math"

	"underfall/geometry/material"
	"underfall/geometry/plan"
)

// Family is one set of parallel hatch lines. Lengths are in steps of the
// hatch's basic spacing, which the paper decides.
type Family struct {
	AngleDeg float64
	Spacing  float64
	Offset   float64
	// Dash and Gap break the lines; zero Dash draws them through. Lines are
	// broken by turns, so that dashes of neighbours do not line up.
	Dash, Gap float64
}

// Pattern is how a cut material is shown: thin lines at 45° for most, as
// ISO 128-3 prefers, told apart by direction, spacing and breaks; thin layers
// are filled.
type Pattern struct {
	Families []Family
	Solid    bool
}

// PatternOf is the pattern of a material. The set is Underfall's own.
func PatternOf(m material.Material) Pattern {
	lines := func(f ...Family) Pattern { return Pattern{Families: f} }
	switch m {
	case material.Concrete:
		return lines(Family{45, 3, 0, 0, 0}, Family{45, 3, 0.5, 0, 0}, Family{-20, 2.2, 0, 0.25, 2.4})
	case material.Masonry:
		return lines(Family{45, 2, 0, 0, 0}, Family{45, 2, 0.4, 0, 0})
	case material.StudWall:
		return lines(Family{45, 2.4, 0, 0, 0}, Family{-45, 2.4, 0, 0, 0})
	case material.Timber:
		return lines(Family{30, 1.1, 0, 0, 0}, Family{-60, 3.3, 0, 0, 0})
	case material.Deck:
		return lines(Family{0, 0.6, 0.3, 5, 0.8})
	case material.BaseBoard:
		return lines(Family{60, 1.8, 0, 0, 0}, Family{-60, 1.8, 0, 0, 0})
	case material.FormerBody:
		return lines(Family{-45, 1.2, 0, 3, 0.6})
	case material.Tile:
		return lines(Family{45, 0.55, 0, 0, 0})
	case material.TileBed, material.Adhesive:
		return lines(Family{-45, 0.5, 0, 0.2, 0.5})
	case material.Screed:
		return lines(Family{-45, 1, 0, 0.25, 0.9})
	case material.Water:
		return lines(Family{0, 0.8, 0.4, 1.4, 0.7})
	case material.Membrane, material.Plastic, material.Metal:
		return Pattern{Solid: true}
	}
	return lines(Family{45, 1, 0, 0, 0})
}

// mostHatchLines bounds the work for a huge area seen close.
const mostHatchLines = 1500

// Hatch gives the hatch lines of a region for a basic spacing in millimetres
// of the model. Lines keep their place when the region changes, so that
// neighbours of one material run through and nothing swims.
func Hatch(r plan.Region, p Pattern, spacingMM float64) [][2]plan.Point {
	low, high, ok := r.Bounds()
	if !ok || spacingMM <= 0 {
		return nil
	}
	var out [][2]plan.Point
	corners := []plan.Point{low, {high.X(), low.Y()}, high, {low.X(), high.Y()}}
	for _, f := range p.Families {
		s, c := math.Sincos(f.AngleDeg * math.Pi / 180)
		along := plan.Point{c, s}
		normal := plan.Left(along)
		from, to := math.Inf(1), math.Inf(-1)
		for _, q := range corners {
			from, to = math.Min(from, q.Dot(normal)), math.Max(to, q.Dot(normal))
		}
		step := f.Spacing * spacingMM
		for (to-from)/step > mostHatchLines {
			step *= 2
		}
		for k := math.Ceil((from - f.Offset*spacingMM) / step); k*step+f.Offset*spacingMM < to; k++ {
			origin := normal.Mul(k*step + f.Offset*spacingMM)
			for _, iv := range r.Clip(origin, along) {
				out = appendBroken(out, origin, along, iv, f, spacingMM, k)
			}
		}
	}
	return out
}

// appendBroken adds one line of a family, broken into its dashes.
func appendBroken(out [][2]plan.Point, origin, along plan.Point, iv plan.Interval, f Family, spacingMM, k float64) [][2]plan.Point {
	add := func(a, b float64) {
		out = append(out, [2]plan.Point{origin.Add(along.Mul(a)), origin.Add(along.Mul(b))})
	}
	if f.Dash == 0 {
		add(iv.From, iv.To)
		return out
	}
	dash, period := f.Dash*spacingMM, (f.Dash+f.Gap)*spacingMM
	shift := period * math.Mod(k*0.382, 1)
	for n := math.Floor((iv.From - shift) / period); n*period+shift < iv.To; n++ {
		a, b := math.Max(iv.From, n*period+shift), math.Min(iv.To, n*period+shift+dash)
		if b > a {
			add(a, b)
		}
	}
	return out
}
