package level

import (
	"cmp"
	"math"
	"slices"

	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/message"
	"underfall/geometry/part"
	"underfall/geometry/plan"
	"underfall/geometry/waste"
)

// Box is a stretch of the run that is boxed in: where the pipe lies bare in the room.
type Box struct {
	FromMM, ToMM float64 // along the run
	// Path is the middle of the box in plan: the pipe's, but with square corners for bends.
	Path []plan.Point
	// InsideMM is half its width within its sides, BoardMM the thickness of those and its
	// lid.
	InsideMM, BoardMM float64
	// LidMM is the level of its lid's underside: over the highest crown.
	LidMM float64
	// OnBefore and OnPast tell that it ends at the shower's edge or at a wall, whichever
	// way that stands to it. Closed tells that its end is boarded up: the run drops within.
	OnBefore, OnPast, Closed bool
}

// TopMM is the level of its top.
func (b *Box) TopMM() float64 { return b.LidMM + b.BoardMM }

// HalfMM is half its width outside.
func (b *Box) HalfMM() float64 { return b.InsideMM + b.BoardMM }

// leastBoxMM is how much of the pipe must lie bare for a box over it. Common practice, no
// source.
const leastBoxMM = 1

// Boxes are those over the pipe where it lies bare in the room, in the order that the
// water takes them; none where the job has no boxing.
func (h *Heights) Boxes(j *job.Job, l *layout.Layout) []Box {
	if j.Waste.Boxing == nil || len(h.Run.Pieces) == 0 {
		return nil
	}
	var out []Box
	for _, iv := range h.Bare(j, l) {
		if iv.To-iv.From >= leastBoxMM {
			out = append(out, h.box(j, l, iv))
		}
	}
	return out
}

// Bare are the stretches of the run, as distances along it, that stand over the floor beside
// the shower and that no raised floor and no ramp covers. Crown and floors are straight over
// each straight of the run. Exact.
func (h *Heights) Bare(j *job.Job, l *layout.Layout) []plan.Interval {
	if !math.IsNaN(h.RoomTopMM) {
		return nil
	}
	var out []plan.Interval
	run := &h.Run
	facets := h.RampFacets(j, l)
	for i := range run.Pieces {
		p := &run.Pieces[i]
		if p.Kind == waste.Drop {
			continue
		}
		for s := range p.Stretches {
			in := []plan.Interval{{From: 0, To: math.Min(s.LengthMM, run.InRoomMM()-s.FromMM)}}
			in = plan.Without(in, l.FallArea.Clip(s.A, s.Along()))
			over := func(t, floor float64) float64 {
				return run.InvertAt(s.FromMM+t) + p.AboveInvertMM(s.FromMM+t) - floor
			}
			under := plan.Without(in, aboveZero(in, func(t float64) float64 { return over(t, h.Beside.At(s.A.Add(s.Along().Mul(t)))) }))
			for _, f := range facets {
				within := shared(in, f.Region.Clip(s.A, s.Along()))
				clear := aboveZero(within, func(t float64) float64 {
					return over(t, f.Plane.At(s.A.Add(s.Along().Mul(t)))-j.Layers.Room.ThicknessMM())
				})
				under = append(under, plan.Without(within, clear)...)
			}
			out = append(out, along(s.FromMM, plan.Without(in, under))...)
		}
	}
	return joined(out)
}

// aboveZero is where a height that runs straight over each interval lies over zero.
func aboveZero(in []plan.Interval, height func(at float64) float64) (out []plan.Interval) {
	for _, iv := range in {
		a, b := height(iv.From), height(iv.To)
		switch meets := iv.From + (iv.To-iv.From)*a/(a-b); {
		case a > 0 && b > 0:
		case a <= 0 && b <= 0:
			continue
		case a > 0:
			iv.To = meets
		default:
			iv.From = meets
		}
		out = append(out, iv)
	}
	return out
}

// shared is what two sets of intervals share.
func shared(a, b []plan.Interval) []plan.Interval { return plan.Without(a, plan.Without(a, b)) }

// along puts intervals so far on.
func along(byMM float64, in []plan.Interval) []plan.Interval {
	for i := range in {
		in[i].From, in[i].To = in[i].From+byMM, in[i].To+byMM
	}
	return in
}

// joined are intervals with those as one that follow each other closely.
func joined(in []plan.Interval) (out []plan.Interval) {
	slices.SortFunc(in, func(a, b plan.Interval) int { return cmp.Compare(a.From, b.From) })
	for _, iv := range in {
		if n := len(out); n > 0 && iv.From <= out[n-1].To+leastBoxMM {
			out[n-1].To = math.Max(out[n-1].To, iv.To)
			continue
		}
		if iv.To-iv.From > plan.HairMM {
			out = append(out, iv)
		}
	}
	return out
}

// box is the one over a stretch of the run.
func (h *Heights) box(j *job.Job, l *layout.Layout, over plan.Interval) Box {
	run := &h.Run
	b, bends := Box{FromMM: over.From, ToMM: over.To, BoardMM: j.Waste.Boxing.BoardMM, LidMM: math.Inf(-1)}, 0.0
	for i := range run.Pieces {
		p := &run.Pieces[i]
		from, to := math.Max(over.From, p.FromMM), math.Min(over.To, p.ToMM)
		if p.Kind == waste.Drop || to-from <= plan.HairMM {
			continue
		}
		b.InsideMM = math.Max(b.InsideMM, p.WidestMM())
		for _, of := range [2]part.Pipe{p.Pipe, p.After} {
			b.LidMM = math.Max(b.LidMM, run.InvertAt(from)+of.BoreMM+of.WallMM()+of.SocketMM())
		}
		b.LidMM = math.Max(b.LidMM, math.Max(run.InvertAt(from)+p.AboveInvertMM(from), run.InvertAt(to)+p.AboveInvertMM(to)))
		if p.Kind != waste.Bend {
			b.Path = append(b.Path, p.PointAt(from), p.PointAt(to))
			continue
		}
		corner, needs := cornered(p, p.RadiusMM()+j.Waste.Boxing.GapMM)
		b.Path = append(append(b.Path, p.Path[0]), append(corner, p.Path[len(p.Path)-1])...)
		bends = math.Max(bends, needs)
	}
	last := &run.Pieces[len(run.Pieces)-1]
	atEnd := over.To > run.InRoomMM()-leastBoxMM
	if b.Closed = atEnd && last.Kind == waste.Drop; b.Closed {
		b.InsideMM = math.Max(b.InsideMM, last.RadiusMM())
		b.LidMM = math.Max(b.LidMM, last.FromInvertMM+last.AboveInvertMM(last.FromMM))
	}
	b.InsideMM = math.Max(b.InsideMM+j.Waste.Boxing.GapMM, bends)
	b.LidMM += j.Waste.Boxing.GapMM
	atShower := func(p plan.Point) bool { return l.FallArea.EdgeMM(p) < leastBoxMM }
	b.OnBefore, b.OnPast = atShower(run.PointAt(over.From)), atShower(run.PointAt(over.To))
	if atEnd {
		b.OnPast = run.Wall > 0
	}
	if b.Closed {
		b.Path = append(b.Path, run.Exit.Add(run.ExitTo.Mul(b.InsideMM)))
	}
	b.Path = straightened(b.Path)
	return b
}

// cornered is where the ways in and out of a bend meet, none where they run along each other,
// and how far the sides of a box about them must stand off to leave the bend, which cuts that
// corner, so much room from its middle.
func cornered(p *waste.Piece, roomMM float64) (corner []plan.Point, needsMM float64) {
	path := p.BodyPath()
	n := len(path)
	if n < 3 {
		return nil, 0
	}
	u, v := path[1].Sub(path[0]).Normalize(), path[n-1].Sub(path[n-2]).Normalize()
	t, _, ok := plan.MeetLines(path[0], u, path[n-1], v)
	if !ok {
		return nil, 0
	}
	at := path[0].Add(u.Mul(t))
	cuts := math.Inf(1)
	for i := range n - 1 {
		cuts = math.Min(cuts, plan.DistanceToSegment(at, path[i], path[i+1]))
	}
	// The inner corner of the box lies its half width over the cosine of half the turn off.
	return []plan.Point{at}, (roomMM + cuts) * math.Sqrt((1+u.Dot(v))/2)
}

// straightened is a path without points that repeat the one before or lie on its way.
func straightened(path []plan.Point) (out []plan.Point) {
	for _, p := range path {
		if n := len(out); n > 0 && p.Sub(out[n-1]).Len() <= plan.HairMM {
			continue
		}
		if n := len(out); n > 1 && plan.DistanceToSegment(out[n-1], out[n-2], p) <= plan.HairMM {
			out = out[:n-1]
		}
		out = append(out, p)
	}
	return out
}

// InPlan is all that the box takes of the room beside the shower, and the room within its
// sides. What names the shape.
func (b *Box) InPlan(sh *plan.Shaper, l *layout.Layout, what message.Message) (outer, inner plan.Region) {
	before, past, end := 0.0, 0.0, 0.0
	if b.OnBefore {
		before = b.HalfMM()
	}
	if b.OnPast {
		past = b.HalfMM()
	}
	if b.Closed {
		end = b.BoardMM
	}
	within := func(halfMM, endMM float64) (out plan.Region) {
		for _, leg := range b.legs(halfMM, before, past+endMM) {
			out = sh.Union(out, plan.FromRing(leg), what)
		}
		return sh.Subtract(sh.Intersect(out, l.Room, what), l.FallArea, what)
	}
	return within(b.HalfMM(), end), within(b.InsideMM, 0)
}

// Legs are the straights of the box in plan, which meet at its corners on the outside, with the
// board that closes its end.
func (b *Box) Legs() []plan.Ring {
	if b.Closed {
		return b.legs(b.HalfMM(), 0, b.BoardMM)
	}
	return b.legs(b.HalfMM(), 0, 0)
}

// legs are the straights of the box, so wide to each side and drawn on so far at its ends.
func (b *Box) legs(halfMM, beforeMM, pastMM float64) (out []plan.Ring) {
	n := len(b.Path)
	on := func(i int) float64 {
		switch i {
		case 0:
			return beforeMM
		case n - 1:
			return pastMM
		}
		u, v := b.Path[i].Sub(b.Path[i-1]).Normalize(), b.Path[i+1].Sub(b.Path[i]).Normalize()
		// The tangent of half the turn; one that is sharper than square, or right back, is
		// cut off there.
		if u.Dot(v) <= 0 {
			return halfMM
		}
		return halfMM * math.Abs(plan.Cross(u, v)) / (1 + u.Dot(v))
	}
	for i := range n - 1 {
		u := b.Path[i+1].Sub(b.Path[i]).Normalize()
		p, q, side := b.Path[i].Sub(u.Mul(on(i))), b.Path[i+1].Add(u.Mul(on(i+1))), plan.Left(u).Mul(halfMM)
		out = append(out, plan.Ring{p.Sub(side), q.Sub(side), q.Add(side), p.Add(side)})
	}
	return out
}
