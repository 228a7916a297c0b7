package survey

import (
	"math"

	"underfall/geometry/plan"
)

// Lean is by how much a room is out of square at a corner that was drawn square.
type Lean struct {
	Corner int
	// Deg is by how much the corner inside the room is wider than it was drawn; less than 0 for narrower.
	Deg float64
	// Wall is the longer of the two walls at the corner, by its index, and MM how far its other end lies off
	// square to the shorter; over 0 where the corner is wider.
	Wall int
	MM   float64
}

// Leans are by how much a room is out of square, at each corner that was drawn so.
func Leans(drawn, corners []plan.Point) (out []Lean) {
	p := newProblem(drawn, nil)
	n := len(drawn)
	for i := range p.angles {
		r := &p.angles[i]
		if !square(r.Value) {
			continue
		}
		off := math.Remainder(p.angle(corners, &r.Measure)-math.Round(r.Value)/degrees, 2*math.Pi)
		before := corners[i].Sub(corners[(i+n-1)%n]).Len()
		own := corners[(i+1)%n].Sub(corners[i]).Len()
		l := Lean{Corner: i, Deg: off * degrees, Wall: i, MM: math.Sin(off) * own}
		if before > own+plan.HairMM {
			l.Wall, l.MM = (i+n-1)%n, math.Sin(off)*before
		}
		out = append(out, l)
	}
	return out
}

// InsideDeg is the angle inside a room at a corner.
func InsideDeg(corners []plan.Point, corner int) float64 {
	return newProblem(corners, nil).angles[corner].Value
}
