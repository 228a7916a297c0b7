package survey

import (
	"math"

	"underfall/geometry/plan"
)

// along is the way the first wall was drawn.
func (p *problem) along() plan.Point { return p.drawn[1].Sub(p.drawn[0]).Normalize() }

// local are corners as seen from the first one along the first wall.
func (p *problem) local(corners []plan.Point) []plan.Point {
	u := p.along()
	out := make([]plan.Point, len(corners))
	for i, c := range corners {
		d := c.Sub(corners[0])
		out[i] = plan.Point{d.Dot(u), plan.Cross(u, d)}
	}
	out[1][1] = 0
	return out
}

// placed are corners where the room was drawn, without what sums lose.
func (p *problem) placed(at []plan.Point) []plan.Point {
	u := p.along()
	out := make([]plan.Point, len(at))
	for i, c := range at {
		q := p.drawn[0].Add(u.Mul(c.X())).Add(plan.Left(u).Mul(c.Y()))
		out[i] = plan.Point{rounded(q.X()), rounded(q.Y())}
	}
	return out
}

func rounded(mm float64) float64 { return math.Round(mm/plan.HairMM) * plan.HairMM }

// walked are the corners that one comes to walking along walls as long as measured, at angles as drawn, with
// what does not close shared out.
func (p *problem) walked() []plan.Point {
	drawn := p.local(p.drawn)
	legs := make([]plan.Point, len(drawn))
	for i := range legs {
		legs[i] = drawn[(i+1)%len(drawn)].Sub(drawn[i])
		if mm, ok := p.wallMM(i); ok {
			legs[i] = legs[i].Normalize().Mul(mm)
		}
	}
	return turnedOnto(Closed(legs))
}

// wallMM is how long a wall was measured, the mean of several; false where it was not.
func (p *problem) wallMM(wall int) (mm float64, ok bool) {
	n := 0
	for _, r := range p.measured {
		if next := (wall + 1) % len(p.drawn); r.Kind == Distance && (r.From == wall && r.To == next || r.To == wall && r.From == next) {
			mm += r.Value
			n++
		}
	}
	return mm / float64(max(n, 1)), n > 0
}

// Closed are the corners at the starts of legs that lead round, the first at nought: what the legs do not close
// by is shared out over them by their lengths.
//
// Method: the compass rule of traverses.
func Closed(legs []plan.Point) []plan.Point {
	open, long := plan.Point{}, 0.0
	for _, l := range legs {
		open, long = open.Add(l), long+l.Len()
	}
	out := make([]plan.Point, len(legs))
	for i := range legs[:len(legs)-1] {
		out[i+1] = out[i].Add(legs[i]).Sub(open.Mul(legs[i].Len() / long))
	}
	return out
}

// turnedOnto are corners turned so that the second lies on the line from the first on which it is sought.
func turnedOnto(at []plan.Point) []plan.Point {
	u := at[1].Sub(at[0]).Normalize()
	out := make([]plan.Point, len(at))
	for i, c := range at {
		out[i] = plan.Point{c.Dot(u), plan.Cross(u, c)}
	}
	out[1][1] = 0
	return out
}
