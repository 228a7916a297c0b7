package material

import "math"

// Family is one set of parallel hatch lines. Lengths are in steps of the
// hatch's basic spacing, which the paper decides.
type Family struct {
	AngleDeg float64
	Spacing  float64
	Offset   float64
	// Dash and Gap break the lines; zero Dash draws them through.
	Dash, Gap float64
	// Start is where along the line through the origin the first dash begins, Shift how
	// much farther on each next line, to its left.
	Start, Shift float64
}

// Pattern is how a cut material is shown: thin lines told apart by direction,
// spacing and breaks; some layers are filled.
type Pattern struct {
	// Families without a spacing are none.
	Families [4]Family
	Solid    bool
	// LeastPoints is how thick a layer is drawn at least, in points of paper; 0 as thick
	// as it is.
	LeastPoints float64
	// AlongFall has the lines lie along the fall of the floor.
	AlongFall bool
}

// Turned is the pattern with its lines turned about the origin, anticlockwise.
func (p Pattern) Turned(deg float64) Pattern {
	for i := range p.Families {
		p.Families[i].AngleDeg += deg
	}
	return p
}

// Pattern is how the material is shown where it is cut: the one table of hatches,
// Underfall's own.
func (m Material) Pattern() Pattern {
	switch m {
	case Concrete:
		return tile(26, 26, stroke{0, 0, 26, 26}, dot(7, 20, 1), dot(18, 7, 1.4), dot(20, 14, 0.7))
	case Timber:
		return tile(12, 4.5, stroke{0, 2.5, 3, -1.125}, stroke{3, 1.375, 3, -0.375}, stroke{6, 1, 3, 0.375}, stroke{9, 1.375, 3, 1.125})
	case Deck, Tile, Primer, Sealant, DampProof, Plastic, Metal, Water:
		return solid()
	case Masonry:
		return tile(18, 12, stroke{0, 0, 18, 0}, stroke{0, 6, 18, 0}, stroke{5, 6, 0, 6}, stroke{14, 0, 0, 6})
	case StudWall:
		return tile(8, 8, stroke{0, 0, 8, 8})
	case Adhesive, TileBed:
		return bed()
	case BaseBoard:
		return tile(7, 12, stroke{0, 3, 3.5, 6}, stroke{3.5, 9, 3.5, -6})
	case FormerBody:
		return alongFall(tile(16, 6, stroke{0, 3, 10, 0}))
	case Membrane:
		return Pattern{Solid: true, LeastPoints: 1.5}
	case Screed:
		return lines(ruled{-45, 1, 0, 0.25, 0.9})
	case Mortar:
		return lines(ruled{-45, 1.6, 0, 0.3, 1.1}, ruled{45, 2.4, 0.4, 0.2, 1.7})
	case Levelling:
		return lines(ruled{45, 0.9, 0, 0.2, 0.8})
	case Insulation:
		return lines(ruled{70, 1.6, 0, 0, 0}, ruled{-70, 1.6, 0, 0, 0})
	case Overlay:
		return lines(ruled{0, 0.7, 0.35, 2, 0.5})
	case Decoupling:
		return lines(ruled{90, 0.5, 0, 0, 0})
	case Heating:
		return lines(ruled{0, 0.6, 0.3, 0.3, 0.3})
	case Lining:
		return lines(ruled{-60, 1, 0, 1.2, 0.5})
	}
	return lines(ruled{45, 1, 0, 0, 0})
}

// Marked is the hatch of what is filled otherwise and is to be told from its neighbours.
func Marked() Pattern { return lines(ruled{45, 0.55, 0, 0, 0}) }

// solid is filled.
func solid() Pattern { return Pattern{Solid: true} }

// goldenTurn is how far dashes shift from line to line, in their period, so that
// neighbours never line up: the golden ratio's square, from the side that is shorter.
const goldenTurn = 0.382

// ruled is a family of lines, broken by turns where it has a dash; in basic spacings.
type ruled struct{ angleDeg, spacing, offset, dash, gap float64 }

// lines are families of lines.
func lines(families ...ruled) (p Pattern) {
	for i, f := range families {
		p.Families[i] = Family{AngleDeg: f.angleDeg, Spacing: f.spacing, Offset: f.offset, Dash: f.dash, Gap: f.gap, Shift: goldenTurn * (f.dash + f.gap)}
	}
	return p
}

// basicPoints is the basic spacing of hatches in points of paper, in which tiles are
// drawn up.
const basicPoints = 7

// stroke is a straight stroke of a tile from X0, Y0 by DX, DY, in points, y up.
type stroke struct{ x0, y0, dx, dy float64 }

// dot is a spot: a stroke as long as it is wide.
func dot(x, y, radius float64) stroke { return stroke{x - radius, y, 2 * radius, 0} }

// tile is a pattern of strokes that repeats every so many points across and up. Each
// stroke must point along whole steps of the tile: all its repeats then lie on parallel
// lines, as dashes.
func tile(width, height float64, strokes ...stroke) (p Pattern) {
	for i, s := range strokes {
		p.Families[i] = s.repeated(width/basicPoints, height/basicPoints)
	}
	return p
}

// mostSteps bounds the steps of a tile that a stroke may point along.
const mostSteps = 12

// repeated is the family of a stroke that repeats by steps across and up, both in basic
// spacings.
func (s stroke) repeated(across, up float64) Family {
	x0, y0, dx, dy := s.x0/basicPoints, s.y0/basicPoints, s.dx/basicPoints, s.dy/basicPoints
	long := math.Hypot(dx, dy)
	ux, uy := dx/long, dy/long
	m, n := wholeSteps(dx*up, dy*across)
	period := math.Hypot(float64(m)*across, float64(n)*up)
	// The step to the next line on the left: m·q − n·p = 1.
	p, q := besides(m, n)
	shift := float64(p)*across*ux + float64(q)*up*uy
	f := Family{AngleDeg: math.Atan2(dy, dx) * 180 / math.Pi, Spacing: across * up / period, Offset: y0*ux - x0*uy}
	const hair = 1e-9
	if period-long > hair {
		f.Dash, f.Gap, f.Start, f.Shift = long, period-long, x0*ux+y0*uy, shift
	}
	return f
}

// wholeSteps are the smallest whole numbers in the ratio of x to y, with their signs.
func wholeSteps(x, y float64) (m, n int) {
	const hair = 1e-9
	for sum := 1; sum <= 2*mostSteps; sum++ {
		for m := range sum + 1 {
			n := sum - m
			if math.Abs(float64(m)*math.Abs(y)-float64(n)*math.Abs(x)) < hair {
				return int(math.Copysign(float64(m), x)), int(math.Copysign(float64(n), y))
			}
		}
	}
	return 1, 0
}

// besides are p and q with m·q − n·p = 1, for m and n without a common divisor.
func besides(m, n int) (p, q int) {
	for q := -mostSteps; q <= mostSteps; q++ {
		for p := -mostSteps; p <= mostSteps; p++ {
			if m*q-n*p == 1 {
				return p, q
			}
		}
	}
	return 0, 1
}

// bed is the dotted pattern of what is trowelled on.
func bed() Pattern { return tile(5, 5, dot(1.5, 3.5, 0.7), dot(4, 1.2, 0.5)) }

// alongFall has a pattern's lines lie along the fall.
func alongFall(p Pattern) Pattern {
	p.AlongFall = true
	return p
}
