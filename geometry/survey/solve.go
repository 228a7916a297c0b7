package survey

import (
	"cmp"
	"errors"
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"
	"underfall/geometry/plan"
)

// row is one thing that the corners are to agree with: a measure, or what was drawn.
type row struct {
	Measure
	// sigma is its standard deviation: mm, or radians.
	sigma float64
}

// problem is a room to be worked out.
type problem struct {
	drawn []plan.Point
	// turn is 1 where the corners run counter-clockwise, -1 where clockwise.
	turn float64
	// measured are in an order of their own, so that the one they were taken in makes no difference; order
	// are their places among the measures as given. Angles are of all corners and walls of all walls, as
	// drawn.
	measured, angles, walls []row
	order                   []int
}

// How well what was drawn is taken to be meant, beside what is measured: only their ratio matters.
const (
	drawnDeg    = 0.5
	drawnWallMM = 10
)

func newProblem(drawn []plan.Point, measures []Measure) *problem {
	p := &problem{drawn: drawn, turn: 1, order: make([]int, len(measures))}
	if plan.Ring(drawn).SignedArea() < 0 {
		p.turn = -1
	}
	for i := range p.order {
		p.order[i] = i
	}
	slices.SortStableFunc(p.order, func(a, b int) int { return before(&measures[a], &measures[b]) })
	for _, i := range p.order {
		m := measures[i]
		p.measured = append(p.measured, row{m, m.standardDeviation()})
	}
	n := len(drawn)
	for i := range drawn {
		a := Measure{Kind: Angle, At: i, From: (i + 1) % n, To: (i + n - 1) % n}
		a.Value = p.angle(drawn, &a) * degrees
		p.angles = append(p.angles, row{a, drawnDeg / degrees})
		w := Measure{Kind: Distance, From: i, To: (i + 1) % n}
		w.Value = drawn[w.To].Sub(drawn[i]).Len()
		p.walls = append(p.walls, row{w, drawnWallMM})
	}
	return p
}

// degrees are those of a radian.
const degrees = 180 / math.Pi

// standardDeviation is that of the measure: mm, or radians.
func (m *Measure) standardDeviation() float64 {
	if m.Kind == Angle {
		return m.Tolerance / deviations / degrees
	}
	return m.Tolerance / deviations
}

// before is an order of measures by what they say.
func before(a, b *Measure) int {
	ends := func(m *Measure) [2]int { return [2]int{min(m.From, m.To), max(m.From, m.To)} }
	x, y := ends(a), ends(b)
	return cmp.Or(cmp.Compare(a.Kind, b.Kind), cmp.Compare(x[0], y[0]), cmp.Compare(x[1], y[1]), cmp.Compare(a.At, b.At),
		cmp.Compare(a.Value, b.Value), cmp.Compare(a.Tolerance, b.Tolerance))
}

// angle is that of a measure between corners that lie somewhere: radians, from 0 to 2π.
func (p *problem) angle(at []plan.Point, m *Measure) float64 {
	from, to := at[m.From].Sub(at[m.At]), at[m.To].Sub(at[m.At])
	a := p.turn * math.Atan2(plan.Cross(from, to), from.Dot(to))
	if a < 0 {
		a += 2 * math.Pi
	}
	return a
}

// off is how far corners are off a row: mm, or radians.
func (p *problem) off(at []plan.Point, r *row) float64 {
	if r.Kind == Angle {
		return math.Remainder(p.angle(at, &r.Measure)-r.Value/degrees, 2*math.Pi)
	}
	return at[r.To].Sub(at[r.From]).Len() - r.Value
}

// unknowns is how many numbers place n corners of which the first lies fixed and the second on a fixed line.
func unknowns(n int) int { return 2*n - 3 }

// unknown is which unknown a coordinate of a corner is; negative for one that is fixed: both of the first
// corner, and the second one's across the line from the first.
func unknown(corner, axis int) int {
	switch {
	case corner == 0, corner == 1 && axis == 1:
		return -1
	case corner == 1:
		return 0
	}
	return 2*corner - 3 + axis
}

// slope writes how what a row measures changes with the unknowns.
func (p *problem) slope(at []plan.Point, r *row, out []float64) {
	add := func(corner int, by plan.Point) {
		for axis := range 2 {
			if u := unknown(corner, axis); u >= 0 {
				out[u] += by[axis]
			}
		}
	}
	if r.Kind == Distance {
		u := at[r.To].Sub(at[r.From]).Normalize()
		add(r.To, u)
		add(r.From, u.Mul(-1))
		return
	}
	turn := func(q int, sense float64) {
		d := at[q].Sub(at[r.At])
		by := plan.Left(d).Mul(sense * p.turn / d.Dot(d))
		add(q, by)
		add(r.At, by.Mul(-1))
	}
	turn(r.To, 1)
	turn(r.From, -1)
}

// share is how much what was drawn counts beside what was measured.
type share float64

// weighed are all rows, each with its weight. Lengths as drawn count less than angles.
func (p *problem) weighed(drawn share, each func(r *row, weight float64)) {
	for k, rows := range [][]row{p.measured, p.angles, p.walls} {
		for i := range rows {
			each(&rows[i], math.Pow(float64(drawn), float64(k))/rows[i].sigma)
		}
	}
}

// cost is the sum of squares of how far corners are off, by weight.
func (p *problem) cost(at []plan.Point, drawn share) (sum float64) {
	p.weighed(drawn, func(r *row, weight float64) { sum += math.Pow(weight*p.off(at, r), 2) })
	return sum
}

// step is the step by Gauss and Newton from where corners lie, with all rows at once; false where there is none.
func (p *problem) step(at []plan.Point, drawn share) (by *mat.VecDense, ok bool) {
	m := len(p.measured) + len(p.angles) + len(p.walls)
	j, off := mat.NewDense(m, unknowns(len(at)), nil), mat.NewVecDense(m, nil)
	i := 0
	p.weighed(drawn, func(r *row, weight float64) {
		line := j.RawRowView(i)
		p.slope(at, r, line)
		for k := range line {
			line[k] *= weight
		}
		off.SetVec(i, weight*p.off(at, r))
		i++
	})
	return solved(j, off)
}

// solved is what comes nearest to j·x = off by least squares; false where numbers do not hold it.
//
// Method: orthogonal triangles, which lose less than the normal equations.
func solved(j mat.Matrix, off mat.Vector) (x *mat.VecDense, ok bool) {
	var qr mat.QR
	qr.Factorize(j)
	x = new(mat.VecDense)
	var condition mat.Condition
	// That it is nearly singular is no reason to stop: whether the step is of use is seen by taking it.
	if err := qr.SolveVecTo(x, false, off); err != nil && !errors.As(err, &condition) {
		return nil, false
	}
	for _, v := range x.RawVector().Data {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return nil, false
		}
	}
	return x, true
}

// stepped are corners after a share of a step.
func stepped(at []plan.Point, by *mat.VecDense, part float64) []plan.Point {
	out := slices.Clone(at)
	for i := range out {
		for axis := range 2 {
			if u := unknown(i, axis); u >= 0 {
				out[i][axis] -= part * by.AtVec(u)
			}
		}
	}
	return out
}

// largest is how long a step is.
func largest(by *mat.VecDense) (mm float64) {
	for _, x := range by.RawVector().Data {
		mm = math.Max(mm, math.Abs(x))
	}
	return mm
}

// descend goes down by steps that each make the sum of squares less, until they are small.
func (p *problem) descend(at []plan.Point, drawn share) []plan.Point {
	const mostSteps, mostHalvings, smallMM = 60, 20, 1e-3
	for range mostSteps {
		by, ok := p.step(at, drawn)
		if !ok || largest(by) < smallMM {
			return at
		}
		was, part, lower := p.cost(at, drawn), 1.0, false
		for range mostHalvings {
			if to := stepped(at, by, part); p.cost(to, drawn) < was {
				at, lower = to, true
				break
			}
			part /= 2
		}
		if !lower {
			return at
		}
	}
	return at
}

// settlement is where corners have come to rest.
type settlement struct {
	at      []plan.Point
	held    holding
	assumed Assumed
}

// settle finds where the corners come to rest: from where the measured lengths lead at the angles as drawn, and
// from the room as drawn, the better of the two. What was drawn counts as much as what was measured at first,
// and then ever less, so that of several rooms with these measures it is the one that is like the drawing; at
// last it decides on nothing but what the measures leave open.
func (p *problem) settle() (best settlement, ok bool) {
	least := math.Inf(1)
	for _, start := range [][]plan.Point{p.walked(), p.local(p.drawn)} {
		at := start
		const stages, last = 5, share(1e-4)
		for i := range stages {
			at = p.descend(at, share(math.Pow(float64(last), float64(i)/(stages-1))))
		}
		s, rests := p.rest(at)
		if !rests {
			continue
		}
		const same = 1e-6 // of costs
		if c := p.cost(s.at, last); c < least*(1-same) {
			best, least, ok = s, c, true
		}
	}
	return best, ok
}

// rest goes on to where the corners rest, to more than what they are rounded to; false where they come to no
// rest, or the room is turned inside out. A way that is held firmly enough only where corners rest without it, and
// with which they come to no rest, is taken as not held.
func (p *problem) rest(at []plan.Point) (s settlement, ok bool) {
	const restMM = plan.HairMM / 100
	if !p.definite(at) {
		return s, false
	}
	held := p.holding(at)
	var without settlement
	found := false
	for _, part := range []float64{1, 1, 0.5, 0.25} {
		const mostSteps = 30
		for range mostSteps {
			by, ok := p.inTurn(at, held)
			if !ok {
				return without, found
			}
			if at = stepped(at, by, part); !p.definite(at) {
				return without, found
			}
			if largest(by) >= restMM {
				continue
			}
			now := p.holding(at)
			if now != held {
				if held.less(now) && !found && p.rightWayRound(at) {
					without, found = settlement{at, held, p.assumed(at, held)}, true
				}
				held = now // what decides is another where they have come to
				break
			}
			if p.rightWayRound(at) {
				return settlement{at, held, p.assumed(at, held)}, true
			}
			return without, found
		}
	}
	return without, found
}

// definite tells whether it is a number how everything changes as corners move: not where two of them lie at one place, or
// have run away.
func (p *problem) definite(at []plan.Point) bool {
	line := make([]float64, unknowns(len(at)))
	for _, rows := range [][]row{p.measured, p.angles, p.walls} {
		for i := range rows {
			clear(line)
			p.slope(at, &rows[i], line)
			sum := p.off(at, &rows[i])
			for _, x := range line {
				sum += math.Abs(x)
			}
			if math.IsNaN(sum) || math.IsInf(sum, 0) {
				return false
			}
		}
	}
	return true
}

// rightWayRound tells whether corners run the way that they were drawn.
func (p *problem) rightWayRound(at []plan.Point) bool {
	return at[1].X() > 0 && plan.Ring(at).SignedArea()*p.turn > 0
}

// rests tells whether corners are where they come to rest, to what nobody measures: corners are rounded, and where
// measures disagree widely that goes on. Of those that rest only without a way that they hold firmly, it cannot tell.
func (p *problem) rests(corners []plan.Point) bool {
	const withinMM = 1000 * plan.HairMM
	at := p.local(corners)
	if !p.definite(at) {
		return false
	}
	for i, c := range p.placed(at) {
		if c.Sub(corners[i]).Len() > withinMM {
			return false
		}
	}
	by, ok := p.inTurn(at, p.holding(at))
	return ok && largest(by) < withinMM && p.rightWayRound(at)
}
