package question

import (
	"math"

	"underfall/geometry/plan"
)

// MostWalls is how many walls a drawn room has at most.
const MostWalls = 12

// Drawn is a room by its walls, one after the other from A on, as one goes round it with a tape.
type Drawn struct {
	Walls [MostWalls]DrawnWall
	// N is how many of the walls there are; nought before a room is drawn.
	N int
}

// DrawnWall is one of them.
type DrawnWall struct {
	// Long is how long it is. Where that is not given, it is worked out so that the walls close; UsualMM
	// stands in where that cannot be.
	Long    Length
	UsualMM float64
	// InsideDeg is the angle in the room between it and the next wall: 90 where the next turns right,
	// 270 where it turns left round a corner that stands out. That of the last wall follows from the rest.
	InsideDeg float64
}

// Angles in a corner.
const (
	SquareDeg    = 90
	StraightDeg  = 180
	StandsOutDeg = 270
	fullDeg      = 360
)

// Bounds of a drawn wall, as of a room, and of its corners. Common practice, no source.
const (
	LeastWallMM    = 100
	GreatestWallMM = 20000
	LeastDeg       = 15
	GreatestDeg    = 345
)

// closesMM is up to how far apart the ends of the walls count as together: what a tape cannot tell.
// Common practice, no source.
const closesMM = 2

// Closing is how the walls of a drawn room come together.
type Closing struct {
	// Outline are the corners, as Practice.Outline has them. Its last wall is drawn from where the one
	// before it ends to where A begins, however long it was said to be.
	Outline []plan.Point
	// WorkedOut are the walls whose length follows from the rest.
	WorkedOut Walls
	// MissesMM is how far the end of the last wall, as stated, is from where A begins; nought where
	// they meet.
	MissesMM float64
	// ShortMM is how much the wall before the last one lacks for the last to run as its corner says,
	// less than nought where it is too long; LastShortMM is how much the last one then lacks of what was
	// typed. Both are nought where the walls meet.
	ShortMM, LastShortMM float64
}

// LengthMM is how long a wall is drawn.
func (c Closing) LengthMM(wall int) float64 { return wallMM(c.Outline, wall) }

// Close is how the walls come together.
//
// Method: walls run on from the end of the one before, turned by its corner. Of the lengths that were
// not given the last two that do not run the same way are solved for the ring to close, or the one there
// is is brought as near to that as it goes.
func (d Drawn) Close() Closing {
	var c Closing
	n := d.N
	along := d.directions()
	long := make([]float64, n)
	for i, w := range d.Walls[:n] {
		long[i] = w.Long.or(w.UsualMM)
	}
	first, last := d.free(along)
	if last >= 0 {
		gap := gapWithout(long, along, first, last)
		a, b := 0.0, gap.Dot(along[last])
		if first >= 0 {
			det := plan.Cross(along[first], along[last])
			a, b = plan.Cross(gap, along[last])/det, plan.Cross(along[first], gap)/det
		}
		if sound := b >= LeastWallMM && (first < 0 || a >= LeastWallMM); sound {
			long[last], c.WorkedOut = b, c.WorkedOut.With(last, true)
			if first >= 0 {
				long[first], c.WorkedOut = a, c.WorkedOut.With(first, true)
			}
		}
	}
	c.WorkedOut = c.WorkedOut.With(n-1, true)
	c.Outline = make([]plan.Point, n)
	at := plan.Point{long[0], 0}
	for i := range n {
		c.Outline[i] = at
		at = at.Add(along[i].Mul(long[i]))
	}
	if miss := c.Outline[0].Sub(at); miss.Len() > closesMM {
		c.MissesMM = miss.Len()
		c.ShortMM, c.LastShortMM = 0, miss.Dot(along[n-1])
		if det := plan.Cross(along[n-2], along[n-1]); math.Abs(det) > parallelSine {
			c.ShortMM, c.LastShortMM = plan.Cross(miss, along[n-1])/det, plan.Cross(along[n-2], miss)/det
		}
	}
	return c
}

// parallelSine is the sine of an angle under which two walls run the same way: a length worked out of
// them would be nobody's.
const parallelSine = 0.05

// directions are the ways the walls run: A to the left as seen by who comes in, then each turned from
// the one before.
func (d Drawn) directions() []plan.Point {
	out := make([]plan.Point, d.N)
	deg := float64(StraightDeg)
	for i := range out {
		out[i] = plan.DirectionDeg(deg)
		deg -= StraightDeg - d.Walls[i].InsideDeg
	}
	return out
}

// free are the walls whose lengths can be worked out: the last whose length was not given and the one
// before it that runs another way; -1 for none.
func (d Drawn) free(along []plan.Point) (first, last int) {
	first, last = -1, -1
	for i := d.N - 1; i >= 0; i-- {
		switch {
		case d.Walls[i].Long.Given:
		case last < 0:
			last = i
		case math.Abs(plan.Cross(along[i], along[last])) > parallelSine:
			return i, last
		}
	}
	return first, last
}

// gapWithout is what the walls lack to come back to their start, those two left out.
func gapWithout(long []float64, along []plan.Point, first, last int) plan.Point {
	var sum plan.Point
	for i := range long {
		if i != first && i != last {
			sum = sum.Add(along[i].Mul(long[i]))
		}
	}
	return sum.Mul(-1)
}

// drawnOf is a room of an outline, with the lengths given of the walls that are said to be.
func drawnOf(outline []plan.Point, given Walls) Drawn {
	d := Drawn{N: len(outline)}
	for i := range outline {
		mm := wallMM(outline, i)
		d.Walls[i] = DrawnWall{Long: Length{mm, given.Has(i)}, UsualMM: mm, InsideDeg: insideDeg(outline, i)}
		if !given.Has(i) {
			d.Walls[i].Long.MM = 0
		}
	}
	return d
}

// insideDeg is the angle in the room at the end of a wall.
func insideDeg(outline []plan.Point, wall int) float64 {
	n := len(outline)
	a, b, c := outline[wall], outline[(wall+1)%n], outline[(wall+2)%n]
	back, on := a.Sub(b), c.Sub(b)
	deg := math.Atan2(plan.Cross(back, on), back.Dot(on)) * StraightDeg / math.Pi
	if deg <= 0 {
		deg += fullDeg
	}
	const trifle = 1e9
	return math.Round(deg*trifle) / trifle
}
