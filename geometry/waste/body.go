package waste

import (
	"math"

	"underfall/geometry/plan"
)

// What a fitting keeps of itself between its sockets, and the sockets of a bend between
// each other. Common practice, no source.
const (
	stopMM           = 4
	betweenSocketsMM = 1
	mostHalfTurn     = 2.5 // tangent of half the sharpest turn whose sockets are shaped
)

// Sockets are how deep the sockets at the piece's start and end are: as far as the pipe
// goes in, but never past half the piece, nor in a bend so far that the sockets meet on
// its inner side. 0 where there is none: at a straight, which goes into the others'
// sockets, and at a joint's start, which is the trap.
func (p *Piece) Sockets() (fromMM, toMM float64) {
	length := p.LengthMM()
	switch p.Kind {
	case Straight:
		return 0, 0
	case Joint:
		// All of it is the socket.
		if p.SocketMM() > 0 {
			toMM = math.Min(p.Pipe.InsertionMM, length)
		}
		return 0, toMM
	case Bend:
		chord := p.Path[len(p.Path)-1].Sub(p.Path[0]).Len()
		fromMM = p.inBendMM(length, chord/2/math.Cos(p.TurnDeg*math.Pi/360))
		return fromMM, fromMM
	case Drop:
		fromMM = p.inBendMM(p.Pipe.Bend90FaceMM*math.Pi/2, p.Pipe.Bend90FaceMM)
		return fromMM, fromMM
	}
	most := math.Max(0, (length-stopMM)/2)
	if p.SocketMM() > 0 {
		fromMM = math.Min(p.Pipe.InsertionMM, most)
	}
	if p.AfterSocketMM() > 0 {
		toMM = math.Min(p.After.InsertionMM, most)
	}
	return fromMM, toMM
}

// inBendMM is how deep the sockets of a bend are that is so long round its arc, with
// its faces that far from its corner.
func (p *Piece) inBendMM(lengthMM, faceMM float64) float64 {
	half := math.Tan(p.TurnDeg * math.Pi / 360)
	if p.SocketMM() == 0 || !(half > 0 && half <= mostHalfTurn) {
		return 0
	}
	most := math.Min((lengthMM-stopMM)/2, faceMM-(p.RadiusMM()+betweenSocketsMM)*half)
	return math.Max(0, math.Min(p.Pipe.InsertionMM, most))
}

// shape gives a bend at a corner the centre line it is made with.
func (p *Piece) shape(corner, in, out plan.Point, tangentMM float64) {
	deep, _ := p.Sockets()
	if deep < plan.HairMM {
		return
	}
	p.Body = append([]plan.Point{p.Path[0]}, arc(corner, in, out, tangentMM-deep, p.Pipe.OutsideDiameterMM)...)
	p.Body = append(p.Body, p.Path[len(p.Path)-1])
}

// BodyPath is the centre line in plan of the piece as it is made.
func (p *Piece) BodyPath() []plan.Point {
	if p.Body != nil {
		return p.Body
	}
	return p.Path
}

// Around is the piece in plan, with so much clear of it: squares about its path and what is between them.
func (p *Piece) Around(clearMM float64) []plan.Region {
	r := p.RadiusMM() + clearMM
	path := p.BodyPath()
	square := func(p plan.Point) plan.Ring {
		return plan.Rectangle(p.Sub(plan.Point{r, r}), p.Add(plan.Point{r, r}))[0].Outer
	}
	var out []plan.Region
	for i, at := range path {
		ring := square(at)
		if i > 0 {
			ring = plan.Hull(append(ring, square(path[i-1])...))
		}
		out = append(out, plan.FromRing(ring))
	}
	return out
}
