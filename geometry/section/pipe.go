package section

import (
	"underfall/geometry/message"
	"underfall/geometry/part"
	"underfall/geometry/plan"
	"underfall/geometry/waste"
)

// runOutline is the run as it is seen from above: pipe, with the sockets of its fittings
// standing out from it.
func runOutline(sh *plan.Shaper, run *waste.Run) (out plan.Region) {
	what := message.Of("shape.run-outline")
	join := func(r plan.Region) { out = sh.Union(out, r, what) }
	var path []plan.Point // of pipe of one size
	var halfMM float64
	pipe := func() {
		if len(path) > 1 {
			join(sh.Corridor(path, halfMM, 0, what))
		}
		path = nil
	}
	for i := range run.Pieces {
		p := &run.Pieces[i]
		if p.Tapers() {
			pipe()
			join(plan.FromRing(taper(p)))
			continue
		}
		if half := p.Pipe.OutsideDiameterMM / 2; half != halfMM {
			pipe()
			halfMM = half
		}
		path = append(path, p.BodyPath()...)
	}
	pipe()
	for i := range run.Pieces {
		for _, socket := range sockets(run, &run.Pieces[i]) {
			join(plan.FromRing(socket))
		}
	}
	return out
}

// taper is a reducer or an adaptor between its sockets, and the pipe in them.
func taper(p *waste.Piece) plan.Ring {
	a, b := p.Path[0], p.Path[len(p.Path)-1]
	along := b.Sub(a).Normalize()
	deepFrom, deepTo := p.Sockets()
	from, to := a.Add(along.Mul(deepFrom)), b.Sub(along.Mul(deepTo))
	out := plan.Left(along).Mul(p.Pipe.OutsideDiameterMM / 2)
	in := plan.Left(along).Mul(p.After.OutsideDiameterMM / 2)
	return plan.Ring{a.Sub(out), from.Sub(out), to.Sub(in), b.Sub(in), b.Add(in), to.Add(in), from.Add(out), a.Add(out)}
}

// sockets are a piece's as they are seen from above.
func sockets(run *waste.Run, p *waste.Piece) (out []plan.Ring) {
	add := func(face, into plan.Point, deepMM, halfMM float64) {
		if deepMM > plan.HairMM {
			side, end := plan.Left(into).Mul(halfMM), face.Add(into.Mul(deepMM))
			out = append(out, plan.Ring{face.Sub(side), end.Sub(side), end.Add(side), face.Add(side)})
		}
	}
	deepFrom, deepTo := p.Sockets()
	path := p.BodyPath()
	n := len(path)
	switch {
	case p.Kind == waste.Joint:
		if p.SocketMM() > 0 {
			add(path[0], path[1].Sub(path[0]).Normalize(), p.LengthMM(), p.RadiusMM())
		}
	case p.Kind == waste.Drop:
		add(run.Exit.Sub(run.ExitTo.Mul(p.Pipe.Bend90FaceMM)), run.ExitTo, deepFrom, p.RadiusMM())
	case p.Kind != waste.Straight:
		add(path[0], path[1].Sub(path[0]).Normalize(), deepFrom, p.Pipe.OutsideDiameterMM/2+p.SocketMM())
		add(path[n-1], path[n-2].Sub(path[n-1]).Normalize(), deepTo, p.After.OutsideDiameterMM/2+p.AfterSocketMM())
	}
	return out
}

// edge is how far a piece reaches below and over its invert at a distance along the run.
type edge struct{ atMM, belowMM, aboveMM float64 }

// profileOf is a piece's outline as it is seen from the side: sockets stand out from it,
// with a step at their ends. A joint is all socket.
func profileOf(p *waste.Piece) []edge {
	of := func(at float64, pipe part.Pipe, standsOutMM float64) edge {
		below := pipe.WallMM() + standsOutMM
		return edge{at, below, pipe.BoreMM + below}
	}
	if p.Kind == waste.Joint {
		return []edge{of(p.FromMM, p.Pipe, p.SocketMM()), of(p.ToMM, p.Pipe, p.SocketMM())}
	}
	deepFrom, deepTo := p.Sockets()
	from, to := p.FromMM+deepFrom, p.ToMM-deepTo
	out := []edge{of(from, p.Pipe, 0), of(to, p.After, 0)}
	if deepFrom > 0 {
		out = append([]edge{of(p.FromMM, p.Pipe, p.SocketMM()), of(from, p.Pipe, p.SocketMM())}, out...)
	}
	if deepTo > 0 {
		out = append(out, of(to, p.After, p.AfterSocketMM()), of(p.ToMM, p.After, p.AfterSocketMM()))
	}
	return out
}
