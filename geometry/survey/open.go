package survey

import (
	"math"

	"gonum.org/v1/gonum/mat"
	"underfall/geometry/plan"
)

// How firmly rows must hold the corners to decide on them: by how much what they are of changes when the corners
// move by one. Measures of rooms hold them by a third and more; by less than a fiftieth a millimetre in what is
// measured would be fifty in the room.
const (
	measuredHold = 0.02
	drawnHold    = 0.1
)

// holding is of how many ways in which the corners can move the measures decide, and of how many of the others
// the angles as drawn; the lengths as drawn decide on the rest.
type holding struct{ measured, angles int }

// holding is that of corners that lie somewhere.
func (p *problem) holding(at []plan.Point) (h holding) {
	var free *mat.Dense
	h.measured, _, free = p.ways(at, p.measured, everyWay(unknowns(len(at))), firmly(measuredHold))
	if free != nil {
		h.angles, _, _ = p.ways(at, p.angles, free, firmly(drawnHold))
	}
	return h
}

// less tells whether what is held decides on fewer ways than another does: the drawing on more than the measures, or the
// lengths as drawn on more than the angles.
func (h holding) less(other holding) bool {
	return h.measured < other.measured || h.measured == other.measured && h.angles < other.angles
}

// everyWay are all ways in which unknowns can move, as columns.
func everyWay(unknowns int) *mat.Dense {
	d := mat.NewDense(unknowns, unknowns, nil)
	for i := range unknowns {
		d.Set(i, i, 1)
	}
	return d
}

// firm tells of a singular value and its place whether rows decide on the way it is of.
type firm func(place int, hold float64) bool

func firmly(least float64) firm { return func(_ int, hold float64) bool { return hold >= least } }

func first(n int) firm { return func(place int, _ float64) bool { return place < n } }

// ways parts ways in which the corners can move, columns, into those that rows decide on and those that are
// left free; nil for none.
//
// Method: the singular vectors of how the rows change, each by no more than its corners move.
func (p *problem) ways(at []plan.Point, rows []row, of *mat.Dense, decides firm) (n int, decided, free *mat.Dense) {
	if len(rows) == 0 {
		return 0, nil, of
	}
	u, k := of.Dims()
	j := mat.NewDense(len(rows), u, nil)
	for i := range rows {
		line := j.RawRowView(i)
		p.slope(at, &rows[i], line)
		unit(line)
	}
	var moved mat.Dense
	moved.Mul(j, of)
	var svd mat.SVD
	if !svd.Factorize(&moved, mat.SVDFullV) {
		return 0, nil, of
	}
	for i, hold := range svd.Values(nil) {
		if decides(i, hold) {
			n++
		}
	}
	var v, turned mat.Dense
	svd.VTo(&v)
	turned.Mul(of, &v)
	if n > 0 {
		decided = mat.DenseCopyOf(turned.Slice(0, u, 0, n))
	}
	if n < k {
		free = mat.DenseCopyOf(turned.Slice(0, u, n, k))
	}
	return n, decided, free
}

// unit makes a line of length one, unless it is nothing.
func unit(line []float64) {
	sum := 0.0
	for _, x := range line {
		sum += x * x
	}
	if sum = math.Sqrt(sum); sum > 0 {
		for i := range line {
			line[i] /= sum
		}
	}
}

// inTurn is the step by Gauss and Newton from where corners lie: by the measures first, then by the angles as
// drawn in the ways that the measures leave free, and by the lengths as drawn in what is left.
func (p *problem) inTurn(at []plan.Point, h holding) (by *mat.VecDense, ok bool) {
	u := unknowns(len(at))
	by = mat.NewVecDense(u, nil)
	free := everyWay(u)
	for k, rows := range [][]row{p.measured, p.angles, p.walls} {
		decides := [...]firm{first(h.measured), first(h.angles), firmly(drawnHold)}[k]
		var decided *mat.Dense
		if _, decided, free = p.ways(at, rows, free, decides); decided != nil {
			j, off := p.slopes(at, rows)
			var moved mat.Dense
			moved.Mul(j, decided)
			var done mat.VecDense
			done.MulVec(j, by)
			off.SubVec(off, &done)
			x, solves := solved(&moved, off)
			if !solves {
				return nil, false
			}
			var more mat.VecDense
			more.MulVec(decided, x)
			by.AddVec(by, &more)
		}
		if free == nil {
			break
		}
	}
	return by, true
}

// slopes are how rows change with the unknowns, and how far the corners are off them, both in standard
// deviations.
func (p *problem) slopes(at []plan.Point, rows []row) (j *mat.Dense, off *mat.VecDense) {
	j, off = mat.NewDense(len(rows), unknowns(len(at)), nil), mat.NewVecDense(len(rows), nil)
	for i := range rows {
		line := j.RawRowView(i)
		p.slope(at, &rows[i], line)
		for k := range line {
			line[k] /= rows[i].sigma
		}
		off.SetVec(i, p.off(at, &rows[i])/rows[i].sigma)
	}
	return j, off
}

// assumed is what was taken as drawn.
func (p *problem) assumed(at []plan.Point, h holding) (a Assumed) {
	_, _, free := p.ways(at, p.measured, everyWay(unknowns(len(at))), first(h.measured))
	if free == nil {
		return a
	}
	for i := range p.angles {
		switch {
		case !p.moves(at, &p.angles[i], free):
		case square(p.angles[i].Value):
			a.Square = append(a.Square, i)
		default:
			a.Drawn = append(a.Drawn, i)
		}
	}
	if _, _, free = p.ways(at, p.angles, free, first(h.angles)); free == nil {
		return a
	}
	for i := range p.walls {
		if p.moves(at, &p.walls[i], free) {
			a.Walls = append(a.Walls, i)
		}
	}
	return a
}

// moves tells whether what a row is of changes as the corners move in ways that are free.
func (p *problem) moves(at []plan.Point, r *row, free *mat.Dense) bool {
	line := make([]float64, unknowns(len(at)))
	p.slope(at, r, line)
	unit(line)
	var by mat.VecDense
	by.MulVec(free.T(), mat.NewVecDense(len(line), line))
	return mat.Norm(&by, 2) > measuredHold
}

// square tells whether an angle is that of a corner drawn square, of a room that comes in there or not.
func square(deg float64) bool {
	const drawnSquareDeg = 0.01
	return math.Abs(deg-90) < drawnSquareDeg || math.Abs(deg-270) < drawnSquareDeg
}
