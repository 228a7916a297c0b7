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
	// Path is the middle of the box in plan: the pipe's, with bends as they are made.
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
	b := Box{FromMM: over.From, ToMM: over.To, BoardMM: j.Waste.Boxing.BoardMM, LidMM: math.Inf(-1)}
	for i := range run.Pieces {
		p := &run.Pieces[i]
		from, to := math.Max(over.From, p.FromMM), math.Min(over.To, p.ToMM)
		if p.Kind == waste.Drop || to-from <= plan.HairMM {
			continue
		}
		for _, of := range [2]part.Pipe{p.Pipe, p.After} {
			// Straight pipe has sockets where lengths of it meet.
			b.InsideMM = math.Max(b.InsideMM, math.Max(p.RadiusMM(), of.OutsideDiameterMM/2+of.SocketMM()))
			b.LidMM = math.Max(b.LidMM, run.InvertAt(from)+of.BoreMM+of.WallMM()+of.SocketMM())
		}
		b.LidMM = math.Max(b.LidMM, math.Max(run.InvertAt(from)+p.AboveInvertMM(from), run.InvertAt(to)+p.AboveInvertMM(to)))
		if whole := to-from > p.LengthMM()-plan.HairMM; whole || p.Kind == waste.Bend {
			b.Path = append(b.Path, p.BodyPath()...)
		} else {
			b.Path = append(b.Path, p.PointAt(from), p.PointAt(to))
		}
	}
	b.Path = withoutRepeats(b.Path)
	last := &run.Pieces[len(run.Pieces)-1]
	atEnd := over.To > run.InRoomMM()-leastBoxMM
	if b.Closed = atEnd && last.Kind == waste.Drop; b.Closed {
		b.InsideMM = math.Max(b.InsideMM, last.RadiusMM())
		b.LidMM = math.Max(b.LidMM, last.FromInvertMM+last.AboveInvertMM(last.FromMM))
	}
	b.InsideMM += j.Waste.Boxing.GapMM
	b.LidMM += j.Waste.Boxing.GapMM
	atShower := func(p plan.Point) bool { return l.FallArea.EdgeMM(p) < leastBoxMM }
	b.OnBefore, b.OnPast = atShower(run.PointAt(over.From)), atShower(run.PointAt(over.To))
	if atEnd {
		b.OnPast = run.Wall > 0
	}
	if b.Closed {
		b.Path = withoutRepeats(append(b.Path, run.Exit.Add(run.ExitTo.Mul(b.InsideMM))))
	}
	return b
}

// withoutRepeats is a path without points that repeat the one before.
func withoutRepeats(path []plan.Point) []plan.Point {
	return slices.CompactFunc(path, func(a, b plan.Point) bool { return b.Sub(a).Len() <= plan.HairMM })
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
	corridor := func(halfMM, endMM float64) plan.Region {
		r := sh.Corridor(lengthened(b.Path, before, past+endMM), halfMM, 0, what)
		return sh.Subtract(sh.Intersect(r, l.Room, what), l.FallArea, what)
	}
	return corridor(b.HalfMM(), end), corridor(b.InsideMM, 0)
}

// lengthened is a path drawn on at its ends.
func lengthened(path []plan.Point, beforeMM, pastMM float64) []plan.Point {
	out, n := slices.Clone(path), len(path)
	if n < 2 {
		return out
	}
	out[0] = path[0].Add(path[0].Sub(path[1]).Normalize().Mul(beforeMM))
	out[n-1] = path[n-1].Add(path[n-1].Sub(path[n-2]).Normalize().Mul(pastMM))
	return out
}

// Legs are the straights of the box in plan, drawn on to meet at its corners on the outside.
func (b *Box) Legs() []plan.Ring {
	var out []plan.Ring
	n := len(b.Path)
	on := func(i int) float64 {
		if i == 0 || i == n-1 {
			return 0
		}
		u, v := b.Path[i].Sub(b.Path[i-1]).Normalize(), b.Path[i+1].Sub(b.Path[i]).Normalize()
		// The tangent of half the turn.
		return b.HalfMM() * math.Abs(plan.Cross(u, v)) / (1 + u.Dot(v))
	}
	for i := range n - 1 {
		u := b.Path[i+1].Sub(b.Path[i]).Normalize()
		p, q, side := b.Path[i].Sub(u.Mul(on(i))), b.Path[i+1].Add(u.Mul(on(i+1))), plan.Left(u).Mul(b.HalfMM())
		out = append(out, plan.Ring{p.Sub(side), q.Sub(side), q.Add(side), p.Add(side)})
	}
	return out
}
